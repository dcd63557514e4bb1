// SARIF, the Static Analysis Results Interchange Format, 2.1.0. Section numbers are the standard's.

#include <algorithm>
#include <cstdint>
#include <map>
#include <nlohmann/json.hpp>
#include <tuple>

#include "diag/catalogue.h"
#include "diag/report.h"

namespace dogear {

namespace {

using Json = nlohmann::ordered_json;

constexpr const char* schema_uri =
    "https://raw.githubusercontent.com/schemastore/schemastore/master/src/schemas/json/"
    "sarif-2.1.0-rtm.5.json";  // the schema that tests hold the log against
constexpr const char* pattern_base = "PATTERN";

// In a message string, braces mean placeholders and are doubled (3.11.5); where words would make an
// embedded link, brackets are escaped with a backslash (3.11.6).
std::string message_text(std::string_view words) {
  const bool link = words.find("](") != std::string_view::npos;
  std::string out;
  for (const char c : words) {
    if (c == '{' || c == '}') out += c;
    if (link && (c == '[' || c == ']' || c == '\\')) out += '\\';
    out += c;
  }
  return out;
}

Json text_object(std::string_view words) { return Json{{"text", message_text(words)}}; }

std::string sentences(const std::vector<std::string>& paragraphs) {
  return join(paragraphs, "\n\n");
}

// RFC 3986: all but unreserved characters and the slash as %XX.
std::string percent_encoded(std::string_view path) {
  constexpr std::string_view digits = "0123456789ABCDEF";
  std::string out;
  for (const char c : path) {
    const auto byte = static_cast<unsigned char>(c);
    const bool letter = (byte >= 'a' && byte <= 'z') || (byte >= 'A' && byte <= 'Z');
    if (letter || is_digit(c) || std::string_view("-._~/").find(c) != std::string_view::npos) {
      out += c;
    } else {
      out += '%';
      out += digits[byte >> 4];
      out += digits[byte & 15];
    }
  }
  return out;
}

// "a/./b//c" -> "a/b/c"; nothing for a path that leaves its folder or starts at the root.
std::optional<std::string> plain_path(const std::string& path) {
  if (path.empty() || path[0] == '/') return std::nullopt;
  std::vector<std::string> kept;
  for (const std::string& part : split(path, '/')) {
    if (part.empty() || part == ".") continue;
    if (part != "..") {
      kept.push_back(part);
    } else if (kept.empty()) {
      return std::nullopt;
    } else {
      kept.pop_back();
    }
  }
  return join(kept, "/");
}

// FNV-1a, 64 bits: only to tell results apart, not to keep a secret.
std::string hashed(std::string_view text) {
  std::uint64_t hash = 0xcbf29ce484222325u;
  for (const char c : text) {
    hash ^= static_cast<unsigned char>(c);
    hash *= 0x100000001b3u;
  }
  std::string out;
  for (int shift = 60; shift >= 0; shift -= 4) out += "0123456789abcdef"[(hash >> shift) & 15u];
  return out;
}

class SarifWriter {
 public:
  SarifWriter(const Diagnostics& diagnostics, const Sources& sources, const ReportFacts& facts)
      : diagnostics_(diagnostics), sources_(sources), facts_(facts) {}

  std::string write() {
    Json results = Json::array();
    for (const Diagnostic& d : diagnostics_.all()) results.push_back(result(d));
    Json run;
    run["tool"]["driver"] = driver();
    Json invocation;
    invocation["executionSuccessful"] = facts_.exit_code < 2;  // a faulty pattern is a result
    invocation["exitCode"] = facts_.exit_code;
    run["invocations"] = Json::array({invocation});
    if (based_) {
      run["originalUriBaseIds"][pattern_base]["uri"] =
          "file://" + percent_encoded(facts_.absolute) + '/';
    }
    run["columnKind"] = "unicodeCodePoints";
    run["results"] = std::move(results);
    Json log;
    log["$schema"] = schema_uri;
    log["version"] = "2.1.0";
    log["runs"] = Json::array({run});
    return log.dump(2, ' ', false, Json::error_handler_t::replace) + '\n';
  }

 private:
  Json driver() {
    Json driver;
    driver["name"] = "dogear";
    driver["version"] = facts_.version;
    driver["semanticVersion"] = facts_.version;
    driver["rules"] = std::move(rules_);
    return driver;
  }

  static Json rule(const CodeEntry& entry) {
    Json rule;
    rule["id"] = entry.code;
    rule["shortDescription"] = text_object(entry.title + '.');
    rule["fullDescription"] = text_object(sentences(entry.text));
    std::string help = sentences(entry.why);
    help += entry.example
                ? "\n\n`dogear explain " + entry.code + "` shows a faulty and a mended source."
                : "\n\nRaised by: " + sentences(entry.raised_by);
    rule["help"] = text_object(help);
    rule["defaultConfiguration"]["level"] = level(entry.severity);
    rule["properties"]["stage"] = code_stage(entry.code);
    return rule;
  }

  static const char* level(Severity severity) {
    return severity == Severity::error     ? "error"
           : severity == Severity::warning ? "warning"
                                           : "note";
  }

  Json result(const Diagnostic& d) {
    Json out;
    out["ruleId"] = d.code;
    if (const CodeEntry* entry = find_code(d.code)) {
      const auto [place, unseen] = rule_index_.try_emplace(d.code, rules_.size());
      if (unseen) rules_.push_back(rule(*entry));
      out["ruleIndex"] = place->second;
    }
    out["level"] = level(d.severity);
    std::string words = d.message + '.';
    for (const std::string& hint : d.hints) words += "\nHint: " + hint;
    out["message"] = text_object(words);
    if (auto where = location(d.span)) out["locations"] = Json::array({*where});
    Json related = Json::array();
    for (const Note& note : d.notes) {
      auto where = location(note.span).value_or(Json::object());
      where["id"] = related.size() + 1;
      where["message"] = text_object(note.message);
      related.push_back(std::move(where));
    }
    if (!related.empty()) out["relatedLocations"] = std::move(related);
    out["partialFingerprints"]["dogearMessage/v1"] = fingerprint(d);
    // An empty array says that the tool can suppress and did not (3.27.23).
    out["suppressions"] = Json::array();
    if (d.accepted) {
      Json suppression;
      suppression["kind"] = "inSource";
      suppression["status"] = "accepted";
      suppression["justification"] = *d.accepted;
      out["suppressions"].push_back(std::move(suppression));
    }
    if (!d.hints.empty()) out["properties"]["hints"] = d.hints;
    if (d.picture != nullptr && !d.accepted) {
      out["properties"]["figure"] = "problem:" + std::to_string(++problem_);
    }
    return out;
  }

  std::string in_folder(const std::string& file) const {
    const std::string head = facts_.folder + '/';
    return starts_with(file, head) ? file.substr(head.size()) : file;
  }

  std::optional<Json> location(const Span& span) {
    if (span.file.empty()) return std::nullopt;
    Json artifact;
    if (const auto plain = plain_path(span.file)) {
      artifact["uri"] = percent_encoded(*plain);
    } else {
      const auto within = plain_path(in_folder(span.file));
      if (within) {
        artifact["uri"] = percent_encoded(*within);
        artifact["uriBaseId"] = pattern_base;
        based_ = true;
      } else {
        artifact["uri"] = (span.file[0] == '/' ? "file://" : "") + percent_encoded(span.file);
      }
    }
    Json out;
    out["physicalLocation"]["artifactLocation"] = std::move(artifact);
    if (span.line > 0) {
      Json region;
      region["startLine"] = span.line;
      region["startColumn"] = std::max<std::size_t>(span.column, 1);
      const bool ends =
          std::tie(span.end_line, span.end_column) >= std::tie(span.line, span.column);
      if (ends && span.end_column > 0) {
        region["endLine"] = span.end_line;
        region["endColumn"] = span.end_column;
      }
      out["physicalLocation"]["region"] = std::move(region);
    }
    return out;
  }

  // The same for the same fault although lines above it come and go: code, file, the words of its
  // line, and which of several alike it is.
  std::string fingerprint(const Diagnostic& d) {
    std::string line(trim(sources_.line(d.span.file, d.span.line)));
    if (line.empty()) line = d.message;
    const std::string base = join({d.code, in_folder(d.span.file), line}, "\n");
    return hashed(base + '\n' + std::to_string(++seen_[base]));
  }

  const Diagnostics& diagnostics_;
  const Sources& sources_;
  const ReportFacts& facts_;
  Json rules_ = Json::array();  // those that a result names
  std::map<std::string, std::size_t> rule_index_;
  std::map<std::string, int> seen_;
  std::size_t problem_ = 0;
  bool based_ = false;
};

}  // namespace

std::string report_as_sarif(const Diagnostics& diagnostics, const Sources& sources,
                            const ReportFacts& facts) {
  return SarifWriter(diagnostics, sources, facts).write();
}

}  // namespace dogear
