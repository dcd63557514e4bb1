#include <atomic>
#include <catch2/catch.hpp>
#include <chrono>
#include <condition_variable>
#include <mutex>
#include <stdexcept>
#include <thread>
#include <vector>

#include "base/parallel.h"

using namespace dogear;

namespace {

struct Threads {  // so many for one test
  explicit Threads(std::size_t number) { use_threads(number); }
  ~Threads() { use_threads(0); }
  Threads(const Threads&) = delete;
  Threads& operator=(const Threads&) = delete;
};

}  // namespace

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

// Two tasks that meet are on two threads; ten seconds are only waited for when they never do.
class Meeting {
 public:
  bool wait() {
    std::unique_lock<std::mutex> lock(mutex_);
    ++here_;
    met_.notify_all();
    const bool met = met_.wait_for(lock, std::chrono::seconds(10), [&] { return here_ >= 2; });
    return met;
  }

 private:
  std::mutex mutex_;
  std::condition_variable met_;
  int here_ = 0;
};

TEST_CASE("a place that is left is taken by tasks that are still going on") {
  const Threads now(2);
  for (const std::size_t large : {0U, 1U}) {  // of two tasks on two threads, one ends at once
    Meeting meeting;
    std::atomic<int> met{0};
    in_parallel(2, [&](std::size_t i) {
      if (i != large) return;
      // The first is alone until the other thread has come to its end.
      std::atomic<bool> first{true};
      in_parallel(20, [&](std::size_t) {
        if (first.exchange(false))
          std::this_thread::sleep_for(std::chrono::milliseconds(20));
        else
          met += meeting.wait() ? 1 : 0;
      });
    });
    CHECK(met == 19);
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
