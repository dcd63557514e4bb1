#include <algorithm>
#include <array>
#include <nlohmann/json.hpp>

#include "base/text.h"
#include "compile/lists.h"
#include "words/languages.h"

namespace dogear {

namespace {

std::string text_of(const Cell& cell) {
  if (const auto* count = std::get_if<long long>(&cell)) return std::to_string(*count);
  return std::get<std::string>(cell);
}

bool is_count(const Cell& cell) { return std::holds_alternative<long long>(cell); }

// What a terminal shows of it: one place for each code point.
std::size_t places(std::string_view text) {
  std::size_t count = 0;
  for (std::size_t at = 0; at < text.size(); ++count) next_code_point(text, at);
  return count;
}

// What stands between the words of a phrase: "9 of A1, 39 in for strip set 1".
constexpr std::array<std::string_view, 9> phrases{"mirror image of",
                                                  "for strip set",
                                                  "as it is",
                                                  "left over",
                                                  "whole strips",
                                                  "from cloth",
                                                  "of",
                                                  "with",
                                                  "wide"};

void replace_words(std::string& text, std::string_view from, const std::string& to) {
  for (std::size_t at = 0; (at = text.find(from, at)) != std::string::npos; at += to.size()) {
    const std::size_t end = at + from.size();
    const bool begins = at == 0 || text[at - 1] == ' ';
    const bool ends = end == text.size() || text[end] == ' ';
    if (begins && ends) {
      text.replace(at, from.size(), to);
    } else {
      at += from.size();
      at -= to.size();
    }
  }
}

// "39 in for ..." -> "39″ for ...": units right behind a number.
void respell_units(const Words& words, std::string& text) {
  for (const auto& [unit, key] :
       {std::pair{" in", "inches"}, {" yd", "yards"}, {" cm", "centimeters"}}) {
    const std::string spelled = words(key, {{"n", ""}});
    const std::string_view from(unit);
    for (std::size_t at = 0; (at = text.find(from, at)) != std::string::npos;) {
      const std::size_t end = at + from.size();
      const bool is_unit =
          at > 0 && is_digit(text[at - 1]) && (end == text.size() || text[end] == ' ');
      if (is_unit) text.replace(at, from.size(), spelled);
      at += is_unit ? spelled.size() : from.size();
    }
  }
}

// A name or a phrase of the lists as the language says it; of several with commas, each.
std::string said(const Words& words, const std::string& text) {
  if (words.language == "en") return text;
  if (words.has("list " + text)) return words("list " + text);
  std::vector<std::string> parts;
  for (const std::string& with_blanks : split(text, ',')) {
    const std::string part(trim(with_blanks));
    const std::string in_list = words.named("list ", part);
    std::string known =
        in_list != part ? in_list : words.named("use ", words.named("shape ", part));
    if (known == part) {
      for (const std::string_view phrase : phrases)
        replace_words(known, phrase, words.named("list ", phrase));
      respell_units(words, known);
    }
    parts.push_back(std::move(known));
  }
  return join(parts, ", ");
}

std::string heading(const Pattern& pattern, const ListGroup& group) {
  return pattern.title + ", " +
         (group.size ? pattern.sizes[*group.size].title
                     : said(words_of(pattern.language), group.title));
}

// For people alone: names that other programs read stay as they are.
List in_language(const Words& words, const List& list) {
  List out{said(words, list.name), {}, list.rows, list.to_tick};
  for (const std::string& column : list.columns) out.columns.push_back(said(words, column));
  for (auto& row : out.rows)
    for (Cell& cell : row)
      if (auto* text = std::get_if<std::string>(&cell)) *text = said(words, *text);
  return out;
}

// Columns in which no row says anything are left out where people read.
List without_empty_columns(const List& list) {
  List kept{list.name, {}, std::vector<std::vector<Cell>>(list.rows.size()), list.to_tick};
  for (std::size_t column = 0; column < list.columns.size(); ++column) {
    const bool says = std::any_of(list.rows.begin(), list.rows.end(),
                                  [&](const auto& row) { return !text_of(row[column]).empty(); });
    if (!says) continue;
    kept.columns.push_back(list.columns[column]);
    for (std::size_t row = 0; row < list.rows.size(); ++row) {
      kept.rows[row].push_back(list.rows[row][column]);
    }
  }
  return kept;
}

std::string padded(const Cell& cell, std::size_t width) {
  const std::string text = text_of(cell);
  const std::string blanks(width - places(text), ' ');
  return is_count(cell) ? blanks + text : text + blanks;
}

std::string without_trailing_blanks(std::string line) {
  line.erase(line.find_last_not_of(' ') + 1);
  return line;
}

std::string text_list(const List& given) {
  const List list = without_empty_columns(given);
  std::vector<std::size_t> widths;
  for (const std::string& column : list.columns) widths.push_back(places(column));
  for (const auto& row : list.rows) {
    for (std::size_t i = 0; i < row.size(); ++i) {
      widths[i] = std::max(widths[i], places(text_of(row[i])));
    }
  }
  const auto line = [&](const auto& cells, const char* box) {
    std::string words = list.to_tick ? box : "";
    for (std::size_t i = 0; i < cells.size(); ++i) words += "  " + padded(cells[i], widths[i]);
    return without_trailing_blanks(words) + '\n';
  };
  std::string text = list.name + '\n' + line(list.columns, "     ");
  for (const auto& row : list.rows) text += line(row, "  [ ]");
  return text;
}

std::string print_text(const Pattern& pattern, const std::vector<ListGroup>& groups) {
  std::string text;
  for (const ListGroup& group : groups) {
    if (!text.empty()) text += '\n';
    text += heading(pattern, group) + '\n';
    for (const List& list : group.lists)
      text += '\n' + text_list(in_language(words_of(pattern.language), list));
  }
  return text;
}

std::string markdown_cell(const Cell& cell) {
  std::string escaped;
  for (const char c : text_of(cell)) {
    if (std::string_view("|\\`*_<[").find(c) != std::string_view::npos) escaped += '\\';
    escaped += c;
  }
  return escaped;
}

std::string markdown_list(const List& given) {
  const List list = without_empty_columns(given);
  std::string text = "### " + list.name + (list.to_tick ? "\n\n| |" : "\n\n|");
  std::string rule = list.to_tick ? "| --- |" : "|";
  for (std::size_t i = 0; i < list.columns.size(); ++i) {
    const bool right = std::all_of(list.rows.begin(), list.rows.end(),
                                   [&](const auto& row) { return is_count(row[i]); });
    text += ' ' + list.columns[i] + " |";
    rule += right ? " ---: |" : " --- |";
  }
  text += '\n' + rule + '\n';
  for (const auto& row : list.rows) {
    text += list.to_tick ? "| \u2610 |" : "|";
    for (const Cell& cell : row) text += ' ' + markdown_cell(cell) + " |";
    text += '\n';
  }
  return text;
}

std::string print_markdown(const Pattern& pattern, const std::vector<ListGroup>& groups) {
  std::string text;
  for (const ListGroup& group : groups) {
    if (!text.empty()) text += '\n';
    text += "## " + heading(pattern, group) + '\n';
    for (const List& list : group.lists)
      text += '\n' + markdown_list(in_language(words_of(pattern.language), list));
  }
  return text;
}

std::string csv_field(const std::string& text) {
  if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
  std::string quoted = "\"";
  for (const char c : text) {
    if (c == '"') quoted += '"';
    quoted += c;
  }
  return quoted + '"';
}

std::string print_csv(const Pattern& pattern, const std::vector<ListGroup>& groups) {
  std::vector<std::string> columns{"size", "list"};
  const auto column_of = [&](const std::string& name) {
    const auto found = std::find(columns.begin() + 2, columns.end(), name);
    if (found != columns.end()) return static_cast<std::size_t>(found - columns.begin());
    columns.push_back(name);
    return columns.size() - 1;
  };
  std::vector<std::vector<std::string>> rows;
  for (const ListGroup& group : groups) {
    for (const List& list : group.lists) {
      for (const auto& cells : list.rows) {
        std::vector<std::string> row{group.size ? pattern.sizes[*group.size].id : "", list.name};
        for (std::size_t i = 0; i < cells.size(); ++i) {
          const std::size_t column = column_of(list.columns[i]);
          if (row.size() <= column) row.resize(column + 1);
          row[column] = text_of(cells[i]);
        }
        rows.push_back(std::move(row));
      }
    }
  }
  std::string text;
  const auto line = [&](std::vector<std::string> fields) {
    fields.resize(columns.size());
    for (std::string& field : fields) field = csv_field(field);
    text += join(fields, ",") + "\r\n";
  };
  line(columns);
  for (const auto& row : rows) line(row);
  return text;
}

std::string json_key(std::string name) {
  std::replace(name.begin(), name.end(), ' ', '_');
  return name;
}

using Json = nlohmann::ordered_json;

Json json_rows(const List& list) {
  Json rows = Json::array();
  for (const auto& cells : list.rows) {
    Json row = Json::object();
    for (std::size_t i = 0; i < cells.size(); ++i) {
      if (is_count(cells[i])) {
        row[json_key(list.columns[i])] = std::get<long long>(cells[i]);
      } else if (!text_of(cells[i]).empty()) {
        row[json_key(list.columns[i])] = text_of(cells[i]);
      }
    }
    rows.push_back(std::move(row));
  }
  return rows;
}

std::string print_json(const Pattern& pattern, const std::vector<ListGroup>& groups) {
  Json root{{"pattern", pattern.id}, {"title", pattern.title}};
  Json sizes = Json::array();
  for (const ListGroup& group : groups) {
    if (!group.size) {
      for (const List& list : group.lists) root[json_key(list.name)] = json_rows(list);
      continue;
    }
    const SizeDef& definition = pattern.sizes[*group.size];
    Json of_size{{"size", definition.id}, {"title", definition.title}};
    for (const List& list : group.lists) of_size[json_key(list.name)] = json_rows(list);
    sizes.push_back(std::move(of_size));
  }
  root["sizes"] = std::move(sizes);
  return root.dump(2) + '\n';
}

}  // namespace

std::string print_lists(const Pattern& pattern, const std::vector<ListGroup>& given,
                        ListFormat format) {
  std::vector<ListGroup> groups = given;
  for (ListGroup& group : groups) {
    std::erase_if(group.lists, [](const List& list) { return list.rows.empty(); });
  }
  switch (format) {
    case ListFormat::text:
      return print_text(pattern, groups);
    case ListFormat::csv:
      return print_csv(pattern, groups);
    case ListFormat::json:
      return print_json(pattern, groups);
    case ListFormat::markdown:
      return print_markdown(pattern, groups);
  }
  return {};
}

std::string print_quantities(const Plan& plan, const std::vector<std::size_t>& sizes,
                             ListFormat format) {
  std::vector<ListGroup> groups;
  for (const std::size_t size : sizes) groups.push_back({size, "", quantity_lists(plan, size)});
  return print_lists(plan.pattern(), groups, format);
}

}  // namespace dogear
