#include "cli/failure.h"

#include <gtest/gtest.h>

#include <new>

#include "leeway/geometry.h"
#include "leeway/limits.h"

namespace leeway {
namespace {

template <class Exception>
Failure failure(const Exception& thrown) {
  return failure_of(std::make_exception_ptr(thrown));
}

TEST(Failures, OfInputAndOptionsEndWithTwo) {
  EXPECT_EQ(failure(OptionFault("no such format")).status, 2);
  EXPECT_EQ(failure(OptionFault("no such format")).message, "no such format");
  EXPECT_EQ(failure(OutputFault("cannot write")).status, 2);
  EXPECT_EQ(failure(SetupTooDetailed("4001 pieces")).status, 2);
}

TEST(Failures, OfTheProgramEndWithThreeAndSaySo) {
  for (const Failure& fault :
       {failure(OverlayFault("union at 3, 4")), failure(std::logic_error("union at 3, 4"))}) {
    EXPECT_EQ(fault.status, 3);
    EXPECT_NE(fault.message.find("a fault of the program"), std::string::npos);
    EXPECT_NE(fault.message.find("union at 3, 4"), std::string::npos);
  }
  EXPECT_EQ(failure(std::bad_alloc()).status, 3);
  EXPECT_EQ(failure(42).status, 3);
}

}  // namespace
}  // namespace leeway
