// What buyers of earlier editions are to change in theirs.

#include <algorithm>

#include "base/length.h"
#include "booklet/writer.h"
#include "cutting/fact_names.h"

namespace dogear::booklet {
namespace {

// Of this size, or of one that is there no more.
std::vector<const Erratum*> errata_of(const Writer& w) {
  std::vector<const Erratum*> out;
  for (const Erratum& e : w.pattern().errata) {
    const SizedName fact = split_size(e.fact);
    const std::string& size = fact.size.empty() ? fact.name : fact.size;
    const auto& sizes = w.pattern().sizes;
    const bool known =
        std::any_of(sizes.begin(), sizes.end(), [&](const SizeDef& s) { return s.id == size; });
    if (!known || size == w.size_def().id) out.push_back(&e);
  }
  return out;
}

// The printed name of a fabric, block or bundle; its id where the pattern has it no more.
std::string printed_name(const Writer& w, const FactName& f) {
  const Pattern& p = w.pattern();
  const auto named = [&](const auto& things, auto&& name) {
    const auto found = std::find_if(things.begin(), things.end(),
                                    [&](const auto& thing) { return thing.id == f.subject; });
    return found == things.end() ? f.subject : name(*found);
  };
  switch (f.kind) {
    case FactKind::block_count:
    case FactKind::block_size:
    case FactKind::batch:
    case FactKind::make:
    case FactKind::foundation:
      if (f.subject == "assembly") return w.words("correction of top");
      return named(p.uses, [](const BlockUse& use) { return use.title; });
    case FactKind::bundle:
      return named(p.bundles, [](const Bundle& bundle) { return bundle.name; });
    default:
      return named(p.fabrics, [](const Fabric& fabric) { return fabric.name; });
  }
}

std::string_view key_of(const FactName& f) {
  switch (f.kind) {
    case FactKind::finished_size:
      return "finished";
    case FactKind::cloth:
      return f.subject == "backing" ? "backing" : "correction of cloth";
    case FactKind::backing:
      return "backing";
    case FactKind::batting:
    case FactKind::package:
      return "batting";
    case FactKind::binding:
      return "binding";
    case FactKind::ruler:
      return "ruler";
    case FactKind::bundle:
    case FactKind::bundle_strips:
      return "correction of bundle";
    case FactKind::block_count:
      return "correction of blocks";
    case FactKind::block_size:
      return "correction of block size";
    case FactKind::piece:
      return f.measures.empty() ? "correction of unmeasured piece" : "correction of piece";
    case FactKind::strip:
      return "correction of strips";
    case FactKind::strip_set:
      return "correction of strip sets";
    case FactKind::batch:
      return "correction of batches";
    case FactKind::make:
      return "correction of units";
    case FactKind::foundation:
      return "correction of foundations";
    default:
      return "";
  }
}

std::string what_words(const Writer& w, const Erratum& e) {
  const FactName f = read_fact_name(split_size(e.fact).name);
  const std::string_view key = key_of(f);
  if (key.empty()) return "";
  std::string unit = f.unit;
  std::replace(unit.begin(), unit.end(), '-', ' ');
  return w.words(key, {{"name", printed_name(w, f)},
                       {"shape", w.words.named("shape ", shape_of_slug(f.unit))},
                       {"unit", unit},
                       {"strip", f.measures.empty() ? "" : w.words.inches(f.measures.front())}});
}

}  // namespace

void write_errata(Writer& w, Column& column) {
  const std::vector<const Erratum*> errata = errata_of(w);
  if (errata.empty()) return;
  w.heading(column, 1, w.words("corrections"), "corrections");
  std::vector<std::string> editions;
  for (const Erratum* e : errata) {
    if (std::find(editions.begin(), editions.end(), e->edition) == editions.end()) {
      editions.push_back(e->edition);
    }
  }
  const auto value = [&](const std::string& text) {
    return pretty_fractions(text == "none" ? w.words("correction to none") : text);
  };
  for (const std::string& edition : editions) {
    w.heading(column, 2, w.words("corrections to", {{"edition", edition}}),
              "corrections-to-" + slug(edition));
    column.paragraph(w.words("corrections intro", {{"edition", edition}}),
                     {.keep_with_next = true});
    Table table;
    for (const char* key : {"head correction", "head printed", "head right"}) {
      table.head.push_back({column.plain(w.words(key)), {}});
    }
    table.align = "lll";
    std::vector<Runs> points;
    for (const Erratum* e : errata) {
      if (e->edition != edition) continue;
      if (e->was.empty()) {
        points.push_back(column.plain(e->words));
        continue;
      }
      const std::string what = what_words(w, *e);
      Runs runs;
      if (!what.empty()) runs.push_back({what, column.bold(), false});
      if (!e->words.empty())
        runs.push_back({(what.empty() ? "" : " ") + e->words, column.text(), false});
      if (runs.empty()) runs = column.plain(e->fact);
      table.rows.push_back({Cell{runs, {}}, Cell{column.plain(value(e->was)), {}},
                            Cell{column.plain(value(e->now)), {}}});
    }
    if (!table.rows.empty()) {
      table.shares = {4, 2.5, 2.5};
      column.table(table);
    }
    if (!points.empty()) column.list(points);
  }
}

}  // namespace dogear::booklet
