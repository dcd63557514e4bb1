#include "booklet/cloth_words.h"

#include <algorithm>
#include <map>
#include <tuple>

#include "base/length.h"
#include "base/text.h"

namespace dogear::booklet {
namespace {

const char* noun_of(const ClothSource& source) {
  switch (source.kind) {
    case ClothSource::Kind::fat_quarter:
      return "fat quarters";
    case ClothSource::Kind::fat_eighth:
      return "fat eighths";
    case ClothSource::Kind::scrap:
      return "scraps";
    case ClothSource::Kind::bundle:
      return "squares";
    case ClothSource::Kind::yardage:
      break;
  }
  return "strips";
}

std::string measure_of(const Writer& w, const ClothSource& source) {
  const Fraction length = source.length.round_down(16);
  const Fraction height = source.height.value_or(source.length).round_down(16);
  return height == length ? w.words.inches(length) : w.words.inches(height, length);
}

const ClothSource& source_of(const Writer& w, const StripPlan& plan) {
  return w.fabric(plan.fabric).sources[plan.source];
}

bool is_sheet(const Writer& w, const ClothSource& source) {
  return source.kind != ClothSource::Kind::yardage && !is_strip_bundle(w.pattern(), source);
}

}  // namespace

std::string sheets_words(const Writer& w, const ClothSource& source, long long count) {
  return w.words("sheets of measure", {{"sheets", w.words.count(noun_of(source), count)},
                                       {"measure", measure_of(w, source)}});
}

std::string numbered_sheets(const Writer& w, const ClothSource& source, const ClothLayout& layout) {
  const std::string noun = w.words.noun(noun_of(source), layout.times);
  const std::string first = std::to_string(layout.first_sheet);
  const std::string last = std::to_string(layout.first_sheet + layout.times - 1);
  if (layout.times == 1) return w.words("sheet numbered", {{"sheet", noun}, {"n", first}});
  return w.words(layout.times == 2 ? "sheets numbered two" : "sheets numbered",
                 {{"sheets", noun}, {"first", first}, {"last", last}});
}

std::string number_of_pieces(const Writer& w, long long n, PieceId piece) {
  return w.words("number of pieces", {{"n", std::to_string(n)},
                                      {"piece", w.scene.piecing.pieces[piece].label(w.pattern())}});
}

std::string yards_and_metric(const Writer& w, const Fraction& yards, long long centimetres) {
  return w.words("cloth by size", {{"yards", w.words.yards(yards)},
                                   {"metric", w.words.whole_centimetres(centimetres)}});
}

std::vector<const FabricNeed*> needs_by_number(const SizeQuantities& quantities) {
  std::vector<const FabricNeed*> out;
  for (const FabricNeed& need : quantities.fabrics) out.push_back(&need);
  std::sort(out.begin(), out.end(),
            [](const FabricNeed* a, const FabricNeed* b) { return a->fabric < b->fabric; });
  return out;
}

std::string bought_words(const Writer& w, const FabricNeed& need, bool measures) {
  std::vector<std::string> parts;
  for (const SourceUse& use : need.sources) {
    const ClothSource& source = w.fabric(need.fabric).sources[use.source];
    // Bundles are bought as a whole.
    if (source.kind == ClothSource::Kind::yardage || source.kind == ClothSource::Kind::bundle)
      continue;
    parts.push_back(measures ? sheets_words(w, source, use.used)
                             : w.words.count(noun_of(source), use.used));
  }
  if (need.yards && !measures)
    parts.push_back(yards_and_metric(w, *need.yards, need.centimetres.value_or(0)));
  else if (need.yards)
    parts.push_back(w.words.yards(*need.yards));
  return w.words.list(parts);
}

std::string strip_words(const Writer& w, const ClothLayout& layout, const ClothLayout::Part& part,
                        bool across) {
  const StripPlan& plan = *part.plan;
  const ClothSource& source = source_of(w, plan);
  const std::string height = w.words.inches(plan.height);
  if (layout.kind == ClothLayout::Kind::panel)
    return w.words(across ? "strip beside" : "strip along", {{"height", height}});
  if (layout.kind == ClothLayout::Kind::strip) {
    if (is_strip_bundle(w.pattern(), source)) return w.words("bundle strip", {{"height", height}});
    if (!is_sheet(w, source)) return w.words("wof strip", {{"height", height}});
    return w.words("whole sheet", {{"sheet", w.words.noun(noun_of(source), 1)},
                                   {"measure", measure_of(w, source)}});
  }
  if (!is_sheet(w, source)) {
    const bool alone = layout.parts.size() == 1 && part.times == 1;
    const bool first = &part == &layout.parts.front();
    return w.words(
        alone   ? "bundle strip cut down"
        : first ? "from bundle strip"
                : "from same strip",
        {{"height", height}, {"strip", w.words.inches(layout.height.round_nearest(16))}});
  }
  const std::string sheets = numbered_sheets(w, source, layout);
  const std::string times = w.words.number(part.times);
  if (layout.times == 1) return w.words("from sheet", {{"height", height}, {"sheet", sheets}});
  return w.words(part.times == 1 ? "from each sheet" : "several from each sheet",
                 {{"height", height}, {"n", times}, {"sheets", sheets}});
}

namespace {

// Runs of a strip that are told of together.
struct RunGroup {
  const dogear::Run* first = nullptr;
  std::vector<long long> counts;
  long long sum = 0;
  std::vector<std::pair<PieceId, long long>> also;
};

bool told_together(const dogear::Run& a, const dogear::Run& b) {
  if (std::tie(a.kind, a.piece, a.strip_set, a.purpose) !=
          std::tie(b.kind, b.piece, b.strip_set, b.purpose) ||
      !(a.height == b.height))
    return false;
  return a.kind == dogear::Run::Kind::piece || a.length == b.length;
}

std::vector<RunGroup> groups_of(const StripPlan& plan) {
  std::vector<RunGroup> out;
  for (const dogear::Run& run : plan.runs) {
    if (run.kind == dogear::Run::Kind::leftover) continue;
    auto group = std::find_if(out.begin(), out.end(),
                              [&](const RunGroup& g) { return told_together(*g.first, run); });
    if (group == out.end()) group = out.insert(out.end(), RunGroup{&run, {}, 0, {}});
    group->counts.push_back(run.count);
    group->sum += run.count;
    for (const auto& [piece, n] : run.also) {
      const auto known = std::find_if(group->also.begin(), group->also.end(),
                                      [p = piece](const auto& a) { return a.first == p; });
      if (known == group->also.end())
        group->also.emplace_back(piece, n);
      else
        known->second += n;
    }
  }
  return out;
}

std::string pieces_words(const Writer& w, const RunGroup& group) {
  const std::string label = w.scene.piecing.pieces[group.first->piece].label(w.pattern());
  const bool rows = group.counts.size() > 1 && group.also.empty() &&
                    std::all_of(group.counts.begin(), group.counts.end(),
                                [&](long long n) { return n == group.counts.front(); });
  if (rows)
    return w.words("rows of pieces", {{"rows", std::to_string(group.counts.size())},
                                      {"n", std::to_string(group.counts.front())},
                                      {"piece", label}});
  std::string text = number_of_pieces(w, group.sum, group.first->piece);
  for (const auto& [piece, n] : group.also)
    text +=
        " " + w.words("cut with", {{"n", std::to_string(n)},
                                   {"piece", w.scene.piecing.pieces[piece].label(w.pattern())}});
  return text;
}

// Strips that are joined end to end first and cut to length when the top is measured.
bool is_joined(const Writer& w, const std::string& purpose) {
  const auto& sleeve = w.quantities().sleeve;
  return purpose == "border" ||
         (purpose == "sleeve" && sleeve &&
          Exact(sleeve->length) > longest_strip(w.pattern(), sleeve->fabric));
}

// Whether nothing else is cut from the strip.
bool is_all_of(const StripPlan& plan) {
  return std::count_if(plan.runs.begin(), plan.runs.end(), [](const dogear::Run& r) {
           return r.kind != dogear::Run::Kind::leftover;
         }) == 1;
}

std::string group_words(const Writer& w, const StripPlan& plan, const RunGroup& group) {
  const dogear::Run& run = *group.first;
  const std::string purpose = run.purpose.empty() ? plan.purpose : run.purpose;
  std::string text;
  bool by_length = run.kind == dogear::Run::Kind::strip_set;
  switch (run.kind) {
    case dogear::Run::Kind::piece:
      text = pieces_words(w, group);
      break;
    case dogear::Run::Kind::strip_set:
      text = w.words("for strip set", {{"n", std::to_string(run.strip_set + 1)},
                                       {"length", w.words.inches(run.length)}});
      break;
    case dogear::Run::Kind::whole_strip:
      if (purpose == "binding" && w.quantities().binding && w.quantities().binding->square)
        return w.words("bias squares for",
                       {{"squares", w.words.count("squares", group.sum)},
                        {"length", w.words.inches(*w.quantities().binding->square)}});
      if (purpose.empty() || purpose == "pieces")
        text = w.words("whole strip");
      else if (run.length == plan.usable)
        text = w.words.named("for ", purpose);
      else if (is_joined(w, purpose) && is_all_of(plan))
        text = w.words("whole strip for purpose", {{"purpose", w.words.named("for ", purpose)}});
      else {
        by_length = true;
        text = w.words("length for purpose", {{"length", w.words.inches(run.length)},
                                              {"purpose", w.words.named("for ", purpose)}});
      }
      break;
    case dogear::Run::Kind::leftover:
      return {};
  }
  if (run.kind != dogear::Run::Kind::piece && group.counts.size() > 1)
    text = w.words(by_length ? "several lengths" : "several",
                   {{"n", std::to_string(group.counts.size())}, {"what", text}});
  if (run.height.num > 0 && !(run.height == plan.height))
    text += " " + w.words("cut down", {{"height", w.words.inches(run.height)}});
  return text;
}

// What squares cut apart give more than is sewn.
std::map<PieceId, long long> spare_of(const Writer& w, const StripPlan& plan) {
  std::map<PieceId, long long> out;
  for (const dogear::Run& run : plan.runs) {
    const CutPiece* cut =
        run.kind == dogear::Run::Kind::piece ? cut_of(w.quantities(), run.piece) : nullptr;
    const long long n = cut == nullptr ? 0 : spare_pieces(cut->cut, run.count);
    if (n > 0) out[run.piece] += n;
  }
  return out;
}

}  // namespace

std::string runs_words(const Writer& w, const StripPlan& plan) {
  std::vector<std::string> parts;
  for (const RunGroup& group : groups_of(plan)) parts.push_back(group_words(w, plan, group));
  return join(parts, ", ");
}

std::string strip_rest_words(const Writer& w, const StripPlan& plan) {
  constexpr std::size_t most = 3;
  std::vector<const dogear::Run*> rests;
  for (const dogear::Run& run : plan.runs)
    if (run.kind == dogear::Run::Kind::leftover) rests.push_back(&run);
  std::stable_sort(rests.begin(), rests.end(), [](const dogear::Run* a, const dogear::Run* b) {
    return Exact(b->height) * Exact(b->length) < Exact(a->height) * Exact(a->length);
  });
  std::vector<std::string> parts;
  for (const dogear::Run* run : rests) {
    if (parts.size() == most) break;
    parts.push_back(pretty(run->height) + " × " + w.words.inches(run->length));
  }
  for (const auto& [piece, n] : spare_of(w, plan)) parts.push_back(number_of_pieces(w, n, piece));
  return parts.empty() ? "–" : join(parts, "; ");
}

std::string leftover_words(const Writer& w, const FabricNeed& need) {
  constexpr std::size_t most = 6;
  // What gives no patch of an inch; a long one may still become a narrow strip.
  const auto is_small = [](const Leftover& l) {
    const Exact height(l.height), length(l.length);
    return min(height, length) < Exact(Fraction{max(height, length) < Exact(12) ? 3 : 2, 2});
  };
  std::vector<const Leftover*> sorted;
  for (const Leftover& l : need.leftovers) sorted.push_back(&l);
  const auto rank = [](const Leftover& l) {
    return l.piece ? 1 : l.from == Leftover::From::whole_sheet ? -1 : 0;
  };
  std::stable_sort(sorted.begin(), sorted.end(), [&](const Leftover* a, const Leftover* b) {
    if (rank(*a) != rank(*b)) return rank(*a) < rank(*b);
    return Exact(b->height) * Exact(b->length) < Exact(a->height) * Exact(a->length);
  });
  std::vector<std::string> parts;
  std::size_t shown = 0;
  long long ends = 0;
  for (const Leftover* l : sorted) {
    const std::string n = std::to_string(l->count);
    if (l->piece) {
      parts.push_back(number_of_pieces(w, l->count, *l->piece));
      continue;
    }
    const ClothSource& source = w.fabric(need.fabric).sources[l->source];
    if (l->from == Leftover::From::whole_sheet) {
      parts.push_back(is_strip_bundle(w.pattern(), source)
                          ? w.words.count("left over whole", l->count)
                          : sheets_words(w, source, l->count));
      continue;
    }
    if (is_small(*l) || shown == most) {
      ends += l->count;
      continue;
    }
    ++shown;
    parts.push_back(
        w.words(l->count == 1 ? "left over piece" : "left over pieces",
                {{"n", n}, {"height", pretty(l->height)}, {"length", w.words.inches(l->length)}}));
  }
  if (ends > 0) parts.push_back(w.words.count("small ends", ends));
  return join(parts, "; ");
}

std::string backing_words(const Writer& w, const Backing& b) {
  std::string text = w.words("backing need", {{"yards", w.words.yards(b.yards)},
                                              {"metric", w.words.whole_centimetres(b.centimetres)},
                                              {"size", w.words.inches(b.width, b.height)}});
  if (b.panels == 1) text += w.words("no seam");
  if (b.wide)
    text += w.words(b.wide_panels == 1 ? "wide backing need" : "wide backing need seamed",
                    {{"yards", w.words.yards(b.wide_yards)},
                     {"metric", w.words.whole_centimetres(b.wide_centimetres)},
                     {"width", w.words.inches(*b.wide)}});
  return text;
}

std::string batting_words(const Writer& w, const Batting& b) {
  return w.words(b.package.empty() ? "batting need" : "batting package",
                 {{"size", w.words.inches(b.width, b.height)},
                  {"package", spelled(w.words, pretty_fractions(b.package))}});
}

}  // namespace dogear::booklet
