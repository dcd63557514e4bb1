#pragma once
// Tasks that do not wait for each other, on several threads.

#include <cstddef>
#include <functional>

namespace dogear {

// How many threads may work at once, the first among them; 0 (as at the start): as many as there
// are processors.
void use_threads(std::size_t number);

// Calls task(0) ... task(count - 1), each once, and returns when all are done. The caller's thread
// works too, and others help as far as there are spare ones, so calls may be nested freely. Which
// thread runs which task is open: tasks share nothing that changes. What a task throws is thrown
// here when all have ended; of several, that of the first task.
void in_parallel(std::size_t count, const std::function<void(std::size_t)>& task);

}  // namespace dogear
