// Work on many things at once, told one after the other.
#pragma once

#include <algorithm>
#include <condition_variable>
#include <exception>
#include <map>
#include <mutex>
#include <system_error>
#include <thread>
#include <vector>

namespace soundsill::cli {

/// Threads to use: as many as were asked for, or one a core for 0; never more than there are things.
[[nodiscard]] inline unsigned threads_for(int asked, std::size_t things) {
  const unsigned most = asked > 0 ? static_cast<unsigned>(asked) : std::max(1U, std::thread::hardware_concurrency());
  return static_cast<unsigned>(std::clamp<std::size_t>(things, 1, most));
}

/// Calls `work(i)` for each i below `count` on several threads and `tell(result)` on this one, in the order of i. Each
/// thread makes its own `work` by calling `make_work()`. No thread runs far ahead, so that what waits to be told stays
/// little. What one throws is thrown here, once all have stopped.
template <class MakeWork, class Tell>
void in_order(std::size_t count, unsigned threads, MakeWork make_work, Tell tell) {
  using Result = decltype(make_work()(std::size_t{}));
  if (threads <= 1) {
    auto work = make_work();
    for (std::size_t i = 0; i < count; ++i) tell(work(i));
    return;
  }
  const std::size_t ahead = std::size_t{8} * threads;
  std::mutex mutex;
  std::condition_variable room, ready;
  std::map<std::size_t, Result> done;
  std::size_t taken = 0, told = 0;
  std::exception_ptr failed;
  const auto run = [&] {
    try {
      auto work = make_work();
      for (;;) {
        std::size_t i = 0;
        {
          std::unique_lock lock(mutex);
          room.wait(lock, [&] { return failed || taken == count || taken < told + ahead; });
          if (failed || taken == count) return;
          i = taken++;
        }
        Result result = work(i);
        const std::lock_guard lock(mutex);
        done.emplace(i, std::move(result));
        ready.notify_one();
      }
    } catch (...) {
      const std::lock_guard lock(mutex);
      if (!failed) failed = std::current_exception();
      room.notify_all();
      ready.notify_one();
    }
  };
  {
    std::vector<std::jthread> pool;
    try {
      for (unsigned t = 0; t < threads; ++t) pool.emplace_back(run);
    } catch (const std::system_error&) {  // fewer will do, and so will none
    }
    if (pool.empty()) return in_order(count, 1U, std::move(make_work), std::move(tell));
    std::unique_lock lock(mutex);
    while (told < count) {
      ready.wait(lock, [&] { return failed || done.contains(told); });
      if (failed) break;
      auto node = done.extract(told);
      ++told;
      room.notify_all();
      lock.unlock();
      try {
        tell(std::move(node.mapped()));
      } catch (...) {
        lock.lock();
        failed = std::current_exception();
        break;
      }
      lock.lock();
    }
    room.notify_all();
  }
  if (failed) std::rethrow_exception(failed);
}

}  // namespace soundsill::cli
