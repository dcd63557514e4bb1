// What to buy.

#include <algorithm>

#include "base/length.h"
#include "base/text.h"
#include "booklet/cloth_words.h"
#include "booklet/writer.h"
#include "cutting/notions.h"

namespace dogear::booklet {
namespace {

std::string fabric_number(const Writer& w, FabricId id) {
  return std::to_string(w.fabric(id).number);
}

// "Ink (blocks, binding)", with the width of cloth that is not as wide as the others.
Cell fabric_cell(Writer& w, const Column& column, const FabricNeed& need) {
  const Fabric& fabric = w.fabric(need.fabric);
  std::vector<std::string> what;
  for (const std::string& use : need.uses) what.push_back(w.words.named("use ", use));
  if (need.yards && fabric.width)
    what.push_back(w.words("cloth wide", {{"width", w.words.inches(fabric.width->round_down(8))}}));
  Cell cell;
  cell.runs.push_back({fabric.name, column.bold(), false});
  if (!what.empty())
    cell.runs.push_back(
        {" " + w.words("in parentheses", {{"what", join(what, ", ")}}), column.text(), false});
  return cell;
}

const BundleUse* use_of(const SizeQuantities& q, std::size_t bundle) {
  const auto found = std::find_if(q.bundles.begin(), q.bundles.end(),
                                  [&](const BundleUse& u) { return u.bundle == bundle; });
  return found == q.bundles.end() ? nullptr : &*found;
}

// Strips or squares that a fabric takes from a bundle.
long long used_of(const Writer& w, const FabricNeed& need, std::size_t bundle) {
  long long used = 0;
  for (const SourceUse& use : need.sources) {
    const ClothSource& source = w.fabric(need.fabric).sources[use.source];
    if (source.kind == ClothSource::Kind::bundle && source.bundle == bundle) used += use.used;
  }
  return used;
}

std::string bundle_words(const Writer& w, const Bundle& bundle, long long bought) {
  const std::string fabrics =
      w.words.count("fabrics", static_cast<long long>(bundle.fabrics.size()));
  const std::string side = w.words.inches(bundle.strip.round_nearest(16));
  const std::string many = capital(w.words.number(bought));
  const std::string bundles = w.words.noun("bundles", bought);
  if (bundle.squares)
    return w.words("bundle of squares", {{"n", many},
                                         {"bundles", bundles},
                                         {"fabrics", fabrics},
                                         {"each", w.words.count("squares", bundle.each)},
                                         {"side", side}});
  return w.words("bundle", {{"n", many},
                            {"bundles", bundles},
                            {"fabrics", fabrics},
                            {"each", w.words.count("strips", bundle.each)},
                            {"strip", side},
                            {"length", w.words.inches(bundle.length.round_down(8))}});
}

void bundle_table(Writer& w, Column& column, std::size_t index) {
  const Bundle& bundle = w.pattern().bundles[index];
  const BundleUse* use = use_of(w.quantities(), index);
  if (use == nullptr) return;
  std::vector<const FabricNeed*> needs = needs_by_number(w.quantities());
  std::erase_if(needs, [&](const FabricNeed* need) {
    return std::find(bundle.fabrics.begin(), bundle.fabrics.end(), need->fabric) ==
           bundle.fabrics.end();
  });
  if (needs.empty()) return;
  w.heading(column, 3, bundle.name, "bundle-" + bundle.id);
  column.paragraph(bundle_words(w, bundle, use->bought), {.keep_with_next = true});
  // Many short rows stand in two columns side by side.
  const std::size_t half = needs.size() > 5 ? (needs.size() + 1) / 2 : needs.size();
  Table table;
  for (std::size_t c = 0; c < (half < needs.size() ? 2u : 1u); ++c) {
    for (Cell& cell :
         column.head({"", w.words("head number"), w.words("head fabric"),
                      w.words(bundle.squares ? "head squares used" : "head strips used")}))
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
      row.push_back(
          {column.plain(w.words("of", {{"n", std::to_string(used_of(w, need, index))},
                                       {"all", std::to_string(bundle.each * use->bought)}})),
           {}});
    }
    table.rows.push_back(std::move(row));
  }
  column.table(table);
}

// "1 in of each fabric for squaring up", "3% for shrinkage", "one strip of each fabric to spare".
std::vector<std::string> allowance_words(const Writer& w) {
  const Allowances& a = w.pattern().allowances;
  const auto length = [&](const Exact& e) { return w.words.inches(e.round_nearest(16)); };
  const auto percent = [](const Exact& share) {
    return pretty((share * Exact(100)).round_nearest(8));
  };
  std::vector<std::string> out;
  if (a.squaring.sign() > 0)
    out.push_back(w.words("allowance squaring", {{"length", length(a.squaring)}}));
  if (a.shrinkage.sign() > 0)
    out.push_back(w.words("allowance shrinkage", {{"percent", percent(a.shrinkage)}}));
  if (a.margin_share.sign() > 0)
    out.push_back(w.words("allowance share", {{"percent", percent(a.margin_share)}}));
  if (a.margin_length.sign() > 0)
    out.push_back(w.words("allowance length", {{"length", length(a.margin_length)}}));
  if (a.margin_strips > 0)
    out.push_back(
        w.words("allowance strips", {{"strips", w.words.count("strips", a.margin_strips)}}));
  return out;
}

// What the yardage is based on, what it holds and how it was rounded.
std::string yardage_words(const Writer& w) {
  const Pattern& pattern = w.pattern();
  std::string text =
      w.words("yardage width", {{"width", w.words.inches(pattern.usable_width.round_nearest(8))}});
  const std::vector<std::string> held = allowance_words(w);
  const std::string parts = w.words.yards(Fraction::of(1, pattern.allowances.yard_parts));
  const std::string cm = w.words.whole_centimetres(pattern.allowances.centimetre_step);
  text += " " + (held.empty()
                     ? w.words("yardage alone", {{"yards", parts}, {"metric", cm}})
                     : w.words("yardage holds",
                               {{"held", w.words.list(held)}, {"yards", parts}, {"metric", cm}}));
  if (pattern.allowances.shrinkage.sign() <= 0) text += " " + w.words("yardage unshrunk");
  const auto& needs = w.quantities().fabrics;
  const bool least = std::all_of(needs.begin(), needs.end(), [](const FabricNeed& need) {
    return !need.yards || (need.least && need.least->met);
  });
  if (least) text += " " + w.words("yardage least");
  return text;
}

// Fabrics bought by the length or in sheets, by their numbers, which stand in the table.
void cloth_table(Writer& w, Column& column) {
  Table table;
  bool by_length = false, in_sheets = false;
  for (const FabricNeed* each : needs_by_number(w.quantities())) {
    const FabricNeed& need = *each;
    const std::string bought = bought_words(w, need);
    if (bought.empty()) continue;
    by_length = by_length || need.yards.has_value();
    in_sheets = in_sheets || bought != (need.yards ? w.words.yards(*need.yards) : "");
    std::vector<Cell> row;
    row.push_back({{}, w.swatch(need.fabric)});
    row.push_back({column.plain(fabric_number(w, need.fabric)), {}});
    row.push_back(fabric_cell(w, column, need));
    row.push_back({{{bought, column.bold(), false}}, {}});
    row.push_back(
        {column.plain(need.centimetres ? w.words.whole_centimetres(*need.centimetres) : "–"), {}});
    table.rows.push_back(std::move(row));
  }
  if (table.rows.empty()) return;
  w.heading(column, 3, w.words(in_sheets ? "cloth" : "yardage"), "yardage");
  if (by_length) column.paragraph(yardage_words(w), {.keep_with_next = true});
  table.head =
      column.head({"", w.words("head number"), w.words("head fabric"),
                   w.words(in_sheets ? "head buy" : "head yards"), w.words("head metric")});
  table.align = "lrlrr";
  table.shares = in_sheets ? std::vector<double>{1, 0.7, 5.8, 4.4, 1.6}
                           : std::vector<double>{1, 0.7, 8.6, 1.6, 1.6};
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
                                      {"step", w.words.inches(ruler.step.round_nearest(64))},
                                      {"highest", w.words.inches(*highest)}});
}

// "Paper for 12 foundations: 8 of the ray unit, 4 of the tail unit".
std::string paper_words(const Writer& w, const std::vector<TemplateUse>& foundations) {
  std::vector<std::string> each;
  long long all = 0;
  for (const TemplateUse& use : foundations) {
    const long long n = w.sewing().make.at(*use.foundation);
    all += n;
    each.push_back(w.words(
        "foundations of", {{"n", std::to_string(n)}, {"unit", unit_noun(w, *use.foundation, {})}}));
  }
  return w.words("foundation stuff",
                 {{"n", w.words.count("foundations", all)}, {"each", w.words.list(each)}});
}

// What the steps of this size ask for.
std::string notions(const Writer& w) {
  const Notions asked = notions_of(w.quantities());
  std::vector<std::string> all{w.words("notions list")};
  if (asked.marking_pencil) all.push_back(w.words("notion pencil"));
  if (asked.hand_needle) all.push_back(w.words("notion needle"));
  if (asked.basting) all.push_back(w.words("notion basting"));
  return join(all, ", ");
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
  if (q.backing) row(w.words("backing"), backing_words(w, *q.backing));
  if (q.batting) row(w.words("batting"), batting_words(w, *q.batting));
  if (q.sleeve)
    row(w.words("sleeve"),
        w.words("binding need", {{"name", w.fabric(q.sleeve->fabric).name},
                                 {"number", fabric_number(w, q.sleeve->fabric)}}));
  std::vector<std::string> rulers;
  for (const std::size_t r : q.rulers) rulers.push_back(ruler_words(w, r));
  if (!rulers.empty()) row(w.words(rulers.size() == 1 ? "ruler" : "rulers"), join(rulers, "; "));
  if (!templates_of(w.scene, w.size).empty()) row(w.words("templates"), w.words("template stuff"));
  if (const auto foundations = foundations_of(w.scene, w.size); !foundations.empty())
    row(w.words("foundation paper"), paper_words(w, foundations));
  row(w.words("notions"), notions(w));
  w.heading(column, 3, w.words("also needed"), "also-needed");
  table.shares = {1.6, 8};
  column.table(table);
}

}  // namespace

void write_requirements_table(Writer& w, Column& column) {
  for (std::size_t b = 0; b < w.pattern().bundles.size(); ++b) bundle_table(w, column, b);
  cloth_table(w, column);
  other_table(w, column);
}

void write_requirements(Writer& w, Column& column) {
  const std::size_t first = column.boxes.size();
  w.heading(column, 1, w.words("requirements"), "requirements");
  const SizeQuantities& q = w.quantities();
  std::vector<Runs> words{
      {{w.size_def().title + ". ", column.bold(), false}},
      column.plain(
          w.words("finished size", {{"inches", w.words.inches(q.finished_width, q.finished_height)},
                                    {"metric", w.words.centimetres(q.finished_width) + " × " +
                                                   w.words.centimetres(q.finished_height)}}) +
          ".")};
  long long blocks = 0;
  for (const BlockSewing& block : w.sewing().blocks) blocks += block.blocks;
  if (blocks > 0)
    words.push_back(
        column.plain(w.words("it has", {{"blocks", w.words.count("blocks in it", blocks)}})));
  if (!w.pattern().summary.empty())
    words.push_back({{w.pattern().summary, column.italic(), false}});
  const ShrinkingCard quilt(column, 150, [&](Column& to, double height) {
    to.cards({{"", w.picture(w.style.quilt_figure(), to.width() * 0.4, height), words}}, 1);
  });
  write_requirements_table(w, column);
  quilt.shrink_for_page(column, first);
}

namespace {

// The fabrics of all sizes by their numbers, with what they are for.
std::vector<std::pair<FabricId, std::vector<std::string>>> fabrics_in_use(const Writer& w) {
  std::vector<std::pair<FabricId, std::vector<std::string>>> out;
  for (const SizeQuantities& q : w.scene.quantities.sizes) {
    for (const FabricNeed& need : q.fabrics) {
      auto known = std::find_if(out.begin(), out.end(),
                                [&](const auto& f) { return f.first == need.fabric; });
      if (known == out.end()) known = out.insert(out.end(), {need.fabric, {}});
      for (const std::string& id : need.uses) {
        const std::string use = w.words.named("use ", id);
        if (std::find(known->second.begin(), known->second.end(), use) == known->second.end())
          known->second.push_back(use);
      }
    }
  }
  std::stable_sort(out.begin(), out.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  return out;
}

}  // namespace

void write_back(Writer& w, Column& column) {
  w.heading(column, 1, w.pattern().title, "back");
  w.unlist_last();
  if (!w.pattern().summary.empty())
    column.paragraph({{w.pattern().summary, column.italic(), false}});
  const double most_height = std::min(230.0, w.style.text_height() * 0.36);
  if (const auto quilt =
          w.picture(w.style.quilt_figure(), w.style.text_width() * 0.55, most_height))
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
  const auto row = [&](const std::string& what, const std::vector<std::string>& uses, auto&& cell) {
    std::vector<Cell> cells{Cell{{{what, column.bold(), false}}, {}}};
    if (!uses.empty())
      cells[0].runs.push_back(
          {" " + w.words("in parentheses", {{"what", join(uses, ", ")}}), column.text(), false});
    bool any = false;
    for (const SizeQuantities& q : sizes) {
      const std::string text = cell(q);
      any = any || !text.empty();
      cells.push_back({column.plain(text.empty() ? "–" : text), {}});
    }
    if (any) table.rows.push_back(std::move(cells));
  };
  row(w.words("finished"), {},
      [&](const SizeQuantities& q) { return w.words.inches(q.finished_width, q.finished_height); });
  for (std::size_t b = 0; b < w.pattern().bundles.size(); ++b) {
    row(w.pattern().bundles[b].name, {}, [&](const SizeQuantities& q) {
      const BundleUse* use = use_of(q, b);
      return use == nullptr ? std::string() : w.words.count("bundles", use->bought);
    });
  }
  for (const auto& [fabric, uses] : fabrics_in_use(w)) {
    row(fabric_number(w, fabric) + " " + w.fabric(fabric).name, uses,
        [&, f = fabric](const SizeQuantities& q) {
          for (const FabricNeed& need : q.fabrics)
            if (need.fabric == f) return bought_words(w, need, false);
          return std::string();
        });
  }
  row(w.words("backing"), {}, [&](const SizeQuantities& q) {
    if (!q.backing) return std::string();
    return yards_and_metric(w, q.backing->yards, q.backing->centimetres);
  });
  row(w.words("batting"), {}, [&](const SizeQuantities& q) {
    return q.batting ? w.words.inches(q.batting->width, q.batting->height) : std::string();
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
