// Templates for the pieces that no ruler cuts, in their true size, over several pages if need be.
//
// Every page of templates shows the test squares: a page of small ones begins with them, a large
// template has them in its midst or beside it. A foundation that fills its page or several has no
// room for them, as they must not be taken for seams: its words say what it measures itself.

#include <algorithm>

#include "base/text.h"
#include "booklet/writer.h"

namespace dogear::booklet {
namespace {

std::string counts(const Writer& w, const TemplateUse& use) {
  if (use.foundation)
    return w.words("foundation count",
                   {{"unit", capital(unit_noun(w, *use.foundation, {}))},
                    {"n", std::to_string(w.sewing().make.at(*use.foundation))}});
  std::vector<std::string> plain, over;
  for (const PieceId id : use.pieces) {
    const Piece& piece = w.scene.piecing.pieces[id];
    long long count = 0;
    for (const CutPiece& cut : w.quantities().pieces) count += cut.piece == id ? cut.count : 0;
    const bool turned = piece.reversed != w.scene.piecing.pieces[use.pieces.front()].reversed;
    (turned ? over : plain)
        .push_back(w.words("template count", {{"n", std::to_string(count)},
                                              {"label", piece.label(w.pattern())},
                                              {"name", w.fabric(piece.fabric).name}}));
  }
  std::string text = w.words("template cut", {{"pieces", w.words.list(plain)}});
  if (!over.empty())
    text += " " + w.words("template cut turned over", {{"pieces", w.words.list(over)}});
  return text;
}

// "Between its outer solid lines it measures 4 in × 6 in."
std::string own_measure(const Writer& w, const TemplateUse& use) {
  const dogear::Box box = bounds(w.scene.piecing.units[*use.foundation].outline);
  const auto about = [&](const Exact& e) {
    const Fraction f = e.round_nearest(32);
    return (Exact(f) == e ? "" : w.words("about") + " ") + w.words.inches(f);
  };
  return w.words("foundation measures",
                 {{"size", about(box.width()) + " × " + about(box.height())}});
}

struct Entry {
  Picture picture;
  Runs words;
};

Picture picture_of(const Figure& figure, bool true_size = true) {
  return {figure.list, figure.width, figure.height, figure.alt, true_size};
}

class TemplatePages {
 public:
  TemplatePages(Writer& w, Column& column, std::size_t heading)
      : w_(w), column_(column), page_(heading) {
    if (const auto squares = w.picture("template/test-square", column.width(), height())) {
      squares_ = {*squares, small_words(w.words("test square"))};
      squares_.picture.true_size = true;
    }
  }

  double height() const { return w_.style.text_height(); }
  // What a template may measure below the squares, and beside them.
  FigureRoom below() const {
    return {column_.width(), height() - row_of({squares_}).box.height - words_room};
  }
  FigureRoom beside() const {
    return {column_.width() - squares_.picture.width - between, height() - words_room};
  }
  FigureRoom alone() const { return {column_.width(), height() - words_room}; }
  // Of a foundation as wide as the column the dashed line may stand in the margin.
  FigureRoom whole_page() const { return {column_.width() + 4, height() - words_room}; }

  void squares_alone() {
    Row squares = row_of({squares_});
    column_.add_here(std::move(squares.box), std::move(squares.said));
  }

  Runs small_words(const std::string& words) const {
    TextStyle style = column_.small();
    style.color = w_.style.colours.muted;
    return {{words, style, false}};
  }

  void small(std::vector<Entry> entries) {
    bool fresh = true;  // a page that has no squares yet
    bool turned = false;
    while (!entries.empty()) {
      std::vector<Entry> row;
      if (fresh) row.push_back(squares_);
      // In order, but a later one that still has room goes before one that has none.
      for (auto next = entries.begin(); next != entries.end();) {
        row.push_back(*next);
        if (width_of(row) <= column_.width() && fits(row_of(row).box, turned)) {
          next = entries.erase(next);
        } else {
          row.pop_back();
          ++next;
        }
      }
      if (row.empty() || (!turned && fresh && !fits(row_of(row).box, false))) {
        fresh = turned = true;
        continue;
      }
      Row made = row_of(row);
      made.box.new_page = turned;
      if (turned) page_ = column_.boxes.size();
      fresh = turned = false;
      column_.add_here(std::move(made.box), std::move(made.said));
    }
  }

  // On a page of its own.
  void large(const TemplateSheet& sheet, const Runs& words) {
    if (!sheet.squares) {
      Row squares = row_of({squares_});
      squares.box.new_page = true;
      squares.box.keep_with_next = true;
      column_.add_here(std::move(squares.box), std::move(squares.said));
    }
    const std::size_t at = column_.boxes.size();
    column_.figure(picture_of(sheet.figure), words);
    column_.boxes.at(at).new_page = sheet.squares;
    page_ = at;
  }

 private:
  static constexpr double between = 18;     // pt, as in Column::figures
  static constexpr double words_room = 58;  // pt, for a few lines below a figure

  struct Row {
    Box box;
    std::vector<Element> said;
  };
  Row row_of(const std::vector<Entry>& row) const {
    Column trial(column_.context(), 0, column_.width());
    std::vector<std::pair<Picture, Runs>> pairs;
    for (const Entry& e : row) pairs.emplace_back(e.picture, e.words);
    trial.figures(pairs);
    Row made{trial.boxes.front(), trial.take_elements()};
    made.box.path.clear();
    return made;
  }
  double width_of(const std::vector<Entry>& row) const {
    double width = -between;
    for (const Entry& e : row) width += between + e.picture.width;
    return width;
  }
  bool fits(const Box& box, bool new_page) const {
    if (new_page) return box.height <= height();
    std::vector<Box> page(column_.boxes.begin() + static_cast<std::ptrdiff_t>(page_),
                          column_.boxes.end());
    page.push_back(box);
    double used = 0;
    stack(page, {0, page.size()}, &used);
    return used <= height();
  }

  Writer& w_;
  Column& column_;
  std::size_t page_;  // the first box of the page
  Entry squares_;
};

}  // namespace

void write_templates(Writer& w, Column& column) {
  std::vector<TemplateUse> templates = templates_of(w.scene, w.size);
  const std::vector<TemplateUse> foundations = foundations_of(w.scene, w.size);
  if (templates.empty() && foundations.empty()) return;
  const std::size_t first = column.boxes.size();
  w.heading(column, 1,
            w.words(foundations.empty() ? "templates"
                    : templates.empty() ? "foundations title"
                                        : "templates and foundations"),
            "templates");
  column.boxes.at(first).new_page = true;
  if (!templates.empty())
    column.paragraph(w.words("templates intro") +
                     (foundations.empty() ? " " + w.words("templates print") : ""));
  if (!foundations.empty())
    column.paragraph(w.words("foundations intro") + " " + w.words("templates print"));
  templates.insert(templates.end(), foundations.begin(), foundations.end());
  TemplatePages pages(w, column, first);
  std::vector<Entry> small;
  std::vector<std::pair<TemplateSheet, std::string>> filling;
  std::vector<const TemplateUse*> large;
  for (const TemplateUse& use : templates) {
    auto figure = whole_template(w.scene, w.size, use, pages.beside());
    if (!figure) figure = whole_template(w.scene, w.size, use, pages.below());
    if (figure) {
      small.push_back({picture_of(*figure), pages.small_words(counts(w, use))});
      continue;
    }
    if (use.foundation) figure = whole_template(w.scene, w.size, use, pages.whole_page());
    if (figure)
      filling.emplace_back(TemplateSheet{std::move(*figure), true},
                           counts(w, use) + " " + own_measure(w, use));
    else
      large.push_back(&use);
  }
  const bool large_paper = std::any_of(large.begin(), large.end(), [](const TemplateUse* use) {
    return use->foundation.has_value();
  });
  if (small.empty() && (!filling.empty() || large_paper)) pages.squares_alone();
  pages.small(std::move(small));
  for (const auto& [sheet, words] : filling) pages.large(sheet, column.plain(words));
  for (const TemplateUse* use : large) {
    TemplateSheets sheets = template_sheets(w.scene, w.size, *use, pages.alone());
    const bool without = std::any_of(sheets.sheets.begin(), sheets.sheets.end(),
                                     [](const TemplateSheet& s) { return !s.squares; });
    if (use->foundation) {
      for (TemplateSheet& sheet : sheets.sheets) sheet.squares = true;
    } else if (without) {
      sheets = template_sheets(w.scene, w.size, *use, pages.below());
    }
    const std::string label = use->foundation
                                  ? capital(unit_noun(w, *use->foundation, {}))
                                  : w.scene.piecing.pieces[use->pieces.front()].label(w.pattern());
    const std::string total = std::to_string(sheets.sheets.size());
    if (sheets.sheets.size() > 1) {
      std::string words = w.words(use->foundation ? "foundation joined" : "template joined",
                                  {{"label", label}, {"n", total}});
      if (use->foundation) words += " " + own_measure(w, *use);
      column.figure(picture_of(sheets.overview, false), column.plain(words));
    }
    for (std::size_t n = 0; n < sheets.sheets.size(); ++n) {
      std::string words = counts(w, *use);
      if (sheets.sheets.size() > 1)
        words = w.words("template sheet",
                        {{"label", label}, {"n", std::to_string(n + 1)}, {"of", total}}) +
                " " + words;
      pages.large(sheets.sheets[n], column.plain(words));
    }
  }
}

}  // namespace dogear::booklet
