#include "base/parallel.h"

#include <algorithm>
#include <atomic>
#include <exception>
#include <system_error>
#include <thread>
#include <vector>

namespace dogear {

namespace {

std::atomic<std::size_t> most_threads{0};
std::atomic<std::size_t> helpers{0};  // threads that run besides the first

bool take_helper() {
  std::size_t most = most_threads;
  if (most == 0) most = std::max(1u, std::thread::hardware_concurrency());
  std::size_t now = helpers;
  while (now + 1 < most)
    if (helpers.compare_exchange_weak(now, now + 1)) return true;
  return false;
}

}  // namespace

void use_threads(std::size_t number) { most_threads = number; }

void in_parallel(std::size_t count, const std::function<void(std::size_t)>& task) {
  std::atomic<std::size_t> next{0};
  std::vector<std::exception_ptr> thrown(count);
  const auto work = [&] {
    for (std::size_t i = next++; i < count; i = next++) {
      try {
        task(i);
      } catch (...) {
        thrown[i] = std::current_exception();
      }
    }
  };
  std::vector<std::thread> threads;
  while (threads.size() + 1 < count && take_helper()) {
    try {
      threads.emplace_back([&work] {
        work();
        --helpers;
      });
    } catch (const std::system_error&) {  // the system has no thread to spare
      --helpers;
      break;
    }
  }
  work();
  for (std::thread& thread : threads) thread.join();
  for (const std::exception_ptr& e : thrown)
    if (e) std::rethrow_exception(e);
}

}  // namespace dogear
