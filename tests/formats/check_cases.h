#pragma once
// Setups made by hand for the writers of `check`, and what they write.

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

#include "leeway/check.h"
#include "leeway/write_check.h"

namespace leeway {

// examples/godwit-side-bracket.json: column 5 is out of reach on the right.
inline Setup side_bracket() {
  Setup setup;
  setup.name = "Godwit, side bracket";
  setup.machine.name = "Godwit";
  setup.machine.bed = Box{0, 233, 0, 207};
  setup.machine.travel = Box{-5, 239, -2, 211};
  setup.machine.travel_uncertainty = 0.1;
  setup.machine.bed_uncertainty = 0.2;
  setup.probe.offset = {-38.5, 12};
  setup.probe.spot = Disc{{0, 0}, 4};
  setup.probe.edge_distance = 1;
  setup.probe.trigger_height = 2;
  setup.probe.travel_height = 8;
  Grid grid;
  grid.columns = 5;
  grid.rows = 5;
  grid.extent = Box{20, 210, 20, 190};
  setup.request.grid = grid;
  return setup;
}

// A bed of 100 x 100, travel to match it, a bare probe without offset, and one named point.
inline Setup one_point(Point at) {
  Setup setup;
  setup.name = "small";
  setup.machine.bed = Box{0, 100, 0, 100};
  setup.machine.travel = Box{-50, 150, -50, 150};
  setup.request.points.push_back({"spot mark", at, Frame::probe});
  return setup;
}

inline Obstacle clip(Box outline, double height, double clearance) {
  Obstacle obstacle;
  obstacle.name = "clip";
  obstacle.shape = outline;
  obstacle.height = height;
  obstacle.clearance = clearance;
  return obstacle;
}

using CheckWriter = void (*)(const CheckResult&, const Rig&, const WriteOptions&, const TextSink&);

inline std::string written(CheckWriter writer, const Setup& setup, WriteOptions options = {}) {
  const Rig rig(setup);
  const CheckResult result = check(rig);
  std::string text;
  writer(result, rig, options, [&](std::string_view piece) { text += piece; });
  return text;
}

inline std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::size_t at = 0;
  while (at < text.size()) {
    const std::size_t end = std::min(text.find('\n', at), text.size());
    lines.push_back(text.substr(at, end - at));
    at = end + 1;
  }
  return lines;
}

// The text in one line with single blanks, so that a test need not know where lines break.
inline std::string unwrapped(const std::string& text) {
  std::string out;
  for (const char c : text) {
    const char plain = c == '\n' ? ' ' : c;
    if (plain == ' ' && !out.empty() && out.back() == ' ') continue;
    out += plain;
  }
  return out;
}

inline bool holds(const std::string& text, std::string_view part) {
  return text.find(part) != std::string::npos;
}

// A name with everything in it that could do harm in one of the formats.
inline const char* const kHostileName =
    "=1|2\"<b>,`x`\x1b[31m\xE2\x80\xAE*_\r\n](http://x) \xC3\xA9 \xFF";

}  // namespace leeway
