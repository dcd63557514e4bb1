#include "proof/markup.h"

#include <algorithm>
#include <set>

#include "base/text.h"
#include "html/markup.h"

namespace dogear::proof {

namespace {

using html::attribute;

constexpr std::size_t widest = 200;  // a longer source line is shown in part
constexpr std::size_t context = 60;

std::string place_of(const Span& span, const std::string& folder) {
  std::string file = span.file;
  const std::string head = folder + '/';
  if (starts_with(file, head)) file.erase(0, head.size());
  if (span.line > 0) file += ':' + std::to_string(span.line) + ':' + std::to_string(span.column);
  return file;
}

// The source line with what is meant marked in it.
std::string source_html(const Span& span, const Sources& sources) {
  if (span.line == 0 || sources.text(span.file) == nullptr) return "";
  const std::u32string line = code_points(sources.line(span.file, span.line));
  const std::size_t begin = std::min(std::max<std::size_t>(span.column, 1) - 1, line.size());
  std::size_t end = span.end_line == span.line ? span.end_column - 1 : line.size();
  if (span.end_line < span.line || span.end_column == 0) end = begin + 1;
  end = std::clamp(end, begin, line.size());
  std::size_t from = 0, to = line.size();
  if (line.size() > widest) {
    from = begin > context ? begin - context : 0;
    to = std::min(line.size(), from + widest);
    end = std::min(end, to);
  }
  const auto part = [&](std::size_t a, std::size_t b) {
    std::string text;
    for (std::size_t i = a; i < b; ++i)
      text += line[i] != '\t' && is_control(line[i]) ? "?" : utf8(line[i]);
    return escaped(text);
  };
  std::string out = "<pre><span class=\"number\">" + std::to_string(span.line) + "</span> ";
  if (from > 0) out += "…";
  out += part(from, begin) + "<mark>" + (end > begin ? part(begin, end) : " ") + "</mark>" +
         part(end, to);
  if (to < line.size()) out += "…";
  return out + "</pre>\n";
}

std::string_view word_of(Severity severity) {
  return severity == Severity::error ? "error" : severity == Severity::warning ? "warning" : "note";
}

std::string message_html(std::string_view word, const std::string& place, const std::string& text,
                         const std::string& code) {
  std::string out = "<p><strong class=\"word\">" + std::string(word) + "</strong> ";
  if (!place.empty()) out += "<code class=\"place\">" + escaped(place) + "</code> ";
  out += escaped(text);
  if (!code.empty()) out += " <span class=\"code\">" + escaped(code) + "</span>";
  return out + "</p>\n";
}

std::string cell_html(const Cell& cell) {
  if (const auto* count = std::get_if<long long>(&cell))
    return "<td class=\"count\">" + std::to_string(*count) + "</td>";
  return "<td>" + html::words(std::get<std::string>(cell)) + "</td>";
}

bool is_empty(const Cell& cell) {
  const auto* text = std::get_if<std::string>(&cell);
  return text != nullptr && text->empty();
}

std::string value_html(const std::string& value) {
  return value.empty() ? "<span class=\"none\">none</span>" : html::words(value);
}

std::string cause_html(const Cause& cause) {
  const std::string where = place(cause);
  if (where.empty()) return "";
  if (cause.kind == Cause::Kind::several) return escaped(where);
  return "<code class=\"place\">" + escaped(where) + "</code> <code>" + escaped(cause.text) +
         "</code>";
}

}  // namespace

std::string counted(std::size_t n, std::string_view one, std::string_view many) {
  return std::to_string(n) + ' ' + std::string(n == 1 ? one : many);
}

std::string messages_html(const Diagnostics& diagnostics, const Sources& sources,
                          const std::string& folder, Said which) {
  std::string out;
  for (const Diagnostic& d : diagnostics.all()) {
    const bool error = d.severity == Severity::error;
    if (which != Said::all && error != (which == Said::errors)) continue;
    const std::string word(word_of(d.severity));
    out += "<li class=\"message " + word + (d.accepted ? " accepted" : "") + "\">\n";
    out += message_html(word, place_of(d.span, folder), d.message, d.code);
    out += source_html(d.span, sources);
    for (const Note& note : d.notes)
      out += message_html("note", place_of(note.span, folder), note.message, "") +
             source_html(note.span, sources);
    for (const std::string& hint : d.hints) out += message_html("hint", "", hint, "");
    if (d.accepted) out += message_html("accepted", "", *d.accepted, "");
    out += "</li>\n";
  }
  if (!out.empty()) return "<ul class=\"messages\">\n" + out + "</ul>\n";
  // Where the errors stand elsewhere, "no messages" would be wrong.
  return diagnostics.all().empty() ? "<p class=\"calm\">No messages.</p>\n"
                                   : "<p class=\"calm\">Nothing else.</p>\n";
}

std::string changes_html(const Comparison& comparison) {
  std::string out = "<p class=\"headline\">" + html::words(headline(comparison)) + "</p>\n";
  for (const SizeComparison& size : comparison.sizes) {
    out += "<h3>" + html::words(size_words(size)) + "</h3>\n<div class=\"table\"><table>\n<thead>";
    out += "<tr><th scope=\"col\">What</th><th scope=\"col\">Was</th><th scope=\"col\">Now</th>";
    out += "<th scope=\"col\">Difference</th>";
    if (comparison.causes_sought) out += "<th scope=\"col\">Because of</th>";
    out += "</tr></thead>\n<tbody>\n";
    for (const Change& change : size.changes) {
      out += "<tr" + attribute("data-effect", effect_name(change.effect)) + "><th scope=\"row\">" +
             html::words(change.what) + "</th><td>" + value_html(change.was) + "</td><td>" +
             value_html(change.now) + "</td><td>" + html::words(change.difference) + "</td>";
      if (comparison.causes_sought) out += "<td>" + cause_html(change.cause) + "</td>";
      out += "</tr>\n";
    }
    out += "</tbody></table></div>\n";
  }
  if (const std::string words = untried_words(comparison); !words.empty())
    out += "<p>" + escaped(words) + "</p>\n";
  return out;
}

std::string lists_html(const std::vector<List>& lists, const std::vector<List>* was) {
  std::string out;
  for (const List& list : lists) {
    if (list.rows.empty()) continue;
    std::set<std::vector<Cell>> known;
    if (was != nullptr) {
      for (const List& old : *was)
        if (old.name == list.name && old.columns == list.columns)
          known.insert(old.rows.begin(), old.rows.end());
    }
    std::vector<bool> shown;  // columns in which something stands
    for (std::size_t c = 0; c < list.columns.size(); ++c)
      shown.push_back(std::any_of(list.rows.begin(), list.rows.end(), [&](const auto& row) {
        return c < row.size() && !is_empty(row[c]);
      }));
    out += "<h3>" + html::words(list.name) + "</h3>\n<div class=\"table\"><table>\n<thead><tr>";
    for (std::size_t c = 0; c < list.columns.size(); ++c)
      if (shown[c]) out += "<th scope=\"col\">" + html::words(list.columns[c]) + "</th>";
    out += "</tr></thead>\n<tbody>\n";
    for (const auto& row : list.rows) {
      const bool fresh = was != nullptr && !known.contains(row);
      out += fresh ? "<tr class=\"changed\">" : "<tr>";
      for (std::size_t c = 0; c < row.size(); ++c)
        if (c >= shown.size() || shown[c]) out += cell_html(row[c]);
      out += "</tr>\n";
    }
    out += "</tbody></table></div>\n";
  }
  return out;
}

}  // namespace dogear::proof
