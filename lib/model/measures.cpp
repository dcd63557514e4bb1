#include "model/measures.h"

#include <algorithm>
#include <string>

#include "base/length.h"
#include "base/text.h"

namespace dogear {

namespace {

constexpr std::string_view root = "√";

std::optional<Exact> parse_term(std::string_view text) {
  text = trim(text);
  LengthError error;
  const auto at = text.find(root);
  if (at == std::string_view::npos) {
    const auto value = parse_number(text, error);
    return value ? std::optional(Exact(*value)) : std::nullopt;
  }
  Exact times = 1;
  if (const std::string_view before = trim(text.substr(0, at)); !before.empty()) {
    const auto value = parse_number(before, error);
    if (!value) return std::nullopt;
    times = Exact(*value);
  }
  const std::string_view under = trim(text.substr(at + root.size()));
  if (under == "2") return times * Exact::sqrt2();
  if (under == "3") return times * Exact::sqrt3();
  if (under == "6") return times * Exact::sqrt6();
  return std::nullopt;
}

}  // namespace

std::optional<Exact> parse_measure(std::string_view text) {
  std::string spelled(trim(text));
  for (auto at = spelled.find("sqrt"); at != std::string::npos; at = spelled.find("sqrt")) {
    spelled.replace(at, 4, root);
  }
  for (auto at = spelled.find("−"); at != std::string::npos; at = spelled.find("−")) {
    spelled.replace(at, std::string_view("−").size(), "-");
  }
  const std::string_view all = spelled;
  Exact sum = 0;
  std::size_t from = 0;
  bool minus = starts_with(all, "-");
  if (minus) from = 1;
  while (true) {
    const std::size_t to = all.find_first_of("+-", from);
    const auto term = parse_term(all.substr(from, to - from));
    if (!term) return std::nullopt;
    sum += minus ? -*term : *term;
    if (to == std::string_view::npos) return sum;
    minus = all[to] == '-';
    from = to + 1;
  }
}

std::size_t first_number(std::string_view text) {
  return std::min(text.find_first_of("0123456789"), std::min(text.find(root), text.find("sqrt")));
}

}  // namespace dogear
