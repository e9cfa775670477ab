#pragma once
// One line of a program: its words, read and not yet obeyed.

#include <array>
#include <cstdint>
#include <string>
#include <string_view>

namespace leeway {

struct MotionLine {
  static constexpr std::size_t kMostCodes = 12;

  std::array<double, 26> values;  // by letter; those of G and M are among the codes
  std::uint32_t letters = 0;      // which there are, A the lowest bit
  struct Code {
    char letter = 'G';
    int tenths = 0;  // G92.1 is 921
  };
  std::array<Code, kMostCodes> codes;
  std::size_t code_count = 0;
  std::string fault;  // nothing: it was read

  bool has(char letter) const { return (letters >> (letter - 'A') & 1U) != 0; }
  double value(char letter) const { return values[static_cast<std::size_t>(letter - 'A')]; }
};

// Whether the standard has this M, in tenths: none of them moves an axis.
bool is_known_m(int tenths);

// REQUIRES: a text without line ends. Whatever `line` held is gone, but for values without a
// letter.
void read_motion_line(std::string_view text, MotionLine& line);

}  // namespace leeway
