#pragma once
// Diagnostics for other programs. Both give whole documents, UTF-8, ended by a newline; order and
// bytes depend on the arguments alone.

#include <string>

#include "diag/diagnostics.h"

namespace dogear {

struct ReportFacts {
  std::string version;   // of dogear
  std::string folder;    // the pattern's, as files of spans begin with it
  std::string absolute;  // the same from the root, for folders that are no part of the working one
  int exit_code = 0;
};

// Our own form: {"version", "folder", "errors", "warnings", "accepted", "messages": [...]}; places
// as Span has them, columns in code points.
std::string report_as_json(const Diagnostics& diagnostics, const ReportFacts& facts);

// SARIF 2.1.0 (OASIS Standard, 27 March 2020), one run.
std::string report_as_sarif(const Diagnostics& diagnostics, const Sources& sources,
                            const ReportFacts& facts);

}  // namespace dogear
