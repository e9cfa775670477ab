// Readings as people write them, and what is said of those that will not do.

#include "leeway/read_readings.h"

#include <gtest/gtest.h>

#include <random>

namespace leeway {
namespace {

ReadReadings read(const std::string& text) { return read_readings({"r.csv", "r.csv", text, ""}); }

std::vector<std::string> messages(const std::string& text) {
  const ReadReadings result = read(text);
  EXPECT_TRUE(result.readings.empty());
  std::vector<std::string> out;
  for (const Fault& fault : result.faults) out.push_back(message(fault));
  return out;
}

const std::string kHeader = "nozzle_x,nozzle_y,probe_x,probe_y\n";

TEST(ReadReadings, TakesWhatPeopleWrite) {
  const std::string texts[] = {
      "nozzle_x,nozzle_y,probe_x,probe_y,label\n1.5,2,3,-4.25,a\n",
      "# notes\n\n label ; probe_y; probe_x ;nozzle_y;nozzle_x\na;-4,25;3;2;1,5\n",
      "\xEF\xBB\xBFnozzle_x\tnozzle_y\tprobe_x\tprobe_y\tlabel\r\n1,5\t2\t3\t-4.25\t\"a\"\r\n",
      "label,nozzle_x,nozzle_y,probe_x,probe_y\r\"a\",+1.5,2e0,3.0,-4.25"};
  for (const std::string& text : texts) {
    const ReadReadings result = read(text);
    ASSERT_TRUE(result.faults.empty()) << message(result.faults.front());
    ASSERT_EQ(result.readings.size(), 1u) << text;
    EXPECT_EQ(result.readings[0].nozzle_over, (Point{1.5, 2})) << text;
    EXPECT_EQ(result.readings[0].probe_over, (Point{3, -4.25})) << text;
    EXPECT_EQ(result.readings[0].label, "a") << text;
  }
}

TEST(ReadReadings, LabelsByRowWhereThereIsNone) {
  const ReadReadings result = read(kHeader + "1,2,3,4\n\n# x\n5,6,7,8\n");
  ASSERT_EQ(result.readings.size(), 2u);
  EXPECT_EQ(result.readings[0].label, "row 1");
  EXPECT_EQ(result.readings[1].label, "row 2");
}

TEST(ReadReadings, QuotesHoldSeparatorsAndQuotes) {
  const ReadReadings result =
      read("label,nozzle_x,nozzle_y,probe_x,probe_y\n\"a, \"\"b\"\" # c\",1,2,3,4\n");
  ASSERT_EQ(result.readings.size(), 1u);
  EXPECT_EQ(result.readings[0].label, "a, \"b\" # c");
}

// A # inside a line is no comment: people number their dots.
TEST(ReadReadings, LabelsMayHoldANumberSign) {
  const ReadReadings result = read("nozzle_x,nozzle_y,probe_x,probe_y,label\n1,2,3,4,dot #1\n");
  ASSERT_EQ(result.readings.size(), 1u);
  EXPECT_EQ(result.readings[0].label, "dot #1");
}

TEST(ReadReadings, TellsEveryFaultWithItsPlace) {
  EXPECT_EQ(
      messages(kHeader + "1,2,3\n1,x,,4\n1,2,3,1e9\n"),
      (std::vector<std::string>{
          "r.csv:2:1: found 3 fields; allowed: 4, as in the header",
          "r.csv:3:3: found \"x\" for nozzle_y; allowed: a number of mm with a decimal point, at "
          "most 1e6",
          "r.csv:3:5: found nothing for probe_x; allowed: a number of mm with a decimal point, at "
          "most 1e6",
          "r.csv:4:7: found \"1e9\" for probe_y; allowed: a number of mm with a decimal point, at "
          "most 1e6"}));
  EXPECT_EQ(
      messages("nozzle_x,nozle_y,probe_x,probe_y,probe_y\n"),
      (std::vector<std::string>{
          "r.csv:1:10: found the unknown column \"nozle_y\"; allowed: nozzle_x, nozzle_y, probe_x, "
          "probe_y, label, edge; did you mean \"nozzle_y\"?",
          "r.csv:1:34: found the column probe_y a second time; allowed: each column once"}));
}

TEST(ReadReadings, RefusesWhatIsNoTable) {
  for (const std::string& text :
       {std::string(), std::string("# only\n"), kHeader, std::string("1,2,3,4\n5,6,7,8\n"),
        kHeader + "\"1,2,3,4\n", kHeader + "nan,2,3,4\n", kHeader + "inf,2,3,4\n",
        kHeader + "1 2,2,3,4\n", kHeader + "0x10,2,3,4\n", kHeader + "1,2,3,4,5\n",
        std::string("nozzle_x;nozzle_y;probe_x;probe_y\n1.234,5;2;3;4\n"), kHeader + "\xff,2,3,4\n",
        kHeader + std::string("1,2,3,4\0", 8)}) {
    EXPECT_FALSE(read(text).faults.empty()) << text;
    EXPECT_TRUE(read(text).readings.empty()) << text;
  }
  EXPECT_FALSE(read_readings({"r.csv", "", "", "there is no such file"}).faults.empty());
}

// Whatever the bytes, there are readings or faults, and never both.
TEST(ReadReadings, SurvivesAnyBytes) {
  std::mt19937_64 engine(4);
  const std::string good = kHeader + "1.5,2,3,4\n\"5\",6;7\t8\n";
  for (int i = 0; i < 20000; ++i) {
    std::string text = good;
    for (int k = 0; k < 3; ++k) {
      const std::string pieces = "\",;\t#\r\n.-+eE0123\xc3\xff";
      text[engine() % text.size()] = pieces[engine() % pieces.size()];
    }
    const ReadReadings result = read(text);
    EXPECT_NE(result.faults.empty(), result.readings.empty()) << text;
  }
}

const std::string kEdgeHeader = "label,edge,nozzle_x,nozzle_y,probe_x,probe_y\n";

// By hand: (148.2 + 158.9) / 2 and (87.7 + 98.4) / 2.
TEST(ReadReadings, TakesTheMiddleOfEdges) {
  const ReadReadings result = read(kEdgeHeader +
                                   "m,left,115,105,148.2,\n"
                                   "plain,,60,40,98.45,28\n"
                                   "m,right,115,105,158.9,\n"
                                   "m,back,115,105,,98.4\n"
                                   "m,front,115,105,what,87.7\n"
                                   "x only,right,60,40,104,\n"
                                   "x only,left,60,40,93,\n");
  ASSERT_TRUE(result.faults.empty()) << message(result.faults.front());
  ASSERT_EQ(result.readings.size(), 3u);
  const Reading& four = result.readings[0];
  EXPECT_EQ(four.label, "m");
  EXPECT_EQ(four.row, 1u);
  EXPECT_NEAR(four.probe_over.x, 153.55, 1e-12);
  EXPECT_NEAR(four.probe_over.y, 93.05, 1e-12);
  EXPECT_EQ(four.nozzle_over, (Point{115, 105}));
  EXPECT_TRUE(four.tells[0] && four.tells[1]);
  EXPECT_EQ(result.readings[1].probe_over, (Point{98.45, 28}));
  EXPECT_EQ(result.readings[1].row, 2u);
  const Reading& two = result.readings[2];
  EXPECT_EQ(two.row, 6u);
  EXPECT_EQ(two.probe_over.x, 98.5);
  EXPECT_TRUE(two.tells[0] && !two.tells[1]);
}

TEST(ReadReadings, SaysWhatIsWrongWithEdges) {
  EXPECT_EQ(messages(kEdgeHeader + "m,lfet,1,2,3,4\n"),
            (std::vector<std::string>{"r.csv:2:3: found the edge \"lfet\"; allowed: left, right, "
                                      "front, back, or nothing; did you mean \"left\"?"}));
  EXPECT_EQ(messages(kEdgeHeader + ",left,1,2,3,4\n"),
            (std::vector<std::string>{"r.csv:2:2: found an edge in a row without a label; allowed: "
                                      "a label: the rows of one label belong together"}));
  EXPECT_EQ(messages(kEdgeHeader + "m,left,1,2,3,\nm,left,1,2,4,\nm,right,1,2,5,\n"),
            (std::vector<std::string>{"r.csv:3:3: found the edge left of \"m\" a second time; "
                                      "allowed: each edge of a label once"}));
  EXPECT_EQ(messages(kEdgeHeader + "m,left,1,2,3,\nm,right,1,2.5,5,\nd,,1,2,3,4\n"),
            (std::vector<std::string>{"r.csv:3:9: found another place of the nozzle for \"m\"; "
                                      "allowed: the same nozzle_x and nozzle_y in all rows of a "
                                      "label with edges"}));
  EXPECT_EQ(messages(kEdgeHeader + "m,back,1,2,,3\nd,,1,2,3,4\n"),
            (std::vector<std::string>{"r.csv:2:3: found only the edge back for \"m\"; allowed: a "
                                      "row for front too: the middle is what counts"}));
  EXPECT_EQ(messages(kEdgeHeader + "m,left,1,2,,\nm,right,1,2,3,\n").size(), 2u);
  EXPECT_EQ(
      messages(kEdgeHeader + "m,left,1,2,3,\nm,right,1,2,3,\n"),
      (std::vector<std::string>{"r.csv: found no reading that tells the offset in y; allowed: "
                                "rows for the edges front and back, or a row without an "
                                "edge"}));
}

}  // namespace
}  // namespace leeway
