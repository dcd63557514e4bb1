// The designer's Markdown, set into the column.

#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "booklet/writer.h"
#include "source/markdown.h"

namespace dogear::booklet {
namespace {

// Of the page's, for a figure beside a step's words: a unit of a block, a part of the top.
constexpr double step_height = 0.24, top_height = 0.4;
// Of the column's width, for such a figure, and from which on it stands above the words.
constexpr double step_width = 0.46, long_step = 0.6;
constexpr double low_step = 78;  // pt high, of those above

std::string quoted(const std::string& name) { return join({"`", name, "`"}, ""); }

bool is_part(const std::string& address) {
  return starts_with(address, "table:") || starts_with(address, "steps:") ||
         starts_with(address, "section:");
}

struct Checker {
  Writer& writer;
  std::vector<std::string> known;  // every address an image may have

  explicit Checker(Writer& w) : writer(w), known(part_addresses(w)) {
    for (std::size_t i = 0; i < w.pattern().sizes.size(); ++i)
      for (const std::string& a : figure_addresses(w.scene, i)) known.push_back("figure:" + a);
    std::sort(known.begin(), known.end());
    known.erase(std::unique(known.begin(), known.end()), known.end());
  }

  void image(const Inline& image) {
    const std::string& address = image.address;
    if (is_photo(address) && !starts_with(address, "figure:")) {
      if (writer.photos.count(address) == 0)
        writer.diagnostics.error(
            "D403", image.span,
            "the photograph " + quoted(address) + " was not read with the pattern");
      return;
    }
    if (!starts_with(address, "figure:") && !is_part(address)) {
      const std::string head = address.substr(0, address.find(':'));
      const std::string near =
          head == address ? "" : nearest(head, {"figure", "table", "steps", "section"});
      const std::string figure = "figure:" + address;
      if (std::binary_search(known.begin(), known.end(), figure)) {
        writer.diagnostics.error("D402", image.span, "there is no figure at " + quoted(address))
            .hints.push_back("did you mean " + quoted(figure) + "?");
      } else if (near.empty()) {
        writer.diagnostics
            .error("D402", image.span, "there is no figure or photograph at " + quoted(address))
            .hints.push_back(
                "an image names a figure, such as figure:quilt, or a .jpg or .png file of the "
                "pattern's folder");
      } else {
        writer.diagnostics.error("D402", image.span, "there is no figure at " + quoted(address))
            .hints.push_back("did you mean " + quoted(near + address.substr(head.size())) + "?");
      }
      return;
    }
    if (std::binary_search(known.begin(), known.end(), address)) return;
    Diagnostic& e =
        writer.diagnostics.error("D402", image.span, "there is no figure at " + quoted(address));
    const std::string near = nearest(address, known);
    if (!near.empty()) {
      e.hints.push_back("did you mean " + quoted(near) + "?");
      return;
    }
    // All of the same kind, as far as they read as a list.
    std::vector<std::string> alike;
    const std::string kind = address.substr(0, address.find(':') + 1);
    for (const std::string& a : known) {
      if (starts_with(a, kind) && alike.size() < 12) alike.push_back(a);
    }
    e.hints.push_back("known: " + join(alike, ", ") + (alike.size() == 12 ? ", ..." : ""));
  }

  void characters(const Inline& in, canvas::FontId font) {
    for (std::size_t at = 0; at < in.text.size();) {
      const std::size_t begin = at;
      const char32_t c = next_code_point(in.text, at);
      if (c <= ' ' || c == 0xAD || writer.scene.fonts.has(font, c)) continue;
      writer.diagnostics
          .error(
              "D404", in.span,
              join({"the booklet's type has no character ", in.text.substr(begin, at - begin)}, ""))
          .hints.push_back("write it in words");
      return;
    }
  }

  void inlines(const std::vector<Inline>& all, canvas::FontId font) {
    for (const Inline& in : all) {
      if (in.kind == Inline::Kind::image) {
        image(in);
        continue;
      }
      const canvas::FontId f = in.kind == Inline::Kind::strong     ? canvas::FontId::text_bold
                               : in.kind == Inline::Kind::emphasis ? canvas::FontId::text_italic
                               : in.kind == Inline::Kind::code     ? canvas::FontId::sans
                                                                   : font;
      if (in.kind == Inline::Kind::text || in.kind == Inline::Kind::code) characters(in, f);
      if (in.kind == Inline::Kind::link && starts_with(in.address, "#"))
        writer.references.push_back({in.address.substr(1), in.span});
      inlines(in.children, f);
    }
  }

  void blocks(const std::vector<Block>& all) {
    for (const Block& b : all) {
      inlines(b.inlines, canvas::FontId::text);
      blocks(b.children);
    }
  }
};

const Inline* find_image(const std::vector<Inline>& all, const std::string& address) {
  for (const Inline& in : all) {
    if (in.kind == Inline::Kind::image && in.address == address) return &in;
    if (const Inline* inner = find_image(in.children, address)) return inner;
  }
  return nullptr;
}

const Inline* find_image(const std::vector<Block>& all, const std::string& address) {
  for (const Block& b : all) {
    if (const Inline* in = find_image(b.inlines, address)) return in;
    if (const Inline* in = find_image(b.children, address)) return in;
  }
  return nullptr;
}

struct ProseSetter {
  Writer& writer;
  Column& column;
  const Markdown& source;  // before expansion, for spans
  std::string slug_base;
  int deeper = 0;
  ProseFound found{};

  // Curly quotes become those of the language; marks typed in it already stay as they are.
  std::string quoted_text(const std::string& text) {
    const std::u32string marks = code_points(writer.words("quotes"));
    constexpr std::u32string_view english = U"“ ” ‘ ’";
    if (marks == english || marks.size() != english.size()) return text;
    const char32_t open = marks[0], close = marks[2], inner_open = marks[4], inner_close = marks[6];
    const std::u32string all = code_points(text);
    std::u32string out;
    for (std::size_t i = 0; i < all.size(); ++i) {
      const char32_t c = all[i];
      const bool inside = i > 0 && i + 1 < all.size() && all[i + 1] > ' ' && all[i - 1] > ' ';
      if (c == open) {
        in_quotes_ = true;
        out += c;
      } else if (c == U'“' || c == U'”') {
        const bool opens = c == U'“' && !in_quotes_;
        in_quotes_ = opens;
        out += opens ? open : close;
      } else if (c == U'‘' && !in_inner_) {
        in_inner_ = true;
        out += inner_open;
      } else if ((c == U'’' || c == U'‘') && in_inner_ && !inside) {
        in_inner_ = false;
        out += inner_close;
      } else {
        out += c;
      }
    }
    return utf8(out);
  }
  bool in_quotes_ = false, in_inner_ = false;

  Runs runs(const std::vector<Inline>& all, const TextStyle& style) {
    in_quotes_ = in_inner_ = false;
    Runs out;
    add(out, all, style);
    return out;
  }

  void add(Runs& out, const std::vector<Inline>& all, const TextStyle& style) {
    for (const Inline& in : all) {
      TextStyle s = style;
      switch (in.kind) {
        case Inline::Kind::text:
          out.push_back({quoted_text(in.text), s, false});
          break;
        case Inline::Kind::code:
          s.font = canvas::FontId::sans;
          s.size *= 0.9;
          s.hyphenate = false;
          out.push_back({in.text, s, false});
          break;
        case Inline::Kind::soft_break:
          out.push_back({" ", s, false});
          break;
        case Inline::Kind::line_break:
          out.push_back({"", s, true});
          break;
        case Inline::Kind::emphasis:
          if (s.font != canvas::FontId::text_bold) s.font = canvas::FontId::text_italic;
          add(out, in.children, s);
          break;
        case Inline::Kind::strong:
          s.font = canvas::FontId::text_bold;
          add(out, in.children, s);
          break;
        case Inline::Kind::link:
          if (starts_with(in.address, "#"))
            s.destination = in.address.substr(1);
          else
            s.uri = in.address;
          s.color = writer.style.colours.accent;
          add(out, in.children, s);
          break;
        case Inline::Kind::image:
          break;
      }
    }
  }

  void blocks(const std::vector<Block>& all) {
    for (const Block& b : all) block(b);
  }

  void block(const Block& b) {
    switch (b.kind) {
      case Block::Kind::heading: {
        const Runs words = runs(b.inlines, column.text());
        writer.heading(column, std::min(3, b.level + deeper), words,
                       slug_base + slug(plain_text(words)));
        break;
      }
      case Block::Kind::paragraph:
        paragraph(b.inlines);
        break;
      case Block::Kind::bullet_list:
      case Block::Kind::ordered_list:
        list(b);
        break;
      case Block::Kind::quote: {
        column.begin(canvas::Role::note);
        column.indent(18);
        const std::size_t first = column.boxes.size();
        blocks(b.children);
        column.indent(-18);
        column.end();
        bar(first, 4);
        break;
      }
      case Block::Kind::code: {
        TextStyle s = column.small();
        s.hyphenate = false;
        Runs lines;
        for (const std::string& line : split(trim(b.text), '\n')) {
          if (!lines.empty()) lines.push_back({"", s, true});
          lines.push_back({line, s, false});
        }
        ParagraphStyle how;
        how.align = Align::left;
        column.paragraph(lines, how);
        break;
      }
      case Block::Kind::rule:
        column.rule();
        break;
      case Block::Kind::table:
        table(b);
        break;
      default:
        blocks(b.children);
    }
  }

  // A line down the left of the boxes from `first` on.
  void bar(std::size_t first, double x) {
    for (std::size_t i = first; i < column.boxes.size(); ++i) {
      Box& box = column.boxes[i];
      const double down =
          i + 1 < column.boxes.size() ? std::max(box.after, column.boxes[i + 1].before) : 0.0;
      canvas::DisplayList line;
      line.stroke_path(canvas::Path::segment({x, 0}, {x, box.height + down}),
                       writer.style.colours.accent, 1.2);
      box.content.group(canvas::Role::artifact, std::move(line));
    }
  }

  void list(const Block& b) {
    column.begin_list(b.kind == Block::Kind::ordered_list);
    int number = b.level;
    for (const Block& item : b.children) {
      column.item_begin(b.kind == Block::Kind::ordered_list ? std::to_string(number++) + "." : "•");
      for (const Block& inner : item.children) block(inner);
      column.item_end();
      column.tighten(writer.style.type.leading * 0.25);
    }
    column.end();
    column.space(writer.style.type.leading * 0.5);
  }

  void table(const Block& b) {
    Table t;
    for (const char a : b.align) t.align += a == '-' ? 'l' : a;
    for (const Block& row : b.children) {
      std::vector<Cell> cells;
      for (const Block& cell : row.children) {
        Cell& c = cells.emplace_back();
        c.runs = runs(cell.inlines, column.text());
        for (const Inline& in : cell.inlines) {
          if (in.kind != Inline::Kind::image) continue;
          if (starts_with(in.address, "figure:"))
            c.picture = writer.picture(in.address.substr(7), 110, 80);
          else if (is_photo(in.address))
            c.picture = photo(in, 110, 80);
        }
      }
      if (row.head)
        t.head = std::move(cells);
      else
        t.rows.push_back(std::move(cells));
    }
    column.table(t);
  }

  // A step's words with its figure behind them, which has no words of its own: beside each other,
  // as the program's own steps stand.
  bool step(const std::vector<Inline>& all) {
    if (all.size() < 2 || all.back().kind != Inline::Kind::image || !all.back().text.empty())
      return false;
    const std::vector<Inline> before(all.begin(), all.end() - 1);
    if (std::any_of(before.begin(), before.end(),
                    [](const Inline& in) { return in.kind == Inline::Kind::image; }))
      return false;
    const std::string& address = all.back().address;
    const bool is_step = starts_with(address, "figure:step/");
    if (!is_step && !starts_with(address, "figure:assembly/")) return false;
    const Runs words = runs(before, column.text());
    if (trim(plain_text(words)).empty()) return false;
    const double height = writer.style.text_height() * (is_step ? step_height : top_height);
    // A low, long figure stands above its words.
    auto picture = writer.picture(address.substr(7), column.width(), low_step);
    const bool beside = !picture || picture->width < column.width() * long_step;
    if (beside) picture = writer.picture(address.substr(7), column.width() * step_width, height);
    if (!picture) {
      missing(address);
      return true;
    }
    found.steps = found.steps || is_step;
    column.begin(canvas::Role::list);
    if (beside)
      column.side_card({"", std::move(*picture), {words}}, column.width() * (1 - step_width));
    else
      column.card_row({{"", std::move(*picture), {words}}}, {column.width()});
    column.boxes.back().before = column.boxes.back().after = writer.style.type.leading;
    column.boxes.back().stretch = 14;
    column.end();
    return true;
  }

  // Text with images among it: the images stand between the parts of the text.
  void paragraph(const std::vector<Inline>& all) {
    if (step(all)) return;
    std::vector<Inline> text;
    std::vector<const Inline*> images;
    const auto flush_text = [&] {
      const Runs words = runs(text, column.text());
      text.clear();
      if (!trim(plain_text(words)).empty()) column.paragraph(words);
    };
    const auto flush_images = [&] {
      show(images);
      images.clear();
    };
    for (const Inline& in : all) {
      if (in.kind == Inline::Kind::image) {
        flush_text();
        images.push_back(&in);
      } else {
        const bool blank = in.kind == Inline::Kind::soft_break ||
                           in.kind == Inline::Kind::line_break ||
                           (in.kind == Inline::Kind::text && trim(in.text).empty());
        if (blank && text.empty()) continue;
        flush_images();
        text.push_back(in);
      }
    }
    flush_text();
    flush_images();
  }

  void show(const std::vector<const Inline*>& images) {
    std::vector<std::pair<Picture, Runs>> row;
    const double height = writer.style.text_height() * (images.size() > 1 ? 0.28 : 0.45);
    const double each =
        (column.width() - 18.0 * static_cast<double>(std::max<std::size_t>(images.size(), 1) - 1)) /
        static_cast<double>(std::max<std::size_t>(images.size(), 1));
    for (const Inline* in : images) {
      if (is_part(in->address)) {
        part(in->address);
        continue;
      }
      const std::string address = in->address.substr(std::min<std::size_t>(7, in->address.size()));
      const bool is_figure = starts_with(in->address, "figure:");
      auto picture = is_figure ? writer.picture(address, std::max(each, 120.0), height)
                               : photo(*in, each, height);
      if (!picture) {
        if (is_figure) missing(in->address);
        continue;
      }
      if (starts_with(address, "step/")) found.steps = true;
      TextStyle s = column.small();
      s.color = writer.style.colours.muted;
      Runs words;
      if (!in->text.empty()) {
        words.push_back({in->text, s, false});
        if (picture->alt.empty()) picture->alt = in->text;
      }
      row.emplace_back(std::move(*picture), std::move(words));
    }
    if (row.size() == 1)
      column.figure(row[0].first, row[0].second);
    else
      column.figures(row);
  }

  std::optional<Picture> photo(const Inline& in, double width, double height) {
    const auto found_at = writer.photos.find(in.address);
    if (found_at == writer.photos.end() || !found_at->second) return {};  // an error has said why
    const canvas::Raster& raster = *found_at->second;
    const PhotoSize size = photo_size(raster, width, height);
    if (size.dots < coarse_dots) {
      const Inline* written = find_image(source.blocks, in.address);
      const auto needed = [](double side) {
        return std::to_string(static_cast<int>(std::ceil(side / 72 * good_dots - 1e-6)));
      };
      writer.diagnostics
          .warning("D480", written == nullptr ? Span{source.file, 0, 0, 0, 0} : written->span,
                   "the photograph " + quoted(in.address) + " is printed with " +
                       decimal(size.dots, 0) + " dots to the inch")
          .hints.push_back("it has " + std::to_string(raster.width()) + " × " +
                           std::to_string(raster.height()) + " dots; for this place it needs " +
                           needed(size.width) + " × " + needed(size.height));
    }
    canvas::DisplayList list;
    list.image(found_at->second, canvas::Rect::of(0, 0, size.width, size.height));
    return Picture{canvas::share(std::move(list)), size.width, size.height, in.text};
  }

  // A figure that other sizes have, but not this one.
  void missing(const std::string& address) {
    const Inline* in = find_image(source.blocks, address);
    writer.diagnostics
        .error("D402", in == nullptr ? Span{source.file, 0, 0, 0, 0} : in->span,
               "the size " + quoted(writer.size_def().id) + " has no figure " + quoted(address))
        .hints.push_back(only_in(sizes_with(address)));
  }

  std::vector<std::string> sizes_with(const std::string& address) const {
    std::vector<std::string> out;
    const auto& sizes = writer.pattern().sizes;
    for (std::size_t i = 0; i < sizes.size(); ++i) {
      bool has = false;
      for (const std::string& figure : figure_addresses(writer.scene, i))
        has = has || address == "figure:" + figure;
      for (const BlockSewing& block : writer.scene.piecing.sizes[i].blocks)
        has = has || address == "steps:" + writer.pattern().uses[block.use].id;
      if (has) out.push_back(sizes[i].id);
    }
    if (out.empty()) out.push_back("size");
    return out;
  }

  void part(const std::string& address) {
    if (address == "table:requirements" || address == "section:requirements") {
      write_requirements_table(writer, column);
    } else if (address == "table:cutting" || address == "section:cutting") {
      write_cutting_tables(writer, column);
    } else if (address == "steps:assembly" || address == "section:assembly") {
      write_assembly_steps(writer, column);
    } else if (address == "section:finishing") {
      write_finishing(writer, column);
    } else if (starts_with(address, "steps:")) {
      found.steps = true;
      const std::string id = address.substr(6);
      for (const BlockSewing& block : writer.sewing().blocks) {
        if (writer.pattern().uses[block.use].id == id) {
          write_block_steps(writer, column, block);
          return;
        }
      }
      missing(address);
    }
  }
};

}  // namespace

std::vector<std::string> part_addresses(const Writer& writer) {
  std::vector<std::string> out{"section:assembly",     "section:cutting", "section:finishing",
                               "section:requirements", "steps:assembly",  "table:cutting",
                               "table:requirements"};
  for (const BlockUse& use : writer.pattern().uses) out.push_back("steps:" + use.id);
  std::sort(out.begin(), out.end());
  return out;
}

ProseFound write_prose(Writer& writer, Column& column, const Prose& prose, int deeper) {
  const std::size_t errors = writer.diagnostics.error_count();
  const auto source = read_markdown(prose.path, prose.text, writer.diagnostics);
  if (source) Checker(writer).blocks(source->blocks);
  const auto text = expand_tags(prose.path, prose.text, writer.tag_values(), writer.diagnostics);
  if (!source || !text || writer.diagnostics.error_count() != errors) return {};
  Diagnostics of_expanded;
  const auto expanded = read_markdown(prose.path, *text, of_expanded);
  if (!expanded) {
    for (const Diagnostic& d : of_expanded.all())
      writer.diagnostics.error(d.code, Span{prose.path, 0, 0, 0, 0},
                               "once its values are filled in: " + d.message);
    return {};
  }
  std::string base = prose.path;
  if (base.ends_with(".md")) base.erase(base.size() - 3);
  const std::size_t slash = base.rfind('/');
  if (slash != std::string::npos) base.erase(0, slash + 1);
  ProseSetter setter{writer, column, *source, base + "/", deeper};
  setter.blocks(expanded->blocks);
  return setter.found;
}

}  // namespace dogear::booklet
