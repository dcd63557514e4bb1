// The blocks, the assembly of the top and its finishing.

#include <algorithm>

#include "base/length.h"
#include "base/text.h"
#include "booklet/writer.h"

namespace dogear::booklet {
namespace {

constexpr double small_step_height = 108;  // pt, of figures that stand two abreast

struct Warned {  // what need not be said again within a block
  bool two = false, one = false, outer = false;
};

std::vector<Runs> step_runs(Writer& w, const Column& column, const StepWords& words,
                            Warned& warned) {
  std::vector<Runs> out;
  std::string text = words.sew;
  if (!words.press.empty()) text += " " + words.press;
  out.push_back({{text + " ", column.text(), false}, {words.make, column.bold(), false}});
  std::string note = words.measure;
  const auto warn = [&](bool now, bool& before, const char* key) {
    if (!now || before) return;
    before = true;
    note += (note.empty() ? "" : " ") + w.words(key);
  };
  warn(words.two_bias, warned.two, "two bias");
  if (!words.two_bias) warn(words.one_bias, warned.one, "one bias");
  warn(words.outer_bias, warned.outer, "outer bias");
  if (!note.empty()) {
    TextStyle s = column.small();
    s.color = w.style.colours.muted;
    out.push_back({{note, s, false}});
  }
  return out;
}

// The bold line of facts under a block's name.
std::string block_facts(const Writer& w, const BlockSewing& block) {
  const PartId part = w.scene.checked.block_parts[block.use];
  const Polygon& outline = w.scene.checked.parts[part].outline;
  const dogear::Box box = bounds(outline);
  const auto about = [&](const Exact& e) {
    const Fraction f = e.round_nearest(8);
    return (Exact(f) == e ? "" : w.words("about") + " ") + pretty_inches(f);
  };
  const bool rectangle = outline.size() == 4 && area(outline) == box.width() * box.height();
  const Exact both = w.pattern().seam_allowance * Exact(2);
  std::string text =
      w.words("block finished", {{"size", about(box.width()) + " × " + about(box.height())}});
  if (rectangle)
    text +=
        " " + w.words("block with allowances",
                      {{"size", about(box.width() + both) + " × " + about(box.height() + both)}});
  return text;
}

}  // namespace

void write_block_steps(Writer& w, Column& column, const BlockSewing& block) {
  const std::string address = join({"step/", w.pattern().uses[block.use].id, "/"}, "");
  std::map<UnitId, std::size_t> numbers;
  std::vector<Card> cards;
  Warned warned;
  bool small = block.steps.size() > 1;
  const double half = (column.width() - 22) / 2;
  for (std::size_t n = 0; n < block.steps.size(); ++n) {
    const std::string number = std::to_string(n + 1);
    const StepWords words = step_words(w, block.steps[n], numbers);
    numbers[block.steps[n]] = n + 1;
    const auto picture = w.picture(address + number, half, small_step_height);
    // A figure that must shrink to a narrow band has the page's width instead.
    if (picture && picture->width > half * 0.98 && picture->height < 40) small = false;
    cards.push_back({number, picture, step_runs(w, column, words, warned)});
  }
  if (!small) {
    for (Card& card : cards)
      card.picture = w.card_picture(address + card.label, column.width(), 150);
  }
  column.cards(cards, small ? 2 : 1);
}

void write_blocks(Writer& w, Column& column) {
  w.heading(column, 1, w.words("blocks"), "blocks");
  column.paragraph(w.words("blocks intro"));
  for (const BlockSewing& block : w.sewing().blocks) {
    const BlockUse& use = w.pattern().uses[block.use];
    const BlockDef& def = w.pattern().blocks[use.block];
    const std::size_t first = column.boxes.size();
    w.heading(column, 2, use.title, "block/" + use.id);
    std::vector<Runs> words;
    if (!def.words.empty()) words.push_back({{def.words, column.italic(), false}});
    words.push_back({{w.words("make blocks", {{"n", std::to_string(block.blocks)}}) + " ",
                      column.bold(), false},
                     {block_facts(w, block), column.text(), false}});
    std::vector<std::string> shared;
    for (const UnitId unit : block.shared) {
      const std::string name = unit_noun(w, unit, {});
      if (std::find(shared.begin(), shared.end(), name) == shared.end()) shared.push_back(name);
    }
    if (!shared.empty())
      words.push_back(column.plain(w.words("shared units", {{"units", w.words.list(shared)}})));
    if (block.steps.empty() && block.shared.empty())
      words.push_back(column.plain(w.words("no sewing")));
    column.cards({{"", w.picture("block/" + use.id, column.width() * 0.4, 104), words}}, 1);
    const auto prose = w.pattern().prose.find("prose/blocks/" + def.id + ".md");
    const auto own = w.pattern().prose.find("prose/blocks/" + use.id + ".md");
    ProseFound found;
    if (own != w.pattern().prose.end())
      found = write_prose(w, column, own->second, 2);
    else if (prose != w.pattern().prose.end())
      found = write_prose(w, column, prose->second, 2);
    if (!found.steps && !block.steps.empty()) {
      column.keep_last_with_next();
      write_block_steps(w, column, block);
    }
    // A block begins a page of its own rather than at the foot of one.
    if (first < column.boxes.size()) column.boxes[first].break_cost = -0.05;
  }
}

void write_assembly_steps(Writer& w, Column& column) {
  std::map<UnitId, std::size_t> numbers;
  std::vector<Card> cards;
  Warned warned;
  const auto& units = w.sewing().assembly;
  for (std::size_t n = 0; n < units.size(); ++n) {
    StepWords words = step_words(w, units[n], numbers);
    const auto made = w.sewing().make.find(units[n]);
    if (made != w.sewing().make.end() && made->second == 1) words.make.clear();
    numbers[units[n]] = n + 1;
    const std::string number = std::to_string(n + 1);
    const std::string& name = w.scene.piecing.units[units[n]].name;
    std::vector<Runs> runs;
    const bool titled = !name.empty() && name.find(" section ") == std::string::npos;
    std::string title = unit_noun(w, units[n], {});
    if (starts_with(title, w.words("the") + " ")) title.erase(0, w.words("the").size() + 1);
    if (titled) runs.push_back({{capital(title) + ".", column.bold(), false}});
    for (Runs& more : step_runs(w, column, words, warned)) {
      if (titled && runs.size() == 1 && runs[0].size() == 1) {
        runs[0].back().text += " ";
        runs[0].insert(runs[0].end(), more.begin(), more.end());
      } else {
        runs.push_back(std::move(more));
      }
    }
    cards.push_back(
        {number, w.card_picture("assembly/" + number, column.width(), 170), std::move(runs)});
  }
  const SizeQuantities& q = w.quantities();
  if (!cards.empty() && q.binding)
    cards.back().paragraphs.push_back(column.plain(w.words(
        "top measures", {{"finished", inches_by_inches(q.finished_width, q.finished_height)}})));
  column.cards(cards, 1);
}

void write_assembly(Writer& w, Column& column) {
  w.heading(column, 1, w.words("assembly"), "assembly");
  column.paragraph(w.words("assembly intro"));
  if (const auto layout = w.picture("layout", column.width(), w.style.text_height() * 0.5)) {
    column.figure(*layout);
  }
  write_assembly_steps(w, column);
}

void write_finishing(Writer& w, Column& column) {
  w.heading(column, 1, w.words("finishing"), "finishing");
  const SizeQuantities& q = w.quantities();
  if (q.backing) {
    const Backing& b = *q.backing;
    w.heading(column, 2, w.words("backing"), "finishing-backing");
    std::vector<Runs> words;
    words.push_back(column.plain(
        w.words(b.panels == 1 ? "backing whole" : "backing panels",
                {{"size", inches_by_inches(b.width, b.height)},
                 {"name", b.name},
                 {"n", w.words.number(b.panels)},
                 {"way", w.words(b.seams_vertical ? "seams vertical" : "seams horizontal")}})));
    if (b.panels > 1) words.push_back(column.plain(w.words("backing press")));
    column.cards({{"", w.picture("backing", column.width() * 0.4, 190), words}}, 1);
  }
  if (q.batting || q.backing) {
    w.heading(column, 2, w.words("layering"), "finishing-layering");
    std::vector<Runs> steps;
    if (q.batting)
      steps.push_back(column.plain(w.words(
          "trim batting", {{"size", inches_by_inches(q.batting->width, q.batting->height)}})));
    for (const char* key : {"layer backing", "layer batting", "baste", "quilting", "trim"})
      steps.push_back(column.plain(w.words(key)));
    column.list(steps, true);
  }
  if (q.binding) {
    const Binding& b = *q.binding;
    w.heading(column, 2, w.words("binding"), "finishing-binding");
    std::vector<Runs> steps;
    steps.push_back(column.plain(
        w.words("binding join",
                {{"strips", w.words.count("strips", b.strips)},
                 {"strip", pretty_inches(b.strip)},
                 {"name", w.fabric(b.fabric).name},
                 {"length", pretty_inches(Fraction::of(Exact(b.length).round_up(1).num, 1))}})));
    for (const char* key :
         {"binding fold", "binding sew", "binding corner", "binding end", "binding turn"})
      steps.push_back(column.plain(w.words(key)));
    column.list(steps, true);
  }
  if (!q.backing && !q.binding && !q.batting) column.paragraph(w.words("no finishing"));
  column.paragraph(w.words("label"));
}

}  // namespace dogear::booklet
