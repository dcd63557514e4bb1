#include "compile/problem.h"

#include <charconv>

#include "canvas/svg.h"
#include "drawing/problem.h"

namespace dogear {

namespace {

constexpr std::string_view prefix = "figure:";
constexpr std::string_view head = "problem:";

std::string plain(const std::string& address) {
  return starts_with(address, prefix) ? address.substr(prefix.size()) : address;
}

}  // namespace

bool is_problem_address(const std::string& address) { return starts_with(plain(address), head); }

std::optional<std::string> draw_problem_of(const std::string& folder, const std::string& address,
                                           const canvas::FontSet& fonts, Session& session) {
  constexpr double side = 432;  // pt: six inches
  make_plan(folder, session);
  settle(session, false);
  const std::string number = plain(address).substr(head.size());
  std::size_t wanted = 0;
  const auto [end, error] = std::from_chars(number.data(), number.data() + number.size(), wanted);
  const bool read = error == std::errc() && end == number.data() + number.size();
  if (const Diagnostic* d = read ? session.diagnostics.problem(wanted) : nullptr) {
    const Figure figure = draw_problem(*d->picture, fonts, side, side);
    return canvas::to_svg(*figure.list, figure.width, figure.height, fonts);
  }
  const std::size_t count = session.diagnostics.problem_count();
  session.diagnostics.error("D602", {}, "there is no problem `" + number + "` that could be drawn")
      .hints.push_back(count == 0   ? "no message of this pattern has a figure"
                       : count == 1 ? "there is one: problem:1"
                                    : "there are " + std::to_string(count) +
                                          ": problem:1 to problem:" + std::to_string(count));
  return std::nullopt;
}

}  // namespace dogear
