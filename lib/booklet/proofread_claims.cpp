#include "booklet/proofread_claims.h"

#include <algorithm>

#include "base/length.h"
#include "base/text.h"

namespace dogear::editing {
namespace {

constexpr std::size_t most_listed = 4;

std::string quoted(const std::string& text) { return "`" + text + "`"; }

bool fits(const Claim& claim) {
  return std::any_of(claim.candidates.begin(), claim.candidates.end(),
                     [&](const Value& v) { return v.value == claim.value; });
}

// Values that say different things, as a person would list them: those with a tag first.
Values listed(const Claim& claim) {
  const Values& all = claim.candidates;
  Values out;
  for (const bool with_tag : {true, false}) {
    for (const Value& v : all) {
      const bool known = std::any_of(out.begin(), out.end(), [&](const Value& o) {
        return o.words == v.words ||
               (o.value == v.value && (v.tag.empty() || claim.about == Claim::About::size));
      });
      if (with_tag != v.tag.empty() && !known) out.push_back(v);
    }
  }
  return out;
}

std::string computed(const Claim& claim) {
  const Values some = listed(claim);
  std::vector<std::string> words;
  for (std::size_t i = 0; i < std::min(some.size(), most_listed); ++i)
    words.push_back(some[i].words);
  return join(words, "; ") + (some.size() > most_listed ? "; ..." : "");
}

std::vector<std::string> tags_of(const Claim& claim, bool equal) {
  std::vector<std::string> out;
  for (const Value& v : equal ? claim.candidates : listed(claim))
    if (!v.tag.empty() && (!equal || v.value == claim.value) &&
        std::find(out.begin(), out.end(), v.tag) == out.end())
      out.push_back(v.tag);
  return out;
}

void add_notes(Diagnostic& d, const Claim& claim) {
  const Values some = listed(claim);
  for (std::size_t i = 0; i < std::min(some.size(), most_listed); ++i) {
    if (some[i].span.line == 0) continue;
    const bool told = std::any_of(d.notes.begin(), d.notes.end(), [&](const Note& n) {
      return n.span == some[i].span && n.message == "computed: " + some[i].words;
    });
    if (!told) d.notes.push_back({some[i].span, "computed: " + some[i].words});
  }
}

std::string braced(const std::vector<std::string>& tags) {
  std::vector<std::string> out;
  for (const std::string& tag : tags) out.push_back("`{{" + tag + "}}`");
  return join(out, " or ");
}

const char* code_of(Claim::About about) {
  switch (about) {
    case Claim::About::size:
      return "D423";
    case Claim::About::cloth:
      return "D424";
    case Claim::About::cut:
      return "D425";
    case Claim::About::seam:
      return "D426";
    case Claim::About::count:
      break;
  }
  return "D420";
}

constexpr std::size_t longest_list = 100;  // characters of computed numbers in one message

}  // namespace

void Claims::add(const Reading& reading, const Claim& claim) {
  const Span span = reading.source.span(reading.passage, claim.begin, claim.end);
  Place& place = places_[{span.file, span.line, span.column}];
  if (place.sizes.empty()) {
    place.span = span;
    place.written = reading.source.written(reading.passage, claim.begin, claim.end);
    if (claim.tag >= 0) place.tag = reading.source.tags()[static_cast<std::size_t>(claim.tag)].name;
  }
  place.sizes.push_back({reading.known.size_def().id, claim, fits(claim)});
}

void Claims::report(Diagnostics& diagnostics) const {
  for (const auto& [key, place] : places_) judge(place, diagnostics);
}

void Claims::judge(const Place& place, Diagnostics& diagnostics) {
  const auto right =
      std::find_if(place.sizes.begin(), place.sizes.end(), [](const OfSize& s) { return s.right; });
  const auto wrong = std::find_if(place.sizes.begin(), place.sizes.end(),
                                  [](const OfSize& s) { return !s.right; });
  const bool by_hand = place.tag.empty();
  if (wrong == place.sizes.end()) {
    if (!by_hand) return;
    // A tag that says the same in every size.
    std::vector<std::string> tags = tags_of(right->claim, true);
    for (const OfSize& s : place.sizes) {
      const auto others = tags_of(s.claim, true);
      std::erase_if(tags, [&](const std::string& t) {
        return std::find(others.begin(), others.end(), t) == others.end();
      });
    }
    if (tags.empty()) return;
    if (tags.size() > most_listed) tags.resize(most_listed);
    Diagnostic& d =
        diagnostics.warning("D450", place.span,
                            "this says " + quoted(place.written) + " " + right->claim.what +
                                ": right, but written by hand, it follows no change");
    for (const Value& v : right->claim.candidates) {
      if (v.tag != tags.front() || v.span.line == 0) continue;
      d.notes.push_back({v.span, "computed: " + v.words});
      break;
    }
    d.hints.push_back("write the tag " + braced(tags) +
                      (right->claim.whole ? ", which prints the unit as well" : ""));
    return;
  }
  const Claim& claim = wrong->claim;
  if (right != place.sizes.end() && claim.about != Claim::About::cut) {
    Diagnostic& d = diagnostics.error(
        "D421", place.span,
        "this says " + (by_hand ? quoted(place.written) : quoted("{{" + place.tag + "}}")) + " " +
            claim.what + ": right for the size `" + right->size + "`, wrong for `" + wrong->size +
            "`, where " + (by_hand ? "" : "the tag prints " + plain(claim.value) + " and ") +
            "computed is " + computed(claim));
    add_notes(d, claim);
    std::vector<std::string> tags = tags_of(right->claim, true);
    const auto elsewhere = tags_of(claim, false);
    std::erase_if(tags, [&](const std::string& t) {
      return std::find(elsewhere.begin(), elsewhere.end(), t) == elsewhere.end();
    });
    if (!tags.empty()) d.hints.push_back("a tag follows the size: " + braced({tags.front()}));
    d.hints.push_back("or keep the words between {{#" + right->size + "}} and {{/" + right->size +
                      "}}, and write others for `" + wrong->size + "`");
    return;
  }
  std::string message = by_hand ? "this says " + quoted(place.written) + " " + claim.what
                                : "the tag " + quoted(place.tag) + " prints " + plain(claim.value) +
                                      " here, beside " + quoted(claim.what);
  const bool alike = std::all_of(place.sizes.begin(), place.sizes.end(), [&](const OfSize& s) {
    return computed(s.claim) == computed(claim);
  });
  std::vector<std::string> parts;
  for (const OfSize& s : place.sizes) {
    if (s.right) continue;
    std::string part = computed(s.claim);
    if (!alike) part += " in `" + s.size + "`";
    if (std::find(parts.begin(), parts.end(), part) == parts.end()) parts.push_back(part);
  }
  const std::string all = join(parts, ", ");
  if (claim.about == Claim::About::cut)
    message += ", and nothing is cut so" + (alike ? "" : " in `" + wrong->size + "`");
  else if (all.size() > longest_list)  // the notes name them
    message += by_hand ? "; that is none of the computed numbers"
                       : ", but none of the numbers computed for that";
  else
    message += (by_hand ? "; computed is " : ", but computed is ") + all;
  Diagnostic& d =
      claim.about == Claim::About::cut
          ? diagnostics.warning("D425", place.span, message)
          : diagnostics.error(by_hand ? code_of(claim.about) : "D422", place.span, message);
  for (const OfSize& s : place.sizes)
    if (!s.right) add_notes(d, s.claim);
  if (claim.about == Claim::About::cut) {
    d.hints.push_back("where it is a cut of your own, accept this warning with a reason");
    return;
  }
  std::vector<std::string> tags = tags_of(claim, false);
  // Where it is right by hand, no tag is asked for: it hardly ever changes.
  if (claim.about == Claim::About::seam) tags = {"seam-allowance"};
  if (tags.size() > most_listed) tags.resize(most_listed);
  if (!tags.empty())
    d.hints.push_back((tags.size() == 1 ? "write the tag " : "write the tag that is meant: ") +
                      braced(tags) + ", which follows every change");
  else
    d.hints.push_back("write the computed number, or change the pattern where it is asked for");
}

// ---- what both finders use

bool is_one_of(const Token& t, std::initializer_list<std::string_view> words) {
  return t.kind != Token::Kind::number &&
         std::find(words.begin(), words.end(), t.lower) != words.end();
}

bool any_of(const Sentence& s, std::size_t begin, std::size_t end,
            std::initializer_list<std::string_view> words) {
  for (std::size_t i = begin; i < std::min(end, s.size()); ++i)
    if (is_one_of(s[i], words)) return true;
  return false;
}

std::size_t clause_end(const Sentence& s, std::size_t at) {
  std::size_t i = at;
  while (i < s.size() && !is_one_of(s[i], {",", ";", "(", ")", ":", "|", "\u2013", "\u2014"})) ++i;
  return i;
}

bool is_hedged(const Sentence& s, std::size_t number, std::size_t end, bool is_measure) {
  if (number > 0) {
    const Token& before = s[number - 1];
    if (is_one_of(before, {"step",
                           "steps",
                           "figure",
                           "page",
                           "pages",
                           "row",
                           "rows",
                           "column",
                           "set",
                           "fabric",
                           "number",
                           "no",
                           "size",
                           "letter",
                           "part",
                           "into",
                           "x",
                           "\u00D7",
                           "to",
                           "\u2013",
                           "-",
                           "or",
                           "than",
                           "$",
                           "\u20AC",
                           "\u00A3",
                           "#",
                           "about",
                           "approximately",
                           "nearly",
                           "roughly",
                           "around",
                           "almost",
                           "least",
                           "most",
                           "next",
                           "first",
                           "last",
                           "every",
                           "by",
                           "/",
                           "+",
                           "\u00B1",
                           "chapter",
                           "lesson",
                           "day",
                           "week"}))
      return true;
    if (before.is("of") &&
        !(number > 1 && is_one_of(s[number - 2], {"made", "total", "consists", "bundle", "set"})))
      return true;
  }
  if (end < s.size() &&
      is_one_of(s[end],
                {"or", "\u2013", "to", "more", "extra", "each", "apiece", "/", "%", "at"}) &&
      !(s[end].is("to") && end + 1 < s.size() && !s[end + 1].is_number()))
    return true;
  // "For one block, cut 4 squares": counts of a part.
  for (std::size_t i = 0; i + 1 < number && !is_measure; ++i) {
    const bool block = is_one_of(s[i + 1], {"block", "star", "hexagon", "unit"}) ||
                       std::any_of(s[i + 1].names.begin(), s[i + 1].names.end(),
                                   [](const Name& n) { return n.kind == NameKind::block; });
    if (block && is_one_of(s[i], {"one", "a", "an", "this", "that"})) return true;
  }
  if (!is_measure && any_of(s, 0, number, {"each", "every", "per", "single"})) return true;
  // "For a mini, ...", "make 3 for a runner", "two a week", "from that you can cut 6".
  const auto another = [&](std::size_t i) {
    return i + 2 < s.size() && s[i].is("for") && is_one_of(s[i + 1], {"a", "an", "another"}) &&
           is_one_of(s[i + 2],
                     {"mini",   "runner",  "pillow", "cushion",  "throw", "bed",   "quilt",
                      "topper", "wall",    "baby",   "crib",     "twin",  "queen", "king",
                      "larger", "smaller", "bigger", "placemat", "table", "second"});
  };
  for (std::size_t i = 0; i < s.size(); ++i)
    if (another(i)) return true;
  if (end + 1 < s.size() && s[end].is("a") &&
      is_one_of(s[end + 1], {"day", "week", "month", "time", "year"}))
    return true;
  if (s[0].is("from") && any_of(s, 0, number, {"can", "may"})) return true;
  if (any_of(s, 0, number,
             {"if",       "instead", "another", "other",  "sample",  "test",    "would",
              "should",   "could",   "might",   "than",   "suppose", "example", "remaining",
              "leftover", "spare",   "extra",   "unless", "without", "never",   "not"}))
    return true;
  return any_of(
      s, number, clause_end(s, end),
      {"each",    "every",     "per",    "apiece",  "extra", "more", "leftover", "left",
       "over",    "remaining", "remain", "remains", "spare", "if",   "instead",  "together",
       "another", "other",     "others", "rest",    "would", "than", "time"});
}

std::vector<FabricId> fabrics_in(const Sentence& s, std::size_t begin, std::size_t end) {
  std::vector<FabricId> out;
  for (std::size_t i = begin; i < std::min(end, s.size()); ++i)
    for (const Name& n : s[i].names)
      if (n.kind == NameKind::fabric && std::find(out.begin(), out.end(), n.index) == out.end())
        out.push_back(n.index);
  return out;
}

std::vector<FabricId> fabric_above(const Reading& reading) {
  for (const std::string& words : {reading.passage.lead, reading.passage.heading}) {
    Passage above;
    above.text = words;
    above.tag.assign(words.size(), -1);
    std::vector<FabricId> found;
    for (const Sentence& s : sentences(above, reading.names))
      for (const FabricId f : fabrics_in(s, 0, s.size()))
        if (std::find(found.begin(), found.end(), f) == found.end()) found.push_back(f);
    if (found.size() == 1) return found;
    if (found.size() > 1) return {};
  }
  return {};
}

}  // namespace dogear::editing
