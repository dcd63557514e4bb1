// What to cut: fabric by fabric, tallest strips first.

#include <algorithm>

#include "base/length.h"
#include "base/text.h"
#include "booklet/writer.h"
#include "cutting/reach.h"
#include "drawing/strips.h"

namespace dogear::booklet {
namespace {

constexpr double longest_subcut = 20;  // in; longer pieces are one or two of a strip

std::string subcut(const Writer& w, const PieceCut& cut) {
  const std::string length = pretty_inches(cut.length);
  switch (cut.method) {
    case CutMethod::rectangle:
      if (beyond_rulers(w.pattern(), cut)) {
        const Fraction half = (Exact(cut.length) / Exact(2)).round_up(64);
        return w.words("subcut beyond ruler", {{"length", length}, {"half", pretty_inches(half)}});
      }
      if (cut.length.approx() > longest_subcut) return w.words("subcut long", {{"length", length}});
      return cut.length == cut.strip ? w.words("subcut squares", {{"length", length}})
                                     : w.words("subcut rectangle", {{"length", length}});
    case CutMethod::half_square:
      return w.words("subcut half", {{"length", length}});
    case CutMethod::quarter_square:
      return w.words("subcut quarter", {{"length", length}});
    case CutMethod::joined_strip:
      return w.words("subcut joined", {{"length", length}});
    case CutMethod::half_angled:
      return cut.reading ? w.words("subcut half angled", {{"cut", reading_words(w, cut)}})
                         : w.words("subcut half angled length", {{"length", length}});
    case CutMethod::templated:
      return w.words("subcut template", {{"length", length}});
    case CutMethod::angled:
      if (cut.reading) return reading_words(w, cut);
      return w.words(cut.parallel ? "subcut slanted" : "subcut slanted ends",
                     {{"length", length}, {"angle", std::to_string(cut.angle)}});
    case CutMethod::lengthwise:
      return w.words("subcut lengthwise", {{"length", length}});
    case CutMethod::from_strip_set:
      return reading_words(w, cut);
  }
  return {};
}

std::string strip_words(const Writer& w, const StripPlan& plan) {
  const std::string height = pretty_inches(plan.height);
  return plan.from_bundle ? w.words("bundle strip", {{"height", height}})
                          : w.words("wof strip", {{"height", height}});
}

std::string run_words(const Writer& w, const StripPlan& plan, const dogear::Run& run) {
  std::string text;
  switch (run.kind) {
    case dogear::Run::Kind::piece:
      text = std::to_string(run.count) + " " + w.scene.piecing.pieces[run.piece].label(w.pattern());
      for (const auto& [piece, n] : run.also) {
        text += " " +
                w.words("cut with", {{"n", std::to_string(n)},
                                     {"piece", w.scene.piecing.pieces[piece].label(w.pattern())}});
      }
      break;
    case dogear::Run::Kind::strip_set:
      text = w.words("for strip set", {{"n", std::to_string(run.strip_set + 1)},
                                       {"length", pretty_inches(run.length)}});
      break;
    case dogear::Run::Kind::whole_strip:
      text = plan.purpose == "pieces" || plan.purpose.empty()
                 ? w.words("whole strip")
                 : w.words("for purpose", {{"purpose", plan.purpose}});
      break;
    case dogear::Run::Kind::leftover:
      return {};
  }
  if (run.height.num > 0 && !(run.height == plan.height))
    text += " " + w.words("cut down", {{"height", pretty_inches(run.height)}});
  return text;
}

std::vector<Cell> head(const Column& column, std::initializer_list<std::string> names) {
  std::vector<Cell> out;
  for (const std::string& name : names) out.push_back({column.plain(name), {}});
  return out;
}

void strips_table(Writer& w, Column& column, FabricId fabric) {
  Table table;
  table.head = head(column, {w.words("head strips"), w.words("head strip"),
                             w.words("head from each"), w.words("head left")});
  table.align = "rllr";
  table.shares = {0.7, 2.8, 5, 1.2};
  for (const StripPlan& plan : w.quantities().strips) {
    if (plan.fabric != fabric) continue;
    std::vector<std::string> runs;
    std::string left = "–";
    for (const dogear::Run& run : plan.runs) {
      if (run.kind == dogear::Run::Kind::leftover)
        left = pretty_inches(run.length);
      else
        runs.push_back(run_words(w, plan, run));
    }
    table.rows.push_back({Cell{{{std::to_string(plan.times), column.bold(), false}}, {}},
                          Cell{column.plain(strip_words(w, plan)), {}},
                          Cell{column.plain(join(runs, ", ")), {}}, Cell{column.plain(left), {}}});
  }
  if (!table.rows.empty()) column.table(table);
}

void pieces_table(Writer& w, Column& column, FabricId fabric) {
  Table table;
  table.head =
      head(column, {w.words("head piece"), w.words("head shape"), w.words("head strip height"),
                    w.words("head subcut"), w.words("head cut")});
  table.align = "llllr";
  table.shares = {0.9, 2.3, 1.1, 4.9, 0.8};
  for (const CutPiece& cut : w.quantities().pieces) {
    const Piece& piece = w.scene.piecing.pieces[cut.piece];
    if (piece.fabric != fabric || piece.in_strip_set) continue;
    table.rows.push_back({Cell{{{piece.label(w.pattern()), column.bold(), false}}, {}},
                          Cell{column.plain(piece.shape_words), {}},
                          Cell{column.plain(pretty_inches(cut.cut.strip)), {}},
                          Cell{column.plain(subcut(w, cut.cut) + layers_words(w, cut)), {}},
                          Cell{{{std::to_string(cut.count), column.bold(), false}}, {}}});
  }
  if (!table.rows.empty()) column.table(table);
}

void directional_words(Writer& w, Column& column, FabricId fabric) {
  if (!w.fabric(fabric).directional) return;
  std::string text = w.words("directional", {{"name", w.fabric(fabric).name}});
  bool together = false, squares = false;
  for (const StripPlan& plan : w.quantities().strips) {
    for (const dogear::Run& run : plan.runs) {
      if (plan.fabric != fabric || run.also.empty()) continue;
      const auto& pieces = w.quantities().pieces;
      const auto cut = std::find_if(pieces.begin(), pieces.end(),
                                    [&](const CutPiece& c) { return c.piece == run.piece; });
      if (cut == pieces.end()) continue;
      const bool square =
          cut->cut.method == CutMethod::half_square || cut->cut.method == CutMethod::quarter_square;
      (square ? squares : together) = true;
    }
  }
  if (squares) text += " " + w.words("directional squares");
  if (together) text += " " + w.words("directional turn about");
  ParagraphStyle how;
  how.keep_with_next = true;
  column.paragraph({{text, column.italic(), false}}, how);
}

// One figure for each kind of strip that is cut into pieces; whole strips need none.
void strip_figures(Writer& w, Column& column, FabricId fabric) {
  std::size_t n = 0;
  std::vector<Picture> figures;
  for (const StripPlan& plan : w.quantities().strips) {
    if (plan.fabric != fabric) continue;
    ++n;
    const bool parted = std::any_of(plan.runs.begin(), plan.runs.end(), [](const dogear::Run& r) {
      return r.kind == dogear::Run::Kind::piece;
    });
    if (!parted) continue;
    const auto figure = w.picture("cutting/" + w.fabric(fabric).id + "/" + std::to_string(n),
                                  column.width(), w.style.text_height() / 4);
    if (figure) figures.push_back(*figure);
  }
  for (std::size_t k = 0; k < figures.size(); ++k) {
    // No figure stands alone above the next fabric.
    if (k == 0 || k + 1 == figures.size()) column.keep_last_with_next();
    column.figure(figures[k], {}, false);
    column.tighten(w.style.type.leading * 0.5);
    column.boxes.back().before = w.style.type.leading * 0.3;
  }
  column.space(w.style.type.leading);
}

std::string sew_strips(const Writer& w, const StripSet& set,
                       const std::vector<std::string>& strips) {
  const bool pair = set.strips.size() == 2;
  const std::string sew =
      pair ? w.words(set.strips[0].second == set.strips[1].second ? "strip set pair"
                                                                  : "strip set unequal pair",
                     {{"width", pretty_inches(set.strips[0].second)},
                      {"other width", pretty_inches(set.strips[1].second)},
                      {"name", w.fabric(set.strips[0].first).name},
                      {"other", w.fabric(set.strips[1].first).name}})
           : w.words("strip set sew", {{"strips", w.words.list(strips)}});
  const std::vector<Seam>& seams = w.scene.piecing.units[set.unit].seams;
  const auto all = [&](Press way) {
    return std::all_of(seams.begin(), seams.end(), [&](const Seam& s) { return s.press == way; });
  };
  if (all(Press::open)) return sew + " " + w.words(pair ? "strip set open" : "strip set open all");
  const bool to_first = all(Press::to_first);
  const FabricId first = set.strips.front().first, last = set.strips.back().first;
  if (first == last || (!to_first && !all(Press::to_second)))
    return sew + " " + w.words(pair ? "strip set press" : "strip set press all");
  // The strips may be listed from the other side than the unit's.
  const auto& inputs = w.scene.piecing.units[set.unit].inputs;
  const FabricId towards =
      w.scene.piecing.pieces[(to_first ? inputs.front() : inputs.back()).piece].fabric;
  return sew + " " +
         w.words(pair ? "strip set press toward" : "strip set press all toward",
                 {{"name", w.fabric(towards).name}});
}

// How pieces with one square end are cut, told once, at the first fabric that has them.
void half_angled_words(Writer& w, Column& column, FabricId fabric, bool& told) {
  const auto& pieces = w.quantities().pieces;
  const auto of_fabric = [&](const CutPiece& c) {
    return c.cut.method == CutMethod::half_angled && !c.cut.reading && !c.cut.rulers.empty() &&
           w.scene.piecing.pieces[c.piece].fabric == fabric;
  };
  if (told) return;
  const auto first = std::find_if(pieces.begin(), pieces.end(), of_fabric);
  if (first == pieces.end()) return;
  told = true;
  std::vector<std::string> all, below, above;
  for (const CutPiece& c : pieces) {
    if (!of_fabric(c) || !(c.cut.length == first->cut.length) || !(c.cut.strip == first->cut.strip))
      continue;
    const std::string label = w.scene.piecing.pieces[c.piece].label(w.pattern());
    all.push_back(label);
    (drawing::is_long_below(c.cut) ? below : above).push_back(label);
  }
  std::vector<Runs> words;
  words.push_back(
      {{w.words("half angled title", {{"pieces", w.words.list(all)}}) + " ", column.bold(), false},
       {w.words("half angled how", {{"length", pretty_inches(first->cut.length)},
                                    {"ruler", w.pattern().rulers[first->cut.rulers.front()].name},
                                    {"short", pretty_inches(half_angled_short_edge(first->cut))}}),
        column.text(), false}});
  if (!below.empty() && !above.empty())
    words.push_back(column.plain(w.words(
        "half angled edges", {{"below", w.words.list(below)}, {"above", w.words.list(above)}})));
  column.cards({{"", w.picture("ruler/" + all.front(), column.width() * 0.36, 120), words}}, 1);
}

void strip_sets(Writer& w, Column& column) {
  const auto& sets = w.quantities().strip_sets;
  if (sets.empty()) return;
  w.heading(column, 2, w.words("strip sets"), "strip-sets");
  column.paragraph(w.words("strip sets intro"), {.keep_with_next = true});
  for (std::size_t n = 0; n < sets.size(); ++n) {
    const StripSet& set = sets[n];
    const std::string number = std::to_string(n + 1);
    std::vector<std::string> strips, lengths;
    for (const auto& [fabric, width] : set.strips)
      strips.push_back(w.words("strip of set", {{"number", std::to_string(w.fabric(fabric).number)},
                                                {"name", w.fabric(fabric).name},
                                                {"width", pretty_inches(width)}}));
    for (const Fraction& length : set.set_lengths) {
      const std::string text = pretty_inches(length);
      if (std::find(lengths.begin(), lengths.end(), text) == lengths.end()) lengths.push_back(text);
    }
    std::vector<Runs> words;
    words.push_back({{w.words("strip set", {{"n", number}}), column.bold(), false},
                     {" " + sew_strips(w, set, strips), column.text(), false}});
    words.push_back(column.plain(
        w.words("strip set make",
                {{"sets", w.words.count("sets", set.sets)}, {"lengths", w.words.list(lengths)}}) +
        " " +
        w.words("strip set cut",
                {{"n", std::to_string(set.need)}, {"cut", reading_words(w, set.cut)}})));
    if (set.extra > 0)
      words.push_back(column.plain(
          w.words(set.extra == 1 ? "one extra" : "extra", {{"n", w.words.number(set.extra)}})));
    column.cards({{"", w.card_picture("cutting/strip-set/" + number, column.width(), 150), words}},
                 1);
  }
}

// "1 whole strip; 2½ × 16¼ in": whole strips first, then the longest.
std::string left_of(const Writer& w, const FabricNeed& need) {
  std::vector<std::string> parts;
  const long long whole = need.bundle_strips_had - need.bundle_strips;
  if (whole > 0) parts.push_back(w.words.count("left over whole", whole));
  std::vector<std::pair<Fraction, Fraction>> ends;  // length, height
  for (const StripPlan& plan : w.quantities().strips) {
    if (plan.fabric != need.fabric) continue;
    for (const dogear::Run& run : plan.runs) {
      if (run.kind != dogear::Run::Kind::leftover || run.length.num <= 0) continue;
      const Fraction height = run.height.num > 0 ? run.height : plan.height;
      ends.insert(ends.end(), static_cast<std::size_t>(plan.times), {run.length, height});
    }
  }
  std::stable_sort(ends.begin(), ends.end(),
                   [](const auto& a, const auto& b) { return Exact(b.first) < Exact(a.first); });
  for (const auto& [length, height] : ends)
    parts.push_back(w.words("left over piece",
                            {{"height", pretty(height)}, {"length", pretty_inches(length)}}));
  return join(parts, "; ");
}

void left_over(Writer& w, Column& column) {
  std::vector<const FabricNeed*> needs;
  for (const FabricNeed& need : w.quantities().fabrics) needs.push_back(&need);
  std::sort(needs.begin(), needs.end(),
            [](const FabricNeed* a, const FabricNeed* b) { return a->fabric < b->fabric; });
  Table table;
  table.head =
      head(column, {w.words("head number"), w.words("head fabric"), w.words("head what is left")});
  table.align = "rll";
  table.shares = {0.5, 2.2, 8};
  for (const FabricNeed* need : needs) {
    const std::string left = left_of(w, *need);
    if (left.empty()) continue;
    table.rows.push_back({Cell{column.plain(std::to_string(w.fabric(need->fabric).number)), {}},
                          Cell{{{w.fabric(need->fabric).name, column.bold(), false}}, {}},
                          Cell{column.plain(left), {}}});
  }
  if (table.rows.empty()) return;
  w.heading(column, 2, w.words("left over"), "left-over");
  column.paragraph(w.words("left over intro"), {.keep_with_next = true});
  column.table(table);
}

}  // namespace

void write_cutting_tables(Writer& w, Column& column) {
  std::vector<FabricId> order;
  for (const FabricNeed& need : w.quantities().fabrics) order.push_back(need.fabric);
  std::sort(order.begin(), order.end());
  write_layers(w, column);
  bool told = false;  // how half-triangles are cut
  for (const FabricId fabric : order) {
    const auto& strips = w.quantities().strips;
    if (std::none_of(strips.begin(), strips.end(),
                     [&](const StripPlan& s) { return s.fabric == fabric; }))
      continue;
    const std::size_t first = column.boxes.size();
    w.heading(column, 2,
              w.words("fabric heading", {{"number", std::to_string(w.fabric(fabric).number)},
                                         {"name", w.fabric(fabric).name}}),
              "cutting/" + w.fabric(fabric).id, w.swatch(fabric, 32, 19));
    w.unlist_last();
    column.boxes[first].stretch = 24;
    strips_table(w, column, fabric);
    pieces_table(w, column, fabric);
    directional_words(w, column, fabric);
    write_hands(w, column, fabric);
    half_angled_words(w, column, fabric, told);
    strip_figures(w, column, fabric);
  }
  strip_sets(w, column);
  left_over(w, column);
}

void write_cutting(Writer& w, Column& column) {
  w.heading(column, 1, w.words("cutting"), "cutting");
  column.paragraph(w.words("cutting intro"));
  write_cutting_tables(w, column);
}

}  // namespace dogear::booklet
