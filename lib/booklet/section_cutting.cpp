// What to cut: fabric by fabric, tallest strips first.

#include <algorithm>

#include "base/length.h"
#include "base/text.h"
#include "booklet/cloth_words.h"
#include "booklet/writer.h"
#include "cutting/border_cut.h"
#include "cutting/reach.h"
#include "drawing/strips.h"
#include "piecing/press.h"

namespace dogear::booklet {
namespace {

constexpr double longest_subcut = 20;  // in; longer pieces are one or two of a strip
constexpr double whole_fabric = 3;     // cost of parting a fabric that one page holds

// Squares cut apart for these pieces; nothing where other kinds come from the same squares.
std::optional<long long> squares_of(const Writer& w, const CutPiece& piece) {
  for (const StripPlan& plan : w.quantities().strips) {
    for (const dogear::Run& run : plan.runs) {
      const bool in = run.piece == piece.piece ||
                      std::any_of(run.also.begin(), run.also.end(),
                                  [&](const auto& a) { return a.first == piece.piece; });
      if (in && !run.also.empty()) return {};
    }
  }
  return (piece.count + piece.cut.per_cut - 1) / piece.cut.per_cut;
}

// A border is cut to length when the top is measured; a mitred one has something to spare.
std::string border_subcut(const Writer& w, PieceId piece, const PieceCut& cut) {
  const bool mitred = w.scene.piecing.pieces[piece].mitred;
  if (!mitred && !is_border_strip(w, piece)) return {};
  const bool joined = cut.method == CutMethod::joined_strip;
  const WordValues values = {{"length", w.words.inches(cut.length)},
                             {"spare", w.words.inches(mitre_spare().round_nearest(8))}};
  if (mitred) return w.words(joined ? "subcut mitred joined" : "subcut mitred", values);
  return w.words(joined ? "subcut border joined" : "subcut border", values);
}

std::string beyond_ruler_words(const Writer& w, const PieceCut& cut, const char* key) {
  const Fraction half = (Exact(cut.length) / Exact(2)).round_up(64);
  return w.words(key, {{"strip", w.words.inches(cut.strip)},
                       {"length", w.words.inches(cut.length)},
                       {"half", w.words.inches(half)}});
}

std::string subcut(const Writer& w, const CutPiece& piece) {
  const PieceCut& cut = piece.cut;
  const std::string length = w.words.inches(cut.length);
  if (std::string border = border_subcut(w, piece.piece, cut); !border.empty()) return border;
  const auto cut_apart = [&](const char* one, const char* more, const char* some) {
    const auto n = squares_of(w, piece);
    return n ? w.words(*n == 1 ? one : more,
                       {{"squares", w.words.count("squares", *n)}, {"length", length}})
             : w.words(some, {{"length", length}});
  };
  if (w.scene.piecing.pieces[piece.piece].generous && cut.method == CutMethod::rectangle) {
    if (beyond_rulers(w.pattern(), cut))
      return beyond_ruler_words(w, cut, "subcut generous beyond ruler");
    return w.words("subcut generous", {{"strip", w.words.inches(cut.strip)}, {"length", length}});
  }
  switch (cut.method) {
    case CutMethod::rectangle:
      if (beyond_rulers(w.pattern(), cut)) return beyond_ruler_words(w, cut, "subcut beyond ruler");
      if (cut.length.approx() > longest_subcut) return w.words("subcut long", {{"length", length}});
      return cut.length == cut.strip ? w.words("subcut squares", {{"length", length}})
                                     : w.words("subcut rectangle", {{"length", length}});
    case CutMethod::half_square:
      return cut_apart("subcut half one", "subcut half", "subcut some half");
    case CutMethod::quarter_square:
      return cut_apart("subcut quarter one", "subcut quarter", "subcut some quarter");
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

// Lengths of cloth for strips along it come off first.
void panel_words(Writer& w, Column& column, const std::vector<ClothLayout>& layouts) {
  std::vector<std::string> lengths;
  for (const ClothLayout& l : layouts)
    if (l.kind == ClothLayout::Kind::panel)
      lengths.push_back(w.words.inches(l.length.round_up(16)));
  if (lengths.empty()) return;
  ParagraphStyle how;
  how.keep_with_next = true;
  column.paragraph(w.words(lengths.size() == 1 ? "panel first" : "panels first",
                           {{"lengths", w.words.list(lengths)}}),
                   how);
}

void strips_table(Writer& w, Column& column, const std::vector<ClothLayout>& layouts) {
  Table table;
  table.head = column.head({w.words("head strips"), w.words("head strip"),
                            w.words("head from each"), w.words("head left")});
  table.align = "rllr";
  table.shares = {0.6, 3.1, 3.8, 2.2};
  const auto row = [&](const ClothLayout& layout, const ClothLayout::Part& part, bool across) {
    const std::string times = std::to_string(part.times * layout.times);
    table.rows.push_back({Cell{{{times, column.bold(), false}}, {}},
                          Cell{column.plain(strip_words(w, layout, part, across)), {}},
                          Cell{column.plain(runs_words(w, *part.plan)), {}},
                          Cell{column.plain(strip_rest_words(w, *part.plan)), {}}});
  };
  for (const ClothLayout& layout : layouts) {
    for (const ClothLayout::Part& part : layout.parts) row(layout, part, false);
    for (const ClothLayout::Part& part : layout.across) row(layout, part, true);
  }
  if (!table.rows.empty()) column.table(table);
}

void pieces_table(Writer& w, Column& column, FabricId fabric) {
  Table table;
  table.head =
      column.head({w.words("head piece"), w.words("head shape"), w.words("head strip height"),
                   w.words("head subcut"), w.words("head cut")});
  table.align = "llllr";
  table.shares = {0.9, 2.3, 1.1, 4.9, 0.8};
  for (const CutPiece& cut : w.quantities().pieces) {
    const Piece& piece = w.scene.piecing.pieces[cut.piece];
    if (piece.fabric != fabric || piece.in_strip_set) continue;
    table.rows.push_back({Cell{{{piece.label(w.pattern()), column.bold(), false}}, {}},
                          Cell{column.plain(w.words.named("shape ", piece.shape_words)), {}},
                          Cell{column.plain(w.words.inches(cut.cut.strip)), {}},
                          Cell{column.plain(subcut(w, cut) + layers_words(w, cut)), {}},
                          Cell{{{std::to_string(cut.count), column.bold(), false}}, {}}});
  }
  if (!table.rows.empty()) column.table(table);
}

void directional_words(Writer& w, Column& column, FabricId fabric) {
  if (!w.fabric(fabric).directional) return;
  std::string text = w.words("directional", {{"name", w.fabric(fabric).name}});
  const auto kinds = std::count_if(
      w.quantities().pieces.begin(), w.quantities().pieces.end(),
      [&](const CutPiece& c) { return w.scene.piecing.pieces[c.piece].fabric == fabric; });
  if (kinds > 1) text += " " + w.words("directional kinds");
  bool together = false, squares = false;
  for (const StripPlan& plan : w.quantities().strips) {
    for (const dogear::Run& run : plan.runs) {
      if (plan.fabric != fabric || run.also.empty()) continue;
      const CutPiece* cut = cut_of(w.quantities(), run.piece);
      if (cut == nullptr) continue;
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

// Told once, at the first fabric that has them.
void generous_words(Writer& w, Column& column, FabricId fabric, bool& told) {
  const auto& pieces = w.quantities().pieces;
  const bool any = std::any_of(pieces.begin(), pieces.end(), [&](const CutPiece& c) {
    const Piece& piece = w.scene.piecing.pieces[c.piece];
    return piece.generous && piece.fabric == fabric;
  });
  if (told || !any) return;
  told = true;
  ParagraphStyle how;
  how.keep_with_next = true;
  column.paragraph({{w.words("cut generously"), column.italic(), false}}, how);
}

bool has_pieces(const ClothLayout& layout) {
  const auto parted = [](const ClothLayout::Part& part) {
    return std::any_of(part.plan->runs.begin(), part.plan->runs.end(),
                       [](const dogear::Run& r) { return r.kind == dogear::Run::Kind::piece; });
  };
  return std::any_of(layout.parts.begin(), layout.parts.end(), parted) ||
         std::any_of(layout.across.begin(), layout.across.end(), parted);
}

Picture side_by_side(const Picture& a, const Picture& b, double gap) {
  canvas::DisplayList both;
  both.draw(a.list, {});
  both.draw(b.list, canvas::Transform::move(a.width + gap, 0));
  return {canvas::share(std::move(both)), a.width + gap + b.width, std::max(a.height, b.height),
          a.alt + ". " + b.alt};
}

// One figure for each kind of strip, sheet or length that is cut into pieces; whole strips need
// none. Small sheets stand side by side.
void strip_figures(Writer& w, Column& column, FabricId fabric,
                   const std::vector<ClothLayout>& layouts) {
  constexpr double gap = 18;           // pt between sheets
  constexpr double most_height = 0.6;  // of the page
  std::vector<Picture> figures;
  for (std::size_t n = 0; n < layouts.size(); ++n) {
    if (!has_pieces(layouts[n])) continue;
    const auto figure = w.picture("cutting/" + w.fabric(fabric).id + "/" + std::to_string(n + 1),
                                  column.width(), w.style.text_height() * most_height);
    if (!figure) continue;
    if (!figures.empty() && figures.back().width + gap + figure->width <= column.width())
      figures.back() = side_by_side(figures.back(), *figure, gap);
    else
      figures.push_back(*figure);
  }
  for (std::size_t k = 0; k < figures.size(); ++k) {
    // No figure stands alone above the next fabric.
    if (k > 0 && k + 1 == figures.size()) column.keep_last_with_next();
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
                     {{"width", w.words.inches(set.strips[0].second)},
                      {"other width", w.words.inches(set.strips[1].second)},
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
  // The strips may be listed from the other side than the unit's.
  const SewnUnit& unit = w.scene.piecing.units[set.unit];
  const auto fabric_of = [&](std::size_t input) {
    return w.scene.piecing.pieces[unit.inputs[input].piece].fabric;
  };
  const auto under = [&](const Seam& s) {
    return fabric_of(s.press == Press::to_first ? s.first : s.second);
  };
  const bool one_way = std::all_of(seams.begin(), seams.end(), [&](const Seam& s) {
    return s.press != Press::open && under(s) == under(seams.front());
  });
  if (takes_turns(w.scene.piecing, unit) && one_way)
    return sew + " " +
           w.words("strip set press each toward", {{"name", w.fabric(under(seams.front())).name}});
  if (first == last || (!to_first && !all(Press::to_second)))
    return sew + " " + w.words(pair ? "strip set press" : "strip set press all");
  const FabricId towards = fabric_of(to_first ? 0 : unit.inputs.size() - 1);
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
       {w.words("half angled how", {{"length", w.words.inches(first->cut.length)},
                                    {"ruler", w.pattern().rulers[first->cut.rulers.front()].name},
                                    {"short", w.words.inches(half_angled_short_edge(first->cut))}}),
        column.text(), false}});
  if (!below.empty() && !above.empty())
    words.push_back(column.plain(w.words(
        "half angled edges", {{"below", w.words.list(below)}, {"above", w.words.list(above)}})));
  column.cards({{"", w.picture("ruler/" + all.front(), column.width() * 0.36, 120), words}}, 1);
}

// "7", or "7 (6 and 1)" where the sets are not equally long.
std::string shapes_given(const Writer& w, const StripSet& set) {
  std::vector<std::string> each;
  long long rest = set.need + set.extra;
  for (std::size_t n = 0; n < set.set_lengths.size() && rest > 0; ++n) {
    const long long given = std::min<long long>(rest, drawing::shapes_of(w.scene, set, n));
    each.push_back(std::to_string(given));
    rest -= given;
  }
  const bool alike = std::all_of(set.set_lengths.begin(), set.set_lengths.end(),
                                 [&](const Fraction& f) { return f == set.set_lengths.front(); });
  const std::string all = w.words.count("shapes", set.need + set.extra);
  return alike || rest > 0 || set.extra > 0 ? all : all + " (" + w.words.list(each) + ")";
}

void strip_sets(Writer& w, Column& column) {
  const auto& sets = w.quantities().strip_sets;
  if (sets.empty()) return;
  w.heading(column, 2, w.words("strip sets"), "strip-sets");
  const Exact ends = w.pattern().allowances.set_ends;
  column.paragraph(
      w.words("strip sets intro") +
          (ends.sign() > 0
               ? " " + w.words("strip set ends", {{"length", w.words.inches(ends.round_up(16))}})
               : ""),
      {.keep_with_next = true});
  // Many sets stand two abreast.
  const bool abreast = sets.size() > 2;
  const double half = (column.width() - card_gap) / 2;
  std::vector<Card> cards;
  for (std::size_t n = 0; n < sets.size(); ++n) {
    const StripSet& set = sets[n];
    const std::string number = std::to_string(n + 1);
    std::vector<std::string> strips, lengths;
    for (const auto& [fabric, width] : set.strips)
      strips.push_back(w.words("strip of set", {{"number", std::to_string(w.fabric(fabric).number)},
                                                {"name", w.fabric(fabric).name},
                                                {"width", w.words.inches(width)}}));
    const auto seams = static_cast<long long>(set.strips.size()) - 1;
    Exact height = w.pattern().seam_allowance * Exact(-2 * seams);
    for (const auto& strip : set.strips) height = height + Exact(strip.second);
    for (const Fraction& length : set.set_lengths) {
      const std::string text = w.words.inches(length);
      if (std::find(lengths.begin(), lengths.end(), text) == lengths.end()) lengths.push_back(text);
    }
    std::vector<Runs> words;
    words.push_back({{w.words("strip set", {{"n", number}}), column.bold(), false},
                     {" " + sew_strips(w, set, strips), column.text(), false}});
    words.push_back(column.plain(
        w.words("strip set make", {{"sets", w.words.count("sets", set.sets)},
                                   {"lengths", w.words.list(lengths)},
                                   {"height", w.words.inches(height.round_nearest(16))}}) +
        " " +
        w.words(set.sets == 1 ? "strip set gives" : "strip sets give",
                {{"n", shapes_given(w, set)}, {"cut", reading_words(w, set.cut)}}) +
        (set.cut.reading ? w.words("strip set turning") : "") + "."));
    if (set.extra > 0)
      words.push_back(column.plain(
          w.words(set.extra == 1 ? "one extra" : "extra", {{"n", w.words.number(set.extra)}})));
    const std::string address = "cutting/strip-set/" + number;
    cards.push_back(
        {"", abreast ? w.picture(address, half, 78) : w.card_picture(address, column.width(), 150),
         words});
  }
  column.cards(cards, abreast ? 2 : 1);
}

void left_over(Writer& w, Column& column) {
  Table table;
  table.head =
      column.head({w.words("head number"), w.words("head fabric"), w.words("head what is left")});
  table.align = "rll";
  table.shares = {0.5, 2.2, 8};
  for (const FabricNeed* need : needs_by_number(w.quantities())) {
    const std::string left = leftover_words(w, *need);
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

// Whether any strip of cloth or of a bundle is cut, whose ends are squared.
bool cuts_across(const Writer& w) {
  const auto& strips = w.quantities().strips;
  return std::any_of(strips.begin(), strips.end(), [&](const StripPlan& s) {
    const ClothSource& source = w.fabric(s.fabric).sources[s.source];
    return !s.along && strip_length(w.pattern(), source) < source.length;
  });
}

// What stands above each page on which the fabric goes on.
void head_again(Writer& w, Column& column, FabricId fabric, std::size_t first) {
  Column heading(column.context(), 0, column.width());
  heading.heading({2,
                   column.plain(w.words("fabric heading continued",
                                        {{"number", std::to_string(w.fabric(fabric).number)},
                                         {"name", w.fabric(fabric).name}})),
                   "", w.swatch(fabric, 32, 19)});
  Box head;
  const std::vector<double> tops = stack(heading.boxes, {0, heading.boxes.size()}, &head.height);
  for (std::size_t i = 0; i < tops.size(); ++i)
    head.content.append(moved(heading.boxes[i].content, 0, tops[i]));
  constexpr double air = 5;  // pt more, below which a figure may begin
  head.height += heading.boxes.back().after + air;
  const auto alone = std::make_shared<const Box>(head);
  std::shared_ptr<const Box> table, both;  // the heading of a table's columns under it
  for (std::size_t i = first + 1; i < column.boxes.size(); ++i) {
    std::shared_ptr<const Box>& above = column.boxes[i].repeat;
    if (above && above != table) {
      table = above;
      Box joined = head;
      joined.content.append(moved(table->content, 0, head.height));
      joined.height += table->height;
      both = std::make_shared<const Box>(std::move(joined));
    }
    above = above ? both : alone;
  }
}

}  // namespace

void write_cutting_tables(Writer& w, Column& column) {
  const std::vector<const FabricNeed*> order = needs_by_number(w.quantities());
  write_layers(w, column);
  bool told = false;  // how half-triangles are cut
  bool generously = false;
  for (const FabricNeed* need : order) {
    const FabricId fabric = need->fabric;
    const std::vector<ClothLayout> layouts = layouts_of(w.pattern(), w.quantities(), fabric);
    if (layouts.empty()) continue;
    const std::size_t first = column.boxes.size();
    w.heading(column, 2,
              w.words("fabric heading", {{"number", std::to_string(w.fabric(fabric).number)},
                                         {"name", w.fabric(fabric).name}}),
              "cutting/" + w.fabric(fabric).id, w.swatch(fabric, 32, 19));
    w.unlist_last();
    Box& top = column.boxes[first];
    top.stretch = 24;
    if (need == order.front()) top.break_cost = 1;  // no introduction alone
    panel_words(w, column, layouts);
    strips_table(w, column, layouts);
    pieces_table(w, column, fabric);
    directional_words(w, column, fabric);
    generous_words(w, column, fabric, generously);
    write_hands(w, column, fabric);
    half_angled_words(w, column, fabric, told);
    strip_figures(w, column, fabric, layouts);
    keep_whole(column.boxes, first, w.style.text_height(), whole_fabric);
    head_again(w, column, fabric, first);
  }
  strip_sets(w, column);
  left_over(w, column);
}

void write_cutting(Writer& w, Column& column) {
  w.heading(column, 1, w.words("cutting"), "cutting");
  const Exact ends = w.pattern().allowances.strip_ends;
  column.paragraph(
      w.words("cutting intro") +
      (ends.sign() > 0 && cuts_across(w)
           ? " " + w.words("strip ends", {{"length", w.words.inches(ends.round_up(16))}})
           : ""));
  write_cutting_tables(w, column);
}

}  // namespace dogear::booklet
