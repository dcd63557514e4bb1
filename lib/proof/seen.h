#pragma once
// Files that remember what was read of them, and give the same again: one moment's view of a
// folder.

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/files.h"

namespace dogear::proof {

class SeenFiles : public Files {
 public:
  explicit SeenFiles(const Files& files) : files_(&files) {}

  std::optional<std::string> read(const std::string& path, std::string& error) const override {
    const auto known = seen_.read.find(path);
    if (known != seen_.read.end() && known->second) return known->second;
    auto text = files_->read(path, error);
    seen_.read[path] = text;
    return text;
  }
  std::vector<std::string> list(const std::string& folder) const override {
    const auto [at, fresh] = seen_.listed.try_emplace(folder);
    if (fresh) at->second = files_->list(folder);
    return at->second;
  }
  std::string leads_to(const std::string& path) const override {
    const auto [at, fresh] = seen_.led.try_emplace(path);
    if (fresh) at->second = files_->leads_to(path);
    return at->second;
  }
  bool write(const std::string&, std::string_view, std::string& error) override {
    error = "these files are only read";
    return false;
  }

  struct Seen {
    std::map<std::string, std::optional<std::string>> read;
    std::map<std::string, std::vector<std::string>> listed;
    std::map<std::string, std::string> led;  // where links lead
    // Whether other files give the same; `except` names paths that may hold other words.
    template <typename Except>
    bool same_in(const Files& files, const Except& except) const {
      for (const auto& [folder, names] : listed)
        if (files.list(folder) != names) return false;
      for (const auto& [path, end] : led)
        if (files.leads_to(path) != end) return false;
      std::string ignored;
      for (const auto& [path, text] : read) {
        const auto now = files.read(path, ignored);
        if (now.has_value() != text.has_value()) return false;
        if (now != text && !except(path)) return false;
      }
      return true;
    }
    bool same_in(const Files& files) const {
      return same_in(files, [](const std::string&) { return false; });
    }
  };
  const Seen& seen() const { return seen_; }

 private:
  const Files* files_;
  mutable Seen seen_;
};

}  // namespace dogear::proof
