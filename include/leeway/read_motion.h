#pragma once
// Programs that move a machine, in the words of RS-274 (Kramer, Proctor and Messina, The NIST
// RS274/NGC Interpreter, Version 3, NISTIR 6556), read piece by piece.
//
//   MotionReader reader({}, [&](const ProgramMove& move) { ... });
//   while (more) reader.read(piece);
//   const MotionSummary summary = reader.finish();

#include <cstddef>
#include <functional>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "leeway/cover.h"

namespace leeway {

struct MotionOptions {
  bool relative_extrusion = false;  // each E is the length pushed by its move; else a length so far
};

// A move in mm, machine coordinates.
struct ProgramMove : PrintedMove {
  bool prints = false;  // it goes somewhere and pushes something
  bool placed = false;  // both ends and the heights are known, and the way between them
};

// What could not be read: the program is of no use.
struct MotionFault {
  std::size_t line = 0;
  std::string what;
};

// Words that are left alone, each told once.
struct MotionRemark {
  enum class Kind {
    idle,  // a word of no known meaning that is taken to move nothing
    lost,  // after it positions are unknown until they are given again
    end,     // the last line has no end: the program may be cut off
    behind,  // lines behind M2 or M30, which are not run
  };
  Kind kind = Kind::idle;
  std::string word;  // "M104", "G28"
  std::size_t count = 0;
  std::size_t line = 0;  // of the first
};

inline constexpr std::size_t kMostMotionFaults = 20;
inline constexpr std::size_t kMostMotionRemarks = 100;
inline constexpr std::size_t kLongestMotionLine = 65'536;

struct MotionSummary {
  std::size_t lines = 0;
  std::size_t moves = 0;     // with X, Y, Z, or an arc
  std::size_t printing = 0;  // of those
  std::size_t unplaced = 0;  // of the printing ones, where it cannot be known where they print
  std::size_t first_unplaced = 0;   // its line
  std::vector<MotionFault> faults;  // the first kMostMotionFaults
  std::size_t fault_count = 0;
  std::vector<MotionRemark> remarks;  // in the order of their first lines
};

// Understood are G0 to G3 (I and J from where the arc begins, or R), G17 to G21, G90, G91, G92 and
// G92.1, and the words of the standard that move nothing. Positions are unknown at the start, and
// after a word of another meaning or of none: G28, canned cycles, other coordinate systems. They
// are known again axis by axis with the next absolute words, or, after what moves the origin, not
// at all. Nothing is guessed. An arc outside the plane XY leads to a known end by a way unknown. An
// M that the standard does not have is taken to move nothing, with all that follows on its line.
// Comments stand in parentheses, or go from a semicolon to the end of the line (common practice, no
// source). Lengths are mm, positions absolute until the program says otherwise. A move whose E does
// not grow prints nothing; the first E of a program that has given none before prints.
// The memory does not depend on the length of the program.
class MotionReader {
 public:
  MotionReader(const MotionOptions& options, std::function<void(const ProgramMove&)> take);
  ~MotionReader();
  MotionReader(MotionReader&&) noexcept;

  // Pieces may end anywhere. What `take` throws passes through.
  void read(std::string_view piece);
  MotionSummary finish();

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace leeway
