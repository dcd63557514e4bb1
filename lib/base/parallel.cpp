#include "base/parallel.h"

#include <algorithm>
#include <atomic>
#include <condition_variable>
#include <cstdint>
#include <exception>
#include <mutex>
#include <system_error>
#include <thread>
#include <vector>

namespace dogear {

namespace {

// One for each thread that works; who waits for others has none.
class Places {
 public:
  void allow(std::size_t number) {
    const std::lock_guard<std::mutex> lock(mutex_);
    most_ = number;
    freed_.notify_all();
  }
  bool try_take() {
    const std::lock_guard<std::mutex> lock(mutex_);
    if (taken_ >= most()) return false;
    ++taken_;
    return true;
  }
  void take() {
    std::unique_lock<std::mutex> lock(mutex_);
    freed_.wait(lock, [&] { return taken_ < most(); });
    ++taken_;
  }
  void give_back() {
    const std::lock_guard<std::mutex> lock(mutex_);
    --taken_;
    freed_.notify_one();
  }

 private:
  std::int64_t most() const {
    static const std::size_t all = std::max(1u, std::thread::hardware_concurrency());
    return static_cast<std::int64_t>(most_ != 0 ? most_ : all);
  }
  std::mutex mutex_;
  std::condition_variable freed_;
  std::size_t most_ = 0;
  std::int64_t taken_ = 1;  // by the first thread; others may wait that began by themselves
};

Places places;

}  // namespace

void use_threads(std::size_t number) { places.allow(number); }

void in_parallel(std::size_t count, const std::function<void(std::size_t)>& task) {
  std::atomic<std::size_t> next{0};
  std::vector<std::exception_ptr> thrown(count);
  const auto run = [&](std::size_t i) {
    try {
      task(i);
    } catch (...) {
      thrown[i] = std::current_exception();
    }
  };
  std::vector<std::thread> threads;
  const auto hire = [&] {
    const std::size_t left = count - std::min<std::size_t>(next, count);
    for (std::size_t k = 1; k < left && places.try_take(); ++k) {  // one task is the caller's
      try {
        threads.emplace_back([&] {
          for (std::size_t i = next++; i < count; i = next++) run(i);
          places.give_back();
        });
      } catch (const std::system_error&) {  // the system has no thread to spare
        places.give_back();
        break;
      }
    }
  };
  hire();
  for (std::size_t i = next++; i < count; i = next++) {
    run(i);
    hire();  // others may have left places since
  }
  if (!threads.empty()) {
    places.give_back();
    for (std::thread& thread : threads) thread.join();
    places.take();
  }
  for (const std::exception_ptr& e : thrown)
    if (e) std::rethrow_exception(e);
}

}  // namespace dogear
