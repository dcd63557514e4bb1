#pragma once
// Looks at PDF files through other programs, in a folder of this test's own.

#include <catch2/catch.hpp>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

#include "pdf/pdf.h"
#include "support/fonts.h"

inline bool has_tool(const std::string& name) {
  return std::system(("command -v " + name + " >/dev/null 2>&1").c_str()) == 0;
}

// The document as a file's bytes.
inline std::string made(const dogear::canvas::Document& document,
                        const dogear::PdfOptions& options = {}) {
  std::string error;
  const auto pdf = dogear::to_pdf(document, test_fonts(), error, options);
  INFO(error);
  REQUIRE(pdf);
  CHECK(error.empty());
  return *pdf;
}

class PdfOnDisk {
 public:
  explicit PdfOnDisk(const std::string& bytes) {
    std::string pattern = (std::filesystem::temp_directory_path() / "dogear-pdf-XXXXXX").string();
    REQUIRE(mkdtemp(pattern.data()) != nullptr);
    folder_ = pattern;
    std::ofstream(path(), std::ios::binary) << bytes;
  }
  ~PdfOnDisk() { std::filesystem::remove_all(folder_); }
  PdfOnDisk(const PdfOnDisk&) = delete;
  PdfOnDisk& operator=(const PdfOnDisk&) = delete;

  std::string path() const { return (folder_ / "test.pdf").string(); }
  // What `before test.pdf after` prints; fails the test unless it succeeds.
  std::string run(const std::string& before, const std::string& after = {}) const {
    const std::string command = before + " " + path() + " " + after + " 2>&1";
    FILE* pipe = popen(command.c_str(), "r");
    REQUIRE(pipe != nullptr);
    std::string out;
    char buffer[4096];
    for (std::size_t n; (n = std::fread(buffer, 1, sizeof buffer, pipe)) > 0;)
      out.append(buffer, n);
    const int status = pclose(pipe);
    INFO(command << "\n" << out);
    CHECK(status == 0);
    return out;
  }

  // The first page in grey at so many dots to the inch: brightness from 0 to 255, row by row.
  struct Picture {
    int width = 0, height = 0;
    std::string dots;
    int at(int x, int y) const {
      return static_cast<unsigned char>(dots.at(static_cast<std::size_t>(y * width + x)));
    }
  };
  Picture picture(int dots_to_the_inch) const {
    run("pdftoppm -gray -singlefile -r " + std::to_string(dots_to_the_inch),
        (folder_ / "page").string());
    std::ifstream in(folder_ / "page.pgm", std::ios::binary);
    std::string kind;
    int most = 0;
    Picture out;
    in >> kind >> out.width >> out.height >> most;
    REQUIRE(kind == "P5");
    in.get();
    out.dots.assign(std::istreambuf_iterator<char>(in), {});
    REQUIRE(out.dots.size() == static_cast<std::size_t>(out.width * out.height));
    return out;
  }

 private:
  std::filesystem::path folder_;
};
