#include "proof/board.h"

#include <chrono>
#include <nlohmann/json.hpp>

namespace dogear::proof {

void Board::put(const std::string& name, std::string json) {
  const std::lock_guard lock(mutex_);
  next_[name] = std::move(json);
}

void Board::drop(const std::string& name) { put(name, "null"); }

std::string Board::keep(const std::string& svg) {
  const std::lock_guard lock(mutex_);
  auto at = names_.find(svg);
  if (at == names_.end()) {
    std::string name = 'p' + std::to_string(++pictures_made_);
    const Text& text = pictures_[name] = std::make_shared<const std::string>(svg);
    at = names_.emplace(*text, std::move(name)).first;
  }
  used_.insert(at->second);
  return at->second;
}

void Board::show() {
  {
    const std::lock_guard lock(mutex_);
    bool different = false;
    for (auto& [name, json] : next_) {
      Entry& entry = shown_[name];
      if (entry.since > 0 && entry.json == json) continue;
      entry = {std::move(json), state_ + 1};
      different = true;
    }
    next_.clear();
    if (!different) return;
    ++state_;
  }
  changed_.notify_all();
}

void Board::forget_unused() {
  const std::lock_guard lock(mutex_);
  for (auto at = names_.begin(); at != names_.end();) {
    if (used_.contains(at->second) || used_before_.contains(at->second)) {
      ++at;
    } else {
      const std::string name = at->second;
      at = names_.erase(at);
      pictures_.erase(name);
    }
  }
  used_before_ = std::move(used_);
  used_.clear();
}

void Board::close() {
  {
    const std::lock_guard lock(mutex_);
    closed_ = true;
  }
  changed_.notify_all();
}

Board::Text Board::picture(const std::string& name) const {
  const std::lock_guard lock(mutex_);
  const auto found = pictures_.find(name);
  return found == pictures_.end() ? nullptr : found->second;
}

std::optional<Board::News> Board::read(std::uint64_t seen, int milliseconds) const {
  std::unique_lock lock(mutex_);
  changed_.wait_for(lock, std::chrono::milliseconds(milliseconds),
                    [&] { return closed_ || state_ > seen; });
  if (closed_) return News{seen, "", true};
  if (state_ <= seen) return std::nullopt;
  News news{state_, "{", false};
  for (const auto& [name, entry] : shown_) {
    if (entry.since <= seen || (seen == 0 && entry.json == "null")) continue;
    if (news.json.size() > 1) news.json += ',';
    news.json += nlohmann::json(name).dump() + ':' + entry.json;
  }
  news.json += '}';
  return news;
}

std::map<std::string, std::string> Board::entries() const {
  const std::lock_guard lock(mutex_);
  std::map<std::string, std::string> out;
  for (const auto& [name, entry] : shown_)
    if (entry.json != "null") out[name] = entry.json;
  return out;
}

}  // namespace dogear::proof
