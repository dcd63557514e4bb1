// One way to spell fractions, and one for inches.

#include <algorithm>
#include <array>

#include "base/length.h"
#include "booklet/proofread_edit.h"

namespace dogear::editing {
namespace {

struct Use {
  Span span;
  std::string written;
};

// All uses of each way, in the order of the texts; each place counts once, however many sizes.
struct Ways {
  std::map<std::string, std::vector<Use>> uses;
  std::set<std::tuple<std::string, std::size_t, std::size_t>> seen;

  void add(const std::string& way, const Text& text, const Passage& passage, std::size_t begin,
           std::size_t end) {
    const Span span = text.source.span(passage, begin, end);
    if (!seen.insert({span.file, span.line, span.column}).second) return;
    uses[way].push_back({span, text.source.written(passage, begin, end)});
  }

  const std::string* usual() const {
    const std::string* best = nullptr;
    for (const auto& [way, all] : uses)
      if (best == nullptr || all.size() > uses.at(*best).size()) best = &way;
    return best;
  }
};

constexpr std::size_t most_told = 5;  // of each way; the rest is counted

void tell_odd(const Ways& ways, const char* code, const std::string& what, const std::string& hint,
              Diagnostics& diagnostics) {
  if (ways.uses.size() < 2) return;
  const std::string& usual = *ways.usual();
  const Use& other = ways.uses.at(usual).front();
  for (const auto& [way, all] : ways.uses) {
    if (way == usual) continue;
    for (std::size_t i = 0; i < std::min(all.size(), most_told); ++i) {
      const std::size_t more = i + 1 == most_told ? all.size() - most_told : 0;
      Diagnostic& d = diagnostics.warning(
          code, all[i].span,
          "`" + all[i].written + "` is " + what + " as " + way + ", but elsewhere as " + usual +
              (more > 0 ? ", and so are " + std::to_string(more) + " more" : ""));
      d.notes.push_back({other.span, "here it is `" + other.written + "`"});
      d.hints.push_back(hint);
    }
  }
}

}  // namespace

void check_spelling(const Edit& edit) {
  Ways fractions, inches, decimals;
  std::vector<std::pair<Use, Fraction>> found_decimals;
  each_sentence(
      edit, [&](const Text& text, const Passage& passage, const Sentence& s, std::size_t) {
        for (std::size_t i = 0; i < s.size(); ++i) {
          const Token& t = s[i];
          if (!t.is_number() || t.tag >= 0) continue;
          const std::size_t unit = inch_unit(s, i + 1);
          if (t.spelling == Spelling::decimal && unit > 0) {
            const std::size_t before = decimals.seen.size();
            decimals.add("", text, passage, t.begin, s[i + unit].end);
            if (decimals.seen.size() > before)
              found_decimals.emplace_back(decimals.uses[""].back(), t.value);
          }
          // Sixteenths have no sign of their own.
          constexpr std::array<std::int64_t, 6> signs{2, 3, 4, 5, 6, 8};
          const bool has_sign = std::find(signs.begin(), signs.end(), t.value.den) != signs.end();
          const std::string_view way = t.spelling == Spelling::sign    ? "a sign, `2½`"
                                       : t.spelling == Spelling::slash ? "figures, `2 1/2`"
                                       : t.spelling == Spelling::hyphen
                                           ? "figures with a hyphen, `2-1/2`"
                                           : "";
          if (!way.empty() && t.value.den > 1 && (has_sign || t.spelling == Spelling::hyphen))
            fractions.add(std::string(way), text, passage, t.begin, t.end);
          // "12-inch" is an adjective; it goes with either.
          if (unit == 1 && s[i + 1].tag < 0) {
            const std::string& mark = s[i + 1].lower;
            const std::string name = mark == "in"                         ? "`in`"
                                     : mark == "inch" || mark == "inches" ? "`inches`"
                                                                          : "an inch mark";
            inches.add(name, text, passage, t.begin, s[i + 1].end);
          }
        }
      });
  tell_odd(fractions, "D451", "spelled",
           "spell all alike; the booklet sets each as a fraction, and its own as `2½`",
           edit.diagnostics);
  for (const auto& [use, value] : found_decimals) {
    const Fraction near = Exact(value).round_nearest(16);
    Diagnostic& d = edit.diagnostics.warning(
        "D452", use.span, "`" + use.written + "` is a decimal, and no ruler has that line");
    d.hints.push_back(
        (near == value ? "write it as a fraction: `" : "write the nearest fraction: `") +
        plain_inches(near) + "`");
  }
  tell_odd(inches, "D453", "written", "write all alike; the booklet's own words have `in`",
           edit.diagnostics);
}

}  // namespace dogear::editing
