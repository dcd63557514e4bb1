#include "booklet/column.h"

#include <algorithm>

namespace dogear::booklet {
namespace {

constexpr double baseline_part = 0.72;   // of the leading, from the top of a line's box
constexpr double justify_from_ems = 24;  // narrower columns are set ragged
constexpr double label_gap = 16;         // pt, from an item's label to its text

double largest(const Runs& runs) {
  double size = 0;
  for (const Run& r : runs) size = std::max(size, r.style.size);
  return size;
}

}  // namespace

TextStyle Column::text() const {
  TextStyle s;
  s.size = style().type.text;
  s.color = style().colours.ink;
  return s;
}

TextStyle Column::small() const {
  TextStyle s = text();
  s.font = canvas::FontId::sans;
  s.size = style().type.small;
  return s;
}

TextStyle Column::bold() const {
  TextStyle s = text();
  s.font = canvas::FontId::text_bold;
  return s;
}

TextStyle Column::italic() const {
  TextStyle s = text();
  s.font = canvas::FontId::text_italic;
  return s;
}

void Column::begin(canvas::Role role, std::string alt) {
  if (auto part = part_of(role)) elements_.open(std::move(*part));
  enter(role, std::move(alt));
}

void Column::end() {
  if (part_of(frames_.back().role)) elements_.close();
  leave();
}

void Column::enter(canvas::Role role, std::string alt) {
  frames_.push_back({role, context_.id(), std::move(alt)});
}

void Column::leave() {
  if (frames_.back().role == canvas::Role::list) keep_short_ends();
  frames_.pop_back();
}

// No short item of a list of words stands alone before or behind a page break.
void Column::keep_short_ends() {
  const std::size_t depth = frames_.size() - 1;
  std::vector<std::size_t> ends;  // behind the last box of each item
  std::size_t first = boxes.size();
  for (int item = 0; first > 0; --first) {
    const Box& box = boxes[first - 1];
    if (box.path.size() <= depth + 1 || box.path[depth].id != frames_.back().id) break;
    if (box.height > 2 * style().type.leading) return;
    if (box.path[depth + 1].id != item) ends.push_back(first);
    item = box.path[depth + 1].id;
  }
  if (ends.size() < 2) return;
  constexpr std::size_t few = 3;  // boxes: a label and two lines
  if (ends.back() - first <= few) boxes[ends.back() - 1].keep_with_next = true;
  if (ends[0] - ends[1] <= few) boxes[ends[1] - 1].keep_with_next = true;
}

Box Column::boxed(double height) const {
  Box box;
  box.height = height;
  box.path = frames_;
  return box;
}

void Column::put(Box box) {
  if (label_) {
    const std::string text = *label_;
    label_.reset();
    Box mark;
    mark.before = box.before;
    mark.keep_with_next = true;
    mark.break_cost = box.break_cost;
    mark.path.assign(frames_.begin(), frames_.begin() + static_cast<std::ptrdiff_t>(label_depth_));
    mark.path.push_back({canvas::Role::item_label, context_.id(), ""});
    TextStyle s = small();
    s.size = style().type.text * 0.92;
    s.color = style().colours.accent;
    s.font = canvas::FontId::sans_bold;
    const canvas::ShapedText shaped = context_.type.fonts().shape(s.font, s.size, text);
    mark.content.text(x_ + label_x_, style().type.leading * baseline_part, shaped, s.color);
    box.before = 0;
    boxes.push_back(std::move(mark));
  }
  boxes.push_back(std::move(box));
}

void Column::add(Box box, std::vector<Element> said) {
  for (Element& e : said) elements_.add(std::move(e));
  put(std::move(box));
}

void Column::add_here(Box box, std::vector<Element> said) {
  box.path = frames_;
  add(std::move(box), std::move(said));
}

void Column::keep_last_with_next() {
  if (!boxes.empty()) boxes.back().keep_with_next = true;
}

void Column::tighten(double after) {
  if (!boxes.empty()) boxes.back().after = std::min(boxes.back().after, after);
}

void Column::space(double height) {
  if (!boxes.empty()) boxes.back().after = std::max(boxes.back().after, height);
}

std::vector<Cell> Column::head(std::initializer_list<std::string> names) const {
  std::vector<Cell> out;
  for (const std::string& name : names) out.push_back({plain(name), {}});
  return out;
}

void Column::paragraph(const Runs& runs, ParagraphStyle how) {
  const double size = largest(runs);
  const double leading =
      how.leading > 0 ? how.leading : style().type.leading * size / style().type.text;
  ParagraphShape shape{width(), leading, how.align};
  if (shape.align == Align::justify && shape.width < justify_from_ems * size)
    shape.align = Align::left;
  const std::vector<TextLine> lines = context_.type.set(runs, shape);
  if (lines.empty()) return;
  const double after = how.after >= 0 ? how.after : style().type.leading * 0.5;
  if (how.role != canvas::Role::caption) {
    Element said;
    if (how.role == canvas::Role::heading1) said.kind = Element::Kind::heading;
    said.runs = runs;
    elements_.add(std::move(said));
  }
  enter(how.role);
  for (std::size_t i = 0; i < lines.size(); ++i) {
    Box box = boxed(leading);
    box.content = moved(lines[i].content, x_ + indent_, leading * baseline_part);
    const bool last = i + 1 == lines.size();
    if (i == 0) box.before = how.before;
    if (last) box.after = after;
    // Two lines at least stand before and behind a page break.
    box.keep_with_next =
        last ? how.keep_with_next : how.keep_whole || i == 0 || i + 2 == lines.size();
    if (i > 0) box.break_cost = 0.12;
    put(std::move(box));
  }
  leave();
}

void Column::heading(const Heading& heading) {
  const auto& type = style().type;
  const double size = heading.level == 1   ? type.heading1
                      : heading.level == 2 ? type.heading2
                                           : type.heading3;
  Runs runs = heading.runs;
  for (Run& r : runs) {
    r.style.size = size;
    r.style.hyphenate = false;
    r.style.font = heading.level == 1   ? canvas::FontId::text
                   : heading.level == 2 ? canvas::FontId::text_bold
                                        : canvas::FontId::sans_bold;
    r.style.color = heading.level == 2 ? style().colours.ink : style().colours.accent;
  }
  const double leading = size * 1.22;
  const double shift = heading.picture ? heading.picture->width + 9 : 0;
  const std::vector<TextLine> lines =
      context_.type.set(runs, {width() - shift, leading, Align::left});
  if (lines.empty()) return;
  const canvas::Role role = heading.level == 1   ? canvas::Role::heading1
                            : heading.level == 2 ? canvas::Role::heading2
                                                 : canvas::Role::heading3;
  Element said;
  said.kind = Element::Kind::heading;
  said.level = heading.level;
  said.runs = heading.runs;
  said.anchor = heading.anchor;
  said.picture = heading.picture;
  elements_.add(std::move(said));
  enter(role);
  for (std::size_t i = 0; i < lines.size(); ++i) {
    Box box = boxed(leading);
    box.content = moved(lines[i].content, x_ + indent_ + shift, leading * baseline_part);
    box.keep_with_next = true;
    if (i == 0) {
      box.before = heading.level == 1   ? type.leading * 1.6
                   : heading.level == 2 ? type.leading * 1.35
                                        : type.leading * 0.9;
      box.break_cost = -0.15;
      if (!heading.anchor.empty()) box.anchors.push_back(heading.anchor);
      if (heading.picture) {
        const double top = leading * baseline_part - size * 0.34 - heading.picture->height / 2;
        canvas::DisplayList art;
        art.draw(heading.picture->list, canvas::Transform::move(x_ + indent_, top));
        box.content.group(canvas::Role::artifact, std::move(art));
      }
    }
    if (i + 1 == lines.size())
      box.after = heading.level == 1   ? type.leading * 1.0
                  : heading.level == 2 ? type.leading * 0.4
                                       : type.leading * 0.2;
    put(std::move(box));
  }
  leave();
}

void Column::item_begin(const std::string& label) {
  Element said;
  said.kind = Element::Kind::item;
  said.label = label;
  elements_.open(std::move(said));
  enter(canvas::Role::item);
  label_depth_ = frames_.size();
  enter(canvas::Role::item_body);
  label_ = label;
  label_x_ = indent_;
  indent(label_gap);
}

void Column::item_end() {
  label_.reset();
  indent(-label_gap);
  leave();
  leave();
  elements_.close();
}

void Column::begin_list(bool ordered) {
  Element said;
  said.kind = Element::Kind::list;
  said.ordered = ordered;
  elements_.open(std::move(said));
  enter(canvas::Role::list);
}

void Column::list(const std::vector<Runs>& items, bool ordered, int first) {
  begin_list(ordered);
  for (std::size_t i = 0; i < items.size(); ++i) {
    item_begin(ordered ? std::to_string(first + static_cast<int>(i)) + "." : "•");
    ParagraphStyle how;
    how.after = i + 1 == items.size() ? style().type.leading * 0.5 : style().type.leading * 0.2;
    paragraph(items[i], how);
    item_end();
  }
  end();
}

Picture Column::fitted(Picture picture, double most) const {
  if (picture.width <= most || picture.width <= 0) return picture;
  const double scale = most / picture.width;
  canvas::DisplayList scaled;
  scaled.draw(picture.list, canvas::Transform::scale(scale));
  picture.list = canvas::share(std::move(scaled));
  picture.width *= scale;
  picture.height *= scale;
  return picture;
}

void Column::figure(const Picture& given, const Runs& caption, bool centred) {
  const Picture picture = fitted(given, width());
  Box box = boxed(picture.height);
  const double x = x_ + indent_ + (centred ? (width() - picture.width) / 2 : 0);
  box.content.figure(picture.list, canvas::Transform::move(x, 0), picture.alt);
  box.before = style().type.leading * 0.5;
  box.after = style().type.leading * (caption.empty() ? 0.8 : 0.35);
  box.break_cost = 0.15;
  box.keep_with_next = !caption.empty();
  Element said;
  said.kind = Element::Kind::figure;
  said.picture = given;
  said.runs = caption;
  elements_.add(std::move(said));
  put(std::move(box));
  if (caption.empty()) return;
  ParagraphStyle how;
  how.align = centred ? Align::center : Align::left;
  how.role = canvas::Role::caption;
  how.keep_whole = true;
  how.after = style().type.leading * 0.9;
  Runs set = caption;
  for (Run& r : set) {
    const TextStyle s = small();
    r.style.font = r.style.font == canvas::FontId::text_bold ? canvas::FontId::sans_bold : s.font;
    r.style.size = s.size;
    r.style.color = style().colours.muted;
  }
  paragraph(set, how);
}

void Column::figures(const std::vector<std::pair<Picture, Runs>>& row) {
  constexpr double between = 18;
  Element said;
  said.kind = Element::Kind::figures;
  for (const auto& [picture, caption] : row) {
    Element& one = said.children.emplace_back();
    one.kind = Element::Kind::figure;
    one.picture = picture;
    one.runs = caption;
  }
  elements_.add(std::move(said));
  for (std::size_t i = 0; i < row.size();) {
    std::size_t j = i;
    double used = 0, tallest = 0;
    while (j < row.size() && (j == i || used + between + row[j].first.width <= width() + 0.1)) {
      used += (j > i ? between : 0) + row[j].first.width;
      tallest = std::max(tallest, row[j].first.height);
      ++j;
    }
    const double spare = std::max(0.0, width() - used) / static_cast<double>(j - i + 1);
    double x = x_ + indent_ + spare, deepest = 0;
    Box box = boxed(0);
    for (; i < j; ++i) {
      const Picture picture = fitted(row[i].first, width());
      box.content.figure(picture.list, canvas::Transform::move(x, (tallest - picture.height) / 2),
                         picture.alt);
      if (!row[i].second.empty()) {
        const double room = picture.width + std::min(spare, between) * 0.8;
        Column words(context_, 0, room);
        ParagraphStyle how;
        how.align = Align::center;
        how.role = canvas::Role::caption;
        words.paragraph(row[i].second, how);
        double height = 0;
        const PageRun all{0, words.boxes.size()};
        const std::vector<double> tops = stack(words.boxes, all, &height);
        box.content.append(moved(compose(words.boxes, all, tops, {}),
                                 x + (picture.width - room) / 2, tallest + 5));
        deepest = std::max(deepest, height + 5);
      }
      x += picture.width + between + spare;
    }
    box.height = tallest + deepest;
    box.before = style().type.leading * 0.5;
    box.after = style().type.leading * 0.8;
    put(std::move(box));
  }
}

void Column::rule() {
  Box box = boxed(1);
  canvas::DisplayList line;
  line.stroke_path(canvas::Path::segment({x_ + indent_, 0.5}, {x_ + indent_ + width(), 0.5}),
                   style().colours.rule, 0.6);
  box.content.group(canvas::Role::artifact, std::move(line));
  box.before = box.after = style().type.leading * 0.8;
  Element said;
  said.kind = Element::Kind::rule;
  elements_.add(std::move(said));
  put(std::move(box));
}

}  // namespace dogear::booklet
