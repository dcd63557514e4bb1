// Step cards: a figure and its words, one beside the other, or in rows of several.

#include <algorithm>

#include "booklet/column.h"

namespace dogear::booklet {
namespace {

constexpr double between = 22;            // pt from card to card
constexpr double figure_part = 0.4;       // of the width, for a figure beside its words
constexpr double least_number_room = 17;  // pt, for a step's number

}  // namespace

// A card is one item of a list: its number, then the figure and the words.
canvas::DisplayList Column::card(const Card& card, double width, double figure_height, bool beside,
                                 double* height) {
  const auto& type = style().type;
  canvas::DisplayList label, body;
  const double size = type.heading3;
  const canvas::ShapedText number =
      context_.type.fonts().shape(canvas::FontId::sans_bold, size, card.label);
  const double number_room = card.label.empty() ? 0 : std::max(least_number_room, number.width + 6);
  const double base = type.leading * 0.72;
  double text_x = number_room, text_y = 0, text_width = width - number_room;
  double label_y = base;
  *height = 0;
  if (card.picture) {
    const Picture p = fitted(*card.picture, beside ? width * figure_part : width);
    const double band = std::max(figure_height, p.height);
    const double x = beside ? (width * figure_part - p.width) / 2 : (width - p.width) / 2;
    const double y = beside ? 0 : (band - p.height) / 2;
    body.figure(p.list, canvas::Transform::move(x, y), p.alt);
    if (beside) {
      text_x += width * figure_part + 14;
      text_width = width - text_x;
      *height = p.height;
    } else {
      text_y = band + 7;
      label_y = text_y + base;
    }
  } else if (!beside) {
    text_y = figure_height > 0 ? figure_height + 7 : 0;
    label_y = text_y + base;
  }
  if (!card.label.empty()) {
    label.text(text_x - number_room, label_y, number, style().colours.accent);
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
  body.append(moved(compose(words.boxes, all, tops, {}), text_x, text_y));
  *height = std::max(*height, text_y + text_height);
  canvas::DisplayList item, out;
  item.group(canvas::Role::item_label, std::move(label));
  item.group(canvas::Role::item_body, std::move(body));
  out.group(canvas::Role::item, std::move(item));
  return out;
}

void Column::cards(const std::vector<Card>& cards, int columns) {
  if (cards.empty()) return;
  begin(canvas::Role::list);
  const std::size_t a_row = static_cast<std::size_t>(std::max(columns, 1));
  const double each =
      (width() - between * static_cast<double>(a_row - 1)) / static_cast<double>(a_row);
  for (std::size_t i = 0; i < cards.size(); i += a_row) {
    Box box = boxed(0);
    const std::size_t end = std::min(cards.size(), i + a_row);
    double figure_height = 0;
    if (a_row > 1) {
      for (std::size_t k = i; k < end; ++k)
        if (cards[k].picture)
          figure_height = std::max(figure_height, fitted(*cards[k].picture, each).height);
    }
    for (std::size_t k = i; k < end; ++k) {
      double height = 0;
      const bool beside = a_row == 1 && (!cards[k].picture || cards[k].picture->width < each * 0.5);
      const canvas::DisplayList drawn = card(cards[k], each, figure_height, beside, &height);
      const double x = x_ + indent_ + static_cast<double>(k - i) * (each + between);
      box.content.append(moved(drawn, x, 0));
      box.height = std::max(box.height, height);
    }
    box.before = style().type.leading * (i == 0 ? 0.5 : 1.0);
    box.after = style().type.leading * 0.8;
    add(std::move(box));
  }
  end();
}

}  // namespace dogear::booklet
