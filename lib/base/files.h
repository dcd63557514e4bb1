#pragma once
// All reading and writing goes through Files, so that tests run in memory.

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace dogear {

class Files {
 public:
  virtual ~Files() = default;
  // The whole file, or nothing with `error` saying why in plain words.
  virtual std::optional<std::string> read(const std::string& path, std::string& error) const = 0;
  // Writes the whole file or leaves what was there untouched. False with `error` set on failure.
  virtual bool write(const std::string& path, std::string_view content, std::string& error) = 0;
  // Names (not paths) of the plain files in a folder, sorted; empty when there is no such folder.
  virtual std::vector<std::string> list(const std::string& folder) const = 0;
};

class MemoryFiles : public Files {
 public:
  std::map<std::string, std::string> content;
  std::string fail_writes_to;  // a path whose writing fails, for tests
  std::optional<std::string> read(const std::string& path, std::string& error) const override;
  bool write(const std::string& path, std::string_view content, std::string& error) override;
  std::vector<std::string> list(const std::string& folder) const override;
};

// The real file system. Writes to a temporary file beside the target, syncs, then renames.
class DiskFiles : public Files {
 public:
  std::optional<std::string> read(const std::string& path, std::string& error) const override;
  bool write(const std::string& path, std::string_view content, std::string& error) override;
  std::vector<std::string> list(const std::string& folder) const override;
};

}  // namespace dogear
