#pragma once
// A folder's files as they were at one moment, before all others of the disk.

#include <string>

#include "base/files.h"
#include "base/text.h"

namespace dogear::proof {

class FilesWithin : public Files {
 public:
  FilesWithin(std::string folder, const MemoryFiles& inside)
      : folder_(std::move(folder)), inside_(inside) {}

  std::optional<std::string> read(const std::string& path, std::string& error) const override {
    return is_inside(path) ? inside_.read(path, error) : disk_.read(path, error);
  }
  bool write(const std::string&, std::string_view, std::string& error) override {
    error = "these files are only read";
    return false;
  }
  std::vector<std::string> list(const std::string& folder) const override {
    return is_inside(folder) ? inside_.list(folder) : disk_.list(folder);
  }
  std::string leads_to(const std::string& path) const override {
    return is_inside(path) ? path : disk_.leads_to(path);
  }

 private:
  bool is_inside(const std::string& path) const {
    return path == folder_ || starts_with(path, folder_ + '/');
  }
  std::string folder_;
  const MemoryFiles& inside_;
  DiskFiles disk_;
};

}  // namespace dogear::proof
