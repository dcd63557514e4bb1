#pragma once
// Two ways for every seam, chosen so that as few pairs as can be stand against each other.

#include <cstddef>
#include <vector>

namespace dogear {

// The two want to be different, or alike where `alike`; weight is how often they meet.
struct Pull {
  std::size_t a = 0, b = 0;
  bool alike = false;
  double weight = 1;
};

struct ParityProblem {
  std::vector<int> fixed;      // one each: +1 or -1 where it is settled, 0 where it is free
  std::vector<double> liking;  // one each: above 0 for +1, below for -1; weighs only between equals
  std::vector<Pull> pulls;
};

// +1 or -1 for each; near linear in the pulls. Without contradictions every pull is satisfied.
std::vector<int> settle(const ParityProblem& problem);

}  // namespace dogear
