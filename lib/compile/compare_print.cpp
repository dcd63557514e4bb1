#include <algorithm>
#include <nlohmann/json.hpp>
#include <set>

#include "base/text.h"
#include "compile/compare.h"

namespace dogear {

namespace {

constexpr std::size_t longest = 100;  // characters of a value, for people

std::string shortened(const std::string& text) {
  const std::u32string points = code_points(text);
  if (points.size() <= longest) return text;
  return utf8(std::u32string_view(points).substr(0, longest - 1)) + "…";
}

std::string or_none(const std::string& value) { return value.empty() ? "none" : shortened(value); }

std::string counted(std::size_t n, const std::string& one, const std::string& many) {
  return std::to_string(n) + ' ' + (n == 1 ? one : many);
}

}  // namespace

std::string size_words(const SizeComparison& size) {
  if (size.id.empty()) return "The pattern";
  return size.title.empty() || size.title == size.id ? size.id : size.title + " (" + size.id + ')';
}

std::string place(const Cause& cause) {
  if (cause.kind == Cause::Kind::unknown) return "";
  if (cause.kind == Cause::Kind::several) return "more than one line";
  std::string out = cause.file + ':' + std::to_string(cause.line);
  if (cause.last > cause.line) out += '-' + std::to_string(cause.last);
  return cause.of_old ? out + " of the old, taken out" : out;
}

std::string headline(const Comparison& c) {
  if (c.same()) return "Nothing differs in what is bought, cut and sewn.";
  const SizeComparison& size = c.sizes.front();
  const Change& change = size.changes.front();
  std::string out = counted(c.sizes.size(), "size differs", "sizes differ") + ", in " +
                    counted(c.changes(), "change", "changes") + ". " +
                    (c.changes() == 1 ? "It is in " : "The largest is in ") + size_words(size) +
                    ": ";
  if (change.effect == Effect::size_gone) return out + "the whole size is gone.";
  if (change.effect == Effect::size_new) return out + "the whole size is new.";
  out += change.what + ' ' + or_none(change.was) + ", now " + or_none(change.now);
  if (!change.difference.empty()) out += " (" + change.difference + ')';
  return out + '.';
}

std::string untried_words(const Comparison& c) {
  if (c.untried == 0) return "";
  return "Only " + std::to_string(c.tried) + " of " + std::to_string(c.tried + c.untried) +
         " changed places were tried as causes.";
}

namespace {

bool has_place(const Cause& cause) {
  return cause.kind == Cause::Kind::line || cause.kind == Cause::Kind::lines;
}

std::string padded(const std::string& text, std::size_t width) {
  const std::size_t points = code_points(text).size();
  return points < width ? text + std::string(width - points, ' ') : text;
}

std::string as_text(const Comparison& c) {
  std::string out = "Old: " + c.was_name + "\nNew: " + c.now_name + '\n' + headline(c) + '\n';
  std::size_t width = 0;
  for (const SizeComparison& size : c.sizes) {
    for (const Change& change : size.changes) {
      width = std::max(width, std::min<std::size_t>(code_points(change.what).size(), 56));
    }
  }
  std::map<std::string, std::string> causes;  // place -> line, for those met
  for (const SizeComparison& size : c.sizes) {
    out += '\n' + size_words(size) + '\n';
    for (const Change& change : size.changes) {
      out += "  " + padded(change.what, width) + "  " + or_none(change.was) + " -> " +
             or_none(change.now);
      if (!change.difference.empty()) out += "  " + change.difference;
      const std::string where = place(change.cause);
      if (!where.empty()) out += "  [" + where + ']';
      out += '\n';
      if (has_place(change.cause)) causes[where] = shortened(change.cause.text);
    }
  }
  if (!causes.empty()) out += "\nBecause of\n";
  for (const auto& [where, line] : causes) out += "  " + where + ": " + line + '\n';
  if (const std::string words = untried_words(c); !words.empty()) out += '\n' + words + '\n';
  return out;
}

std::string escaped(const std::string& text) {
  std::string out;
  for (const char ch : text) {
    if (std::string_view("\\|`*_<>[]#~").find(ch) != std::string_view::npos) out += '\\';
    out += ch == '\n' || ch == '\r' ? ' ' : ch;
  }
  return out;
}

// A code span for a table's cell: fenced by more backticks than it holds, bars escaped.
std::string code(const std::string& text) {
  std::size_t run = 0, most = 0;
  std::string inner;
  for (const char ch : text) {
    run = ch == '`' ? run + 1 : 0;
    most = std::max(most, run);
    if (ch == '|') inner += '\\';
    inner += ch;
  }
  const std::string fence(most + 1, '`');
  const bool apart = most > 0;
  return fence + (apart ? " " : "") + inner + (apart ? " " : "") + fence;
}

std::string because(const Cause& cause) {
  if (!has_place(cause)) return place(cause);
  return escaped(place(cause)) + ' ' + code(shortened(cause.text));
}

std::string as_markdown(const Comparison& c) {
  std::string out = "**" + escaped(headline(c)) + "**\n";
  out += "\nOld: " + code(c.was_name) + ", new: " + code(c.now_name) + '\n';
  for (const SizeComparison& size : c.sizes) {
    out += "\n### " + escaped(size_words(size)) + "\n\n";
    out += c.causes_sought ? "| What | Was | Now | Difference | Because |\n|---|---|---|---|---|\n"
                           : "| What | Was | Now | Difference |\n|---|---|---|---|\n";
    for (const Change& change : size.changes) {
      std::vector<std::string> cells{escaped(change.what), escaped(or_none(change.was)),
                                     escaped(or_none(change.now)), escaped(change.difference)};
      if (c.causes_sought) cells.push_back(because(change.cause));
      out += "| " + join(cells, " | ") + " |\n";
    }
  }
  if (const std::string words = untried_words(c); !words.empty()) out += '\n' + words + '\n';
  return out;
}

using Json = nlohmann::ordered_json;

Json json_of(const Cause& cause) {
  if (cause.kind == Cause::Kind::unknown) return nullptr;
  if (cause.kind == Cause::Kind::several) return {{"kind", "several"}};
  return {{"kind", cause.kind == Cause::Kind::line ? "line" : "lines"},
          {"file", cause.file},
          {"side", cause.of_old ? "old" : "new"},
          {"line", cause.line},
          {"last_line", cause.last},
          {"text", cause.text}};
}

Json json_of(const std::optional<std::string>& value) {
  return value ? Json(*value) : Json(nullptr);
}

Json json_of(const Change& change) {
  Json facts = Json::array();
  for (const ChangedFact& fact : change.facts) {
    if (fact.name.empty()) continue;  // of a whole size
    facts.push_back({{"name", fact.name}, {"was", json_of(fact.was)}, {"now", json_of(fact.now)}});
  }
  return {{"effect", effect_name(change.effect)},
          {"what", change.what},
          {"was", change.was},
          {"now", change.now},
          {"difference", change.difference},
          {"cause", json_of(change.cause)},
          {"facts", facts}};
}

std::string as_json(const Comparison& c) {
  Json sizes = Json::array();
  for (const SizeComparison& size : c.sizes) {
    Json changes = Json::array();
    for (const Change& change : size.changes) changes.push_back(json_of(change));
    sizes.push_back({{"size", size.id}, {"title", size.title}, {"changes", changes}});
  }
  const Json all{{"old", c.was_name},      {"new", c.now_name}, {"same", c.same()},
                 {"changes", c.changes()}, {"tried", c.tried},  {"untried", c.untried},
                 {"sizes", sizes}};
  return all.dump(2, ' ', false, Json::error_handler_t::replace) + '\n';
}

// A text that YAML reads back as it is.
std::string quoted(const std::string& text) {
  std::string out = "\"";
  for (const char ch : text) {
    if (ch == '"' || ch == '\\') out += '\\';
    out += ch;
  }
  return out + '"';
}

std::string edition_of(const std::string& path) {
  const std::size_t slash = path.rfind('/');
  std::string name = slash == std::string::npos ? path : path.substr(slash + 1);
  if (name.ends_with(".txt")) name.resize(name.size() - 4);
  return name;
}

std::string as_errata(const Comparison& c) {
  std::string out;
  for (const SizeComparison& size : c.sizes) {
    for (const Change& change : size.changes) {
      if (!is_felt_by_buyers(change)) continue;
      out += out.empty() ? "errata:\n" : "";
      out += "  - edition: " + quoted(edition_of(c.was_name)) + '\n';
      if (change.effect == Effect::size_gone) {
        out += "    fact: " + size.id + "\n    words: " + quoted("This size is withdrawn.") + '\n';
        continue;
      }
      out += "    fact: " + size.id + ' ' + change.facts.front().name + '\n';
      out += "    was: " + quoted(change.was.empty() ? "none" : change.was) + '\n';
      out += "    now: " + quoted(change.now.empty() ? "none" : change.now) + '\n';
    }
  }
  return out.empty() ? "# Nothing differs that buyers must know of.\n" : out;
}

}  // namespace

std::optional<ComparisonFormat> comparison_format(std::string_view name) {
  if (name == "text") return ComparisonFormat::text;
  if (name == "markdown") return ComparisonFormat::markdown;
  if (name == "json") return ComparisonFormat::json;
  if (name == "errata") return ComparisonFormat::errata;
  return std::nullopt;
}

std::string print_comparison(const Comparison& comparison, ComparisonFormat format) {
  switch (format) {
    case ComparisonFormat::markdown:
      return as_markdown(comparison);
    case ComparisonFormat::json:
      return as_json(comparison);
    case ComparisonFormat::errata:
      return as_errata(comparison);
    case ComparisonFormat::text:
      break;
  }
  return as_text(comparison);
}

}  // namespace dogear
