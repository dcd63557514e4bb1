// Measures by hand: "1 1/8 yd of Night Sky", "finishes 54 in × 72 in", "12 in blocks".

#include <algorithm>

#include "booklet/proofread_claims.h"

namespace dogear::editing {
namespace {

enum class Subject { none, quilt, top, block, other };

class Measures {
 public:
  Measures(const Reading& r, std::vector<Claim>& out) : r_(r), s_(r.sentence), out_(out) {}

  void read() {
    for (std::size_t i = 0; i < s_.size(); ++i) {
      if (!s_[i].is_number() || s_[i].value.num <= 0) continue;
      if (yards(i) || centimetres(i)) continue;
      if (const std::size_t second = pair(i); second > 0) {
        sides(i, second);
        i = second;
      } else if (inch_unit(s_, i + 1) > 0 && !allowance(i) && !cut_to(i)) {
        side(i);
      }
    }
  }

 private:
  bool at(std::size_t i, std::initializer_list<std::string_view> words) const {
    return i < s_.size() && is_one_of(s_[i], words);
  }

  // `last`: the token that ends what the tag would print.
  void claim(std::size_t number, std::size_t last, Claim::About about, std::string what,
             Values candidates) {
    if (candidates.empty()) return;
    Claim c;
    c.about = about;
    c.begin = s_[number].begin;
    c.end = s_[last].end;
    c.value = s_[number].value;
    c.tag = s_[number].tag;
    c.what = std::move(what);
    c.candidates = std::move(candidates);
    c.whole = last > number;
    out_.push_back(std::move(c));
  }

  std::vector<FabricId> fabric_of(std::size_t number, std::size_t end) const {
    std::size_t i = end;
    if (at(i, {"of", "in"})) ++i;
    if (at(i, {"the", "your"})) ++i;
    if (i < s_.size())
      if (auto named = fabrics_in(s_, i, i + 1); !named.empty()) return named;
    // "Night Sky: 1 7/8 yd", "Night Sky | 1 7/8 yd", "Night Sky (1 7/8 yd)".
    if (number > 1 && at(number - 1, {":", "|", "\u2013", "\u2014", "-", "(", ","}))
      if (auto named = fabrics_in(s_, number - 2, number - 1); !named.empty()) return named;
    // One fabric and one amount in the sentence.
    std::size_t amounts = 0;
    for (std::size_t k = 0; k + 1 < s_.size(); ++k)
      if (s_[k].is_number() && at(k + 1, {"yd", "yds", "yard", "yards", "-"})) ++amounts;
    auto all = fabrics_in(s_, 0, s_.size());
    if (all.size() == 1 && amounts == 1 && fabrics_in(s_, 0, number).size() == 1 &&
        any_of(s_, 0, number,
               {"need", "needs", "buy", "takes", "requires", "require", "is", "uses"}))
      return all;
    return {};
  }

  bool speaks_of_backing(std::size_t number, std::size_t end) const {
    std::size_t i = end;
    if (at(i, {"of", "for"})) ++i;
    if (at(i, {"the", "your"})) ++i;
    return at(i, {"backing"}) ||
           (number > 1 && at(number - 1, {":", "|", "\u2013", "\u2014", "("}) &&
            at(number - 2, {"backing"}));
  }

  bool yards(std::size_t i) {
    std::size_t unit = i + 1;
    if (at(unit, {"-"}) && s_[unit].glued) ++unit;
    if (!at(unit, {"yd", "yds", "yard", "yards"})) return false;
    std::size_t end = unit + 1;
    if (at(end, {"."}) && s_[end].glued) ++end;
    if (is_hedged(s_, i, end) || uncertain(i, end)) return true;
    if (speaks_of_backing(i, end))
      claim(i, unit, Claim::About::cloth, "of backing", r_.known.backing_cloth());
    else if (const auto fabric = fabric_of(i, end); fabric.size() == 1)
      claim(i, unit, Claim::About::cloth,
            "of " + r_.known.scene().checked.pattern.fabrics[fabric[0]].name,
            r_.known.cloth(fabric[0]));
    return true;
  }

  bool uncertain(std::size_t i, std::size_t end) const {
    return any_of(s_, 0, clause_end(s_, end),
                  {"i",      "bought",  "swap",    "substitute", "replace", "replaces",
                   "save",   "keep",    "reserve", "my",         "bolt",    "cut",
                   "piece",  "pieces",  "binding", "up",         "shrink",  "only",
                   "dollar", "dollars", "price",   "cost",       "costs"}) ||
           (i > 0 && at(i - 1, {"a", "the", "this", "that"}));
  }

  bool centimetres(std::size_t i) {
    if (!at(i + 1, {"cm"})) return false;
    if (!at(i + 2, {"of"}) || is_hedged(s_, i, i + 2) || uncertain(i, i + 2)) return true;
    if (any_of(s_, 0, s_.size(), {"strip", "strips", "wide", "square", "squares"})) return true;
    const auto named = fabrics_in(s_, i + 3, i + 4);
    if (named.size() == 1)
      claim(i, i + 1, Claim::About::cloth,
            "of " + r_.known.scene().checked.pattern.fabrics[named[0]].name,
            r_.known.metric(named[0]));
    return true;
  }

  // "a 3/8 in seam allowance", "the seam allowance is 3/8 in"; of the top's own seams.
  bool allowance(std::size_t i) {
    const std::size_t last = i + inch_unit(s_, i + 1);
    const std::size_t end = last + (at(last + 1, {"wide"}) ? 2 : 1);
    const bool behind = at(end, {"seam", "seams"});
    const bool before =
        i > 1 && at(i - 1, {"is", "are", "of", ":"}) && at(i - 2, {"allowance", "allowances"});
    if (!behind && !before) return false;
    if (!is_skipped(i, end) &&
        !any_of(s_, 0, s_.size(),
                {"backing", "binding", "sleeve", "batting", "panel", "panels", "baste", "basting",
                 "some", "clothes", "garments", "curve", "curved", "curves", "allow", "scant",
                 "open", "opening"}))
      claim(i, last, Claim::About::seam, behind ? "as the seam allowance" : "of seam allowance",
            {r_.known.seam_allowance()});
    return true;
  }

  // "Cut squares of 4 in from Plum", "cut 5 strips of Plum 3 in wide": whether anything of the
  // fabric is cut to that.
  bool cut_to(std::size_t i) {
    const std::size_t end = i + 1 + inch_unit(s_, i + 1);
    const auto is_cut = [&](std::size_t k) {
      return at(k, {"strip", "strips", "square", "squares"});
    };
    const bool behind = is_cut(end) || (at(end, {"wide", "-"}) && is_cut(end + 1));
    bool before = false;  // only its fabric and small words between
    for (std::size_t k = i; k > 0 && i - k < 5 && !before; --k) {
      if (is_cut(k - 1)) before = true;
      if (!is_cut(k - 1) && s_[k - 1].names.empty() && !at(k - 1, {"of", "from", "the"})) break;
    }
    if ((!behind && !before) || !any_of(s_, 0, i, {"cut"}) || at(end, {"long"})) return false;
    if (any_of(s_, 0, s_.size(),
               {"if",     "instead", "another", "other",   "sample", "test",     "extra",
                "or",     "about",   "larger",  "smaller", "bigger", "trim",     "label",
                "labels", "scraps",  "scrap",   "bag",     "piping", "appliqué", "pocket",
                "pillow", "stem",    "stems",   "ties",    "least",  "sleeve"}))
      return true;
    const auto named = fabrics_in(s_, 0, s_.size());
    if (named.size() == 1)
      claim(i, end - 1, Claim::About::cut,
            "of " + r_.known.scene().checked.pattern.fabrics[named[0]].name,
            r_.known.cut_measures(named[0]));
    return true;
  }

  // The token of the second number of "54 in × 72 in", or 0.
  std::size_t pair(std::size_t i) const {
    const std::size_t by = i + 1 + inch_unit(s_, i + 1);
    if (!at(by, {"\u00D7", "x", "by"})) return 0;
    const std::size_t second = by + 1;
    if (second >= s_.size() || !s_[second].is_number()) return 0;
    const bool inches = inch_unit(s_, i + 1) > 0 || inch_unit(s_, second + 1) > 0;
    return inches ? second : 0;
  }

  Subject subject_at(std::size_t k, std::vector<std::size_t>& uses) const {
    const Token& t = s_[k];
    if (is_one_of(t, {"quilt", "throw", "topper", "hanging", "coverlet"})) return Subject::quilt;
    if (is_one_of(t, {"top"})) return Subject::top;
    if (is_one_of(t, {"block", "blocks"})) return Subject::block;
    if (is_one_of(t, {"backing",      "batting",   "border",    "borders",    "sashing", "binding",
                      "strip",        "strips",    "square",    "squares",    "unit",    "units",
                      "row",          "rows",      "piece",     "pieces",     "panel",   "panels",
                      "package",      "ruler",     "mat",       "page",       "paper",   "bundle",
                      "triangle",     "triangles", "rectangle", "rectangles", "center",  "centre",
                      "half",         "halves",    "step",      "steps",      "pillow",  "form",
                      "cornerstones", "tail",      "seam",      "seams",      "bed",     "mattress",
                      "hexagon",      "hexagons",  "section",   "sections",   "star",    "stars",
                      "label",        "frame",     "fabric",    "cloth",      "side",    "sides"}))
      return Subject::other;
    for (const Name& n : t.names) {
      if (n.kind == NameKind::size) return Subject::quilt;
      if (n.kind == NameKind::block) uses.push_back(n.index);
    }
    if (!uses.empty()) return Subject::block;
    for (const Name& n : t.names)
      if (n.kind == NameKind::unit || n.kind == NameKind::fabric) return Subject::other;
    return Subject::none;
  }

  // What the measure is of: the nearest thing before it that finishes, measures or is so large, or
  // else the thing named right behind it.
  Subject subject(std::size_t number, std::size_t end, std::vector<std::size_t>& uses) const {
    std::size_t i = end;
    while (i < s_.size() &&
           is_one_of(s_[i],
                     {"finished", "unfinished", "square", "-", "lap", "wide", "size", "quilt"}) &&
           !(is_one_of(s_[i], {"quilt"})))
      ++i;
    if (i < s_.size())
      if (const Subject s = subject_at(i, uses); s != Subject::none && s != Subject::other) {
        // "54 in quilt" but not "54 in, quilt ...".
        return s == Subject::top ? Subject::none : s;
      }
    // "the border of the quilt", "the center of each Star", "a throw": not the thing itself.
    const auto itself = [&](Subject what, std::size_t at) {
      if (what != Subject::quilt && what != Subject::block) return what;
      std::size_t j = at;
      while (j > 0 && (!s_[j - 1].names.empty() ||
                       is_one_of(s_[j - 1], {"the", "each", "every", "any", "your", "one", "a"})))
        --j;
      if (j > 0 && is_one_of(s_[j - 1], {"of", "in"})) return Subject::other;
      const bool another = at > 0 && is_one_of(s_[at - 1], {"a", "an", "another", "original"});
      return what == Subject::quilt && another ? Subject::other : what;
    };
    bool verb = false;
    for (std::size_t k = number; k > 0; --k) {
      const Token& t = s_[k - 1];
      verb = verb || is_one_of(t, {"finishes", "finish", "finished", "measures", "measure",
                                   "unfinished", "is", "are"});
      if (const Subject s = itself(subject_at(k - 1, uses), k - 1); s != Subject::none)
        return verb || s == Subject::other || k == number ? s : Subject::none;
    }
    return Subject::none;
  }

  bool is_skipped(std::size_t number, std::size_t end) const {
    return is_hedged(s_, number, end, true) ||
           any_of(s_, 0, s_.size(),
                  {"larger", "smaller", "bigger", "resize", "cut", "trim", "adjust", "mattress",
                   "longer", "shorter", "bed", "beds", "wider", "inside", "plus", "minus", "drop"});
  }

  void sides(std::size_t first, std::size_t second) {
    const std::size_t first_unit = inch_unit(s_, first + 1);
    const std::size_t second_unit = inch_unit(s_, second + 1);
    const std::size_t end = second + 1 + second_unit;
    if (is_skipped(first, end)) return;
    std::vector<std::size_t> uses;
    const Subject of = subject(first, end, uses);
    const Fraction a = s_[first].value, b = s_[second].value;
    const auto both = [&](const Values& width, const Values& height, const std::string& what) {
      const auto has = [](const Values& all, const Fraction& f) {
        return std::any_of(all.begin(), all.end(), [&](const Value& v) { return v.value == f; });
      };
      const bool turned = !(has(width, a) && has(height, b)) && has(height, a) && has(width, b);
      claim(first, first + first_unit, Claim::About::size, what, turned ? height : width);
      claim(second, second + second_unit, Claim::About::size, what, turned ? width : height);
    };
    if (of == Subject::quilt || of == Subject::top) {
      Values wide{r_.known.width()}, high{r_.known.height()};
      if (of == Subject::top ||
          any_of(s_, 0, s_.size(), {"unfinished", "allowance", "allowances"})) {
        const Values top = r_.known.top_with_allowances();
        wide.push_back(top[0]);
        high.push_back(top[1]);
      }
      both(wide, high, "as a side of the quilt");
    } else if (of == Subject::block) {
      const Values all = block_values(uses);
      both(all, all, "as a side of the block");
    }
  }

  Values block_values(const std::vector<std::size_t>& uses) const {
    const bool finished = any_of(s_, 0, s_.size(), {"finish", "finishes", "finished"});
    const bool unfinished =
        any_of(s_, 0, s_.size(),
               {"unfinished", "measures", "measure", "allowance", "allowances", "sewn", "before"});
    return r_.known.block_measures(uses.empty() ? r_.uses : uses, finished || !unfinished,
                                   unfinished || !finished);
  }

  void side(std::size_t i) {
    const std::size_t unit = inch_unit(s_, i + 1);
    const std::size_t end = i + 1 + unit;
    if (is_skipped(i, end)) return;
    std::vector<std::size_t> uses;
    const Subject of = subject(i, end, uses);
    const bool behind = at(end, {"block", "blocks"}) ||
                        (at(end, {"square", "finished", "-"}) && at(end + 1, {"block", "blocks"}));
    const bool named_behind = end < s_.size() && !uses.empty() && !s_[end].names.empty();
    // "finishes 12 in", "finishes at 12 in square", "finished size is 12 in"
    bool finishes = false;
    for (std::size_t k = i; k > 0 && i - k < 4; --k)
      finishes = finishes || is_one_of(s_[k - 1], {"finish", "finishes", "finished", "unfinished"});
    if (of == Subject::block && (behind || named_behind || finishes)) {
      claim(i, end - 1, Claim::About::size, "as a side of the block", block_values(uses));
    } else if (of == Subject::quilt && (finishes || at(end, {"quilt", "square"})) &&
               !at(end, {"seam", "allowance"})) {
      claim(i, end - 1, Claim::About::size, "as a side of the quilt",
            {r_.known.width(), r_.known.height()});
    }
  }

  const Reading& r_;
  const Sentence& s_;
  std::vector<Claim>& out_;
};

}  // namespace

void find_measures(const Reading& reading, std::vector<Claim>& claims) {
  Measures(reading, claims).read();
}

}  // namespace dogear::editing
