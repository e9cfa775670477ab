#include "formats/fault/fault_notes.h"

#include <gtest/gtest.h>

namespace leeway {
namespace {

TEST(FaultNotes, TellsInTheOrderOfTheText) {
  FaultNotes notes;
  notes.add(FaultNotes::kWholeFile, fault_of("whole", "no rows", {}));
  notes.add(4, fault_of("late", "b", {}));
  notes.add(1, fault_of("early", "a", {}));
  notes.add(4, fault_of("later", "b again", {}));
  const std::vector<Fault> told = notes.told("godwit.csv", "a\nb\nc");
  ASSERT_EQ(told.size(), 4u);
  EXPECT_EQ(message(told[0]), "godwit.csv:1:2: found a");
  EXPECT_EQ(message(told[1]), "godwit.csv:3:1: found b");
  EXPECT_EQ(told[2].code, "later");
  EXPECT_EQ(message(told[3]), "godwit.csv: found no rows");
}

TEST(FaultNotes, KeepsAThousandAndCountsTheRest) {
  FaultNotes notes;
  EXPECT_TRUE(notes.empty());
  for (int i = 0; i < 1234; ++i) notes.add(0, fault_of("x", "x", {}));
  EXPECT_EQ(notes.size(), 1234u);
  const std::vector<Fault> told = notes.told("godwit.csv", "x");
  ASSERT_EQ(told.size(), FaultNotes::kMost + 1);
  EXPECT_EQ(message(told.back()), "godwit.csv: found 234 further faults");
}

}  // namespace
}  // namespace leeway
