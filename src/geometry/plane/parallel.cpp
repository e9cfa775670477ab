#include "geometry/plane/parallel.h"

#include <algorithm>
#include <exception>
#include <vector>

#ifndef LEEWAY_NO_THREADS
#include <system_error>
#include <thread>
#endif

namespace leeway {
namespace {

#ifndef LEEWAY_NO_THREADS

constexpr unsigned kMostParts = 4;

// A thread for the work, or the work done at once where no thread can be had.
std::thread started(const std::function<void()>& work) {
  try {
    return std::thread(work);
  } catch (const std::system_error&) {
    work();
    return {};
  }
}

#endif

}  // namespace

#ifdef LEEWAY_NO_THREADS

std::size_t parallel_parts() { return 1; }

void in_parallel(std::size_t parts, const std::function<void(std::size_t)>& work) {
  for (std::size_t part = 0; part < parts; ++part) work(part);
}

#else

std::size_t parallel_parts() {
  static const unsigned count = std::clamp(std::thread::hardware_concurrency(), 1U, kMostParts);
  return count;
}

void in_parallel(std::size_t parts, const std::function<void(std::size_t)>& work) {
  std::vector<std::exception_ptr> thrown(parts);
  const auto guarded = [&](std::size_t part) {
    try {
      work(part);
    } catch (...) {
      thrown[part] = std::current_exception();
    }
  };
  std::vector<std::thread> threads;
  threads.reserve(parts);
  for (std::size_t part = 1; part < parts; ++part) {
    threads.push_back(started([&guarded, part] { guarded(part); }));
  }
  if (parts > 0) guarded(0);
  for (std::thread& thread : threads) {
    if (thread.joinable()) thread.join();
  }
  for (const std::exception_ptr& exception : thrown) {
    if (exception) std::rethrow_exception(exception);
  }
}

#endif

}  // namespace leeway
