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
  // Where a path leads once every link on the way is followed; in memory there are none.
  virtual std::string leads_to(const std::string& path) const { return path; }
};

// Whether a path ends within a folder, also by way of links.
bool lies_within(const Files& files, const std::string& folder, const std::string& path);

// Files of which those in one folder must lie in it: a link there that leads elsewhere is not read.
// Paths outside of the folder are those of `files`. Nothing can be written.
class FencedFiles : public Files {
 public:
  FencedFiles(const Files& files, std::string folder);
  std::optional<std::string> read(const std::string& path, std::string& error) const override;
  bool write(const std::string& path, std::string_view content, std::string& error) override;
  std::vector<std::string> list(const std::string& folder) const override;
  std::string leads_to(const std::string& path) const override;

 private:
  const Files& files_;
  std::string folder_;
};

class MemoryFiles : public Files {
 public:
  std::map<std::string, std::string> content;
  std::string fail_writes_to;  // a path whose writing fails, for tests
  std::optional<std::string> read(const std::string& path, std::string& error) const override;
  bool write(const std::string& path, std::string_view content, std::string& error) override;
  std::vector<std::string> list(const std::string& folder) const override;
};

// The real file system. Reads no file above 128 MiB. Writes to a file without a name beside the
// target, syncs, names it, then renames: who is killed on the way leaves nothing behind.
class DiskFiles : public Files {
 public:
  std::optional<std::string> read(const std::string& path, std::string& error) const override;
  bool write(const std::string& path, std::string_view content, std::string& error) override;
  std::vector<std::string> list(const std::string& folder) const override;
  std::string leads_to(const std::string& path) const override;
};

}  // namespace dogear
