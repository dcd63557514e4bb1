#include "diag/diagnostics.h"

#include <algorithm>
#include <set>
#include <tuple>
#include <utility>

namespace dogear {

namespace {

auto place(const Span& s) { return std::tie(s.file, s.line, s.column, s.end_line, s.end_column); }

}  // namespace

Diagnostic& Diagnostics::error(std::string code, Span span, std::string message) {
  ++errors_;
  return all_.emplace_back(Diagnostic{
      std::move(code), Severity::error, std::move(span), std::move(message), {}, {}, {}, {}});
}

Diagnostic& Diagnostics::warning(std::string code, Span span, std::string message) {
  return all_.emplace_back(Diagnostic{
      std::move(code), Severity::warning, std::move(span), std::move(message), {}, {}, {}, {}});
}

std::size_t Diagnostics::accepted_count() const {
  return static_cast<std::size_t>(std::count_if(
      all_.begin(), all_.end(), [](const Diagnostic& d) { return d.accepted.has_value(); }));
}

void Diagnostics::accept(std::size_t index, std::string reason) {
  Diagnostic& d = all_[index];
  if (d.severity == Severity::error) {
    d.severity = Severity::warning;
    --errors_;
  }
  d.accepted = std::move(reason);
}

const Diagnostic* Diagnostics::problem(std::size_t number) const {
  std::size_t seen = 0;
  for (const Diagnostic& d : all_) {
    if (d.picture != nullptr && !d.accepted && ++seen == number) return &d;
  }
  return nullptr;
}

std::size_t Diagnostics::problem_count() const {
  return static_cast<std::size_t>(std::count_if(all_.begin(), all_.end(), [](const Diagnostic& d) {
    return d.picture != nullptr && !d.accepted;
  }));
}

void Diagnostics::sort() {
  std::stable_sort(all_.begin(), all_.end(), [](const Diagnostic& a, const Diagnostic& b) {
    return std::tie(a.span.file, a.span.line, a.span.column) <
           std::tie(b.span.file, b.span.line, b.span.column);
  });
  const auto before = [](const Diagnostic* a, const Diagnostic* b) {
    return std::tuple(place(a->span), std::tie(a->code, a->severity, a->message)) <
           std::tuple(place(b->span), std::tie(b->code, b->severity, b->message));
  };
  std::set<const Diagnostic*, decltype(before)> said(before);
  std::vector<bool> repeated;
  repeated.reserve(all_.size());
  for (const Diagnostic& d : all_) repeated.push_back(!said.insert(&d).second);
  std::vector<Diagnostic> kept;
  kept.reserve(said.size());
  errors_ = 0;
  for (std::size_t i = 0; i < all_.size(); ++i) {
    if (repeated[i]) continue;
    if (all_[i].severity == Severity::error) ++errors_;
    kept.push_back(std::move(all_[i]));
  }
  all_ = std::move(kept);
}

void Sources::add(const std::string& file, std::string text) {
  Text entry;
  if (starts_with(text, "\xEF\xBB\xBF")) text.erase(0, 3);  // columns do not count it
  entry.line_starts.push_back(0);
  for (std::size_t at = text.find('\n'); at != std::string::npos; at = text.find('\n', at + 1)) {
    entry.line_starts.push_back(at + 1);
  }
  entry.content = std::move(text);
  texts_.insert_or_assign(file, std::move(entry));
}

const std::string* Sources::text(const std::string& file) const {
  const auto found = texts_.find(file);
  return found == texts_.end() ? nullptr : &found->second.content;
}

std::vector<std::string> Sources::files() const {
  std::vector<std::string> names;
  for (const auto& [file, text] : texts_) names.push_back(file);
  return names;
}

std::string_view Sources::line(const std::string& file, std::size_t number) const {
  const auto found = texts_.find(file);
  if (found == texts_.end()) return {};
  const Text& text = found->second;
  if (number == 0 || number > text.line_starts.size()) return {};
  const std::size_t begin = text.line_starts[number - 1];
  std::string_view line = std::string_view(text.content).substr(begin);
  line = line.substr(0, line.find('\n'));
  if (!line.empty() && line.back() == '\r') line.remove_suffix(1);
  return line;
}

}  // namespace dogear
