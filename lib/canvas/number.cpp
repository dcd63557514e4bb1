#include "canvas/number.h"

#include <array>
#include <charconv>
#include <cmath>

namespace dogear::canvas {

void append_number(std::string& out, double value, int places) {
  static constexpr std::array<long long, 7> powers{1, 10, 100, 1000, 10000, 100000, 1000000};
  if (!std::isfinite(value)) {
    out += '0';
    return;
  }
  std::array<char, 400> buffer;  // the longest double has 309 digits before the point
  if (std::abs(value) > 1e11) {
    const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value,
                                   std::chars_format::fixed, 0);
    out.append(buffer.data(), end.ptr);
    return;
  }
  const auto scale = powers[static_cast<std::size_t>(places)];
  long long n = std::llround(value * static_cast<double>(scale));
  if (n < 0) {
    out += '-';
    n = -n;
  }
  const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), n / scale);
  out.append(buffer.data(), end.ptr);
  long long rest = n % scale;
  if (rest == 0) return;
  out += '.';
  for (long long unit = scale / 10; rest != 0; unit /= 10) {
    out += static_cast<char>('0' + rest / unit);
    rest %= unit;
  }
}

}  // namespace dogear::canvas
