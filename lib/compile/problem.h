#pragma once
// The figures of errors about geometry, for patterns that need not be sound.

#include <optional>
#include <string>

#include "compile/compile.h"

namespace dogear {

// "problem:2", with or without "figure:" before it.
bool is_problem_address(const std::string& address);

// Reads the pattern as far as it goes and draws the message of that number, counted as `check`
// prints them, as SVG. Nothing, with error D602 said, when there is no such message with a picture.
std::optional<std::string> draw_problem_of(const std::string& folder, const std::string& address,
                                           const canvas::FontSet& fonts, Session& session);

}  // namespace dogear
