#pragma once
// Writes headings, paragraphs, lists, tables, figures and step cards as boxes.

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "booklet/element.h"
#include "booklet/flow.h"
#include "canvas/display.h"

namespace dogear::booklet {

struct ParagraphStyle {
  Align align = Align::justify;   // justify becomes left in narrow columns
  double leading = 0;             // 0: the template's
  double before = 0, after = -1;  // -1: the template's
  bool keep_with_next = false;
  bool keep_whole = false;  // no page break inside
  canvas::Role role = canvas::Role::paragraph;
};

struct Table {
  std::string align;  // one of l, c, r a column; shorter means l
  std::vector<Cell> head;
  std::vector<std::vector<Cell>> rows;
  std::vector<double> shares;  // of the width, for tables that shall look alike; else fitted
  bool full_width = true;
  double size = 0;  // of type; 0: the template's small
  std::string alt;
};

struct Card {
  std::string label;  // "1"
  std::optional<Picture> picture;
  std::vector<Runs> paragraphs;
  double label_room = 0;  // at least; of cards whose words begin in line
};

inline constexpr double card_gap = 22;  // pt from card to card

struct Heading {
  int level = 1;
  Runs runs;
  std::string anchor;
  std::optional<Picture> picture;  // a swatch before the words
};

class Column {
 public:
  Column(FlowContext& context, double x, double width) : context_(context), x_(x), width_(width) {}

  double width() const { return width_ - indent_; }
  double number_room(const std::string& label) const;  // before the words of a card
  double full_width() const { return width_; }
  FlowContext& context() { return context_; }
  const Template& style() const { return context_.style; }

  // Boxes and elements written until end() belong to the part.
  void begin(canvas::Role role, std::string alt = {});
  void end();
  void indent(double by) { indent_ += by; }

  TextStyle text() const;   // running text
  TextStyle small() const;  // sans, for labels and tables
  TextStyle bold() const;
  TextStyle italic() const;
  Runs plain(std::string words) const { return {{std::move(words), text(), false}}; }
  std::vector<Cell> head(std::initializer_list<std::string> names) const;

  void heading(const Heading& heading);
  void paragraph(const Runs& runs, ParagraphStyle style = {});
  void paragraph(std::string words, ParagraphStyle style = {}) {
    paragraph(plain(std::move(words)), style);
  }
  // Bullet or numbered items of one paragraph each.
  void list(const std::vector<Runs>& items, bool ordered = false, int first = 1);
  // A list of items of any content, closed by end(); each item between item_begin and item_end.
  void begin_list(bool ordered);
  void item_begin(const std::string& label);
  void item_end();
  void figure(const Picture& picture, const Runs& caption = {}, bool centred = true);
  void figures(const std::vector<std::pair<Picture, Runs>>& row);  // side by side, wrapping
  void rule();
  void table(const Table& table);
  void cards(const std::vector<Card>& cards, int columns);
  // Cards side by side, each figure above its words; belongs in a list.
  void card_row(const std::vector<Card>& cards, const std::vector<double>& widths);
  // The words at the left, so wide, and the figure beside them; belongs in a list.
  void side_card(const Card& card, double words_width);
  void space(double height);
  // A box made by hand, and what it says.
  void add(Box box, std::vector<Element> said);
  void add_here(Box box, std::vector<Element> said);  // gives it the current parts first
  // Where the elements nest otherwise than the boxes.
  void open(Element element) { elements_.open(std::move(element)); }
  void close() { elements_.close(); }
  std::vector<Element> take_elements() { return elements_.take(); }
  void keep_last_with_next();
  void tighten(double after);  // at most this much space behind the last box

  std::vector<Box> boxes;

 private:
  void keep_short_ends();
  void put(Box box);
  void enter(canvas::Role role, std::string alt = {});  // a part of boxes alone
  void leave();
  Box boxed(double height) const;
  Picture fitted(Picture picture, double width) const;
  void say_cards(const std::vector<Card>& cards);
  struct CardShape {
    double width = 0;
    double figure_height = 0;  // of the band that holds the figures of a row
    double figure_width = 0;   // of a figure beside its words; 0: above them
    bool words_first = false;
  };
  canvas::DisplayList card(const Card& card, const CardShape& shape, double* height);

  FlowContext& context_;
  double x_ = 0, width_ = 0;
  double indent_ = 0;
  std::vector<Frame> frames_;
  Elements elements_;
  std::optional<std::string> label_;  // of the list item whose first line comes next
  double label_x_ = 0;
  std::size_t label_depth_ = 0;  // parts above the label
};

// A card, one box, whose figure is drawn lower where that lets its section stand on one page.
class ShrinkingCard {
 public:
  // Writes the card to a column with a figure no higher than this, pt.
  using Write = std::function<void(Column& column, double height)>;
  ShrinkingCard(Column& column, double height, Write write);
  // `first`: the section's first box; its last stands at the end of the column.
  void shrink_for_page(Column& column, std::size_t first) const;

 private:
  std::size_t at_ = 0;  // of the column's boxes
  double height_ = 0;
  Write write_;
};

}  // namespace dogear::booklet
