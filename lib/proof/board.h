#pragma once
// What is shown, for any number of readers at their own pace.
//
// Entries are JSON values by name. A reader says which state it has seen and is given what changed
// since, so a slow one misses states in between, never their outcome. Pictures are kept by a name
// that no other content ever gets, until forget_unused() was called twice without it.

#include <condition_variable>
#include <cstdint>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

namespace dogear::proof {

class Board {
 public:
  using Text = std::shared_ptr<const std::string>;

  // Changes are seen by nobody before show().
  void put(const std::string& name, std::string json);
  void drop(const std::string& name);
  void show();
  // The name of this picture: the same for the same bytes.
  std::string keep(const std::string& svg);
  // Forgets pictures not kept since the call before the last: a reader may still ask for some.
  void forget_unused();
  // Ends every reading.
  void close();

  // A picture's SVG; nothing for a name that is not or no longer known.
  Text picture(const std::string& name) const;

  struct News {
    std::uint64_t seen = 0;
    std::string json;     // an object of the entries that changed; null where one is gone
    bool closed = false;  // nothing more will come
  };
  // All that changed since `seen` (0: everything); waits for it at most so long. Nothing after a
  // wait in vain.
  std::optional<News> read(std::uint64_t seen, int milliseconds) const;

  // For tests: the present entries.
  std::map<std::string, std::string> entries() const;

 private:
  struct Entry {
    std::string json;  // "null": dropped
    std::uint64_t since = 0;
  };
  mutable std::mutex mutex_;
  mutable std::condition_variable changed_;
  std::map<std::string, Entry> shown_;
  std::map<std::string, std::string> next_;
  std::unordered_map<std::string, Text> pictures_;           // by name
  std::unordered_map<std::string_view, std::string> names_;  // by the SVG that pictures_ holds
  std::set<std::string> used_, used_before_;
  std::uint64_t state_ = 0, pictures_made_ = 0;
  bool closed_ = false;
};

}  // namespace dogear::proof
