#include <atomic>
#include <catch2/catch.hpp>
#include <mutex>
#include <set>
#include <stdexcept>
#include <thread>
#include <vector>

#include "base/parallel.h"
#include "support/threads.h"

using namespace dogear;
using dogear::test::Threads;

TEST_CASE("each task runs once, on however many threads") {
  for (const std::size_t threads : {1U, 2U, 7U}) {
    const Threads now(threads);
    std::vector<int> runs(100, 0);
    in_parallel(runs.size(), [&](std::size_t i) { ++runs[i]; });
    CHECK(runs == std::vector<int>(100, 1));
  }
  in_parallel(0, [](std::size_t) { FAIL("there is no task"); });
}

TEST_CASE("tasks may have tasks of their own, and no more threads run than may") {
  const Threads now(3);
  std::atomic<int> at_once{0}, most{0}, done{0};
  in_parallel(4, [&](std::size_t) {
    in_parallel(5, [&](std::size_t) {
      const int running = ++at_once;
      for (int seen = most; running > seen && !most.compare_exchange_weak(seen, running);) {
      }
      ++done;
      --at_once;
    });
  });
  CHECK(done == 20);
  CHECK(most <= 3);
}

TEST_CASE("a place that is left is taken by tasks that are still going on") {
  const Threads now(2);
  for (const std::size_t large : {0U, 1U}) {  // of two tasks on two threads, one ends at once
    std::set<std::thread::id> seen;
    std::mutex mutex;
    in_parallel(2, [&](std::size_t i) {
      if (i != large) return;
      // Small tasks until two threads have run some, however long the other takes to come.
      bool both = false;
      for (std::size_t turn = 0; turn < 1'000'000 && !both; ++turn)
        in_parallel(8, [&](std::size_t) {
          const std::lock_guard<std::mutex> lock(mutex);
          seen.insert(std::this_thread::get_id());
          both = seen.size() > 1;
        });
    });
    CHECK(seen.size() > 1);
  }
}

TEST_CASE("of what tasks throw, the first task's comes out when all have ended") {
  const Threads now(4);
  std::atomic<int> done{0};
  const auto run = [&] {
    in_parallel(10, [&](std::size_t i) {
      ++done;
      if (i >= 3) throw std::runtime_error("task " + std::to_string(i));
    });
  };
  CHECK_THROWS_WITH(run(), "task 3");
  CHECK(done == 10);
  // The threads that helped are free again.
  std::vector<int> runs(50, 0);
  in_parallel(runs.size(), [&](std::size_t i) { ++runs[i]; });
  CHECK(runs == std::vector<int>(50, 1));
}
