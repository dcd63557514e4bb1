#pragma once
// A pattern in memory; fonts and hyphens, which are no part of it, come from the disk.

#include <filesystem>
#include <fstream>
#include <iterator>
#include <optional>
#include <string>

#include "base/files.h"

namespace dogear::test {

inline std::string whole_file(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

class PatternFiles : public MemoryFiles {
 public:
  std::optional<std::string> read(const std::string& path, std::string& error) const override {
    return path.front() == '/' ? DiskFiles().read(path, error) : MemoryFiles::read(path, error);
  }

  // Every file below a folder of the disk, by its path within it.
  void add(const std::filesystem::path& folder, const std::string& as) {
    for (const auto& entry : std::filesystem::recursive_directory_iterator(folder)) {
      if (!entry.is_regular_file()) continue;
      content[as + '/' + entry.path().lexically_relative(folder).string()] =
          whole_file(entry.path());
    }
  }
};

}  // namespace dogear::test
