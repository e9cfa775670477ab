#include "geometry/plane/assert.h"

#include <gtest/gtest.h>

#include "geometry/areas/pole.h"

namespace leeway {
namespace {

// The tests are built with assertions, or all those in the code look at nothing.
TEST(AssertDeathTest, EndsTheProgram) {
  EXPECT_DEATH(LEEWAY_ASSERT(1 + 1 == 3), "required: 1 \\+ 1 == 3");
  const MultiPolygon square{{{{0, 0}, {1, 0}, {1, 1}, {0, 1}}, {}}};
  EXPECT_DEATH(pole_of_inaccessibility(square, 0), "required: tolerance > 0");
}

}  // namespace
}  // namespace leeway
