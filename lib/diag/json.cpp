#include <nlohmann/json.hpp>

#include "diag/report.h"

namespace dogear {

namespace {

using Json = nlohmann::ordered_json;

void put_place(Json& out, const Span& span) {
  if (span.file.empty()) return;
  out["file"] = span.file;
  if (span.line == 0) return;
  out["line"] = span.line;
  out["column"] = span.column;
  if (span.end_line == 0) return;
  out["end_line"] = span.end_line;
  out["end_column"] = span.end_column;
}

}  // namespace

std::string report_as_json(const Diagnostics& diagnostics, const ReportFacts& facts) {
  Json messages = Json::array();
  std::size_t warnings = 0;
  std::size_t problem = 0;
  for (const Diagnostic& d : diagnostics.all()) {
    Json message;
    message["code"] = d.code;
    message["severity"] = d.severity == Severity::error     ? "error"
                          : d.severity == Severity::warning ? "warning"
                                                            : "note";
    put_place(message, d.span);
    message["message"] = d.message;
    if (!d.notes.empty()) {
      Json notes = Json::array();
      for (const Note& n : d.notes) {
        Json note;
        put_place(note, n.span);
        note["message"] = n.message;
        notes.push_back(std::move(note));
      }
      message["notes"] = std::move(notes);
    }
    if (!d.hints.empty()) message["hints"] = d.hints;
    if (d.accepted) message["accepted"] = *d.accepted;
    if (d.picture != nullptr && !d.accepted) {
      message["figure"] = "problem:" + std::to_string(++problem);
    }
    if (d.severity == Severity::warning && !d.accepted) ++warnings;
    messages.push_back(std::move(message));
  }
  Json out;
  out["version"] = facts.version;
  out["folder"] = facts.folder;
  out["errors"] = diagnostics.error_count();
  out["warnings"] = warnings;
  out["accepted"] = diagnostics.accepted_count();
  out["messages"] = std::move(messages);
  return out.dump(2, ' ', false, Json::error_handler_t::replace) + '\n';
}

}  // namespace dogear
