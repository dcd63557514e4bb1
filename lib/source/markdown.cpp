// The parser's positions of inline nodes are wrong behind indented lines, hard breaks and escapes,
// and soft breaks have none. So only block positions are taken from it; inside a block a cursor
// walks the source in step with the tree, since each leaf begins where the last one ended.

#include "source/markdown.h"

#include <cmark-gfm-core-extensions.h>
#include <cmark-gfm-extension_api.h>
#include <cmark-gfm.h>

#include <algorithm>
#include <memory>
#include <mutex>
#include <utility>

#include "diag/comments.h"
#include "source/limits.h"
#include "source/lines.h"
#include "source/markdown_guard.h"

namespace dogear {

namespace {

constexpr std::size_t npos = std::string_view::npos;

struct FreeNode {
  void operator()(cmark_node* n) const { cmark_node_free(n); }
};
struct FreeParser {
  void operator()(cmark_parser* p) const { cmark_parser_free(p); }
};

void register_extensions() {
  static const bool done = (cmark_gfm_core_extensions_ensure_registered(), true);
  static_cast<void>(done);
}

bool blank(char c) { return c == ' ' || c == '\t'; }
bool punctuation(char c) {
  return (c >= '!' && c <= '/') || (c >= ':' && c <= '@') || (c >= '[' && c <= '`') ||
         (c >= '{' && c <= '~');
}

class Converter {
 public:
  Converter(const Lines& lines, std::string_view source, Diagnostics& diagnostics)
      : lines_(lines), source_(source), diagnostics_(diagnostics) {}

  std::vector<Block> document(cmark_node* root) { return blocks(root, 0, 0); }
  bool failed() const { return errors_ > 0; }

 private:
  bool stopped() const { return too_deep_ || errors_ >= most_errors; }

  void refuse_html(std::size_t begin, std::size_t end) {
    ++errors_;
    diagnostics_.error("D010", lines_.span(begin, end), "raw HTML has no place in a booklet")
        .hints.emplace_back("write it as Markdown; for a less-than sign write &lt;");
  }

  void refuse_depth(std::size_t begin) {
    if (too_deep_) return;
    too_deep_ = true;
    ++errors_;
    diagnostics_.error("D006", lines_.span(begin, begin + 1),
                       "the text is nested too deeply here: at most " +
                           std::to_string(most_nesting) + " levels are read");
  }

  // Line and column as the parser counts them: from 1, in bytes.
  std::size_t offset(int line, int column) const {
    const std::size_t l = static_cast<std::size_t>(std::max(line, 1)) - 1;
    const std::size_t c = static_cast<std::size_t>(std::max(column, 1)) - 1;
    return std::min(lines_.start(l) + c, lines_.end(l));
  }
  std::size_t begin_of(cmark_node* n) const {
    return offset(cmark_node_get_start_line(n), cmark_node_get_start_column(n));
  }
  std::size_t end_of(cmark_node* n) const {
    const std::size_t begin = begin_of(n);
    std::size_t end = offset(cmark_node_get_end_line(n), cmark_node_get_end_column(n) + 1);
    if (cmark_node_get_end_column(n) == 0) end = offset(cmark_node_get_end_line(n), 1);
    end = std::min(end, source_.size());
    while (end > begin &&
           (blank(source_[end - 1]) || source_[end - 1] == '\n' || source_[end - 1] == '\r')) {
      --end;
    }
    return std::max(begin, end);
  }

  // ---- blocks

  std::vector<Block> blocks(cmark_node* parent, std::size_t depth, std::size_t quotes) {
    std::vector<Block> out;
    for (cmark_node* n = cmark_node_first_child(parent); n != nullptr && !stopped();
         n = cmark_node_next(n)) {
      block(n, depth, quotes, out);
    }
    return out;
  }

  void block(cmark_node* n, std::size_t depth, std::size_t quotes, std::vector<Block>& out) {
    using Kind = Block::Kind;
    const std::size_t begin = begin_of(n);
    const std::size_t end = end_of(n);
    if (depth > most_nesting) return refuse_depth(begin);
    Block b;
    b.span = lines_.span(begin, end);
    const cmark_node_type type = cmark_node_get_type(n);
    if (type == CMARK_NODE_HTML_BLOCK) {
      if (!is_acceptance_markup(raw(n))) refuse_html(begin, end);  // see diag/accept.h
      return;
    }
    if (type == CMARK_NODE_HEADING || type == CMARK_NODE_PARAGRAPH) {
      b.kind = type == CMARK_NODE_HEADING ? Kind::heading : Kind::paragraph;
      if (type == CMARK_NODE_HEADING) b.level = cmark_node_get_heading_level(n);
      enter(begin, end, quotes);
      if (type == CMARK_NODE_HEADING && at(cursor_) == '#') {
        while (at(cursor_) == '#') ++cursor_;
        while (blank(at(cursor_))) ++cursor_;
      }
      b.inlines = inlines(n, 0);
    } else if (type == CMARK_NODE_LIST) {
      b.kind = cmark_node_get_list_type(n) == CMARK_ORDERED_LIST ? Kind::ordered_list
                                                                 : Kind::bullet_list;
      if (b.kind == Kind::ordered_list) b.level = cmark_node_get_list_start(n);
      b.children = blocks(n, depth + 1, quotes);
    } else if (type == CMARK_NODE_ITEM) {
      b.kind = Kind::item;
      b.children = blocks(n, depth, quotes);
    } else if (type == CMARK_NODE_BLOCK_QUOTE) {
      b.kind = Kind::quote;
      b.children = blocks(n, depth + 1, quotes + 1);
    } else if (type == CMARK_NODE_CODE_BLOCK) {
      b.kind = Kind::code;
      b.text = literal(n);
    } else if (type == CMARK_NODE_THEMATIC_BREAK) {
      b.kind = Kind::rule;
    } else if (std::string_view(cmark_node_get_type_string(n)) == "table") {
      table(n, b);
    } else {
      return;
    }
    out.push_back(std::move(b));
  }

  void table(cmark_node* n, Block& b) {
    b.kind = Block::Kind::table;
    const std::uint16_t columns = cmark_gfm_extensions_get_table_columns(n);
    const std::uint8_t* alignments = cmark_gfm_extensions_get_table_alignments(n);
    for (std::uint16_t i = 0; i < columns; ++i) {
      b.align += alignments[i] == 0 ? '-' : static_cast<char>(alignments[i]);
    }
    for (cmark_node* r = cmark_node_first_child(n); r != nullptr; r = cmark_node_next(r)) {
      Block row;
      row.kind = Block::Kind::table_row;
      row.head = cmark_gfm_extensions_get_table_row_is_header(r) != 0;
      const std::size_t row_end = end_of(r);
      row.span = lines_.span(begin_of(r), row_end);
      for (cmark_node* c = cmark_node_first_child(r); c != nullptr; c = cmark_node_next(c)) {
        Block cell;
        cell.kind = Block::Kind::table_cell;
        const bool written = cmark_node_get_start_column(c) > 0;
        std::size_t begin = written ? begin_of(c) : row_end;
        const std::size_t end = written ? end_of(c) : row_end;
        while (begin < end && (blank(at(begin)) || at(begin) == '|')) ++begin;
        cell.span = lines_.span(begin, end);
        enter(begin, end, 0);
        cell.inlines = inlines(c, 0);
        row.children.push_back(std::move(cell));
      }
      b.children.push_back(std::move(row));
    }
  }

  // ---- inlines

  void enter(std::size_t begin, std::size_t end, std::size_t quotes) {
    cursor_ = begin;
    block_end_ = end;
    quotes_ = quotes;
  }

  std::vector<Inline> inlines(cmark_node* parent, std::size_t depth) {
    std::vector<Inline> out;
    for (cmark_node* n = cmark_node_first_child(parent); n != nullptr && !stopped();
         n = cmark_node_next(n)) {
      if (depth > most_nesting) {
        refuse_depth(std::min(cursor_, source_.size()));
        break;
      }
      inline_node(n, depth, out);
    }
    return out;
  }

  void inline_node(cmark_node* n, std::size_t depth, std::vector<Inline>& out) {
    using Kind = Inline::Kind;
    Inline i;
    const cmark_node_type type = cmark_node_get_type(n);
    if (type == CMARK_NODE_TEXT) {
      const std::string shielded = raw(n);
      const auto [begin, end] = locate(shielded, n);
      i.text = unshield(shielded);
      i.span = lines_.span(begin, end);
    } else if (type == CMARK_NODE_CODE) {
      i.kind = Kind::code;
      i.text = literal(n);
      i.span = code_span();
    } else if (type == CMARK_NODE_SOFTBREAK || type == CMARK_NODE_LINEBREAK) {
      i.kind = type == CMARK_NODE_SOFTBREAK ? Kind::soft_break : Kind::line_break;
      i.span = lines_.span(cursor_, cursor_);
      cursor_ = next_line();
    } else if (type == CMARK_NODE_EMPH || type == CMARK_NODE_STRONG) {
      i.kind = type == CMARK_NODE_EMPH ? Kind::emphasis : Kind::strong;
      const std::size_t marks = type == CMARK_NODE_EMPH ? 1 : 2;
      const std::size_t begin = cursor_;
      cursor_ += marks;
      i.children = inlines(n, depth + 1);
      cursor_ = std::min(cursor_ + marks, block_end_);
      i.span = lines_.span(begin, cursor_);
    } else if (type == CMARK_NODE_LINK || type == CMARK_NODE_IMAGE) {
      link(n, depth, i);
    } else if (type == CMARK_NODE_HTML_INLINE) {
      const auto [begin, end] = locate(raw(n), n);
      if (!is_acceptance_markup(raw(n))) refuse_html(begin, end);
      return;
    } else {
      return;
    }
    out.push_back(std::move(i));
  }

  void link(cmark_node* n, std::size_t depth, Inline& i) {
    const bool image = cmark_node_get_type(n) == CMARK_NODE_IMAGE;
    i.kind = image ? Inline::Kind::image : Inline::Kind::link;
    const char* url = cmark_node_get_url(n);
    i.address = unshield(url == nullptr ? "" : url);
    const std::size_t begin = cursor_;
    const bool pointed = at(begin) == '<';
    cursor_ += image ? 2 : 1;
    i.children = inlines(n, depth + 1);
    cursor_ = pointed ? std::min(cursor_ + 1, block_end_) : behind_link(cursor_);
    i.span = lines_.span(begin, cursor_);
    if (image) {
      i.text = plain_text(i.children);
      i.children.clear();
    }
  }

  static std::string plain_text(const std::vector<Inline>& inlines) {
    std::string out;
    for (const Inline& i : inlines) {
      const bool gap = i.kind == Inline::Kind::soft_break || i.kind == Inline::Kind::line_break;
      out += gap ? " " : i.text;
      out += plain_text(i.children);
    }
    return out;
  }

  // ](address "title") or ][label] or ] alone; `i` stands on the bracket.
  std::size_t behind_link(std::size_t i) const {
    i = std::min(source_.find(']', std::min(i, source_.size())), block_end_);
    if (i >= block_end_) return block_end_;
    ++i;
    if (at(i) == '[') return std::min(source_.find(']', i), block_end_ - 1) + 1;
    if (at(i) != '(') return i;
    int depth = 0;
    char quote = 0;
    for (; i < block_end_; ++i) {
      const char c = source_[i];
      if (c == '\\') {
        ++i;
      } else if (quote != 0) {
        if (c == quote) quote = 0;
      } else if (c == '<') {
        quote = '>';
      } else if ((c == '"' || c == '\'') && i > 0 && (blank(source_[i - 1]) || at(i - 1) == '\n')) {
        quote = c;
      } else if (c == '(') {
        ++depth;
      } else if (c == ')' && --depth == 0) {
        return i + 1;
      }
    }
    return block_end_;
  }

  Span code_span() {
    std::size_t begin = std::min(source_.find('`', cursor_), block_end_);
    std::size_t inside = begin;
    while (at(inside) == '`') ++inside;
    const std::size_t ticks = inside - begin;
    for (std::size_t i = inside; i < block_end_;) {
      std::size_t run = i;
      while (run < block_end_ && source_[run] == '`') ++run;
      if (ticks > 0 && run - i == ticks) {
        cursor_ = run;
        return lines_.span(begin, run);
      }
      i = std::max(run, i + 1);
    }
    return lines_.span(begin, inside);
  }

  // The first byte of text in the line below, behind the marks of the quotes around it.
  std::size_t next_line() const {
    const std::size_t line = lines_.line_of(std::min(cursor_, source_.size())) + 1;
    std::size_t i = lines_.start(line);
    for (std::size_t left = quotes_;; --left) {
      while (blank(at(i))) ++i;
      if (left == 0 || at(i) != '>') return i;
      ++i;
    }
  }

  // Where a text stands: at the cursor, or where the parser says, or at the next place it fits.
  std::pair<std::size_t, std::size_t> locate(std::string_view shielded, cmark_node* n) {
    std::size_t begin = cursor_;
    std::size_t end = match(begin, shielded);
    if (end == npos) {
      begin = begin_of(n);
      end = begin >= cursor_ && begin < block_end_ ? match(begin, shielded) : npos;
    }
    for (begin = end == npos ? cursor_ : begin; end == npos && begin < block_end_; ++begin) {
      if (searched_++ > most_bytes) break;
      end = match(begin, shielded);
      if (end != npos) break;
    }
    if (end == npos) {
      begin = std::min(cursor_, block_end_);
      return {begin, begin};
    }
    cursor_ = end;
    return {begin, end};
  }

  // The end of the source that reads as `said` from `i` on, or npos.
  std::size_t match(std::size_t i, std::string_view said) const {
    struct Curled {
      std::string_view typeset, typed;
    };
    static constexpr Curled curls[] = {{"\u201C", "\""}, {"\u201D", "\""}, {"\u2018", "'"},
                                       {"\u2019", "'"},  {"\u2013", "--"}, {"\u2014", "---"},
                                       {"\u2026", "..."}};
    for (std::size_t s = 0; s < said.size();) {
      if (i >= source_.size()) return npos;
      const char c = source_[i];
      if (c == '\\' && punctuation(at(i + 1)) && at(i + 1) == said[s]) {
        i += 2, ++s;
        continue;
      }
      if (c == '&') {
        const std::size_t end = source_.substr(i, 40).find(';');
        if (end != npos && said.substr(s, end + 1) != source_.substr(i, end + 1)) {
          i += end + 1;
          next_code_point(said, s);
          continue;
        }
      }
      if (c == said[s]) {
        ++i, ++s;
        continue;
      }
      const auto curl = std::find_if(std::begin(curls), std::end(curls), [&](const Curled& k) {
        return starts_with(said.substr(s), k.typeset) && starts_with(source_.substr(i), k.typed);
      });
      if (curl == std::end(curls)) return npos;
      i += curl->typed.size();
      s += curl->typeset.size();
    }
    return i;
  }

  static std::string raw(cmark_node* n) {
    const char* text = cmark_node_get_literal(n);
    return text == nullptr ? "" : text;
  }
  static std::string literal(cmark_node* n) { return unshield(raw(n)); }
  char at(std::size_t i) const { return i < source_.size() ? source_[i] : '\0'; }

  const Lines& lines_;
  std::string_view source_;  // the shielded text
  Diagnostics& diagnostics_;
  std::size_t cursor_ = 0;
  std::size_t block_end_ = 0;
  std::size_t quotes_ = 0;    // block quotes around this block
  std::size_t searched_ = 0;  // places tried beyond the cursor, bounded for the whole file
  std::size_t errors_ = 0;
  bool too_deep_ = false;
};

}  // namespace

std::optional<Markdown> read_markdown(const std::string& file, const std::string& text,
                                      Diagnostics& diagnostics) {
  const Lines lines(file, without_byte_order_mark(text));
  if (!check_text(lines, most_bytes, diagnostics)) return std::nullopt;
  const std::string shielded = shield_tags(lines.text());
  if (!check_markdown_limits(lines, diagnostics)) return std::nullopt;
  register_extensions();
  // The library marks special characters in tables of the whole program while it reads.
  static std::mutex one_at_a_time;
  std::unique_lock<std::mutex> lock(one_at_a_time);
  const std::unique_ptr<cmark_parser, FreeParser> parser(
      cmark_parser_new(CMARK_OPT_SMART | CMARK_OPT_SOURCEPOS));
  cmark_parser_attach_syntax_extension(parser.get(), cmark_find_syntax_extension("table"));
  cmark_parser_feed(parser.get(), shielded.data(), shielded.size());
  const std::unique_ptr<cmark_node, FreeNode> root(cmark_parser_finish(parser.get()));
  lock.unlock();
  Converter converter(lines, shielded, diagnostics);
  Markdown out{file, converter.document(root.get())};
  if (converter.failed()) return std::nullopt;
  return out;
}

}  // namespace dogear
