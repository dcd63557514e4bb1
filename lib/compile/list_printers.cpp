#include <algorithm>
#include <nlohmann/json.hpp>

#include "base/text.h"
#include "compile/lists.h"

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

std::string heading(const Plan& plan, std::size_t size) {
  return plan.pattern().title + ", " + plan.pattern().sizes[size].title;
}

// Columns in which no row says anything are left out where people read.
List without_empty_columns(const List& list) {
  List kept{list.name, {}, std::vector<std::vector<Cell>>(list.rows.size())};
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
  const auto line = [&](const auto& cells) {
    std::string words;
    for (std::size_t i = 0; i < cells.size(); ++i) words += "  " + padded(cells[i], widths[i]);
    return without_trailing_blanks(words) + '\n';
  };
  std::string text = list.name + '\n' + line(list.columns);
  for (const auto& row : list.rows) text += line(row);
  return text;
}

std::string print_text(const Plan& plan, const std::vector<std::size_t>& sizes) {
  std::string text;
  for (const std::size_t size : sizes) {
    if (!text.empty()) text += '\n';
    text += heading(plan, size) + '\n';
    for (const List& list : quantity_lists(plan, size)) text += '\n' + text_list(list);
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
  std::string text = "### " + list.name + "\n\n|";
  std::string rule = "|";
  for (std::size_t i = 0; i < list.columns.size(); ++i) {
    const bool right = std::all_of(list.rows.begin(), list.rows.end(),
                                   [&](const auto& row) { return is_count(row[i]); });
    text += ' ' + list.columns[i] + " |";
    rule += right ? " ---: |" : " --- |";
  }
  text += '\n' + rule + '\n';
  for (const auto& row : list.rows) {
    text += '|';
    for (const Cell& cell : row) text += ' ' + markdown_cell(cell) + " |";
    text += '\n';
  }
  return text;
}

std::string print_markdown(const Plan& plan, const std::vector<std::size_t>& sizes) {
  std::string text;
  for (const std::size_t size : sizes) {
    if (!text.empty()) text += '\n';
    text += "## " + heading(plan, size) + '\n';
    for (const List& list : quantity_lists(plan, size)) text += '\n' + markdown_list(list);
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

std::string print_csv(const Plan& plan, const std::vector<std::size_t>& sizes) {
  std::vector<std::string> columns{"size", "list"};
  const auto column_of = [&](const std::string& name) {
    const auto found = std::find(columns.begin() + 2, columns.end(), name);
    if (found != columns.end()) return static_cast<std::size_t>(found - columns.begin());
    columns.push_back(name);
    return columns.size() - 1;
  };
  std::vector<std::vector<std::string>> rows;
  for (const std::size_t size : sizes) {
    for (const List& list : quantity_lists(plan, size)) {
      for (const auto& cells : list.rows) {
        std::vector<std::string> row{plan.pattern().sizes[size].id, list.name};
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

std::string print_json(const Plan& plan, const std::vector<std::size_t>& sizes) {
  using Json = nlohmann::ordered_json;
  Json root{{"pattern", plan.pattern().id}, {"title", plan.pattern().title}};
  root["sizes"] = Json::array();
  for (const std::size_t size : sizes) {
    const SizeDef& definition = plan.pattern().sizes[size];
    Json of_size{{"size", definition.id}, {"title", definition.title}};
    for (const List& list : quantity_lists(plan, size)) {
      Json& rows = of_size[json_key(list.name)] = Json::array();
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
    }
    root["sizes"].push_back(std::move(of_size));
  }
  return root.dump(2) + '\n';
}

}  // namespace

std::string print_quantities(const Plan& plan, const std::vector<std::size_t>& sizes,
                             ListFormat format) {
  switch (format) {
    case ListFormat::text:
      return print_text(plan, sizes);
    case ListFormat::csv:
      return print_csv(plan, sizes);
    case ListFormat::json:
      return print_json(plan, sizes);
    case ListFormat::markdown:
      return print_markdown(plan, sizes);
  }
  return {};
}

}  // namespace dogear
