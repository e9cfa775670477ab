#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <optional>
#include <random>
#include <string>

#include "leeway/read_motion.h"
#include "tasks/cover/arc.h"

namespace leeway {
namespace {

struct ReadMoves {
  std::vector<ProgramMove> moves;
  MotionSummary summary;
  Box box;  // of all moves

  std::vector<std::string> words(MotionRemark::Kind kind) const {
    std::vector<std::string> names;
    for (const MotionRemark& remark : summary.remarks) {
      if (remark.kind == kind) names.push_back(remark.word);
    }
    return names;
  }
};

// In pieces of `piece` bytes.
ReadMoves read_moves(const std::string& text, std::size_t piece = 7,
                     const MotionOptions& options = {}) {
  ReadMoves read;
  std::optional<Box> all;
  MotionReader reader(options, [&](const ProgramMove& move) {
    read.moves.push_back(move);
    if (!move.placed) return;
    const Box box = box_of(move);
    all = all ? Box{std::min(all->x0, box.x0), std::max(all->x1, box.x1), std::min(all->y0, box.y0),
                    std::max(all->y1, box.y1)}
              : box;
  });
  for (std::size_t at = 0; at < text.size(); at += piece) {
    reader.read(std::string_view(text).substr(at, piece));
  }
  read.summary = reader.finish();
  read.box = all.value_or(Box{});
  return read;
}

void expect_box(const Box& box, const Box& wanted) {
  EXPECT_NEAR(box.x0, wanted.x0, 1e-9);
  EXPECT_NEAR(box.x1, wanted.x1, 1e-9);
  EXPECT_NEAR(box.y0, wanted.y0, 1e-9);
  EXPECT_NEAR(box.y1, wanted.y1, 1e-9);
}

constexpr const char* kAtZero = "G0 X0 Y0 Z0\n";

// NISTIR 6556, section 3.5.3: both forms of an arc, with the report's own numbers; the boxes from
// their circles, computed by hand.
TEST(MotionReader, ReadsArcsAsTheStandardHasThem) {
  const ReadMoves centre = read_moves("G0 X7 Y7 Z0\nG17 G2 x10 y16 i3 j4\n");
  ASSERT_EQ(centre.moves.size(), 2U);
  EXPECT_EQ(*centre.moves[1].center, (Point{10, 11}));
  expect_box(centre.box, {5, 10, 7, 16});

  const ReadMoves radius = read_moves(std::string(kAtZero) + "G17 G2 x10 y15 r20\n");
  EXPECT_NEAR(radius.moves[1].center->x, 19.855069, 1e-6);
  EXPECT_NEAR(radius.moves[1].center->y, -2.403379, 1e-6);
  expect_box(radius.box, {0, 10, 0, 15});

  const ReadMoves rest = read_moves(std::string(kAtZero) + "G17 G2 x10 y15 r-20\n");
  expect_box(rest.box,
             {-29.855069064904306, 10.144930935095694, -2.596620623397129, 37.40337937660287});
}

// Appendix C.1 of the same, its last lines but for the feet of letters: the words as they stand
// there, with blanks, without a motion on each line, with full circles. "Hello world" in 0 to 81
// mm.
TEST(MotionReader, ReadsNistsOwnProgram) {
  const ReadMoves read = read_moves(
      "n0010 g21 g0 x0 y0 z50 (top of part should be on XY plane)\n"
      "n0020 t1 m6 m3 f20 s4000 (use an engraver or small ball-nose endmill)\n"
      "n0030 g0 x0 y0 z2\nn0040 g1 z-0.5 (start H)\nn0050 y10\nn0060 g0 z2\n"
      "n0090 x 7\nn0110 y0\nn0150 x11 y2.5\nn0160 g1 z-0.5 (start e)\nn0170 x16\n"
      "n0190 g3 x13.5 y0 i-2.5\nn0300 g0 x32.5\nn0310 g1 z-0.5 (start o)\n"
      "n0320 g2 x32.5 j2.5\nn0480 g1 x64 y4\nn0490 g2 x69 r4\n"
      "n0580 g1 x79.5 y0\nn0590 g2 j2.5 y5\nn0600 g1 x81\nn0620 g0 z50 m2\n");
  EXPECT_EQ(read.summary.fault_count, 0U);
  EXPECT_EQ(read.words(MotionRemark::Kind::idle), std::vector<std::string>{"T"});
  EXPECT_EQ(read.summary.printing, 0U);
  expect_box(read.box, {0, 81, 0, 10});
  expect_box(box_of(read.moves[10]), {11, 16, 0, 5});
}

// Table 12 of appendix B.3, without its compensation: the outline of a part.
TEST(MotionReader, ReadsNistsContour) {
  const std::string contour =
      "N0010 G1 X1 Y5 (make first pre-entry move to C)\nN0020 G1 Y4\nN0030 G3 X2 Y3 I1\n"
      "N0040 G2 X3 Y2 J-1\nN0050 G1 Y-1\nN0060 G2 X2 Y-2 I-1\nN0070 G1 X-2\n"
      "N0080 G2 X-2.6 Y-0.2 J1\nN0090 G1 X1.4 Y2.8\nN0100 G2 X2 Y3 I0.6 J-0.8\n";
  const ReadMoves read = read_moves(kAtZero + contour);
  EXPECT_EQ(read.summary.fault_count, 0U);
  expect_box(read.box, {-3, 3, -2, 5});
}

// Section 3.3: case, blanks in numbers; 3.5.7: units, kept apart from positions; 3.5.18: G92.
TEST(MotionReader, KnowsBlanksUnitsIncrementsAndShifts) {
  std::string text = kAtZero;
  text += "g0x +0. 12 34y 7\n";
  const ReadMoves blanks = read_moves(text);
  EXPECT_EQ(blanks.moves[1].to, (Point{0.1234, 7}));
  const ReadMoves units = read_moves(std::string(kAtZero) + "g20 g91 g1 x1 y2\nx1\ng21 x10\n");
  expect_box(units.box, {0, 60.8, 0, 50.8});
  const ReadMoves shifted = read_moves("G0 X4 Y0 Z0\nG92 X7\nG92 X9\nG0 X9\nX10\nG92.1\nX10\n");
  EXPECT_EQ(shifted.moves[1].to, (Point{4, 0}));
  EXPECT_EQ(shifted.moves[2].to, (Point{5, 0}));
  EXPECT_EQ(shifted.moves[3].to, (Point{10, 0}));
}

TEST(MotionReader, PrintsWhatPushes) {
  const std::string text =
      "G0 X0 Y0 Z0.2\nG92 E0\nG1 X10 E1\nG1 X20 E1\nG1 E0.2\nX30\nG1 E1\nG1 X40 E1.5\nG1 X40 E2\n";
  const ReadMoves absolute = read_moves(text);
  std::vector<double> to;
  for (const ProgramMove& move : absolute.moves) {
    if (move.prints) to.push_back(move.to.x);
  }
  EXPECT_EQ(to, (std::vector<double>{10, 40}));
  EXPECT_EQ(absolute.summary.printing, 2U);
  const ReadMoves relative = read_moves(text, 100, {true});
  EXPECT_EQ(relative.summary.printing, 3U);
}

TEST(MotionReader, NeverGuessesAPosition) {
  // From where the first leads is not known, nor what follows G28 until all is given again.
  const ReadMoves start = read_moves("G1 X1 Y1 Z1 E1\nG1 X2 E2\n");
  EXPECT_FALSE(start.moves[0].placed);
  EXPECT_TRUE(start.moves[1].placed);
  const ReadMoves homed =
      read_moves(std::string(kAtZero) + "G28\nG1 X1 Y1 E1\nG1 X2 E2\nG1 Z1\nG1 X3 E3\n");
  EXPECT_EQ(homed.summary.unplaced, 2U);
  EXPECT_EQ(homed.summary.first_unplaced, 3U);
  EXPECT_TRUE(homed.moves.back().placed);
  EXPECT_EQ(homed.words(MotionRemark::Kind::lost), std::vector<std::string>{"G28"});
  // Other origins are never known again.
  EXPECT_EQ(read_moves(std::string(kAtZero) + "G55\nG1 X1 Y1 Z1\nG1 X2 E2\n").summary.unplaced, 1U);
  EXPECT_EQ(read_moves(std::string(kAtZero) + "G28\nG92 X0 Y0 Z0\nG1 X1 Y1 Z1\nG1 X2 E2\n")
                .summary.unplaced,
            1U);
  // An arc in another plane leads to a known end.
  const ReadMoves plane = read_moves(std::string(kAtZero) + "G18 G2 X5 K3 E1\nG17 G1 X6 E2\n");
  EXPECT_FALSE(plane.moves[1].placed);
  EXPECT_TRUE(plane.moves[2].placed);
}

TEST(MotionReader, TellsWordsOnce) {
  const ReadMoves read =
      read_moves(std::string(kAtZero) + "M104 S200\nM117 Hello (you\nM104 S0\nG1 X1 E1 ; done)\n");
  EXPECT_EQ(read.summary.fault_count, 0U);
  ASSERT_EQ(read.summary.remarks.size(), 2U);
  EXPECT_EQ(read.summary.remarks[0].word, "M104");
  EXPECT_EQ(read.summary.remarks[0].count, 2U);
  EXPECT_EQ(read.summary.remarks[0].line, 2U);
  EXPECT_EQ(read.summary.remarks[1].word, "M117");
  EXPECT_EQ(read.summary.printing, 1U);
}

TEST(MotionReader, TellsBrokenLinesAndEnds) {
  const char* broken[] = {"G1 X",       "G1 X1 X2",      "G1 X1-2", "X1",          "G1 X1 (off",
                          "G1 #5=3",    "G0 G1 X1",      "G2 X5",   "G2 X5 I1 R2", "G2 I5",
                          "G2 X50 R20", "G2 X2 I1.0041", "G1 X--1", "G1 X\xff",    "G2 X0 R5",
                          "G1.25 X1",   "G1 X1\nG80\nX2"};
  for (const std::string line : broken) {
    const std::string text = (line == "X1" ? "" : kAtZero) + line + "\n";
    EXPECT_EQ(read_moves(text).summary.fault_count, 1U) << line;
  }
  EXPECT_EQ(read_moves("(a)\nG1 X\n").summary.faults.at(0).line, 2U);
  std::string long_line(70'000, ' ');
  long_line += '\n';
  EXPECT_EQ(read_moves(long_line).summary.fault_count, 1U);
  // The ends of an arc may differ by 0.002 mm (section 3.5.3.2).
  EXPECT_EQ(read_moves(std::string(kAtZero) + "G2 X2 I1.0009\n").summary.fault_count, 0U);
  EXPECT_EQ(read_moves("G1 X1").words(MotionRemark::Kind::end).size(), 1U);
  EXPECT_TRUE(read_moves("G1 X1\r\n").summary.remarks.empty());
  const ReadMoves behind = read_moves("G1 X1\nM2\n%\n(text)\nG1 X2\n");
  EXPECT_EQ(behind.summary.moves, 1U);
  EXPECT_EQ(behind.words(MotionRemark::Kind::behind).size(), 1U);
}

// A generator of programs with known extents: a raft of lines, and a spiral of half circles upon
// it.
struct MadeProgram {
  bool inch = false;
  bool relative = false;            // positions
  bool relative_extrusion = false;  // E

  std::string text() {
    words_ = inch ? "G20\nG90\nG92 E0\n" : "G21\nG90\nG92 E0\n";
    to("G0", {20, 30}, 0.2, 0);
    if (relative) words_ += "G91\n";
    for (int line = 0; line < 10; ++line) {
      to("G1", {line % 2 == 0 ? 60.0 : 20.0, 30 + 2.0 * line}, 0.2, 1);
      to("G0", {at_.x, 32 + 2.0 * line}, 0.2, -0.5);
      to("G1", at_, 0.2, 0.5);
    }
    to("G0", {50, 45}, 0.2, 0);
    for (int half = 0; half < 8; ++half) {
      const double radius = 10 - half;
      const double side = half % 2 == 0 ? -radius : radius;
      to("G3", {at_.x + 2 * side, 45}, 0.2 * (half + 1), 2, " I" + said(side));
    }
    return words_;
  }

 private:
  std::string said(double mm) const {
    char text[32];
    std::snprintf(text, sizeof text, "%.9f", inch ? mm / 25.4 : mm);
    return text;
  }

  void to(const char* code, Point place, double height, double push, const std::string& more = "") {
    const bool steps = relative && words_.find("G91") != std::string::npos;
    pushed_ += push;
    words_ += std::string(code) + " X" + said(steps ? place.x - at_.x : place.x) + " Y" +
              said(steps ? place.y - at_.y : place.y) + " Z" +
              said(steps ? height - height_ : height) + " E" +
              said(relative_extrusion ? push : pushed_) + more + "\n";
    at_ = place;
    height_ = height;
  }

  std::string words_;
  Point at_;
  double height_ = 0;
  double pushed_ = 0;
};

// However it is written, the same is printed: 10 lines and 8 half circles.
TEST(MotionReader, ReadsMadeProgramsInEveryManner) {
  for (int manner = 0; manner < 8; ++manner) {
    MadeProgram made;
    made.inch = (manner & 1) != 0;
    made.relative = (manner & 2) != 0;
    made.relative_extrusion = (manner & 4) != 0;
    const ReadMoves read = read_moves(made.text(), 50, {made.relative_extrusion});
    EXPECT_EQ(read.summary.fault_count, 0U);
    EXPECT_EQ(read.summary.printing, 18U);
    EXPECT_EQ(read.summary.unplaced, 0U);
    std::optional<Box> printed;
    for (const ProgramMove& move : read.moves) {
      if (!move.prints) continue;
      const Box box = box_of(move);
      printed = printed ? Box{std::min(printed->x0, box.x0), std::max(printed->x1, box.x1),
                              std::min(printed->y0, box.y0), std::max(printed->y1, box.y1)}
                        : box;
    }
    // The lines take 20 to 60 by 30 to 48; the first half circle goes from 50
    // over the top, at 45 + 10, to 30; the others are smaller.
    ASSERT_TRUE(printed);
    EXPECT_NEAR(printed->x0, 20, 1e-6);
    EXPECT_NEAR(printed->x1, 60, 1e-6);
    EXPECT_NEAR(printed->y0, 30, 1e-6);
    EXPECT_NEAR(printed->y1, 55, 1e-6);
  }
}

// Numbers are the nearest doubles, as the C library reads them.
TEST(MotionReader, ReadsNumbersExactly) {
  std::mt19937 roll(7);
  for (int i = 0; i < 2000; ++i) {
    std::string number = roll() % 2 == 0 ? "-" : "";
    for (auto digit = roll() % 6 + 1; digit > 0; --digit) number += std::to_string(roll() % 10);
    if (roll() % 4 != 0) number += '.';
    if (number.back() == '.') {
      for (auto digit = roll() % 16; digit > 0; --digit) number += std::to_string(roll() % 10);
    }
    const ReadMoves read = read_moves("G0 X" + number + "\n", 64);
    ASSERT_EQ(read.moves.size(), 1U) << number;
    EXPECT_EQ(read.moves[0].to.x, std::strtod(number.c_str(), nullptr)) << number;
  }
}

// Whatever bytes come, in whatever pieces: no crash, and the same answer.
TEST(MotionReader, TakesAnyBytesInAnyPieces) {
  std::mt19937 roll(11);
  const std::string letters = "GMXYZEFIJR0123456789.-+ \t\r\n\n(;)%/#\xff";
  for (int i = 0; i < 300; ++i) {
    std::string text = kAtZero;
    for (int length = 0; length < 200; ++length) text += letters[roll() % letters.size()];
    const ReadMoves whole = read_moves(text, text.size());
    const ReadMoves pieces = read_moves(text, roll() % 9 + 1);
    EXPECT_EQ(whole.summary.lines, pieces.summary.lines);
    EXPECT_EQ(whole.summary.moves, pieces.summary.moves);
    EXPECT_EQ(whole.summary.fault_count, pieces.summary.fault_count);
  }
}

}  // namespace
}  // namespace leeway
