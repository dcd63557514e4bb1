#pragma once
// Other programs, run without a shell.

#include <string>
#include <vector>

namespace dogear {

struct Ran {
  bool started = false;  // false: there is no such program
  int code = -1;         // its exit code; -1 where a signal ended it
  std::string out, err;
};

// The first word is looked for in PATH. Nothing is read from standard input.
Ran run_program(const std::vector<std::string>& words);

}  // namespace dogear
