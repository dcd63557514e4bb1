// Cover, contents and what to know before beginning.

#include <algorithm>
#include <cmath>
#include <set>

#include "base/length.h"
#include "base/text.h"
#include "booklet/writer.h"
#include "drawing/tip.h"

namespace dogear::booklet {
namespace {

constexpr double narrow_column = 360;  // pt

std::string finished_size(const Writer& w) {
  const SizeQuantities& q = w.quantities();
  return w.words("finished size", {{"inches", w.words.inches(q.finished_width, q.finished_height)},
                                   {"metric", w.words.centimetres(q.finished_width) + " × " +
                                                  w.words.centimetres(q.finished_height)}});
}

// Whether a letter before the last that this size cuts is not cut in it.
bool misses_letters(const Writer& w) {
  std::set<std::string> cut;
  for (const CutPiece& c : w.quantities().pieces) {
    const Piece& piece = w.scene.piecing.pieces[c.piece];
    if (!piece.in_strip_set) cut.insert(piece.letter);
  }
  std::vector<std::string> all;  // in order of use
  for (const Piece& piece : w.scene.piecing.pieces)
    if (std::find(all.begin(), all.end(), piece.letter) == all.end()) all.push_back(piece.letter);
  while (!all.empty() && !cut.contains(all.back())) all.pop_back();
  return std::any_of(all.begin(), all.end(), [&](const std::string& letter) {
    return !letter.empty() && !cut.contains(letter);
  });
}

struct TipDetail {
  Picture picture;
  std::string words;  // their key
};

// How a tip is trimmed, of the first step that says so; else of the first at which tips stand out
// at both ends.
std::optional<TipDetail> first_tip(Writer& w, const Column& column) {
  std::string found;
  bool one_end = false;
  for (const BlockSewing& block : w.scene.piecing.sizes.at(w.size).blocks) {
    for (std::size_t n = 0; n < block.steps.size() && !one_end; ++n) {
      const auto tip = drawing::tip_to_show(w.scene, w.size, block.steps[n]);
      if (!tip || !(found.empty() || tip->one_end)) continue;
      found = "tip/" + w.pattern().uses[block.use].id + "/" + std::to_string(n + 1);
      one_end = tip->one_end;
    }
  }
  const auto picture = found.empty() ? std::nullopt : w.picture(found, column.width(), 90);
  if (!picture) return {};
  return TipDetail{*picture, one_end ? "tip detail" : "tip detail both ends"};
}

}  // namespace

void write_cover(Writer& w, Column& column) {
  const auto& type = w.style.type;
  const auto& colour = w.style.colours;
  const auto line = [&](Column& c, const std::string& text, canvas::FontId font, double size,
                        const canvas::Color& color, double after, canvas::Role role) {
    TextStyle s = c.text();
    s.font = font;
    s.size = size;
    s.color = color;
    s.hyphenate = false;
    ParagraphStyle how;
    how.align = Align::center;
    how.leading = size * 1.2;
    how.after = after;
    how.role = role;
    c.paragraph({{text, s, false}}, how);
  };
  using canvas::FontId;
  using canvas::Role;
  Column upper = w.column(), lower = w.column();
  line(upper, w.pattern().designer, FontId::sans_bold, type.label + 1.5, colour.accent, 10,
       Role::paragraph);
  line(upper, w.pattern().title, FontId::text, type.title, colour.ink, 6, Role::heading1);
  if (!w.pattern().summary.empty())
    line(upper, w.pattern().summary, FontId::text_italic, type.text + 2, colour.muted, 0,
         Role::paragraph);
  line(lower, w.size_def().title, FontId::text_bold, type.heading2 + 1, colour.ink, 3,
       Role::paragraph);
  line(lower, finished_size(w), FontId::sans, type.small + 1, colour.ink, 9, Role::paragraph);
  if (!w.pattern().edition.empty())
    line(lower, w.words("edition", {{"edition", w.pattern().edition}}), FontId::sans, type.label,
         colour.muted, 0, Role::paragraph);

  double above = 0, below = 0;
  const PageRun upper_run{0, upper.boxes.size()}, lower_run{0, lower.boxes.size()};
  const std::vector<double> upper_tops = stack(upper.boxes, upper_run, &above);
  const std::vector<double> lower_tops = stack(lower.boxes, lower_run, &below);
  constexpr double air = 30;
  const double height = w.style.text_height();
  const double room = height - above - below - 2 * air;
  Element cover;
  cover.kind = Element::Kind::cover;
  cover.children = upper.take_elements();
  Box box;
  box.height = height;
  box.bare = true;
  box.new_page = true;
  box.running = "";
  box.content.append(compose(upper.boxes, upper_run, upper_tops, {}));
  if (const auto quilt =
          w.picture(w.style.quilt_figure(), w.style.text_width(), std::max(room, 72.0))) {
    const double x = (w.style.text_width() - quilt->width) / 2;
    const double y = above + air + (room - quilt->height) / 2;
    box.content.figure(quilt->list, canvas::Transform::move(x, y), quilt->alt);
    Element& figure = cover.children.emplace_back();
    figure.kind = Element::Kind::figure;
    figure.picture = quilt;
  }
  for (Element& said : lower.take_elements()) cover.children.push_back(std::move(said));
  box.content.append(moved(compose(lower.boxes, lower_run, lower_tops, {}), 0, height - below));
  column.add(std::move(box), {std::move(cover)});
}

namespace {

constexpr double top_entry = 1.2, lower_entry = 1.05;  // of the leading, a line of the contents
constexpr double before_entry = 4;                     // pt
constexpr double closest = 0.84;                       // of that, so that they stand on one page

// How much closer the contents' lines stand where they would run over by a few.
double drawn_together(const Writer& w, const Column& column,
                      const std::vector<OutlineItem>& entries) {
  double above = 0, lines = 0;
  stack(column.boxes, {0, column.boxes.size()}, &above);
  above += column.boxes.back().after;
  for (const OutlineItem& entry : entries) {
    if (!entry.listed) continue;
    const bool top = entry.level == 1;
    lines += w.style.type.leading * (top ? top_entry : lower_entry) + (top ? before_entry : 0);
  }
  const double part = (w.style.text_height() - above) / std::max(lines, 1.0);
  return part >= closest && part < 1 ? part : 1;
}

}  // namespace

void write_contents(Writer& w, Column& column, const std::vector<OutlineItem>& entries) {
  w.heading(column, 1, w.words("contents"), "contents");
  const double together = drawn_together(w, column, entries);
  column.begin(canvas::Role::list);
  for (const OutlineItem& entry : entries) {
    if (!entry.listed) continue;
    const bool top = entry.level == 1;
    TextStyle s = column.text();
    if (!top) {
      s = column.small();
      s.size = w.style.type.text * 0.93;
    }
    const double indent = top ? 0 : 16;
    const double leading = w.style.type.leading * (top ? top_entry : lower_entry) * together;
    const double width = w.style.text_width();
    const double number_room = 36;
    const std::vector<TextLine> lines =
        w.type.set({{entry.title, s, false}}, {width - number_room - indent, leading, Align::left});
    Box box;
    box.height = leading * static_cast<double>(std::max<std::size_t>(lines.size(), 1));
    box.before = top ? before_entry * together : 0;
    canvas::DisplayList words;
    double end = indent;
    for (std::size_t i = 0; i < lines.size(); ++i) {
      const double y = leading * (static_cast<double>(i) + 0.72);
      words.append(moved(lines[i].content, indent, y));
      end = indent + lines[i].width;
    }
    const double base = box.height - leading * 0.28;
    const Writer* writer = &w;
    const std::string anchor = entry.anchor;
    const double height = box.height;
    box.late = [=](const PageOf& page_of) {
      canvas::DisplayList out = words;
      const canvas::ShapedText number = writer->scene.fonts.shape(
          top ? canvas::FontId::sans_bold : canvas::FontId::sans, s.size * 0.95, page_of(anchor));
      const double at = width - number.width;
      if (at - end > 24) {
        canvas::DisplayList dots;
        canvas::Style dotted = canvas::Style::stroked(writer->style.colours.muted, 0.7, {0.0, 4.0});
        dotted.round_caps = true;
        const double from = (end + 8) - std::fmod(end + 8, 4.0) + 4;
        dots.shape(canvas::Path::segment({from, base - 1}, {at - 8, base - 1}), dotted);
        out.group(canvas::Role::artifact, std::move(dots));
      }
      out.text(at, base, number, top ? writer->style.colours.accent : writer->style.colours.muted);
      out.link(canvas::Rect::of(0, 0, width, height), anchor);
      return out;
    };
    column.begin(canvas::Role::item);
    column.begin(canvas::Role::item_body);
    Element said;
    said.kind = Element::Kind::entry;
    said.level = entry.level;
    said.runs = {{entry.title, s, false}};
    said.anchor = entry.anchor;
    column.add_here(std::move(box), {std::move(said)});
    column.end();
    column.end();
  }
  column.end();
}

void write_begin(Writer& w, Column& column, const std::set<std::string>& abbreviations) {
  w.heading(column, 1, w.words("before you begin"), "before-you-begin");
  const Pattern& p = w.pattern();
  column.paragraph(w.words("before intro"));
  std::vector<Runs> points;
  const auto point = [&](const std::string& text) { points.push_back(column.plain(text)); };
  const auto fraction = [&](const Exact& e) { return w.words.inches(e.round_nearest(16)); };
  point(w.words("before seams", {{"allowance", fraction(p.seam_allowance)}}));
  point(w.words("before facing"));
  const auto& strips = w.quantities().strips;
  if (std::any_of(strips.begin(), strips.end(), [](const StripPlan& s) { return !s.from_bundle; }))
    point(w.words("before width", {{"width", fraction(p.usable_width)}}));
  point(w.words("before press"));
  const auto& cuts = w.quantities().pieces;
  const auto angled = std::find_if(cuts.begin(), cuts.end(), [](const CutPiece& c) {
    return c.cut.method == CutMethod::angled && !c.cut.rulers.empty();
  });
  if (angled != cuts.end())
    point(w.words(
        p.rulers[angled->cut.rulers.front()].blunt ? "before slanted blunt" : "before slanted",
        {{"allowance", fraction(p.seam_allowance)}}));
  if (angled != cuts.end() || !w.quantities().batches.empty() ||
      std::any_of(cuts.begin(), cuts.end(), [](const CutPiece& c) {
        return c.cut.method == CutMethod::half_square || c.cut.method == CutMethod::quarter_square;
      }))
    point(w.words("before dog ears"));
  column.list(points);
  if (const auto tip = first_tip(w, column)) {
    column.keep_last_with_next();
    column.figure(tip->picture, column.plain(w.words(tip->words)));
  }

  if (!abbreviations.empty()) {
    w.heading(column, 3, w.words("abbreviations"), "abbreviations");
    Table table;
    const auto row = [&](const std::string& what, const std::string& meaning) {
      table.rows.push_back(
          {Cell{{{what, column.bold(), false}}, {}}, Cell{column.plain(meaning), {}}});
    };
    std::vector<std::string> units, names;  // of measure: in one row
    for (const std::string& a : abbreviations) {
      std::string meaning = w.words("meaning of " + a, {{"width", fraction(p.usable_width)}});
      if (a != "in" && a != "yd" && a != "cm") {
        row(w.words("short " + a), meaning);
      } else {
        units.push_back(w.words("short " + a));
        names.push_back(std::move(meaning));
      }
    }
    if (!units.empty()) row(join(units, ", "), capital(w.words.list(names)) + ".");
    table.shares = {1, 7};
    column.table(table);
  }

  w.heading(column, 2, w.words("letters and marks"), "letters-and-marks");
  std::string example;
  for (const CutPiece& cut : w.quantities().pieces) {
    const Piece& piece = w.scene.piecing.pieces[cut.piece];
    if (piece.letter.empty()) continue;
    example = w.words("letters example", {{"label", piece.label(p)},
                                          {"letter", piece.letter},
                                          {"number", std::to_string(w.fabric(piece.fabric).number)},
                                          {"name", w.fabric(piece.fabric).name}});
    break;
  }
  column.paragraph(w.words("letters") + (example.empty() ? "" : " " + example) +
                   (w.quantities().batches.empty() ? "" : " " + w.words("letters batches")) +
                   (misses_letters(w) ? " " + w.words("letters missing") : ""));
  ParagraphStyle above;
  above.keep_with_next = true;
  column.keep_last_with_next();
  if (const auto fabrics = w.picture("fabrics", column.width(), 200)) column.figure(*fabrics);
  column.paragraph(w.words("marks"), above);
  if (const auto key = w.picture("key", column.width(), 200)) column.figure(*key);

  const auto is_slanted = [](const CutPiece& c) {
    return c.cut.method == CutMethod::angled && c.cut.reading && !upper_reading(c.cut);
  };
  const auto& pieces = w.quantities().pieces;
  const auto slanted = std::find_if(pieces.begin(), pieces.end(), is_slanted);
  if (slanted != pieces.end() && !slanted->cut.rulers.empty()) {
    const Ruler& ruler = p.rulers[slanted->cut.rulers.front()];
    const std::string title = w.words("reading the ruler", {{"ruler", ruler.name}});
    w.heading(column, 2, title, "reading-the-ruler");
    const std::string label = w.scene.piecing.pieces[slanted->piece].label(p);
    std::vector<Runs> words{column.plain(w.words("ruler triangle")),
                            column.plain(w.words("ruler first")),
                            column.plain(w.words(ruler.blunt ? "ruler blunt" : "ruler pointed"))};
    const bool trapezoids = std::any_of(pieces.begin(), pieces.end(), [](const CutPiece& c) {
      return upper_reading(c.cut).has_value();
    });
    if (trapezoids) words.push_back(column.plain(w.words("ruler trapezoid")));
    words.push_back(column.plain(
        w.words("ruler example", {{"label", label}, {"cut", reading_words(w, slanted->cut)}})));
    const bool narrow = column.width() < narrow_column;  // then it stands above the words
    const double width = column.width() * (narrow ? 0.78 : 0.4);
    column.cards({{"", w.picture("ruler/" + label, width, 220), words}}, 1);
  }

  w.heading(column, 2, w.words("take care"), "take-care");
  column.paragraph(w.words("care intro"), {.keep_with_next = true});
  points.clear();
  for (const char* key :
       {"care cutter", "care ruler", "care pins", "care iron", "care feet", "care children"})
    point(w.words(key));
  const std::size_t first = column.boxes.size();
  column.list(points);
  // Cautions are read as one.
  for (std::size_t i = first; i + 1 < column.boxes.size(); ++i)
    column.boxes[i].keep_with_next = true;
}

}  // namespace dogear::booklet
