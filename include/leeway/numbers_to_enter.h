#pragma once
// All numbers that someone takes from a setup to a machine, as they are printed and as they were
// checked: what templates and reports are filled from.

#include <optional>
#include <vector>

#include "leeway/check.h"
#include "leeway/fit.h"
#include "leeway/mesh_numbers.h"
#include "leeway/rig.h"

namespace leeway {

// A point of the request.
struct PointNumbers {
  PlaceNumbers place;
  std::optional<Point> nearest;  // for the probe; the nearest rounded place that is reachable
  Finding finding;               // as it is entered
};

struct NumbersToEnter {
  int decimals = 2;
  std::vector<PointNumbers> points;  // beside CheckResult::points of the request

  // The mesh: the request's own grid, or the one that fits where a fit was made. Nothing where
  // there is none.
  std::optional<MeshNumbers> mesh;
  CheckResult of_mesh;               // of the request with this mesh
  std::optional<FitPoint> tightest;  // of its points, as they are entered
  PlaceNumbers tightest_place;

  // Where to home: the request's own place, or else the one that fits.
  std::optional<FitHome> home;
  bool home_is_stated = false;
  PlaceNumbers home_place;

  // Whether the mesh may be entered: its points reachable, its own moves not known to be blocked.
  bool mesh_is_safe = false;
  // Whether all of it may be entered: every point reachable, named ones and home among them, and
  // no move that is known to be blocked.
  bool safe = false;
};

// `checked` is of the rig's request; `fitted`, where it is not null, is a fit of the same rig.
// REQUIRES: 0 <= decimals <= kMostDecimals.
NumbersToEnter numbers_to_enter(const Rig& rig, const CheckResult& checked, const FitResult* fitted,
                                int decimals);

}  // namespace leeway
