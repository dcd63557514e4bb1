#pragma once
// Single files of a pattern as lines that each say their place, so that a difference of two such
// texts reads by itself.

#include <optional>
#include <string>
#include <string_view>

#include "diag/diagnostics.h"

namespace dogear {

// "Lap Quilt (lap), Ink: cloth to buy: 1 1/8 yd (105 cm)": what is bought first, then pieces,
// strips and steps. Nothing, with `error` set, when the text is no ledger.
std::optional<std::string> lines_of_ledger(std::string_view text, std::string& error);

// "sizes > lap > borders > 1 > width: 4 in", a line for every value, in the order of the file.
// Nothing if and only if an error is added.
std::optional<std::string> lines_of_yaml(const std::string& file, const std::string& text,
                                         Diagnostics& diagnostics);

}  // namespace dogear
