#pragma once
// The lines in which two texts differ, as few as can be.

#include <cstddef>
#include <string>
#include <vector>

namespace dogear {

// Lines [was, was + gone) of the old text have become lines [now, now + come) of the new one;
// counted from 0.
struct Hunk {
  std::size_t was = 0, gone = 0;
  std::size_t now = 0, come = 0;
  bool operator==(const Hunk&) const = default;
};

// In order, and never two that touch. Texts that differ in more than a thousand lines give one
// hunk from the first difference to the last.
std::vector<Hunk> diff_lines(const std::vector<std::string>& was,
                             const std::vector<std::string>& now);

}  // namespace dogear
