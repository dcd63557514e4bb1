#pragma once
// Lengths as the trade writes them, and the one place where numbers become text.

#include <optional>
#include <string>
#include <string_view>

#include "base/exact.h"
#include "base/text.h"

namespace dogear {

enum class Unit { inch, yard, centimetre, millimetre, foot, none };

struct Length {
  Exact inches;  // 1 in = 25.4 mm exactly
  Unit written = Unit::inch;
};

struct LengthError {
  std::size_t offset = 0;  // byte in the text where reading stopped
  std::string message;     // "a length needs a unit, such as in or cm"
  std::string hint;
};

// Reads "2 1/2 in", "2½ in", "2-1/2\"", "6.5 cm", "1 1/8 yd". On failure error is filled.
std::optional<Length> parse_length(std::string_view text, LengthError& error);

// Reads a plain count of grid units: "4", "2 1/2", "2½", "0.5". No unit may follow.
std::optional<Fraction> parse_number(std::string_view text, LengthError& error);

// "2 1/2", "15/16", "3": plain spelling used by the ledger and diagnostics.
std::string plain(const Fraction& f);
// "2½", "15/16" with U+2044 where no single character exists ("2 15⁄16" with U+2009): for prose.
std::string pretty(const Fraction& f);
// decimal() stands in base/text.h.

// "2 1/2 in" where that is exact, else the nearest 1/step of an inch: "about 2 5/16 in".
std::string about_inches(const Exact& inches, std::int64_t step = 16);
std::string plain_inches(const Fraction& f);   // "2 1/2 in"
std::string pretty_inches(const Fraction& f);  // "2½ in"

}  // namespace dogear
