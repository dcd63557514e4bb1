#include <catch2/catch.hpp>

#include "base/text.h"
#include "compile/line_diff.h"

using namespace dogear;

namespace {

using Lines = std::vector<std::string>;

Lines applied(const Lines& was, const Lines& now, const std::vector<Hunk>& hunks) {
  Lines out;
  std::size_t at = 0;
  for (const Hunk& h : hunks) {
    while (at < h.was) out.push_back(was[at++]);
    at += h.gone;
    for (std::size_t i = 0; i < h.come; ++i) out.push_back(now[h.now + i]);
  }
  while (at < was.size()) out.push_back(was[at++]);
  return out;
}

// The fewest lines taken out and put in, by the textbook's table.
std::size_t fewest(const Lines& a, const Lines& b) {
  std::vector<std::vector<std::size_t>> table(a.size() + 1, std::vector<std::size_t>(b.size() + 1));
  for (std::size_t i = 0; i <= a.size(); ++i) {
    for (std::size_t j = 0; j <= b.size(); ++j) {
      if (i == 0 || j == 0) {
        table[i][j] = i + j;
      } else if (a[i - 1] == b[j - 1]) {
        table[i][j] = table[i - 1][j - 1];
      } else {
        table[i][j] = 1 + std::min(table[i - 1][j], table[i][j - 1]);
      }
    }
  }
  return table[a.size()][b.size()];
}

}  // namespace

TEST_CASE("one line that differs is one hunk") {
  CHECK(diff_lines({"a", "b", "c"}, {"a", "x", "c"}) == std::vector<Hunk>{{1, 1, 1, 1}});
  CHECK(diff_lines({"a", "c"}, {"a", "x", "c"}) == std::vector<Hunk>{{1, 0, 1, 1}});
  CHECK(diff_lines({"a", "b", "c"}, {"a", "c"}) == std::vector<Hunk>{{1, 1, 1, 0}});
  CHECK(diff_lines({"a", "b"}, {"a", "b"}).empty());
  CHECK(diff_lines({}, {}).empty());
  CHECK(diff_lines({}, {"a"}) == std::vector<Hunk>{{0, 0, 0, 1}});
  CHECK(diff_lines({"a", "b", "c", "d", "e"}, {"x", "b", "c", "d", "y"}) ==
        std::vector<Hunk>{{0, 1, 0, 1}, {4, 1, 4, 1}});
}

TEST_CASE("hunks give the new text again, with the fewest lines") {
  std::uint64_t state = 20260101;
  const auto random = [&](std::size_t below) {
    state = state * 6364136223846793005u + 1442695040888963407u;
    return static_cast<std::size_t>(state >> 33) % below;
  };
  for (int round = 0; round < 2000; ++round) {
    const std::size_t letters = 1 + random(5);
    Lines a, b;
    for (std::size_t n = random(14); n > 0; --n)
      a.push_back(std::string(1, static_cast<char>('a' + random(letters))));
    for (std::size_t n = random(14); n > 0; --n)
      b.push_back(std::string(1, static_cast<char>('a' + random(letters))));
    const std::vector<Hunk> hunks = diff_lines(a, b);
    INFO(join(a, "") << " -> " << join(b, ""));
    REQUIRE(applied(a, b, hunks) == b);
    std::size_t lines = 0;
    for (std::size_t i = 0; i < hunks.size(); ++i) {
      lines += hunks[i].gone + hunks[i].come;
      if (i > 0) REQUIRE(hunks[i].was > hunks[i - 1].was + hunks[i - 1].gone);
    }
    REQUIRE(lines == fewest(a, b));
  }
}

TEST_CASE("texts that have little in common are one hunk, and still give the new text") {
  Lines a, b;
  for (int i = 0; i < 3000; ++i) {
    a.push_back("a" + std::to_string(i));
    b.push_back("b" + std::to_string(i));
  }
  a.insert(a.begin(), "head");
  b.insert(b.begin(), "head");
  const auto hunks = diff_lines(a, b);
  CHECK(hunks.size() == 1);
  CHECK(hunks.front().was == 1);
  CHECK(applied(a, b, hunks) == b);
}
