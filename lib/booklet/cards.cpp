// Step cards: a figure and its words, one beside the other, or in rows of several.

#include <algorithm>

#include "booklet/column.h"

namespace dogear::booklet {
namespace {

constexpr double beside_gap = 14;         // pt from a figure to the words beside it
constexpr double lowest_of_high = 160;    // pt
constexpr double least_shrunk = 72;       // pt
constexpr double figure_part = 0.4;       // of the width, for a figure beside its words
constexpr double least_number_room = 17;  // pt, for a step's number

}  // namespace

double Column::number_room(const std::string& label) const {
  if (label.empty()) return 0;
  const canvas::ShapedText number =
      context_.type.fonts().shape(canvas::FontId::sans_bold, style().type.heading3, label);
  return std::max(least_number_room, number.width + 6);
}

// A card is one item of a list: its number, then the figure and the words.
canvas::DisplayList Column::card(const Card& card, const CardShape& shape, double* height) {
  const auto& type = style().type;
  canvas::DisplayList label, body;
  const double size = type.heading3;
  const canvas::ShapedText number =
      context_.type.fonts().shape(canvas::FontId::sans_bold, size, card.label);
  const double before = std::max(number_room(card.label), card.label_room);
  const double base = type.leading * 0.72;
  const bool beside = shape.figure_width > 0;
  double text_x = before, text_y = 0, text_width = shape.width - before;
  double figure_y = 0;
  *height = 0;
  std::optional<Picture> picture;
  if (card.picture) picture = fitted(*card.picture, beside ? shape.figure_width : shape.width);
  if (beside) {
    text_width -= shape.figure_width + beside_gap;
    if (picture && !shape.words_first) text_x += shape.figure_width + beside_gap;
    if (!picture) text_width = shape.width - before;
  } else if (const double band = std::max(shape.figure_height, picture ? picture->height : 0.0);
             band > 0) {
    text_y = band + 7;
    if (picture) figure_y = (band - picture->height) / 2;
  }
  Column words(context_, 0, text_width);
  for (const Runs& runs : card.paragraphs) {
    ParagraphStyle how;
    how.align = Align::left;
    how.after = type.leading * 0.22;
    words.paragraph(runs, how);
  }
  double text_height = 0;
  const PageRun all{0, words.boxes.size()};
  const std::vector<double> tops = stack(words.boxes, all, &text_height);
  if (picture) {
    const double room = beside ? shape.figure_width : shape.width;
    double x = (room - picture->width) / 2;
    if (beside && shape.words_first) {
      x += shape.width - room;
      // A low figure and its words stand level by their middles, a high one by their heads.
      if (picture->height < lowest_of_high)
        text_y = std::max(0.0, (picture->height - text_height) / 2);
      figure_y = std::max(0.0, (text_height - picture->height) / 2);
    }
    body.figure(picture->list, canvas::Transform::move(x, figure_y), picture->alt);
    if (beside) *height = picture->height;
  }
  if (!card.label.empty())
    label.text(text_x - before, text_y + base, number, style().colours.accent);
  body.append(moved(compose(words.boxes, all, tops, {}), text_x, text_y));
  *height = std::max(*height, text_y + text_height);
  canvas::DisplayList item, out;
  item.group(canvas::Role::item_label, std::move(label));
  item.group(canvas::Role::item_body, std::move(body));
  out.group(canvas::Role::item, std::move(item));
  return out;
}

void Column::say_cards(const std::vector<Card>& cards) {
  for (const Card& card : cards) {
    Element said;
    said.kind = Element::Kind::card;
    said.label = card.label;
    said.picture = card.picture;
    for (const Runs& runs : card.paragraphs) said.children.emplace_back().runs = runs;
    elements_.add(std::move(said));
  }
}

void Column::card_row(const std::vector<Card>& cards, const std::vector<double>& widths) {
  say_cards(cards);
  Box box = boxed(0);
  double figure_height = 0, x = x_ + indent_;
  for (std::size_t k = 0; k < cards.size(); ++k)
    if (cards[k].picture)
      figure_height = std::max(figure_height, fitted(*cards[k].picture, widths[k]).height);
  for (std::size_t k = 0; k < cards.size(); ++k) {
    double height = 0;
    const canvas::DisplayList drawn = card(cards[k], {widths[k], figure_height, 0, false}, &height);
    box.content.append(moved(drawn, x, 0));
    box.height = std::max(box.height, height);
    x += widths[k] + card_gap;
  }
  box.before = style().type.leading * 0.5;
  box.after = style().type.leading * 0.8;
  put(std::move(box));
}

void Column::side_card(const Card& given, double words_width) {
  say_cards({given});
  Box box = boxed(0);
  const CardShape shape{width(), 0, width() - words_width - beside_gap, true};
  box.content.append(moved(card(given, shape, &box.height), x_ + indent_, 0));
  box.before = style().type.leading * 0.3;
  box.after = style().type.leading * 0.5;
  put(std::move(box));
}

void Column::cards(const std::vector<Card>& cards, int columns) {
  if (cards.empty()) return;
  begin(canvas::Role::list);
  const std::size_t a_row = static_cast<std::size_t>(std::max(columns, 1));
  const double each =
      (width() - card_gap * static_cast<double>(a_row - 1)) / static_cast<double>(a_row);
  for (std::size_t i = 0; i < cards.size(); i += a_row) {
    const std::size_t end = std::min(cards.size(), i + a_row);
    const auto at = [&](std::size_t k) { return cards.begin() + static_cast<std::ptrdiff_t>(k); };
    if (a_row == 1 && (!cards[i].picture || cards[i].picture->width < each * 0.5)) {
      say_cards({cards[i]});
      Box box = boxed(0);
      const CardShape shape{each, 0, each * figure_part, false};
      box.content.append(moved(card(cards[i], shape, &box.height), x_ + indent_, 0));
      put(std::move(box));
    } else {
      card_row({at(i), at(end)}, std::vector<double>(end - i, each));
    }
    boxes.back().before = style().type.leading * (i == 0 ? 0.5 : 1.0);
    boxes.back().after = style().type.leading * 0.8;
  }
  end();
}

ShrinkingCard::ShrinkingCard(Column& column, double height, Write write)
    : at_(column.boxes.size()), height_(height), write_(std::move(write)) {
  write_(column, height_);
}

void ShrinkingCard::shrink_for_page(Column& column, std::size_t first) const {
  const PageRun section{first, column.boxes.size()};
  double used = 0;
  stack(column.boxes, section, &used);
  const double over = used - column.style().text_height();
  if (over <= 0) return;
  Box& card = column.boxes[at_];
  Column lower(column.context(), 0, column.full_width());
  write_(lower, std::max(least_shrunk, std::min(height_, card.height) - over));
  Box& box = lower.boxes.front();
  const double saved = card.height - box.height;
  if (saved <= 0 || over - saved > most_drawn_in(column.boxes, section)) return;
  card.height = box.height;
  card.content = std::move(box.content);
}

}  // namespace dogear::booklet
