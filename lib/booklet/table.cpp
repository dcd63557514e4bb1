// Tables: columns fitted to what they hold, cells that wrap, rows that break over pages.
//
// Each row is one box, its head row drawn again where a page begins within the table. A row higher
// than tall_row lines is cut into a box a line, so that it can run on over the page.

#include <algorithm>
#include <cmath>

#include "booklet/column.h"

namespace dogear::booklet {
namespace {

constexpr double gutter = 12;      // pt between columns
constexpr double pad = 3.6;        // pt above and below the text of a row
constexpr double picture_gap = 6;  // pt from a picture to the text beside it
constexpr std::size_t tall_row = 10;
constexpr double whole_table = 4;  // cost of parting a table that one page holds

struct Needs {
  double least = 0;    // widest word
  double natural = 0;  // unwrapped
  bool words = false;  // holds more than pictures
};

double picture_room(const Cell& cell) {
  if (!cell.picture) return 0;
  return cell.picture->width + (cell.runs.empty() ? 0 : picture_gap);
}

// Widths that fill `room`, each at least its least where that is possible.
std::vector<double> share_out(const std::vector<Needs>& needs, double room, bool full,
                              const std::string& align) {
  double least = 0, natural = 0;
  for (const Needs& n : needs) {
    least += n.least;
    natural += n.natural;
  }
  std::vector<double> out;
  if (natural <= room) {
    double weight = 0;
    std::vector<double> weights;
    for (std::size_t i = 0; i < needs.size(); ++i) {
      const bool grows = needs[i].words && (i >= align.size() || align[i] == 'l');
      weights.push_back(grows ? needs[i].natural : 0);
      weight += weights.back();
    }
    for (std::size_t i = 0; i < needs.size(); ++i) {
      const double extra = full && weight > 0 ? (room - natural) * weights[i] / weight : 0;
      out.push_back(needs[i].natural + extra);
    }
  } else if (least < room) {
    for (const Needs& n : needs)
      out.push_back(n.least + (n.natural - n.least) * (room - least) / (natural - least));
  } else {
    for (const Needs& n : needs) out.push_back(n.least * room / std::max(least, 1e-9));
  }
  return out;
}

// Gives columns that are narrower than their widest word what others can spare.
void make_room(const std::vector<Needs>& needs, std::vector<double>& widths) {
  double short_by = 0, spare = 0;
  for (std::size_t i = 0; i < widths.size(); ++i) {
    short_by += std::max(0.0, needs[i].least - widths[i]);
    spare += std::max(0.0, widths[i] - needs[i].least);
  }
  if (short_by <= 0 || spare <= 0) return;
  const double part = std::min(1.0, short_by / spare), met = std::min(1.0, spare / short_by);
  for (std::size_t i = 0; i < widths.size(); ++i) {
    const double over = widths[i] - needs[i].least;
    widths[i] -= over > 0 ? over * part : over * met;
  }
}

}  // namespace

void Column::table(const Table& table) {
  std::size_t columns = table.head.size();
  for (const auto& row : table.rows) columns = std::max(columns, row.size());
  if (columns == 0) return;
  const double size = table.size > 0 ? table.size : style().type.small;
  const double leading = size * 1.38;
  const auto styled = [&](const Runs& runs, bool head) {
    Runs out = runs;
    for (Run& r : out) {
      const bool strong =
          r.style.font == canvas::FontId::text_bold || r.style.font == canvas::FontId::sans_bold;
      if (r.style.font != canvas::FontId::text_italic || head)
        r.style.font = strong || head ? canvas::FontId::sans_bold : canvas::FontId::sans;
      r.style.size = head ? std::min(size, style().type.label) : size;
      if (head) r.style.color = style().colours.accent;
      r.style.hyphenate = r.style.hyphenate && !head;
    }
    return out;
  };
  const auto align_of = [&](std::size_t c) {
    const char a = c < table.align.size() ? table.align[c] : 'l';
    return a == 'r' ? Align::right : a == 'c' ? Align::center : Align::left;
  };

  const double room = width() - gutter * static_cast<double>(columns - 1);
  std::vector<double> widths;
  if (table.shares.size() == columns) {
    double sum = 0;
    for (const double s : table.shares) sum += s;
    for (const double s : table.shares) widths.push_back(room * s / sum);
  }
  std::vector<Needs> needs(columns);
  const auto measure = [&](const std::vector<Cell>& row, bool head) {
    for (std::size_t c = 0; c < row.size(); ++c) {
      const Runs runs = styled(row[c].runs, head);
      const double beside = picture_room(row[c]);
      needs[c].least = std::max(needs[c].least, beside + context_.type.widest_word(runs) + 0.1);
      needs[c].natural =
          std::max(needs[c].natural, beside + context_.type.natural_width(runs) + 0.1);
      needs[c].words = needs[c].words || (!head && !runs.empty());
    }
  };
  measure(table.head, true);
  for (const auto& row : table.rows) measure(row, false);
  if (widths.empty())
    widths = share_out(needs, room, table.full_width, table.align);
  else
    make_room(needs, widths);
  double total = gutter * static_cast<double>(columns - 1);
  for (const double w : widths) total += w;
  const double left = x_ + indent_;

  const auto line_at = [&](Box& box, double y, const canvas::Color& color, double weight) {
    canvas::DisplayList line;
    line.stroke_path(canvas::Path::segment({left, y}, {left + total, y}), color, weight);
    box.content.group(canvas::Role::artifact, std::move(line));
  };

  // The boxes of one row; `head` rows hold header cells.
  const auto row_boxes = [&](const std::vector<Cell>& row, bool head) {
    std::vector<std::vector<TextLine>> lines(columns);
    std::size_t most = 1;
    double picture = 0;
    for (std::size_t c = 0; c < row.size(); ++c) {
      const double beside = picture_room(row[c]);
      const Align align = align_of(c);
      const double wide = std::max(widths[c] - beside, 8.0);
      Runs runs = styled(row[c].runs, head);
      if (context_.type.widest_word(runs) <= wide)  // a cell need not be even at its right
        for (Run& r : runs) r.style.hyphenate = false;
      lines[c] = context_.type.set(runs, {wide, leading, align});
      most = std::max(most, lines[c].size());
      if (row[c].picture) picture = std::max(picture, row[c].picture->height);
    }
    std::vector<int> cell_ids;
    for (std::size_t c = 0; c < columns; ++c) cell_ids.push_back(context_.id());
    const bool sliced = most > tall_row && !head;
    const std::size_t slices = sliced ? most : 1;
    const std::size_t a_slice = sliced ? 1 : most;
    std::vector<Box> out;
    for (std::size_t s = 0; s < slices; ++s) {
      const double above = s == 0 ? pad : 0, below = s + 1 == slices ? pad : 0;
      const double text_height = leading * static_cast<double>(a_slice);
      const double inner = std::max(text_height, s == 0 ? picture : 0);
      Box box = boxed(above + inner + below);
      double x = left;
      for (std::size_t c = 0; c < columns; ++c) {
        canvas::DisplayList cell;
        double beside = 0;
        // One line stands level with the middle of a picture, several begin at the top.
        double top = above;
        if (c < row.size() && row[c].picture && s == 0) {
          const Picture& p = *row[c].picture;
          beside = picture_room(row[c]);
          const double over =
              row[c].runs.empty() && align_of(c) == Align::center ? (widths[c] - p.width) / 2 : 0;
          const double down =
              std::max(0.0, (std::min(inner, std::max(leading, picture)) - p.height) / 2);
          if (p.alt.empty())
            cell.draw(p.list, canvas::Transform::move(x + over, above + down));
          else
            cell.figure(p.list, canvas::Transform::move(x + over, above + down), p.alt);
        } else if (c < row.size()) {
          beside = picture_room(row[c]);
        }
        if (most == 1 && picture > leading) top += (picture - leading) / 2;
        for (std::size_t k = 0; k < a_slice; ++k) {
          const std::size_t n = s * a_slice + k;
          if (n >= lines[c].size()) break;
          cell.append(moved(lines[c][n].content, x + beside,
                            top + leading * (static_cast<double>(k) + 0.72)));
        }
        box.content.group(head ? canvas::Role::header_cell : canvas::Role::cell, std::move(cell),
                          {}, cell_ids[c]);
        x += widths[c] + gutter;
      }
      if (s + 1 < slices) box.keep_with_next = s == 0 || s + 2 == slices;
      box.break_cost = s == 0 ? 0.1 : 0.3;
      out.push_back(std::move(box));
    }
    return out;
  };

  Element said;
  said.kind = Element::Kind::table;
  said.head = table.head;
  said.rows = table.rows;
  said.align = table.align;
  elements_.add(std::move(said));
  enter(canvas::Role::table, table.alt);
  const std::size_t start = boxes.size();
  std::shared_ptr<const Box> repeat;
  if (!table.head.empty()) {
    enter(canvas::Role::row);
    Box head = row_boxes(table.head, true).front();
    line_at(head, head.height - 0.4, style().colours.accent, 0.8);
    head.before = style().type.leading * 0.3;
    head.keep_with_next = true;
    head.break_cost = 0.15;
    repeat = std::make_shared<const Box>(head);
    put(std::move(head));
    leave();
  }
  for (std::size_t r = 0; r < table.rows.size(); ++r) {
    enter(canvas::Role::row);
    std::vector<Box> parts = row_boxes(table.rows[r], false);
    const bool last = r + 1 == table.rows.size();
    line_at(parts.back(), parts.back().height - 0.2,
            last ? style().colours.accent : style().colours.rule, last ? 0.8 : 0.4);
    for (Box& part : parts) {
      part.repeat = repeat;
      put(std::move(part));
    }
    // A first or last row does not stand alone.
    if (!last && (r == 0 || r + 2 == table.rows.size())) keep_last_with_next();
    leave();
  }
  // Parted only where it is higher than a page.
  double whole = 0;
  for (std::size_t i = start; i < boxes.size(); ++i) whole += boxes[i].height;
  for (std::size_t i = start + 1; i < boxes.size() && whole <= style().text_height(); ++i)
    boxes[i].break_cost = whole_table;
  space(style().type.leading * 0.9);
  leave();
}

}  // namespace dogear::booklet
