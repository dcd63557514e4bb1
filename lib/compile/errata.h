#pragma once
// Printed editions and what their buyers are told.
//
// A designer keeps the ledger of each printed edition as editions/EDITION.txt in the pattern's
// folder. Where the pattern now gives other quantities, `errata` in pattern.yaml must say so.
// Codes: D661 (a warning) a difference is not listed, D662 an edition has no ledger, D663 no such
// fact, D664 the fact is as it was printed, D665 `was` or `now` disagrees, D666 listed twice, D667
// incomplete, D668 (a warning) another pattern under the number of a printed edition, D669 a
// correction of the present edition.

#include "compile/compile.h"

namespace dogear {

// Compares with every edition kept and named. False if and only if it adds an error.
bool check_errata(const Plan& plan, Session& session);

}  // namespace dogear
