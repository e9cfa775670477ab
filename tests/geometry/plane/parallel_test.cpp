#include "geometry/plane/parallel.h"

#include <gtest/gtest.h>

#include <atomic>
#include <stdexcept>
#include <string>
#include <vector>

namespace leeway {
namespace {

TEST(Parallel, DoesEveryPartOnce) {
  for (const std::size_t parts : {0, 1, 2, 7}) {
    std::vector<int> done(parts);
    in_parallel(parts, [&](std::size_t part) { ++done[part]; });
    EXPECT_EQ(done, std::vector<int>(parts, 1));
  }
}

TEST(Parallel, ThrowsTheFirstInOrderWhenAllHaveEnded) {
  std::atomic<int> ended = 0;
  try {
    in_parallel(4, [&](std::size_t part) {
      ++ended;
      if (part == 1 || part == 3) throw std::runtime_error("part " + std::to_string(part));
    });
    FAIL();
  } catch (const std::runtime_error& problem) {
    EXPECT_STREQ(problem.what(), "part 1");
  }
#ifndef LEEWAY_NO_THREADS
  EXPECT_EQ(ended, 4);
#endif
}

TEST(Parallel, HasAtLeastOnePart) { EXPECT_GE(parallel_parts(), 1U); }

}  // namespace
}  // namespace leeway
