#pragma once
// Reads the words of RS-274 that a walk may hold (Kramer, Proctor and Messina, The NIST RS274/NGC
// Interpreter, Version 3, NISTIR 6556, section 3.3), and refuses all others.

#include <string>
#include <string_view>
#include <vector>

namespace leeway::judges {

// Where one line leads; what was not said stays as it was.
struct Motion {
  double x = 0, y = 0, z = 0;
  bool moves_z = false;
  bool moves_xy = false;
  double feed = 0;  // per minute, in force
};

struct MotionProgram {
  std::vector<Motion> motions;
  std::vector<std::string> faults;  // with the line
  std::size_t dwells = 0;
  std::size_t stops = 0;
  bool ended = false;  // by M2
};

MotionProgram read_motion_words(std::string_view text);

}  // namespace leeway::judges
