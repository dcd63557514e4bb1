#pragma once
// Markdown (CommonMark with GFM tables) as a tree with a span on every node.

#include <optional>
#include <string>
#include <vector>

#include "diag/diagnostics.h"

namespace dogear {

struct Inline {
  enum class Kind { text, code, soft_break, line_break, emphasis, strong, link, image };
  Kind kind = Kind::text;
  Span span;
  std::string text;              // text, code; alt text of an image
  std::string address;           // link, image
  std::vector<Inline> children;  // emphasis, strong, link
};

struct Block {
  enum class Kind {
    heading,
    paragraph,
    bullet_list,
    ordered_list,
    item,
    quote,
    code,
    rule,
    table,
    table_row,
    table_cell
  };
  Kind kind = Kind::paragraph;
  Span span;
  int level = 0;                // heading 1-6; first number of an ordered list
  bool head = false;            // table_row: the head row
  std::string align;            // table: one of l, c, r or - a column
  std::string text;             // code
  std::vector<Inline> inlines;  // heading, paragraph, table_cell
  std::vector<Block> children;  // lists, item, quote, table, table_row
};

struct Markdown {
  std::string file;
  std::vector<Block> blocks;
};

// Raw HTML is an error (a booklet has no use for it). Bounded: 1 MiB, 10,000 columns a line,
// nesting 30, table cells 10,000, all checked before the parser runs where the parser is quadratic.
std::optional<Markdown> read_markdown(const std::string& file, const std::string& text,
                                      Diagnostics& diagnostics);

// A Mustache tag found in the text before it is expanded.
struct Tag {
  std::string name;  // without braces, sigil and blanks
  char sigil = 0;    // 0, '#', '^', '/'; others are an error
  Span span;
};
std::vector<Tag> find_tags(const std::string& file, const std::string& text,
                           Diagnostics& diagnostics);

}  // namespace dogear
