#pragma once
// What a piece of work takes of memory.

#include <malloc.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <functional>

namespace dogear::bench {

// The peak of a process of its own that does it once, in MB.
inline long peak_memory(const std::function<void()>& work) {
  ::malloc_trim(0);
  const pid_t child = ::fork();
  if (child == 0) {
    work();
    ::_exit(0);
  }
  int status = 0;
  struct rusage used {};
  ::wait4(child, &status, 0, &used);
  return used.ru_maxrss / 1024;
}

}  // namespace dogear::bench
