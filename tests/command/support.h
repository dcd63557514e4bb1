#pragma once
// Runs programs in folders of their own.

#include <filesystem>
#include <string>
#include <vector>
#include "support/project.h"

namespace dogear::test {

namespace fs = std::filesystem;

inline const fs::path project = test::project_folder();
inline const fs::path program = DOGEAR_PROGRAM;
inline const fs::path star = project / "tests" / "patterns" / "base" / "star";

// A new folder that is removed again with all that is in it.
class Folder {
 public:
  Folder();
  ~Folder();
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  fs::path operator/(const std::string& name) const { return path_ / name; }
  const fs::path& path() const { return path_; }

 private:
  fs::path path_;
};

std::string read(const fs::path& path);
void write(const fs::path& path, const std::string& text);  // makes its folder, too
void copy_folder(const fs::path& from, const fs::path& to);
// Replaces the one place where `before` stands; throws where there is not exactly one.
void change(const fs::path& path, const std::string& before, const std::string& after);
std::vector<fs::path> shipped_patterns();  // sorted

struct Result {
  int code = -1;
  std::string out, err;
};
// A line for the shell, run in `folder`.
Result shell(const std::string& line, const fs::path& folder);
// The program with these words, each quoted; run in `folder`.
Result run(const std::vector<std::string>& words, const fs::path& folder);

bool has(const std::string& text, const std::string& words);

// The small star's pattern in a folder of its own, and the program run beside it.
struct StarFolder {
  Folder folder;
  fs::path pattern = folder / "star";
  StarFolder() { copy_folder(star, pattern); }
  Result dogear(const std::vector<std::string>& words) const { return run(words, folder.path()); }
};

}  // namespace dogear::test
