// Counts by hand: "Cut 5 strips of Night Sky", "Make 12", "24 Shell triangles", "nine blocks".
//
// A number is judged only where its words leave no doubt: the nearest verb before it speaks of the
// whole quilt's need (cut, make, need), nothing makes it a part ("each", "per", "the other"), and
// every word between the number and its noun is known. What it may mean is then a list of computed
// numbers, and it is wrong only when it is none of them.

#include <algorithm>

#include "base/text.h"
#include "booklet/proofread_claims.h"

namespace dogear::editing {
namespace {

struct Phrase {
  std::string noun;     // singular: "strip", "strip set", "fat quarter", "triangle", "block"
  std::size_t end = 0;  // token behind it
  std::vector<FabricId> fabrics;
  std::vector<std::size_t> blocks, units;
  std::optional<Fraction> measure;
  bool binding = false, bundle = false, of_edges = false, described = false;
};

std::string singular(const std::string& word) {
  for (const char* noun :
       {"strip", "square", "triangle", "rectangle", "trapezoid", "diamond", "hexagon",
        "parallelogram", "kite", "octagon", "wedge", "block", "unit", "piece"})
    if (word == noun || word == std::string(noun) + "s") return noun;
  if (word == "patch" || word == "patches") return "piece";
  return {};
}

class Phrases {
 public:
  explicit Phrases(const Sentence& s) : s_(s) {}

  // What the number at a token counts, or nothing where that is not plain.
  std::optional<Phrase> read(std::size_t number) {
    Phrase p;
    std::size_t i = number + 1;
    if (i < s_.size() && s_[i].is("of")) return of_all(number);
    for (std::size_t steps = 0; i < s_.size() && steps < 10; ++steps) {
      if (const std::size_t next = adjective(i, p); next > i) {
        i = next;
      } else if (const std::size_t behind = noun(i, p); behind > i) {
        p.end = behind;
        suffix(p);
        return p;
      } else {
        return {};
      }
      // A block's or unit's name may stand without a noun behind it.
      if (i >= s_.size() || (singular(s_[i].lower).empty() && !s_[i].is("-"))) {
        if (!p.blocks.empty() || !p.units.empty()) {
          const bool more = i < s_.size() && adjective(i, p) > i;
          if (!more) {
            p.noun = p.blocks.empty() ? "unit" : "block";
            p.end = i;
            suffix(p);
            return p;
          }
        }
      }
    }
    return {};
  }

 private:
  bool at(std::size_t i, std::initializer_list<std::string_view> words) const {
    return i < s_.size() && is_one_of(s_[i], words);
  }

  // "19 of the 20 strips in the bundle": the first number counts the same.
  std::optional<Phrase> of_all(std::size_t number) {
    std::size_t i = number + 2;
    if (at(i, {"the", "its"})) ++i;
    if (i >= s_.size() || !s_[i].is_number()) return {};
    auto p = read(i);
    if (!p || p->noun != "strip" || !p->bundle) return {};
    return p;
  }

  std::size_t measure(std::size_t i, Phrase& p) const {
    if (i >= s_.size() || !s_[i].is_number()) return i;
    const std::size_t unit = inch_unit(s_, i + 1);
    const bool by = at(i + 1 + unit, {"\u00D7", "x", "by"});
    if (unit == 0 && !by) return i;
    if (!p.measure) p.measure = s_[i].value;
    std::size_t next = i + 1 + unit;
    if (by) {
      const std::size_t other = next + 1;
      if (at(other, {"wof"})) {
        next = other + 1;
      } else if (other < s_.size() && s_[other].is_number()) {
        next = other + 1 + inch_unit(s_, other + 1);
      } else {
        return i;
      }
    }
    while (at(next, {"wide", "high", "long", "tall", "-"})) ++next;
    return next;
  }

  std::size_t adjective(std::size_t i, Phrase& p) const {
    const Token& t = s_[i];
    if (t.is_number()) return measure(i, p);
    if (t.kind == Token::Kind::name) {
      for (const Name& n : t.names) {
        if (n.kind == NameKind::fabric) p.fabrics.push_back(n.index);
        if (n.kind == NameKind::block) p.blocks.push_back(n.index);
        if (n.kind == NameKind::unit) p.units.push_back(n.index);
        if (n.kind == NameKind::size || n.kind == NameKind::bundle) return i;
      }
      return i + 1;
    }
    if (t.is("strip") && at(i + 1, {"set", "sets"})) return i;
    // "half-square triangles", "quarter-square triangles", "60° triangles", "half-hexagons".
    if (at(i, {"half", "quarter"}) && at(i + 1, {"-"}) && at(i + 2, {"square"}) &&
        at(i + 3, {"triangle", "triangles"}))
      return i + 3;
    if (t.is("60") && at(i + 1, {"\u00B0"})) return i + 2;
    if (at(i, {"binding"})) p.binding = true;
    if (at(i, {"bundle"})) p.bundle = true;
    if (at(i, {"border", "sashing", "inner", "outer", "side", "top", "bottom", "backing", "panel",
               "batting"}))
      p.of_edges = true;
    if (at(i, {"hexagon", "star", "square"}) && singular(next_word(i)).empty()) return i;
    if (at(i,
           {"binding", "bundle", "border",     "sashing",  "inner",      "outer",    "side", "top",
            "bottom",  "whole",  "wof",        "width",    "-",          "fabric",   "long", "wide",
            "such",    "of",     "background", "finished", "unfinished", "complete", "quilt"})) {
      if (t.is("of") || t.is("such")) return i;
      if (t.is("-") && !t.glued) return i;
      return i + 1;
    }
    if (at(i, {"hexagon", "star", "square"}) && at(i + 1, {"block", "blocks"})) {
      p.described = true;
      return i + 1;
    }
    return i;
  }

  std::string next_word(std::size_t i) const { return i + 1 < s_.size() ? s_[i + 1].lower : ""; }

  std::size_t noun(std::size_t i, Phrase& p) const {
    if (at(i, {"strip"}) && at(i + 1, {"set", "sets"})) {
      p.noun = "strip set";
      return i + 2;
    }
    if (at(i, {"fat"}) && at(i + 1, {"quarter", "quarters", "eighth", "eighths"})) {
      p.noun = at(i + 1, {"quarter", "quarters"}) ? "fat quarter" : "fat eighth";
      return i + 2;
    }
    if (at(i, {"half"}) && at(i + 1, {"-"}) && at(i + 2, {"hexagon", "hexagons"})) {
      p.noun = "half-hexagon";
      return i + 3;
    }
    p.noun = s_[i].kind == Token::Kind::word ? singular(s_[i].lower) : "";
    // "2 square units", "3 triangle blocks": the last noun counts.
    if (p.noun.empty()) return i;
    if (const std::string last = singular(next_word(i)); !last.empty() && last != p.noun) {
      if (p.noun == "unit" || p.noun == "block") return i;
      p.described = true;
      p.noun = last;
      return i + 2;
    }
    return i + 1;
  }

  // "4½ in wide", "of Night Sky", "from the bundle", "for the binding", as often as they follow.
  void suffix(Phrase& p) const {
    for (std::size_t guard = 0; guard < 6; ++guard) {
      std::size_t i = p.end;
      if (const std::size_t next = i < s_.size() ? measure(i, p) : i; next > i) {
        p.end = next;
        continue;
      }
      if (!at(i, {"of", "from", "in", "for", "and"})) return;
      if (const std::size_t next = measure(i + 1, p); s_[i].is("of") && next > i + 1) {
        p.end = next;
        continue;
      }
      const bool joins = s_[i].is("and");
      if (joins && p.fabrics.empty()) return;
      ++i;
      if (at(i, {"the", "your", "its"})) ++i;
      if (i >= s_.size()) return;
      bool fabric = false;
      for (const Name& n : s_[i].names) {
        if (n.kind == NameKind::fabric) {
          p.fabrics.push_back(n.index);
          fabric = true;
        }
        if (n.kind == NameKind::bundle) p.bundle = true;
        if (n.kind == NameKind::block && p.noun == "unit") {
          p.blocks.push_back(n.index);
          fabric = true;
        }
      }
      if (joins && !fabric) return;
      if (at(i, {"binding"})) p.binding = true;
      if (at(i, {"border", "borders", "sashing", "backing", "side", "sides"})) p.of_edges = true;
      if (at(i, {"bundle"})) p.bundle = true;
      if (at(i + 1, {"bundle"})) {
        p.bundle = true;
        ++i;
      }
      if (!fabric && !p.binding && !p.bundle && !p.of_edges) return;
      p.end = i + 1;
    }
  }

  const Sentence& s_;
};

enum class Verb { none, cut, make, need, has, idle };

Verb verb_of(const Token& t) {
  if (is_one_of(t, {"cut", "cuts", "cutting"})) return Verb::cut;
  if (is_one_of(t, {"make", "makes", "making", "made"})) return Verb::make;
  if (is_one_of(t, {"need", "needs", "needed", "use", "uses", "buy", "require", "requires", "takes",
                    "require"}))
    return Verb::need;
  if (is_one_of(t, {"have", "has", "holds", "contains"})) return Verb::has;
  if (is_one_of(t, {"sew",    "sewn",      "sewing", "join",    "joined", "stitch",   "stack",
                    "layer",  "lay",       "laid",   "arrange", "place",  "pin",      "press",
                    "fold",   "trim",      "match",  "add",     "turn",   "rotate",   "repeat",
                    "subcut", "take",      "pick",   "choose",  "attach", "align",    "pair",
                    "hold",   "keep",      "start",  "begin",   "begins", "sort",     "alternate",
                    "count",  "try",       "stand",  "stands",  "lie",    "lies",     "set",
                    "go",     "goes",      "put",    "draw",    "mark",   "label",    "divide",
                    "split",  "save",      "give",   "gives",   "yield",  "yields",   "come",
                    "comes",  "work",      "works",  "show",    "shows",  "surround", "frame",
                    "nest",   "alternate", "leave",  "leaves",  "slice",  "crosscut", "fussy"}))
    return Verb::idle;
  return Verb::none;
}

class Counts {
 public:
  Counts(const Reading& r, std::vector<Claim>& out) : r_(r), s_(r.sentence), out_(out) {}

  void read() {
    for (std::size_t i = 0; i < s_.size(); ++i) {
      if (!s_[i].is_number() || s_[i].value.num <= 0) continue;
      if (inch_unit(s_, i + 1) > 0) continue;
      if (make_alone(i)) continue;
      const auto phrase = Phrases(s_).read(i);
      if (phrase) counted(i, *phrase);
    }
  }

 private:
  Verb verb_before(std::size_t number) const {
    for (std::size_t i = number; i > 0; --i)
      if (const Verb v = verb_of(s_[i - 1]); v != Verb::none) return v;
    return Verb::none;
  }

  // Nothing but the phrase, as a list or a table says it, behind a name at most.
  bool is_bare(std::size_t number, const Phrase& p) const {
    std::size_t first = 0;
    while (first < number && (!s_[first].names.empty() ||
                              is_one_of(s_[first], {":", "|", "\u2013", "\u2014", "-", "("})))
      ++first;
    const bool ends = p.end >= s_.size() || is_one_of(s_[p.end], {",", "(", ")", "|", ":", "."});
    return first == number && ends &&
           (r_.passage.kind == Passage::Kind::item || r_.passage.kind == Passage::Kind::row);
  }

  void claim(std::size_t number, const std::string& what, Values candidates) {
    if (candidates.empty()) return;
    Claim c;
    c.begin = s_[number].begin;
    c.end = s_[number].end;
    c.value = s_[number].value;
    c.tag = s_[number].tag;
    c.what = what;
    c.candidates = std::move(candidates);
    out_.push_back(std::move(c));
  }

  std::string words(std::size_t begin, std::size_t end) const {
    if (begin >= end) return {};
    return r_.passage.text.substr(s_[begin].begin, s_[end - 1].end - s_[begin].begin);
  }

  // "Make 12." in the words of a block, or beside the figure of a step.
  bool make_alone(std::size_t i) {
    if (i == 0 || !s_[i - 1].is("make") ||
        (i > 1 && !is_one_of(s_[i - 2], {",", ":", "\u2013", "\u2014", "then", "and"})))
      return false;
    const bool ends =
        i + 1 == s_.size() ||
        is_one_of(s_[i + 1], {",", "(", ")", "altogether", "total", "like", "alike", "."}) ||
        (is_one_of(s_[i + 1], {"in", "of"}) && i + 2 < s_.size() &&
         is_one_of(s_[i + 2], {"all", "total", "these", "them"}));
    if (!ends || is_hedged(s_, i, i + 1)) return false;
    const std::string image = step_beside();
    if (!image.empty())
      claim(i, "to make, beside the figure of step " + image.substr(image.rfind('/') + 1),
            r_.known.made_in_step(image));
    else if (!r_.uses.empty())
      claim(i, "to make", r_.known.makes(r_.uses, {}));
    return true;
  }

  // The one figure of a step in this paragraph.
  std::string step_beside() const {
    std::string found;
    for (const Shown& image : r_.passage.images) {
      if (!starts_with(image.address, "figure:step/") &&
          !starts_with(image.address, "figure:assembly/"))
        continue;
      if (!found.empty()) return {};
      found = image.address;
    }
    return found;
  }

  void counted(std::size_t i, const Phrase& p) {
    if (is_hedged(s_, i, p.end)) return;
    const Verb verb = verb_before(i);
    const bool bare = is_bare(i, p);
    if (verb == Verb::idle || (verb == Verb::none && !bare)) return;
    const std::string what = words(i + 1, p.end);
    std::vector<FabricId> fabrics = p.fabrics;
    if (fabrics.empty()) fabrics = fabrics_in(s_, 0, i);
    if (fabrics.empty()) fabrics = fabric_above(r_);

    if (p.noun == "strip") {
      strips(i, p, fabrics, verb, what);
    } else if (p.noun == "fat quarter" || p.noun == "fat eighth") {
      const bool quarter = p.noun == "fat quarter";
      if (verb == Verb::need || (bare && verb == Verb::none))
        claim(
            i, what,
            r_.known.sheets(
                quarter ? ClothSource::Kind::fat_quarter : ClothSource::Kind::fat_eighth, fabrics));
    } else if (p.noun == "square" && p.bundle) {
      claim(i, what, r_.known.bundle_sheets(true));
    } else if (p.noun == "strip set") {
      claim(i, what, r_.known.strip_sets(p.fabrics));
    } else if (p.noun == "block") {
      blocks(i, p, verb, bare, what);
    } else if (p.noun == "unit") {
      if (verb == Verb::make && !p.units.empty() && is_told_to_make(i))
        claim(i, what, r_.known.makes(p.blocks.empty() ? r_.uses : p.blocks, p.units));
    } else {
      shapes(i, p, fabrics, verb, bare, what);
    }
  }

  // "Make four", "then make four", but not "one A1 and four B2 make four".
  bool is_told_to_make(std::size_t number) const {
    for (std::size_t k = number; k > 0; --k) {
      if (verb_of(s_[k - 1]) != Verb::make) continue;
      return k == 1 || is_one_of(s_[k - 2], {",", ":", ";", "(", "\u2013", "\u2014", "then", "and",
                                             "to", "you", "we", "will", "are", "is", "have"});
    }
    return false;
  }

  void strips(std::size_t i, const Phrase& p, const std::vector<FabricId>& fabrics, Verb verb,
              const std::string& what) {
    if (p.of_edges || verb == Verb::make) return;
    if (p.bundle) {
      Values values = r_.known.bundle_sheets(false);
      if (!fabrics.empty())
        for (Value& v : r_.known.strips(fabrics, p.measure)) values.push_back(std::move(v));
      claim(i, what, std::move(values));
    } else if (p.binding) {
      claim(i, what, r_.known.binding_strips());
    } else if (!fabrics.empty()) {
      claim(i, what, r_.known.strips(fabrics, p.measure));
    } else if (verb == Verb::cut && p.measure) {
      Values values = r_.known.strips({}, p.measure);
      claim(i, what, std::move(values));
    }
  }

  bool speaks_of_quilt(std::size_t i) const {
    // "The quilt is easy. It has 9 blocks."
    if (i > 1 && s_[0].is("it") && is_one_of(s_[1], {"has", "holds", "needs", "takes", "uses"})) {
      const auto before = name_words(std::string_view(r_.passage.text).substr(0, s_[0].begin));
      const auto says = [&](std::initializer_list<std::string_view> words) {
        return std::any_of(before.begin(), before.end(), [&](const std::string& word) {
          return std::find(words.begin(), words.end(), word) != words.end();
        });
      };
      return says({"quilt", "throw", "topper"}) && !says({"row", "rows", "border", "column"});
    }
    for (std::size_t k = 0; k < i; ++k) {
      if (is_one_of(s_[k], {"quilt", "top", "pattern", "throw", "topper"})) return true;
      for (const Name& n : s_[k].names)
        if (n.kind == NameKind::size) return true;
    }
    return false;
  }

  bool says_in_all(std::size_t end) const {
    return any_of(s_, end, end + 1, {"altogether"}) ||
           (end + 1 < s_.size() && s_[end].is("in") && is_one_of(s_[end + 1], {"all", "total"}));
  }

  void blocks(std::size_t i, const Phrase& p, Verb verb, bool bare, const std::string& what) {
    if (p.described || p.measure || p.of_edges) return;
    if (any_of(s_, 0, s_.size(),
               {"row",    "rows",      "column",  "columns", "corner",  "corners", "side",
                "sides",  "middle",    "center",  "centre",  "half",    "edge",    "bed",
                "larger", "bigger",    "smaller", "king",    "queen",   "twin",    "double",
                "kinds",  "different", "designs", "beside",  "between", "round"}))
      return;
    if (is_one_of(s_[0], {"a", "an"}) && verb == Verb::need) return;  // "A runner uses 2 ..."
    if (!p.blocks.empty()) {
      claim(i, what, r_.known.blocks_of(p.blocks));
      return;
    }
    if (!p.fabrics.empty() || !p.units.empty()) return;
    const bool makes = verb == Verb::make && i == 1;
    const bool of_quilt = speaks_of_quilt(i) && verb != Verb::cut;
    if (!makes && !of_quilt && !says_in_all(p.end)) return;
    if (bare && !says_in_all(p.end) && !makes) return;
    if (makes && !r_.uses.empty())
      claim(i, what, r_.known.makes(r_.uses, {}));
    else
      claim(i, what, r_.known.blocks(says_in_all(p.end)));
  }

  bool under_cutting() const {
    for (const std::string& above : {r_.passage.heading, r_.passage.lead})
      for (const std::string& word : name_words(above))
        if (word == "cut" || word == "cutting") return true;
    return false;
  }

  void shapes(std::size_t i, const Phrase& p, const std::vector<FabricId>& fabrics, Verb verb,
              bool bare, const std::string& what) {
    if (p.of_edges || !p.units.empty() || !p.blocks.empty()) return;
    if (p.noun == "piece" && (says_in_all(p.end) || (speaks_of_quilt(i) && verb == Verb::has)) &&
        fabrics.empty()) {
      claim(i, what, r_.known.all_pieces());
      return;
    }
    if (verb != Verb::cut && !(bare && verb == Verb::none && under_cutting())) return;
    if (p.noun == "piece" && fabrics.empty()) return;
    claim(i, what, r_.known.pieces(p.noun, fabrics, p.measure));
  }

  const Reading& r_;
  const Sentence& s_;
  std::vector<Claim>& out_;
};

}  // namespace

void find_counts(const Reading& reading, std::vector<Claim>& claims) {
  Counts(reading, claims).read();
}

}  // namespace dogear::editing
