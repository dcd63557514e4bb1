// The blocks, each an entry of its figure with its facts and then its steps.
//
// Goal: pages that are full, with figures as large as that allows. An entry's cells (the block,
// then the steps) stand in rows; at a given scale the rows of least height are found by trying, for
// each row, which steps show what they become beside what is sewn and which below. Then they are
// parted into pages (block_pages.h).

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <map>

#include "base/length.h"
#include "base/text.h"
#include "booklet/block_pages.h"
#include "booklet/writer.h"
#include "cutting/unfinished.h"

namespace dogear::booklet {
namespace {

constexpr double usual_scale = 15;
constexpr double block_part = 0.72;  // of that, for the whole block
constexpr double words_part = 0.92;
constexpr double least_cell = 122;     // pt
constexpr double highest_block = 120;  // pt
constexpr double lone_block = 128;     // pt, where no step stands beside it
constexpr double compact_figure = 52;  // pt high, where there is nothing to sew
constexpr std::size_t most_in_row = 4;
constexpr double reserve = 4;             // pt a page keeps for estimates that fall short
constexpr double spare_of_overfull = 44;  // pt
constexpr double first_step_apart = 3;    // cost of parting the block from its first step

struct StepCell {
  bool is_block = false;
  UnitId unit = 0;
  Card card;                                       // without its picture
  std::vector<std::pair<double, double>> lengths;  // of each paragraph: in one line, leading
};

struct CellRow {
  std::size_t begin = 0, end = 0;  // cells
  std::vector<StepLook> looks;
  std::vector<double> widths;
  double height = 0, figures = 0;  // of all, and of the figures alone
};

struct Entry {
  const BlockSewing* block = nullptr;
  std::vector<StepCell> cells;
  bool compact = false;
  double lowest_block = 0;  // pt high at least, the figure of the block
  const Prose* prose = nullptr;
};

const BlockUse& use_of(const Writer& w, const Entry& e) { return w.pattern().uses[e.block->use]; }

dogear::Box outline_of(const Writer& w, const BlockSewing& block) {
  return bounds(w.scene.checked.parts[w.scene.checked.block_parts[block.use]].outline);
}

// The line of facts under a block's name.
std::string block_facts(const Writer& w, const BlockSewing& block) {
  const Polygon& outline = w.scene.checked.parts[w.scene.checked.block_parts[block.use]].outline;
  const dogear::Box box = bounds(outline);
  const auto about = [&](const Exact& e) {
    const Fraction f = e.round_nearest(8);
    return (Exact(f) == e ? "" : w.words("about") + " ") + w.words.inches(f);
  };
  const auto [wide, high] = unfinished_size(outline, w.pattern().seam_allowance);
  return w.words("block finished", {{"size", about(box.width()) + " × " + about(box.height())}}) +
         " " + w.words("block with allowances", {{"size", about(wide) + " × " + about(high)}});
}

std::vector<UnitId> shown_steps(const Writer& w, const BlockSewing& block) {
  std::vector<UnitId> steps;  // of units cut together the first
  for (const UnitId unit : block.steps)
    if (cut_together(w.scene, w.size, unit).front() == unit) steps.push_back(unit);
  return steps;
}

// "goose unit (Hide, step 3)": units of one name may come from several blocks.
std::string made_before(const Writer& w, UnitId unit) {
  const std::string name = unit_noun(w, unit, {});
  const UnitId shown = cut_together(w.scene, w.size, unit).front();
  for (const BlockSewing& block : w.sewing().blocks) {
    const std::vector<UnitId> steps = shown_steps(w, block);
    const auto at = std::find(steps.begin(), steps.end(), shown);
    if (at == steps.end()) continue;
    return w.words("unit of step", {{"unit", name},
                                    {"block", w.pattern().uses[block.use].title},
                                    {"n", std::to_string(at - steps.begin() + 1)}});
  }
  return name;
}

std::vector<Runs> block_words(Writer& w, const Column& column, const BlockSewing& block) {
  const BlockDef& def = w.pattern().blocks[w.pattern().uses[block.use].block];
  std::vector<Runs> words;
  if (!def.words.empty()) words.push_back({{def.words, column.italic(), false}});
  words.push_back(
      {{w.words("make blocks", {{"n", std::to_string(block.blocks)}}) + " ", column.bold(), false},
       {block_facts(w, block), column.text(), false}});
  std::vector<std::string> shared;
  for (const UnitId unit : block.shared) {
    const std::string name = made_before(w, unit);
    if (std::find(shared.begin(), shared.end(), name) == shared.end()) shared.push_back(name);
  }
  if (!shared.empty())
    words.push_back(column.plain(w.words("shared units", {{"units", w.words.list(shared)}})));
  if (block.steps.empty() && block.shared.empty())
    words.push_back(column.plain(w.words("no sewing")));
  return words;
}

void measure(const Writer& w, StepCell& cell) {
  for (const Runs& runs : cell.card.paragraphs) {
    double size = 0;
    for (const Run& r : runs) size = std::max(size, r.style.size);
    cell.lengths.emplace_back(w.type.natural_width(runs),
                              w.style.type.leading * size / w.style.type.text);
  }
}

// The words of an entry are set a little smaller than running text.
std::vector<Runs> smaller(std::vector<Runs> words) {
  for (Runs& runs : words)
    for (Run& r : runs) r.style.size *= words_part;
  return words;
}

// How many of the unit one sewing of the step takes.
long long taken(const Writer& w, UnitId step, UnitId unit) {
  const auto& inputs = w.scene.piecing.units.at(step).inputs;
  return std::count_if(inputs.begin(), inputs.end(),
                       [&](const Input& in) { return !in.is_piece && in.unit == unit; });
}

// The other blocks that take the unit itself, not only what it becomes in this block.
std::vector<std::string> also_in(const Writer& w, const BlockSewing& block, UnitId unit) {
  const auto takes = [&](UnitId step) { return taken(w, step, unit) > 0; };
  std::vector<std::string> out;
  for (const BlockSewing& other : w.sewing().blocks) {
    const auto& finals = other.finals;
    if (other.use == block.use || (std::none_of(other.steps.begin(), other.steps.end(), takes) &&
                                   std::find(finals.begin(), finals.end(), unit) == finals.end()))
      continue;
    const std::string& title = w.pattern().uses[other.use].title;
    if (std::find(out.begin(), out.end(), title) == out.end()) out.push_back(title);
  }
  return out;
}

// How many of the unit the steps of other blocks sew on; 0 where it is a block by itself.
long long kept_of(const Writer& w, const BlockSewing& block, UnitId unit) {
  long long kept = 0;
  for (const BlockSewing& other : w.sewing().blocks) {
    if (other.use == block.use) continue;
    if (std::find(other.finals.begin(), other.finals.end(), unit) != other.finals.end()) return 0;
    for (const UnitId step : other.steps) {
      const auto made = w.sewing().make.find(step);
      if (made != w.sewing().make.end()) kept += taken(w, step, unit) * made->second;
    }
  }
  return kept;
}

std::vector<StepCell> step_cells(Writer& w, const Column& column, const BlockSewing& block) {
  std::vector<StepCell> cells;
  std::map<UnitId, std::size_t> numbers;
  Warned warned;
  const std::vector<UnitId> steps = shown_steps(w, block);
  for (const UnitId unit : steps) {
    StepWords words = step_words(w, unit, numbers);
    const auto& finals = block.finals;
    const bool leaves = std::find(finals.begin(), finals.end(), unit) != finals.end();
    if (leaves && comes_in_halves(w.scene, block)) words.last = w.words("keep halves apart");
    if (words.last.empty()) {
      const std::vector<std::string> others = also_in(w, block, unit);
      if (!others.empty()) {
        const long long kept = kept_of(w, block, unit);
        words.last = w.words(kept == 0   ? "kept for blocks"
                             : kept == 1 ? "one kept for blocks"
                                         : "number kept for blocks",
                             {{"n", std::to_string(kept)}, {"blocks", w.words.list(others)}});
      }
    }
    StepCell& cell = cells.emplace_back();
    for (const UnitId made : cut_together(w.scene, w.size, unit)) numbers[made] = cells.size();
    cell.unit = unit;
    cell.card = {std::to_string(cells.size()), {}, smaller(step_runs(w, column, words, warned))};
    measure(w, cell);
  }
  return cells;
}

double words_height(const Writer& w, const StepCell& cell, double width) {
  constexpr double ragged = 0.94;  // of a line that is filled on the average
  const double room = (width - (cell.card.label.empty() ? 0 : 17)) * ragged;
  double height = 0;
  for (const auto& [length, leading] : cell.lengths)
    height += std::ceil(length / room) * leading + w.style.type.leading * 0.22;
  return height;
}

// Many patches have labels that need more room.
double lowest_block(const Writer& w, const BlockSewing& block) {
  constexpr std::size_t many_patches = 20;
  const PartId part = w.scene.checked.block_parts[block.use];
  return flatten(w.scene.checked, part).size() > many_patches ? 98 : 76;
}

FigureRoom block_room(const Writer& w, const Entry& entry, double scale) {
  constexpr double labels = 16;  // pt outside the block, with their leaders
  const double lowest = entry.lowest_block;
  const dogear::Box box = outline_of(w, *entry.block);
  const double wide = box.width().approx(), high = box.height().approx();
  const double each = std::clamp(scale * block_part, lowest / high, highest_block / high);
  return {wide * each + labels, high * each + labels};
}

// Widens the cells, each time the one with the highest words; gives the height of those.
double share_width(const Writer& w, const Entry& entry, CellRow& row, double spare) {
  constexpr int shares = 6;
  std::vector<double> heights;
  const auto height = [&](std::size_t k) {
    return words_height(w, entry.cells[row.begin + k], row.widths[k]);
  };
  for (std::size_t k = 0; k < row.widths.size(); ++k) heights.push_back(height(k));
  for (int n = 0; n < shares; ++n) {
    const auto highest = std::max_element(heights.begin(), heights.end()) - heights.begin();
    const auto k = static_cast<std::size_t>(highest);
    row.widths[k] += spare / shares;
    heights[k] = height(k);
  }
  return *std::max_element(heights.begin(), heights.end());
}

// The rows of least height, or nothing when a step is too wide for the column.
std::optional<std::vector<CellRow>> rows_at(const Writer& w, const Entry& entry, double width,
                                            double scale) {
  const std::size_t n = entry.cells.size();
  const double apart = w.style.type.leading * 0.8;
  std::vector<std::array<FigureRoom, 2>> rooms;
  for (const StepCell& cell : entry.cells) {
    if (cell.is_block) {
      const FigureRoom room = block_room(w, entry, scale);
      rooms.push_back({room, room});
    } else {
      rooms.push_back({step_room(w.scene, w.size, cell.unit, {scale, false}),
                       step_room(w.scene, w.size, cell.unit, {scale, true})});
    }
  }
  std::vector<double> best(n + 1, std::numeric_limits<double>::infinity());
  std::vector<CellRow> last(n + 1);
  best[0] = 0;
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = i + 1; j <= std::min(n, i + most_in_row); ++j) {
      for (unsigned mask = 0; mask < 1u << (j - i); ++mask) {
        CellRow row{i, j, {}, {}, 0, 0};
        double used = card_gap * static_cast<double>(j - i - 1), figures = 0;
        for (std::size_t k = i; k < j; ++k) {
          const bool down = (mask >> (k - i) & 1) != 0;
          const FigureRoom& room = rooms[k][down ? 1 : 0];
          row.looks.push_back({scale, down});
          row.widths.push_back(std::max(room.width, least_cell));
          used += row.widths.back();
          figures = std::max(figures, room.height);
        }
        if (used > width || best[i] > 1e9) continue;
        const double words = share_width(w, entry, row, width - used);
        row.figures = figures;
        row.height = figures + 7 + words;
        const double height = best[i] + (i > 0 ? apart : 0) + row.height;
        if (height < best[j] - 0.01) {
          best[j] = height;
          last[j] = std::move(row);
        }
      }
    }
  }
  if (best[n] > 1e9) return {};
  std::vector<CellRow> rows;
  for (std::size_t end = n; end > 0; end = last[end].begin) rows.push_back(last[end]);
  std::reverse(rows.begin(), rows.end());
  return rows;
}

// Rows at this scale or the nearest below it at which they fit.
std::vector<CellRow> rows_below(const Writer& w, const Entry& entry, double width, double scale) {
  for (; scale >= 2; scale -= 1)
    if (auto rows = rows_at(w, entry, width, scale)) return *rows;
  return {};
}

// With `measured` the block itself is only given its room, which saves drawing it. A block with no
// step beside it grows by what is to spare.
void write_rows(Writer& w, Column& column, const Entry& entry, double scale, double& spare,
                bool measured = false) {
  column.begin(canvas::Role::list);
  for (const CellRow& row : rows_below(w, entry, column.width(), scale)) {
    std::vector<Card> cards;
    for (std::size_t k = row.begin; k < row.end; ++k) {
      Card& card = cards.emplace_back(entry.cells[k].card);
      if (entry.cells[k].is_block) {
        FigureRoom room = block_room(w, entry, row.looks[k - row.begin].scale);
        // Higher steps beside it leave it room to grow.
        room.height = std::max(room.height, std::min(row.figures, highest_block));
        if (row.end - row.begin == 1) {
          const double more = std::clamp(lone_block - room.height, 0.0, std::max(0.0, spare));
          room.height += more;
          spare -= more;
        }
        room.width = row.widths[k - row.begin];
        if (measured)
          card.picture = Picture{canvas::share({}), room.width, room.height, ""};
        else
          card.picture = w.picture("block/" + use_of(w, entry).id, room.width, room.height);
      } else {
        card.picture = w.step_picture(entry.cells[k].unit, row.looks[k - row.begin]);
      }
    }
    column.card_row(cards, row.widths);
    Box& box = column.boxes.back();
    box.stretch = row.begin == 0 ? 6 : 16;
    if (row.begin == 1 && entry.cells[0].is_block) box.break_cost = first_step_apart;
  }
  column.end();
}

// As set, under its heading; a block with no step beside it stays with its first step.
Reach reach_of(Writer& w, const Entry& entry, double width, double scale) {
  const auto& type = w.style.type;
  const double heading = type.heading2 * 1.22 + type.leading * 0.5;
  if (entry.compact) return {heading + std::max(compact_figure, type.leading * 4)};
  Column column(w.flow, 0, width);
  double spare = 0;
  write_rows(w, column, entry, scale, spare, true);
  const std::vector<double> tops = stack(column.boxes, {0, column.boxes.size()}, nullptr);
  Reach out;
  for (std::size_t i = 0; i < tops.size(); ++i) {
    if (i == 1 && column.boxes[1].break_cost > 0) out.pop_back();
    out.push_back(heading + tops[i] + column.boxes[i].height);
  }
  if (out.empty()) out.push_back(heading);
  return out;
}

std::vector<BlockPage> planned_pages(Writer& w, const std::vector<Entry>& entries, double width,
                                     double taken) {
  std::vector<bool> compact;
  for (const Entry& e : entries) compact.push_back(e.compact);
  return plan_block_pages(
      {w.style.text_height() - reserve, taken, w.style.type.leading * 1.35, compact},
      [&](std::size_t e, double scale) { return reach_of(w, entries[e], width, scale); });
}

void write_entry(Writer& w, Column& column, Entry& entry, double scale, double& spare) {
  const BlockUse& use = use_of(w, entry);
  w.heading(column, 2, use.title, "block/" + use.id);
  if (!entry.compact && entry.prose == nullptr) {
    write_rows(w, column, entry, scale, spare);
    return;
  }
  const double height = entry.compact ? compact_figure : 104;
  column.cards({{"", w.picture("block/" + use.id, column.width() * 0.4, height),
                 block_words(w, column, *entry.block)}},
               1);
  ProseFound found;
  if (entry.prose != nullptr) {
    column.keep_last_with_next();
    found = write_prose(w, column, *entry.prose, 2);
  }
  if (!found.steps && !entry.cells.empty()) {
    column.keep_last_with_next();
    write_rows(w, column, entry, scale, spare);
  }
}

}  // namespace

void write_block_steps(Writer& w, Column& column, const BlockSewing& block) {
  // Where no section of blocks tells it, the first block does.
  const auto& sections = w.pattern().sections;
  const bool told = std::any_of(sections.begin(), sections.end(),
                                [](const Section& s) { return !s.is_prose && s.name == "blocks"; });
  if (!told && block.use == w.sewing().blocks.front().use) write_foundation_method(w, column);
  Entry entry;
  entry.block = &block;
  entry.cells = step_cells(w, column, block);
  double spare = 0;
  if (!entry.cells.empty()) write_rows(w, column, entry, usual_scale, spare);
}

void write_blocks(Writer& w, Column& column) {
  const std::size_t begin = column.boxes.size();
  w.heading(column, 1, w.words("blocks"), "blocks");
  const auto& blocks = w.sewing().blocks;
  const bool halves = std::any_of(blocks.begin(), blocks.end(), [&](const BlockSewing& block) {
    return comes_in_halves(w.scene, block);
  });
  column.paragraph(w.words("blocks intro") + (halves ? " " + w.words("blocks in halves") : ""));
  write_foundation_method(w, column);
  double taken = 0;
  stack(column.boxes, {begin, column.boxes.size()}, &taken);
  taken += w.style.type.leading * 1.35 + w.begun;

  std::vector<Entry> entries;
  for (const BlockSewing& block : w.sewing().blocks) {
    Entry& entry = entries.emplace_back();
    entry.block = &block;
    const auto& all = w.pattern().prose;
    const BlockUse& use = w.pattern().uses[block.use];
    auto prose = all.find("prose/blocks/" + use.id + ".md");
    if (prose == all.end())
      prose = all.find("prose/blocks/" + w.pattern().blocks[use.block].id + ".md");
    if (prose != all.end()) entry.prose = &prose->second;
    entry.compact = block.steps.empty() && entry.prose == nullptr;
    if (!entry.compact && entry.prose == nullptr) {
      StepCell& cell = entry.cells.emplace_back();
      cell.is_block = true;
      entry.lowest_block = lowest_block(w, block);
      cell.card.paragraphs = smaller(block_words(w, column, block));
      measure(w, cell);
    }
    for (StepCell& cell : step_cells(w, column, block)) entry.cells.push_back(std::move(cell));
  }
  for (BlockPage page : planned_pages(w, entries, column.width(), taken)) {
    if (page.runs_on) page.spare = std::min(page.spare, spare_of_overfull);
    for (std::size_t e = page.begin; e < page.end; ++e) {
      const std::size_t first = column.boxes.size();
      write_entry(w, column, entries[e], page.scale, page.spare);
      if (first == column.boxes.size()) continue;
      Box& top = column.boxes[first];
      top.stretch = e == 0 ? 12 : 40;
      // A block begins a page of its own rather than at the foot of one.
      top.break_cost = e == 0 ? 1 : e == page.begin ? -0.6 : -0.05;  // no introduction alone
    }
  }
}

}  // namespace dogear::booklet
