#pragma once
// What a shop shows of a pattern: its text as Markdown and its cover as a picture.

#include <optional>
#include <vector>

#include "compile/compile.h"

namespace dogear {

// PATTERN-listing.md and PATTERN-cover.png, with the errors of set_pages and D601.
std::optional<std::vector<Output>> make_listing(const Plan& plan, const Options& options,
                                                const canvas::FontSet& fonts, Session& session);

}  // namespace dogear
