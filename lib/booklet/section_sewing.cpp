// The assembly of the top.

#include <algorithm>
#include <span>
#include <utility>

#include "base/length.h"
#include "base/text.h"
#include "booklet/writer.h"
#include "cutting/unit_measure.h"

namespace dogear::booklet {
namespace {

constexpr double row_words = 88, long_row_words = 116;  // pt, beside a row's figure
constexpr double joined_words = 130;
constexpr double row_gap = 6, narrow_row_gap = 12;  // pt, the second below a row's words
constexpr double step_height = 150;                 // pt, of figures that stand two abreast
// Columns narrower than this have the figures of rows in their full width, above the words.
constexpr double narrow = 360;
constexpr double narrow_row = 0.22, narrow_joined = 0.66;  // of the page's height
// Of the page's height, for the longest diagonal row; of the column's width, for one that has its
// words beside it.
constexpr double narrow_step = 0.22;
constexpr double wide_aslant = 0.44, narrow_aslant = 0.52, beside_part = 0.4;
constexpr std::size_t long_row = 5;  // parts

// Parts of the page's height. Many rows have a page of their own, few share those around them.
constexpr std::size_t many_rows = 6;
constexpr double joined_height = 0.5;
double layout_height(std::size_t rows, bool alone) {
  return rows > many_rows ? 0.68 : alone ? 0.6 : 0.43;
}

struct Step {
  UnitId unit = 0;
  std::size_t place = 0;      // in the order of sewing, from 1
  std::string number, title;  // "3", "Row 3"
  StepWords words;
  bool row = false, joins_rows = false;
};

std::vector<Step> assembly_steps(const Writer& w) {
  std::vector<Step> steps;
  std::map<UnitId, std::size_t> numbers;
  for (const UnitId unit : w.sewing().assembly) {
    Step& step = steps.emplace_back();
    step.unit = unit;
    step.words = step_words(w, unit, numbers);
    const auto made = w.sewing().make.find(unit);
    if (made != w.sewing().make.end() && made->second == 1) step.words.make.clear();
    numbers[unit] = steps.size();
    step.place = steps.size();
    step.number = std::to_string(step.place);
    const SewnUnit& sewn = w.scene.piecing.units[unit];
    const bool section = is_section(sewn.name);
    step.row = is_row(sewn.name) && !section;
    std::size_t rows = 0, others = 0;
    for (const Input& in : sewn.inputs) {
      if (in.is_piece) continue;  // a strip of sashing
      ++(is_row(w.scene.piecing.units[in.unit].name) ? rows : others);
    }
    step.joins_rows = rows > 1 && others == 0;
    if (section) continue;
    step.title = capital(unit_noun(w, unit, {})) + ".";
  }
  return steps;
}

std::size_t row_count(const std::vector<Step>& steps) {
  return static_cast<std::size_t>(
      std::count_if(steps.begin(), steps.end(), [](const Step& s) { return s.row; }));
}

// The arrows alone show which way each seam is pressed.
bool pressed_as_shown(const Writer& w, const std::string& press) {
  for (const char* seams : {"the seam", "both seams", "all seams"})
    if (press == w.words("press as shown", {{"seams", w.words(seams)}})) return true;
  return press.empty();
}

// The room that the widest number takes, so that all steps begin in line.
double number_room(const Column& column, const std::vector<Step>& steps) {
  double room = 0;
  for (const Step& step : steps) room = std::max(room, column.number_room(step.number));
  return room;
}

TextStyle row_note(const Writer& w, const Column& column) {
  TextStyle small = column.small();
  small.size = w.style.type.label - 0.5;
  small.color = w.style.colours.muted;
  return small;
}

// What a row has of its own beside its figure, name and pressing.
std::vector<std::string> row_notes(const Step& row, bool one_size) {
  std::vector<std::string> notes;
  notes.push_back(row.words.alternate);
  if (!one_size) notes.push_back(row.words.measure);
  std::erase(notes, "");
  return notes;
}

void write_narrow_row(Writer& w, Column& column, const Step& row, const std::string& press,
                      const std::vector<std::string>& notes, double room,
                      std::optional<Picture> picture) {
  Card card{row.number, {}, {}, room};
  Runs& words = card.paragraphs.emplace_back();
  words.push_back({row.title, column.bold(), false});
  if (!row.words.make.empty()) words.push_back({" " + row.words.make, column.bold(), false});
  if (!press.empty()) words.push_back({" " + press, column.text(), false});
  for (const std::string& note : notes) words.push_back({" " + note, row_note(w, column), false});
  card.picture = std::move(picture);
  column.card_row({card}, {column.width()});
  column.boxes.back().before = column.boxes.back().after = narrow_row_gap;
  column.boxes.back().stretch = 14;
}

// Rows sewn in the same words: those once, then each row's figure and name, and its pressing where
// every row has one to tell.
void write_rows(Writer& w, Column& column, const std::vector<Step>& rows, double room,
                Warned& warned) {
  const bool one_size = std::all_of(rows.begin(), rows.end(), [&](const Step& s) {
    return !s.words.size.empty() && s.words.size == rows[0].words.size;
  });
  StepWords all = rows[0].words;
  const bool single =
      std::all_of(rows.begin(), rows.end(), [](const Step& s) { return s.words.make.empty(); });
  all.sew = w.words(
      single ? "rows alike" : "rows alike kinds",
      {{"steps", rows.front().number + w.words(rows.size() == 2 ? "list last" : "drawn to") +
                     rows.back().number},
       {"sew", all.sew}});
  const bool told = std::none_of(rows.begin(), rows.end(),
                                 [&](const Step& s) { return pressed_as_shown(w, s.words.press); });
  all.press = told ? "" : w.words("press as shown", {{"seams", w.words("the seams")}});
  all.make.clear();
  all.measure = one_size ? w.words("rows measure", {{"size", all.size}}) : "";
  const bool bias = std::any_of(rows.begin(), rows.end(),
                                [](const Step& s) { return s.words.two_bias || s.words.one_bias; });
  all.two_bias = all.one_bias = false;
  all.outer_bias.clear();
  all.alternate.clear();
  std::set<std::string> points;  // what the rows say of crossings, where they cross anything
  for (const Step& s : rows) {
    if (!s.words.pressing.empty()) points.insert(s.words.pressing);
  }
  all.pressing = points.empty() ? "" : points.size() == 1 ? *points.begin() : w.words("rows nest");
  if (bias) all.measure += (all.measure.empty() ? "" : " ") + w.words("rows bias");
  const std::size_t first = column.boxes.size();
  for (const Runs& runs : step_runs(w, column, all, warned)) {
    ParagraphStyle how;
    how.align = Align::left;
    how.keep_with_next = true;
    column.paragraph(runs, how);
  }
  if (rows.size() > many_rows && first < column.boxes.size()) column.boxes[first].break_cost = -0.4;
  const double words_width = one_size ? row_words : long_row_words;
  // As many rows as there are on the page, if they are not too many.
  const double each = (w.style.text_height() - 5 * w.style.type.leading) /
                      static_cast<double>(std::clamp<std::size_t>(rows.size(), 8, 11));
  std::vector<std::size_t> numbers;
  for (const Step& row : rows) numbers.push_back(row.place);
  const std::vector<std::optional<Picture>> pictures =
      column.width() < narrow
          ? w.assembly_pictures(numbers, column.width(), w.style.text_height() * narrow_row)
          : w.assembly_pictures(numbers, column.width() - words_width - card_gap, each - row_gap);
  column.begin(canvas::Role::list);
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const Step& row = rows[i];
    const std::vector<std::string> notes = row_notes(row, one_size);
    const std::string press = told ? row.words.press : "";
    if (column.width() < narrow) {
      write_narrow_row(w, column, row, press, notes, room, pictures[i]);
      continue;
    }
    Card card{row.number, {}, {}, room};
    card.paragraphs.push_back({{row.title, column.bold(), false}});
    if (!row.words.make.empty())
      card.paragraphs.push_back({{row.words.make, column.bold(), false}});
    if (!press.empty()) card.paragraphs.push_back({{press, column.text(), false}});
    for (const std::string& note : notes)
      card.paragraphs.push_back({{note, row_note(w, column), false}});
    card.picture = pictures[i];
    column.side_card(card, words_width);
    column.boxes.back().before = column.boxes.back().after = row_gap;
    column.boxes.back().stretch = 14;
  }
  column.end();
  column.space(w.style.type.leading);
}

// `before` is what to do before this step's sewing.
Card step_card(Writer& w, const Column& column, const Step& step, const std::string& before,
               double room, Warned& warned) {
  Card card{step.number, {}, step_runs(w, column, step.words, warned), room};
  if (!before.empty()) card.paragraphs.insert(card.paragraphs.begin(), column.plain(before));
  if (step.title.empty()) return card;
  Runs first{{step.title + " ", column.bold(), false}};
  if (!card.paragraphs.empty()) {
    first.insert(first.end(), card.paragraphs[0].begin(), card.paragraphs[0].end());
    card.paragraphs[0] = std::move(first);
  } else {
    card.paragraphs.push_back(std::move(first));
  }
  return card;
}

// How the strips of a border are joined and its length is measured, where this step sews one on.
class BorderNotes {
 public:
  explicit BorderNotes(const Writer& w) : w_(w) {}

  std::string of(UnitId id) {
    const SewnUnit& unit = w_.scene.piecing.units[id];
    if (!goes_around(unit.name)) return {};
    std::string text;
    const auto add = [&](const std::string& sentence) {
      text += (text.empty() ? "" : " ") + sentence;
    };
    std::set<PieceId> told;
    for (const Input& in : unit.inputs) {
      if (!in.is_piece) continue;
      const CutPiece* cut = cut_of(w_.quantities(), in.piece);
      if (cut == nullptr) continue;
      if (const std::string how = joining(id, *cut); !how.empty()) add(how);
      if (!is_border_strip(w_, in.piece)) continue;
      if (told.insert(in.piece).second) add(measure(id, in, cut->cut));
    }
    return text;
  }

 private:
  std::string joining(UnitId unit, const CutPiece& cut) {
    const FabricId fabric = w_.scene.piecing.pieces[cut.piece].fabric;
    const long long strips = joined_strips(w_.quantities(), fabric, cut.cut);
    if (strips == 0 || !joined_.emplace(fabric, Exact(cut.cut.strip)).second) return {};
    return w_.words("join borders", {{"n", w_.said_number(fact(unit, "joined-strips"), strips)},
                                     {"name", w_.fabric(fabric).name}});
  }

  std::string fact(UnitId unit, const char* what) const {
    return "measure." + owned_name(w_.scene.piecing, w_.sewing(), "assembly", unit) + "." + what;
  }

  // Before it is cut to length: by how long the top is through its middle.
  std::string measure(UnitId unit, const Input& in, const PieceCut& cut) {
    const BorderMeasure measured = border_measure(w_.pattern(), w_.scene.piecing, in);
    const char* way = measured.upright ? "top to bottom" : "side to side";
    const Fraction near = measured.length.round_nearest(8);
    const bool exactly = near == cut.length;
    const char* key = exactly ? "measure border" : "measure border about";
    if (std::exchange(measured_, true))
      key = exactly ? "measure border again" : "measure border about again";
    const char* side = measured.upright ? "top-to-bottom" : "side-to-side";
    return w_.words(key, {{"way", w_.words(way)},
                          {"length", w_.said(fact(unit, side), w_.words.inches(near))},
                          {"cut", w_.words.inches(cut.length)},
                          {"strips", strips(in.piece, cut)}});
  }

  // "both F11", "two F11 from the joined strip".
  std::string strips(PieceId id, const PieceCut& cut) const {
    const Piece& piece = w_.scene.piecing.pieces[id];
    const bool joined = joined_strips(w_.quantities(), piece.fabric, cut) > 0;
    return w_.words(joined ? "of joined strip" : "both strips",
                    {{"piece", piece.label(w_.pattern())}});
  }

  const Writer& w_;
  std::set<std::pair<FabricId, Exact>> joined_;  // told already, by height
  bool measured_ = false;
};

// How borders are mitred, told once before the first.
void write_mitre(Writer& w, Column& column) {
  const std::string allowance = w.words.inches(w.pattern().seam_allowance.round_nearest(64));
  std::vector<Runs> words;
  words.push_back({{w.words("mitred title") + " ", column.bold(), false},
                   {w.words("mitred sides", {{"allowance", allowance}}), column.text(), false}});
  words.push_back(column.plain(w.words("mitred corners", {{"allowance", allowance}})));
  column.cards({{"", w.picture("mitre", column.width() * 0.4, step_height), words}}, 1);
}

// Rows match at their corners, whatever their tips do.
Warned of_assembly() { return {.unequal = true, .rows = true, .tips = {}}; }

}  // namespace

bool is_border_strip(const Writer& w, PieceId piece) {
  if (w.scene.piecing.pieces[piece].mitred) return false;
  const auto& assembly = w.sewing().assembly;
  return std::any_of(assembly.begin(), assembly.end(), [&](UnitId id) {
    const SewnUnit& unit = w.scene.piecing.units[id];
    return goes_around(unit.name) &&
           std::any_of(unit.inputs.begin(), unit.inputs.end(),
                       [&](const Input& in) { return in.is_piece && in.piece == piece; });
  });
}

// Diagonal rows at one scale, where one of them is long in the room of two steps. Their figures, by
// their place.
std::map<std::size_t, Picture> aslant(Writer& w, const Column& column,
                                      const std::vector<Step>& steps) {
  std::vector<std::size_t> rows;
  bool any_long = false;
  for (const Step& step : steps) {
    if (!step.row) continue;
    rows.push_back(step.place);
    any_long = any_long || w.scene.piecing.units[step.unit].inputs.size() >= long_row;
  }
  if (rows.empty() || w.size_def().setting != Setting::on_point) return {};
  const bool above = column.width() < narrow;
  double width = column.width(), height = w.style.text_height() * narrow_aslant;
  if (!above) {
    width -= joined_words + card_gap;
    height = any_long ? w.style.text_height() * wide_aslant : step_height;
  } else if (!any_long) {
    width *= beside_part;
  }
  const auto pictures = w.assembly_pictures(rows, width, height, true);
  std::map<std::size_t, Picture> out;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    if (pictures[i]) out.emplace(rows[i], *pictures[i]);
  }
  return out;
}

// The steps that the cards are of, counted from 1.
std::vector<std::size_t> places_of(std::span<const Card> cards) {
  std::vector<std::size_t> out;
  for (const Card& card : cards) out.push_back(std::stoul(card.label));
  return out;
}

// The figures of the first one or two cards: at one scale, if that makes neither much smaller.
void abreast(Writer& w, std::span<Card> cards, double width) {
  constexpr double much = 2;
  const auto places = places_of(cards.first(std::min<std::size_t>(2, cards.size())));
  auto pictures = w.assembly_pictures(places, width, step_height, false);
  if (pictures.size() == 2 && pictures[0] && pictures[1]) {
    const auto [least, most] = std::minmax(pictures[0]->scale, pictures[1]->scale);
    if (most < least * much) pictures = w.assembly_pictures(places, width, step_height, true);
  }
  for (std::size_t i = 0; i < pictures.size(); ++i) cards[i].picture = pictures[i];
}

// Each in the full width of a narrow column, its figure above its words, at one scale; false where
// that shows little more than two abreast.
bool one_below_another(Writer& w, Column& column, const std::vector<Card>& cards) {
  constexpr double worth_it = 1.3;
  const auto places = places_of(cards);
  const double half = (column.width() - card_gap) / 2;
  const auto pictures =
      w.assembly_pictures(places, column.width(), w.style.text_height() * narrow_step, true);
  const auto beside = w.assembly_pictures(places, half, step_height, true);
  for (std::size_t i = 0; i < cards.size(); ++i)
    if (!pictures[i] || !beside[i] || pictures[i]->scale < beside[i]->scale * worth_it)
      return false;
  column.begin(canvas::Role::list);
  for (std::size_t i = 0; i < cards.size(); ++i) {
    Card card = cards[i];
    card.picture = pictures[i];
    column.card_row({card}, {column.width()});
    column.boxes.back().after = column.style().type.leading;
    column.boxes.back().stretch = 20;
  }
  column.end();
  return true;
}

// A note that an earlier row has is named by its step.
void note_once(const Writer& w, Card& card, std::map<std::string, std::string>& noted) {
  if (card.paragraphs.size() < 2 || card.paragraphs.back().size() != 1) return;
  std::string& note = card.paragraphs.back().front().text;
  const auto [at, fresh] = noted.emplace(note, card.label);
  if (!fresh) note = w.words("note of step", {{"n", at->second}});
}

// Beside its words where there is room, else above them.
void write_aslant(Column& column, Card card, const Picture& picture) {
  card.picture = picture;
  column.begin(canvas::Role::list);
  if (column.width() >= narrow) {
    column.side_card(card, joined_words);
  } else if (picture.width > column.width() * beside_part + 0.01) {
    column.card_row({card}, {column.width()});
  } else {
    column.cards({card}, 1);
  }
  column.boxes.back().after = column.style().type.leading;
  column.boxes.back().stretch = 20;
  column.end();
}

void write_assembly_steps(Writer& w, Column& column) {
  const std::vector<Step> steps = assembly_steps(w);
  const std::map<std::size_t, Picture> slanting = aslant(w, column, steps);
  const double room = number_room(column, steps);
  const bool on_point = w.size_def().setting == Setting::on_point;
  Warned warned = of_assembly();
  BorderNotes borders(w);
  std::map<std::string, std::string> noted;  // of diagonal rows: note -> step
  bool mitres_told = false;
  std::vector<Card> waiting;  // to stand two abreast
  const auto flush = [&] {
    const std::size_t first = column.boxes.size();
    const std::vector<std::size_t> places = places_of(waiting);
    const bool around = std::all_of(places.begin(), places.end(), [&](std::size_t place) {
      return goes_around(w.scene.piecing.units[steps[place - 1].unit].name);
    });
    if (column.width() < narrow && around && waiting.size() > 1 &&
        one_below_another(w, column, waiting)) {
      waiting.clear();
      return;
    }
    const bool alone = waiting.size() == 1;
    const double width = alone ? column.width() : (column.width() - card_gap) / 2;
    if (alone) {
      Card& card = waiting.front();
      card.picture = w.card_picture("assembly/" + card.label, width, step_height);
    } else {
      for (std::size_t i = 0; i < waiting.size(); i += 2)
        abreast(w, {waiting.begin() + static_cast<std::ptrdiff_t>(i), waiting.end()}, width);
    }
    column.cards(waiting, alone ? 1 : 2);
    for (std::size_t i = first; i < column.boxes.size(); ++i) column.boxes[i].stretch = 20;
    waiting.clear();
  };
  for (std::size_t n = 0; n < steps.size();) {
    std::size_t end = n + 1;
    // A diagonal row is as high as it is wide: it has its figure in a card, as other steps have.
    while (!on_point && steps[n].row && end < steps.size() && steps[end].row &&
           steps[end].words.sew == steps[n].words.sew)
      ++end;
    if (end > n + 1) {
      flush();
      const auto at = steps.begin();
      write_rows(w, column,
                 {at + static_cast<std::ptrdiff_t>(n), at + static_cast<std::ptrdiff_t>(end)}, room,
                 warned);
      n = end;
      continue;
    }
    Card card = step_card(w, column, steps[n], borders.of(steps[n].unit), room, warned);
    if (const auto row = slanting.find(steps[n].place); row != slanting.end()) {
      flush();
      note_once(w, card, noted);
      write_aslant(column, std::move(card), row->second);
      ++n;
      continue;
    }
    if (is_mitred(w.scene.piecing.units[steps[n].unit]) && !std::exchange(mitres_told, true)) {
      flush();
      write_mitre(w, column);
    }
    if (steps[n].joins_rows) {
      flush();
      column.begin(canvas::Role::list);
      const std::string address = "assembly/" + card.label;
      if (column.width() < narrow) {
        card.picture = w.picture(address, column.width(), w.style.text_height() * narrow_joined);
        column.card_row({card}, {column.width()});
      } else {
        card.picture = w.picture(address, column.width() - joined_words - card_gap,
                                 w.style.text_height() * joined_height);
        column.side_card(card, joined_words);
      }
      column.space(w.style.type.leading);
      column.boxes.back().stretch = 20;
      column.end();
    } else {
      const bool wide = steps[n].row && !on_point && column.width() < narrow &&
                        w.scene.piecing.units[steps[n].unit].inputs.size() >= long_row;
      if (wide) flush();
      waiting.push_back(std::move(card));
      if (wide) flush();
    }
    ++n;
  }
  flush();
}

void write_assembly(Writer& w, Column& column) {
  w.heading(column, 1, w.words("assembly"), "assembly");
  const bool on_point = w.size_def().setting == Setting::on_point;
  const auto has_print = [&](UnitId unit) {
    const auto& inputs = w.scene.piecing.units.at(unit).inputs;
    return std::any_of(inputs.begin(), inputs.end(), [&](const Input& in) {
      return in.is_piece && w.scene.piecing.pieces.at(in.piece).directional;
    });
  };
  const auto& blocks = w.sewing().blocks;
  const bool prints = std::any_of(blocks.begin(), blocks.end(), [&](const BlockSewing& block) {
    return std::any_of(block.steps.begin(), block.steps.end(), has_print);
  });
  column.paragraph(w.words(on_point ? "on point intro" : "assembly intro") +
                   (prints ? " " + w.words("prints as drawn") : ""));
  if (const auto layout =
          w.picture("layout", column.width(),
                    w.style.text_height() * layout_height(row_count(assembly_steps(w)),
                                                          on_point && column.width() < narrow))) {
    column.figure(*layout);
    column.boxes.back().stretch = 16;
  }
  write_assembly_steps(w, column);
}

std::vector<std::vector<Runs>> assembly_runs(Writer& w, const Column& column) {
  std::vector<std::vector<Runs>> out;
  Warned warned = of_assembly();
  BorderNotes borders(w);
  for (const Step& step : assembly_steps(w))
    out.push_back(step_card(w, column, step, borders.of(step.unit), 0, warned).paragraphs);
  return out;
}

}  // namespace dogear::booklet
