#pragma once
// So many threads for one test.

#include <cstddef>

#include "base/parallel.h"

namespace dogear::test {

struct Threads {
  explicit Threads(std::size_t number) { use_threads(number); }
  ~Threads() { use_threads(0); }
  Threads(const Threads&) = delete;
  Threads& operator=(const Threads&) = delete;
};

}  // namespace dogear::test
