// A sew-along month by month: what is made, what is cut for it, and how much cloth that takes.

#include <algorithm>
#include <map>

#include "base/length.h"
#include "base/text.h"
#include "booklet/cloth_words.h"
#include "booklet/writer.h"
#include "cutting/sew_along.h"

namespace dogear::booklet {
namespace {

constexpr int most_abreast = 4;
constexpr double block_height = 74;  // pt, of a block's figure
constexpr double top_height = 96;

// Strips of one height, and what is cut from them.
struct OneHeight {
  Fraction height;
  long long strips = 0;
  std::map<PieceId, long long> pieces;
  std::map<PieceId, Fraction> down;  // to what height the strip is cut down for them
};

std::string numbered(const Writer& w, FabricId fabric) {
  return std::to_string(w.fabric(fabric).number) + "\u00A0" + w.fabric(fabric).name;
}

std::string month_pieces(const Writer& w, const OneHeight& h, PieceId piece, long long n) {
  const std::string text = number_of_pieces(w, n, piece);
  const auto down = h.down.find(piece);
  if (down == h.down.end()) return text;
  return w.words("month cut down", {{"pieces", text}, {"height", w.words.inches(down->second)}});
}

std::vector<OneHeight> heights_of(const SizeQuantities& cut, FabricId fabric) {
  std::vector<OneHeight> heights;
  for (const StripPlan& strip : cut.strips) {
    if (strip.fabric != fabric || strip.from_bundle) continue;
    auto same = std::find_if(heights.begin(), heights.end(),
                             [&](const OneHeight& h) { return h.height == strip.height; });
    if (same == heights.end()) same = heights.insert(heights.end(), {strip.height, 0, {}, {}});
    same->strips += strip.times;
    for (const dogear::Run& run : strip.runs) {
      if (run.kind != dogear::Run::Kind::piece) continue;
      same->pieces[run.piece] += run.count * strip.times;
      if (run.height.num > 0 && !(run.height == strip.height)) same->down[run.piece] = run.height;
      for (const auto& [piece, n] : run.also) same->pieces[piece] += n * strip.times;
    }
  }
  std::stable_sort(heights.begin(), heights.end(), [](const OneHeight& a, const OneHeight& b) {
    return Exact(b.height) < Exact(a.height);
  });
  return heights;
}

// "3 strips of 2½ in, 1 strip of 4 in"; where strips of several heights give the same pieces, with
// what comes from each. Strips of a bundle are what they are.
std::string strips_words(const Writer& w, const SizeQuantities& cut, FabricId fabric) {
  std::vector<std::string> words;
  long long bundle = 0;
  for (const StripPlan& strip : cut.strips)
    if (strip.fabric == fabric && strip.from_bundle) bundle += strip.times;
  if (bundle > 0) {
    words.push_back(w.words("month bundle strips", {{"strips", w.words.count("strips", bundle)}}));
  }
  const std::vector<OneHeight> heights = heights_of(cut, fabric);
  std::map<PieceId, int> heights_with;
  for (const OneHeight& h : heights)
    for (const auto& [piece, n] : h.pieces) ++heights_with[piece];
  const bool mixed = std::any_of(heights_with.begin(), heights_with.end(),
                                 [](const auto& entry) { return entry.second > 1; });
  for (const OneHeight& h : heights) {
    std::vector<std::string> pieces;
    for (const auto& [piece, n] : h.pieces) pieces.push_back(month_pieces(w, h, piece, n));
    const bool named = mixed && !pieces.empty();
    words.push_back(w.words(named ? "month strips giving" : "month strips",
                            {{"strips", w.words.count("strips", h.strips)},
                             {"height", w.words.inches(h.height)},
                             {"pieces", join(pieces, ", ")}}));
  }
  return join(words, ", ");
}

// "24 A1, 12 B1", strip sets and what is joined for the finishing.
std::string pieces_words(const Writer& w, const SizeQuantities& cut, const FabricNeed& need) {
  std::vector<std::string> words;
  for (const CutPiece& p : cut.pieces) {
    const Piece& piece = w.scene.piecing.pieces[p.piece];
    if (piece.fabric != need.fabric) continue;
    words.push_back(std::to_string(p.count) + " " + piece.label(w.pattern()));
  }
  for (std::size_t s = 0; s < cut.strip_sets.size(); ++s) {
    const StripSet& set = cut.strip_sets[s];
    const bool in = std::any_of(set.strips.begin(), set.strips.end(),
                                [&](const auto& strip) { return strip.first == need.fabric; });
    if (in) words.push_back(w.scene.piecing.units[set.unit].name);
  }
  if (cut.binding && cut.binding->fabric == need.fabric) words.push_back(w.words("month binding"));
  if (cut.sleeve && cut.sleeve->fabric == need.fabric) words.push_back(w.words("month sleeve"));
  return join(words, ", ");
}

void month_table(Writer& w, Column& column, const SizeQuantities& cut) {
  Table table;
  for (const FabricNeed* each : needs_by_number(cut)) {
    const FabricNeed& need = *each;
    std::vector<Cell> row;
    row.push_back({{}, w.swatch(need.fabric)});
    row.push_back({{{numbered(w, need.fabric), column.bold(), false}}, {}});
    row.push_back({column.plain(strips_words(w, cut, need.fabric)), {}});
    row.push_back({column.plain(pieces_words(w, cut, need)), {}});
    row.push_back(
        {column.plain(need.yards ? yards_and_metric(w, *need.yards, need.centimetres.value_or(0))
                                 : ""),
         {}});
    table.rows.push_back(std::move(row));
  }
  if (table.rows.empty()) return;
  table.head = column.head({"", w.words("head fabric"), w.words("head month cut"),
                            w.words("head month pieces"), w.words("head month cloth")});
  table.align = "llllr";
  table.shares = {0.8, 2, 3.3, 2.5, 2.5};
  column.table(table);
}

std::string finishing_words(const Writer& w) {
  const SizeQuantities& q = w.quantities();
  std::vector<std::string> what;
  if (q.backing) what.push_back(w.words("month backing"));
  if (q.batting) what.push_back(w.words("month batting"));
  if (q.binding) what.push_back(w.words("month binding"));
  if (q.sleeve) what.push_back(w.words("month sleeve"));
  return what.empty() ? "" : w.words("schedule finishing", {{"what", w.words.list(what)}});
}

// The blocks of the month that have this unit, where they must be told apart.
std::string blocks_with(const Writer& w, const MonthPlan& plan, UnitId unit) {
  std::vector<std::string> titles;
  for (const BlockSewing& block : w.sewing().blocks) {
    const bool due = std::any_of(plan.blocks.begin(), plan.blocks.end(),
                                 [&](const BlockCount& b) { return b.use == block.use; });
    if (due && std::find(block.steps.begin(), block.steps.end(), unit) != block.steps.end())
      titles.push_back(w.pattern().uses[block.use].title);
  }
  return plan.blocks.size() > 1 && !titles.empty() ? " (" + join(titles, ", ") + ")" : "";
}

// "Print 4 papers of the glass unit and 2 papers of the pane unit."
void papers(Writer& w, Column& column, const MonthPlan& plan) {
  if (plan.cut.papers.empty()) return;
  std::vector<std::string> each;
  for (const auto& [unit, n] : plan.cut.papers)
    each.push_back(w.words("papers of unit", {{"papers", w.words.count("papers", n)},
                                              {"unit", unit_noun(w, unit, {})}}) +
                   blocks_with(w, plan, unit));
  column.paragraph(w.words("month papers", {{"papers", w.words.list(each)}}),
                   {.keep_with_next = !plan.cut.fabrics.empty()});
}

// What the tables of fabrics do not hold.
void finishing_cloth(Writer& w, Column& column) {
  const SizeQuantities& q = w.quantities();
  const auto say = [&](const std::string& what, const std::string& amount) {
    column.paragraph({{what + ": ", column.bold(), false}, {amount + ".", column.text(), false}});
  };
  if (q.backing) say(w.words("backing"), backing_words(w, *q.backing));
  if (q.batting) say(w.words("batting"), batting_words(w, *q.batting));
}

std::string assembly_words(const Writer& w) {
  std::vector<std::string> with;
  if (w.size_def().sashing) with.push_back(w.words("the sashing"));
  if (!w.size_def().borders.empty()) with.push_back(w.words("the borders"));
  return with.empty() ? w.words("schedule assembly")
                      : w.words("schedule assembly with", {{"what", w.words.list(with)}});
}

void month(Writer& w, Column& column, const MonthPlan& plan) {
  const Instalment& part = w.pattern().schedule[plan.month];
  if (!has_work(part, w.sewing(), w.quantities())) return;
  constexpr double whole_month = 0.8;  // cost of parting what one page holds
  const std::size_t first = column.boxes.size();
  w.heading(column, 2, part.title, "schedule-" + slug(part.title));
  std::vector<Card> cards;
  const double each =
      (column.width() - card_gap * (most_abreast - 1)) / static_cast<double>(most_abreast);
  for (const BlockCount& block : plan.blocks) {
    const BlockUse& use = w.pattern().uses[block.use];
    Card card{"", w.picture("block/" + use.id, each, block_height), {}};
    card.paragraphs.push_back(
        {{use.title + ". ", column.bold(), false},
         {w.words("schedule make", {{"n", std::to_string(block.blocks)}}), column.text(), false}});
    cards.push_back(std::move(card));
  }
  column.cards(cards, most_abreast);
  if (!cards.empty() && !plan.cut.fabrics.empty()) column.keep_last_with_next();
  std::vector<std::string> words;
  if (part.assembly) {
    words.push_back(assembly_words(w));
  }
  if (part.finishing) words.push_back(finishing_words(w));
  std::erase(words, "");
  if (!words.empty()) {
    const auto top =
        part.assembly ? w.picture(w.style.quilt_figure(), each * 2, top_height) : std::nullopt;
    if (top) {
      column.cards({{"", top, {column.plain(join(words, " "))}}}, 1);
      if (!plan.cut.fabrics.empty()) column.keep_last_with_next();
    } else {
      column.paragraph(join(words, " "), {.keep_with_next = !plan.cut.fabrics.empty()});
    }
  }
  papers(w, column, plan);
  month_table(w, column, plan.cut);
  if (part.finishing) finishing_cloth(w, column);
  keep_whole(column.boxes, first, w.style.text_height(), whole_month);
}

// Yards where cloth is bought by the length; strips of bundles and other sheets in a sentence.
void cloth_table(Writer& w, Column& column, const SewAlong& along) {
  Table table;
  std::vector<std::string> sheets;
  const auto cell = [&](const std::optional<Fraction>& y) {
    return Cell{column.plain(y ? w.words.yards(*y) : "–"), {}};
  };
  std::vector<ClothByMonth> by_number = along.cloth;
  std::stable_sort(
      by_number.begin(), by_number.end(),
      [](const ClothByMonth& a, const ClothByMonth& b) { return a.fabric < b.fabric; });
  for (const ClothByMonth& cloth : by_number) {
    const std::string& name = w.fabric(cloth.fabric).name;
    if (cloth.sheets_by_month > 0) {
      sheets.push_back(
          w.words("schedule strips of", {{"name", name},
                                         {"n", std::to_string(cloth.sheets_at_once)},
                                         {"m", std::to_string(cloth.sheets_by_month)}}));
    }
    if (!cloth.at_once && !cloth.cut_by_month) continue;
    table.rows.push_back({Cell{{}, w.swatch(cloth.fabric)},
                          Cell{{{numbered(w, cloth.fabric), column.bold(), false}}, {}},
                          cell(cloth.at_once), cell(cloth.cut_by_month),
                          cell(cloth.bought_by_month)});
  }
  w.heading(column, 2, w.words("schedule cloth"), "schedule-cloth");
  if (!table.rows.empty()) {
    column.paragraph(w.words("schedule cloth intro"), {.keep_with_next = true});
    table.head = column.head({"", w.words("head fabric"), w.words("head cut at once"),
                              w.words("head cut by month"), w.words("head bought by month")});
    table.align = "llrrr";
    table.shares = {0.8, 4, 2, 2, 2.2};
    column.table(table);
  }
  if (!sheets.empty()) {
    column.paragraph(w.words("schedule strips", {{"list", join(sheets, "; ")}}));
  }
}

}  // namespace

void write_schedule(Writer& w, Column& column) {
  if (w.pattern().schedule.empty()) return;
  const auto along =
      plan_sew_along(w.scene.checked, w.scene.piecing, w.scene.quantities, w.size, w.diagnostics);
  if (!along) return;
  // A plan by the month is for quilts of several blocks.
  std::size_t blocks = 0;
  for (const MonthPlan& plan : along->months) blocks += plan.blocks.size();
  if (blocks < 2) return;
  w.heading(column, 1, w.words("schedule"), "schedule");
  column.paragraph(w.words("schedule intro"));
  for (const MonthPlan& plan : along->months) month(w, column, plan);
  cloth_table(w, column, *along);
}

}  // namespace dogear::booklet
