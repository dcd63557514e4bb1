#pragma once
// Parts of a proof as HTML. Every text of a pattern is escaped here.

#include <string>
#include <string_view>

#include "compile/compare.h"
#include "proof/pairs.h"
#include "proof/state.h"

namespace dogear::proof {

// What is said of a pattern, each with its source lines; places within `folder` are told without
// it.
enum class Said { all, errors, others };
std::string messages_html(const Diagnostics& diagnostics, const Sources& sources,
                          const std::string& folder, Said which = Said::all);

// What differs in what is bought, cut and sewn, and because of which line.
std::string changes_html(const Comparison& comparison);

// The lists of a size; rows that `was` does not have are marked.
std::string lists_html(const std::vector<List>& lists, const std::vector<List>* was);

// "1 error", "3 figures".
std::string counted(std::size_t n, std::string_view one, std::string_view many);

}  // namespace dogear::proof
