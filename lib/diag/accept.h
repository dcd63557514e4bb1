#pragma once
// Warnings that the designer accepts where they come, with a reason:
//
//   unit: 1.99 in   # accept D551: sashing is eased in          on the line of the warning,
//   # accept D151, D152: kept for the next edition              or alone above that line
//   <!-- accept D401: as it is meant -->                        in Markdown
//
// An error that judges the designer's words can be accepted in the same way.
// At the top of a file it also accepts what is said of the file as a whole. Codes of its own: D071
// another error cannot be accepted, D072 no reason, D073 (a warning) nothing to accept, D074 badly
// written.

#include <string>
#include <vector>

#include "diag/diagnostics.h"

namespace dogear {

struct Acceptance {
  std::string code;      // of a warning
  std::string reason;    // never empty
  Span span;             // of the code in its comment
  std::size_t line = 0;  // of the warning
  bool whole_file = false;
};

// Those of every YAML and Markdown file read; badly written ones are errors and left out.
std::vector<Acceptance> read_acceptances(const Sources& sources, Diagnostics& diagnostics);

// Errors that judge words (CodeEntry::judged) and are accepted become warnings that are.
void accept_judgements(const std::vector<Acceptance>& acceptances, Diagnostics& diagnostics);

// Marks the warnings that are accepted. When every stage has run, an acceptance that met nothing is
// warned of.
void accept_warnings(const std::vector<Acceptance>& acceptances, bool every_stage_ran,
                     Diagnostics& diagnostics);

}  // namespace dogear
