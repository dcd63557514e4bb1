#pragma once
// Looks at PDF files through other programs, in a folder of this test's own.

#include <catch2/catch.hpp>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>

inline bool has_tool(const std::string& name) {
  return std::system(("command -v " + name + " >/dev/null 2>&1").c_str()) == 0;
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

 private:
  std::filesystem::path folder_;
};
