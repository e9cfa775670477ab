#pragma once
// Setups to test with.

#include "leeway/setup.h"

namespace leeway {

// examples/godwit-side-bracket.json and its machine.
inline Setup godwit() {
  Setup setup;
  setup.name = "Godwit, side bracket";
  setup.machine.name = "Godwit";
  setup.machine.bed = Box{0, 233, 0, 207};
  setup.machine.travel = Box{-5, 239, -2, 211};
  setup.machine.obstacles = {{"front clip", Box{100, 130, -6, 4}, 6, 1}};
  setup.machine.head = {{"fan duct", Box{-22, 22, -30, -8}, 3}};
  setup.machine.travel_uncertainty = 0.1;
  setup.machine.bed_uncertainty = 0.2;
  setup.probe.offset = {-38.5, 12.0};
  setup.probe.offset_uncertainty = {0.15, 0.15};
  setup.probe.spot = Disc{{0, 0}, 4};
  setup.probe.edge_distance = 1;
  setup.probe.trigger_height = 2;
  setup.probe.travel_height = 8;
  setup.probe.body = ProbeBody{Box{-9, 9, -9, 9}, 1};
  setup.request.grid = Grid{5, 5, Box{20, 210, 20, 190}, Frame::probe, false};
  setup.request.points = {{"front left screw", {32, 28}, Frame::probe}};
  setup.request.home = Home{{115, 105}, Frame::nozzle};
  return setup;
}

// A machine with nothing on it and a probe that is a point under the nozzle.
inline Setup bare(Shape bed, Shape travel) {
  Setup setup;
  setup.machine.bed = std::move(bed);
  setup.machine.travel = std::move(travel);
  return setup;
}

inline Shape square(double half) { return Box{-half, half, -half, half}; }

inline Shape polygon(Ring outer, std::vector<Ring> holes = {}) {
  return MultiPolygon{{std::move(outer), std::move(holes)}};
}

}  // namespace leeway
