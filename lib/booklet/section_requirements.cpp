// What to buy.

#include <algorithm>

#include "base/length.h"
#include "base/text.h"
#include "booklet/writer.h"

namespace dogear::booklet {
namespace {

std::string fabric_number(const Writer& w, FabricId id) {
  return std::to_string(w.fabric(id).number);
}

Cell fabric_cell(Writer& w, const Column& column, const FabricNeed& need) {
  Cell cell;
  cell.runs.push_back({w.fabric(need.fabric).name, column.bold(), false});
  if (!need.uses.empty())
    cell.runs.push_back(
        {" " + w.words("in parentheses", {{"what", join(need.uses, ", ")}}), column.text(), false});
  return cell;
}

std::vector<Cell> head(const Column& column, std::initializer_list<std::string> names) {
  std::vector<Cell> out;
  for (const std::string& name : names) out.push_back({column.plain(name), {}});
  return out;
}

void by_number(std::vector<const FabricNeed*>& needs) {
  std::sort(needs.begin(), needs.end(),
            [](const FabricNeed* a, const FabricNeed* b) { return a->fabric < b->fabric; });
}

void bundle_table(Writer& w, Column& column, const Bundle& bundle) {
  std::vector<const FabricNeed*> needs;
  for (const FabricNeed& need : w.quantities().fabrics) {
    const bool in = std::find(bundle.fabrics.begin(), bundle.fabrics.end(), need.fabric) !=
                    bundle.fabrics.end();
    if (in && need.bundle_strips_had > 0) needs.push_back(&need);
  }
  by_number(needs);
  if (needs.empty()) return;
  w.heading(column, 3, bundle.name, "bundle-" + bundle.id);
  column.paragraph(
      w.words("bundle",
              {{"fabrics", w.words.count("fabrics", static_cast<long long>(bundle.fabrics.size()))},
               {"each", w.words.count("strips", bundle.each)},
               {"strip", pretty_inches(bundle.strip.round_nearest(16))},
               {"length", pretty_inches(bundle.length.round_down(8))}}),
      {.keep_with_next = true});
  // Many short rows stand in two columns side by side.
  const std::size_t half = needs.size() > 5 ? (needs.size() + 1) / 2 : needs.size();
  Table table;
  for (std::size_t c = 0; c < (half < needs.size() ? 2u : 1u); ++c) {
    for (Cell& cell : head(column, {"", w.words("head number"), w.words("head fabric"),
                                    w.words("head strips used")}))
      table.head.push_back(std::move(cell));
    table.align += "lrlr";
    for (const double share : {1.0, 0.7, 4.4, 2.4}) table.shares.push_back(share);
  }
  for (std::size_t i = 0; i < half; ++i) {
    std::vector<Cell> row;
    for (std::size_t k = i; k < needs.size(); k += half) {
      const FabricNeed& need = *needs[k];
      row.push_back({{}, w.swatch(need.fabric)});
      row.push_back({column.plain(fabric_number(w, need.fabric)), {}});
      row.push_back({{{w.fabric(need.fabric).name, column.bold(), false}}, {}});
      row.push_back({column.plain(w.words("of", {{"n", std::to_string(need.bundle_strips)},
                                                 {"all", std::to_string(bundle.each)}})),
                     {}});
    }
    table.rows.push_back(std::move(row));
  }
  column.table(table);
}

void yardage_table(Writer& w, Column& column) {
  Table table;
  std::vector<const FabricNeed*> needs;
  for (const FabricNeed& need : w.quantities().fabrics)
    if (need.yards) needs.push_back(&need);
  by_number(needs);
  for (const FabricNeed* bought : needs) {
    const FabricNeed& need = *bought;
    std::vector<Cell> row;
    row.push_back({{}, w.swatch(need.fabric)});
    row.push_back({column.plain(fabric_number(w, need.fabric)), {}});
    row.push_back(fabric_cell(w, column, need));
    row.push_back({{{yards(*need.yards), column.bold(), false}}, {}});
    row.push_back(
        {column.plain(need.centimetres ? std::to_string(*need.centimetres) + " cm" : ""), {}});
    table.rows.push_back(std::move(row));
  }
  if (table.rows.empty()) return;
  w.heading(column, 3, w.words("yardage"), "yardage");
  column.paragraph(w.words("yardage intro",
                           {{"width", pretty_inches(w.pattern().usable_width.round_nearest(8))}}),
                   {.keep_with_next = true});
  table.head = head(column, {"", w.words("head number"), w.words("head fabric"),
                             w.words("head yards"), w.words("head metric")});
  table.align = "lrlrr";
  table.shares = {1, 0.7, 8.6, 1.6, 1.6};
  column.table(table);
}

// "60° ruler, blunt tip, with ½ in lines up to 8½ in": what this size asks of it.
std::string ruler_words(const Writer& w, std::size_t index) {
  const Ruler& ruler = w.pattern().rulers[index];
  std::optional<Fraction> highest;
  const auto read = [&](const PieceCut& cut) {
    const bool able = std::find(cut.rulers.begin(), cut.rulers.end(), index) != cut.rulers.end();
    if (!able || !cut.reading) return;
    if (!highest || Exact(*highest) < Exact(*cut.reading)) highest = cut.reading;
  };
  for (const CutPiece& piece : w.quantities().pieces) read(piece.cut);
  for (const StripSet& set : w.quantities().strip_sets) read(set.cut);
  if (!highest) return ruler.name;
  return w.words("ruler with lines", {{"ruler", ruler.name},
                                      {"step", pretty_inches(ruler.step.round_nearest(64))},
                                      {"highest", pretty_inches(*highest)}});
}

void other_table(Writer& w, Column& column) {
  const SizeQuantities& q = w.quantities();
  Table table;
  const auto row = [&](const std::string& what, const std::string& amount) {
    table.rows.push_back(
        {Cell{{{what, column.bold(), false}}, {}}, Cell{column.plain(amount), {}}});
  };
  if (q.binding)
    row(w.words("binding"),
        w.words("binding need", {{"name", w.fabric(q.binding->fabric).name},
                                 {"number", fabric_number(w, q.binding->fabric)}}));
  if (q.backing)
    row(w.words("backing"),
        w.words("backing need", {{"yards", yards(q.backing->yards)},
                                 {"metric", std::to_string(q.backing->centimetres) + " cm"},
                                 {"size", inches_by_inches(q.backing->width, q.backing->height)}}));
  if (q.batting)
    row(w.words("batting"),
        w.words(q.batting->package.empty() ? "batting need" : "batting package",
                {{"size", inches_by_inches(q.batting->width, q.batting->height)},
                 {"package", pretty_fractions(q.batting->package)}}));
  std::vector<std::string> rulers;
  for (const std::size_t r : q.rulers) rulers.push_back(ruler_words(w, r));
  if (!rulers.empty()) row(w.words(rulers.size() == 1 ? "ruler" : "rulers"), join(rulers, "; "));
  if (!templates_of(w.scene, w.size).empty()) row(w.words("templates"), w.words("template stuff"));
  row(w.words("notions"), w.words("notions list"));
  w.heading(column, 3, w.words("also needed"), "also-needed");
  table.shares = {1.6, 8};
  column.table(table);
}

}  // namespace

void write_requirements_table(Writer& w, Column& column) {
  for (const Bundle& bundle : w.pattern().bundles) bundle_table(w, column, bundle);
  yardage_table(w, column);
  other_table(w, column);
}

void write_requirements(Writer& w, Column& column) {
  w.heading(column, 1, w.words("requirements"), "requirements");
  const SizeQuantities& q = w.quantities();
  std::vector<Runs> words{
      {{w.size_def().title + ". ", column.bold(), false}},
      column.plain(w.words("finished size",
                           {{"inches", inches_by_inches(q.finished_width, q.finished_height)},
                            {"metric", centimetres(q.finished_width) + " × " +
                                           centimetres(q.finished_height)}}) +
                   ".")};
  long long blocks = 0;
  for (const BlockSewing& block : w.sewing().blocks) blocks += block.blocks;
  if (blocks > 0)
    words.push_back(
        column.plain(w.words("it has", {{"blocks", w.words.count("blocks in it", blocks)}})));
  if (!w.pattern().summary.empty())
    words.push_back({{w.pattern().summary, column.italic(), false}});
  column.cards({{"", w.picture("quilt/plain", column.width() * 0.4, 150), words}}, 1);
  write_requirements_table(w, column);
}

void write_back(Writer& w, Column& column) {
  w.heading(column, 1, w.pattern().title, "back");
  w.unlist_last();
  if (!w.pattern().summary.empty())
    column.paragraph({{w.pattern().summary, column.italic(), false}});
  if (const auto quilt = w.picture("quilt/plain", w.style.text_width() * 0.55, 230))
    column.figure(*quilt);
  // Every size side by side: what a buyer asks for first.
  const auto& sizes = w.scene.quantities.sizes;
  w.heading(column, 3, w.words(sizes.size() > 1 ? "requirements by size" : "requirements"),
            "requirements-by-size");
  Table table;
  table.head.push_back({});
  table.align = "l";
  for (std::size_t s = 0; s < sizes.size(); ++s) {
    table.head.push_back({column.plain(w.pattern().sizes[s].title), {}});
    table.align += 'l';
  }
  const auto row = [&](const std::string& what, auto&& cell) {
    std::vector<Cell> cells{Cell{{{what, column.bold(), false}}, {}}};
    bool any = false;
    for (const SizeQuantities& q : sizes) {
      const std::string text = cell(q);
      any = any || !text.empty();
      cells.push_back({column.plain(text.empty() ? "–" : text), {}});
    }
    if (any) table.rows.push_back(std::move(cells));
  };
  row(w.words("finished"), [](const SizeQuantities& q) {
    return inches_by_inches(q.finished_width, q.finished_height);
  });
  for (const Bundle& bundle : w.pattern().bundles) {
    row(bundle.name, [&](const SizeQuantities& q) {
      const bool used = std::any_of(q.fabrics.begin(), q.fabrics.end(), [&](const FabricNeed& n) {
        return n.bundle_strips > 0 && std::find(bundle.fabrics.begin(), bundle.fabrics.end(),
                                                n.fabric) != bundle.fabrics.end();
      });
      return used ? w.words.count("bundles", 1) : std::string();
    });
  }
  for (FabricId f = 0; f < w.pattern().fabrics.size(); ++f) {
    row(w.fabric(f).name, [&](const SizeQuantities& q) {
      for (const FabricNeed& need : q.fabrics)
        if (need.fabric == f && need.yards) return yards(*need.yards);
      return std::string();
    });
  }
  row(w.words("backing"),
      [](const SizeQuantities& q) { return q.backing ? yards(q.backing->yards) : std::string(); });
  row(w.words("batting"), [](const SizeQuantities& q) {
    return q.batting ? inches_by_inches(q.batting->width, q.batting->height) : std::string();
  });
  column.table(table);
  ParagraphStyle how;
  how.align = Align::left;
  column.paragraph({{w.words("back line", {{"designer", w.pattern().designer},
                                           {"edition", w.pattern().edition}}),
                     column.small(), false}},
                   how);
}

}  // namespace dogear::booklet
