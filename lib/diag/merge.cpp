#include "diag/merge.h"

namespace dogear {

void add_all(const std::vector<Diagnostic>& from, Diagnostics& to) {
  for (const Diagnostic& d : from)
    (d.severity == Severity::error ? to.error(d.code, d.span, d.message)
                                   : to.warning(d.code, d.span, d.message)) = d;
}

void add_all(const Diagnostics& from, Diagnostics& to) { add_all(from.all(), to); }

}  // namespace dogear
