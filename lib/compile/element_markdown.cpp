#include "compile/element_markdown.h"

#include <algorithm>
#include <string_view>

namespace dogear {
namespace {

using booklet::Cell;
using booklet::Element;
using Kind = booklet::Element::Kind;

}  // namespace

std::string markdown_text(const booklet::Runs& runs) {
  std::string out;
  for (const booklet::Run& r : runs) {
    if (r.line_break) {
      out += ' ';
      continue;
    }
    const bool bold = r.style.font == canvas::FontId::text_bold;
    const bool italic = r.style.font == canvas::FontId::text_italic;
    // Marks stand close to the words they mark.
    const std::size_t from = r.text.find_first_not_of(' ');
    if (from == std::string::npos || !(bold || italic)) {
      out += markdown_text(r.text);
      continue;
    }
    const std::size_t to = r.text.find_last_not_of(' ') + 1;
    const std::string mark = bold ? "**" : "*";
    out += r.text.substr(0, from) + mark + markdown_text(r.text.substr(from, to - from)) + mark +
           r.text.substr(to);
  }
  return out;
}

namespace {

std::string table_text(const Element& e) {
  std::size_t columns = e.head.size();
  for (const auto& row : e.rows) columns = std::max(columns, row.size());
  const auto text = [](const std::vector<Cell>& row, std::size_t c) {
    return c < row.size() ? markdown_text(row[c].runs) : std::string();
  };
  std::vector<std::size_t> kept;
  for (std::size_t c = 0; c < columns; ++c) {
    const bool any = !text(e.head, c).empty() ||
                     std::any_of(e.rows.begin(), e.rows.end(),
                                 [&](const auto& row) { return !text(row, c).empty(); });
    if (any) kept.push_back(c);
  }
  std::string head = "|", rule = "|", body;
  for (const std::size_t c : kept) {
    head += ' ' + text(e.head, c) + " |";
    rule += c < e.align.size() && e.align[c] == 'r' ? " ---: |" : " --- |";
  }
  for (const auto& row : e.rows) {
    body += '|';
    for (const std::size_t c : kept) body += ' ' + text(row, c) + " |";
    body += '\n';
  }
  return head + '\n' + rule + '\n' + body + '\n';
}

}  // namespace

std::string markdown_text(const std::string& text) {
  std::string out;
  for (const char c : text) {
    if (std::string_view("|\\`*_<>[]#&").find(c) != std::string_view::npos) out += '\\';
    out += c == '\n' ? ' ' : c;
  }
  return out;
}

std::string as_markdown(const std::vector<Element>& elements, int level) {
  std::string out;
  for (const Element& e : elements) {
    switch (e.kind) {
      case Kind::heading:
        out += std::string(static_cast<std::size_t>(level + e.level - 1), '#') + ' ' +
               markdown_text(plain_text(e.runs)) + "\n\n";
        break;
      case Kind::paragraph:
        out += markdown_text(e.runs) + "\n\n";
        break;
      case Kind::table:
        out += table_text(e);
        break;
      case Kind::item:
        out += "- " + as_markdown(e.children, level);
        break;
      default:
        out += as_markdown(e.children, level);
    }
  }
  return out;
}

}  // namespace dogear
