// One target as libFuzzer calls it; its name is given where this file is compiled.

#include <cstddef>
#include <cstdint>

#include "fuzz/targets.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  dogear::fuzz::DOGEAR_TARGET({reinterpret_cast<const char*>(data), size});
  return 0;
}
