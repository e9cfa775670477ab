#pragma once
// Whether a setup may be used at all.
//
// `read_setup` calls `validate` and tells each fault with its file, line and column. A setup that
// was built in code is checked by whatever takes it: `Limits`, `MoveLimits`, `Regions`, `check`,
// `fit`, `explain`, `bracket`, `rank_candidates` and `coverage_map` throw InvalidSetup.
//
//   for (const SetupFault& fault : validate(setup)) std::cerr << message(fault) << '\n';

#include <cstddef>
#include <cstdint>
#include <memory>
#include <string>
#include <variant>
#include <vector>

#include "leeway/error.h"
#include "leeway/setup.h"

namespace leeway {

// The values of a setup, one for each that can be at fault.
enum class SetupField : std::uint8_t {
  name,
  coverage_factor,
  machine_name,
  bed,
  travel,
  print_inset,
  travel_uncertainty,
  bed_uncertainty,
  obstacle_name,  // of Machine::obstacles
  obstacle_shape,
  obstacle_height,
  obstacle_clearance,
  part_name,  // of Machine::head
  part_outline,
  part_underside,
  part_top,
  probe_name,
  offset,
  offset_uncertainty,
  spot,
  edge_distance,
  trigger_height,
  travel_height,
  body_outline,
  body_underside,
  body_top,
  envelope,         // of the mount
  keep_clear_name,  // of Mount::keep_clear
  keep_clear_outline,
  grid,
  columns,
  rows,
  bounds,  // of the grid
  margins,
  point_name,  // of Request::points
  point_at,
  home_at,
};

// What of the field: all of it; a component of a point; a side of a box, or both sides of an axis;
// of a disc; of margins; a ring, or a component of one of its vertices.
enum class SetupDetail : std::uint8_t {
  whole,
  x,
  y,
  x0,
  x1,
  y0,
  y1,
  center_x,
  center_y,
  radius,
  left,
  right,
  front,
  back,
  ring,
  vertex_x,
  vertex_y,
};

// Where in a setup a value stands, as indices: names may be the very thing that is wrong.
struct SetupPlace {
  SetupField field = SetupField::name;
  SetupDetail detail = SetupDetail::whole;
  std::size_t item = 0;     // index into obstacles, head, what is kept clear or points
  std::size_t polygon = 0;  // of a ring and of vertices
  std::size_t ring = 0;     // 0 is the outer one, 1 the first hole
  std::size_t vertex = 0;

  friend auto operator<=>(const SetupPlace&, const SetupPlace&) = default;
};

enum class NumberRange : std::uint8_t {
  length,           // at most kLargestLength either way
  distance,         // from 0 to kLargestLength
  radius,           // above 0, at most kLargestLength
  coverage_factor,  // above 0, at most kLargestCoverageFactor
  count,            // from 1 to kMostGridPoints
};

// Whether a number may stand there; never for NaN and infinity.
bool in_range(double number, NumberRange range);

// What is wrong; each has what there is to say of it.
struct OutOfRange {
  double found = 0;  // may be NaN or infinite
  NumberRange range = NumberRange::length;
};
// The left or front one is beyond the other.
struct TurnedBounds {
  double low = 0;
  double high = 0;
};
// A box without width or depth, where an area is needed.
// A top that is not above the underside.
struct NoHeight {
  double top = 0;
  double underside = 0;
};

struct EqualBounds {
  double at = 0;
};
struct RadiusTooLarge {  // of corners, for the shorter side
  double radius = 0;
  double most = 0;
};
struct NoShape {};  // a point where an area is needed, or no polygon at all
// More than kMostVertices in one shape.
struct TooManyVertices {
  std::size_t vertices = 0;
};
struct RepeatedVertex {  // two in a row at one place, or the closing point
  Point at;
};
struct TooFewVertices {};  // fewer than three that differ
struct NoArea {};          // all vertices on one line
struct SelfCrossing {
  Point at;
  Point first_from, first_to, second_from, second_to;  // the two edges
};
struct HoleOutside {
  Point at;
};
struct HolesOverlap {
  std::size_t other = 0;  // the ring that it overlaps
  Point at;
};
struct PolygonsOverlap {  // told of the whole shape
  std::size_t polygon = 0;
  std::size_t other = 0;
  Point at;
};
struct BlankName {
  bool empty = true;  // else of spaces
};
struct DuplicateName {
  std::string name;
};
struct ReservedName {  // one that the program gives itself
  std::string name;
};
// More than kMostGridPoints of one grid.
struct TooManyPoints {
  int columns = 0;
  int rows = 0;
};
// They leave no grid between them.
struct MarginsMeet {
  bool along_x = true;  // left and right, else front and back
  double taken = 0;     // by both, mm
  double size = 0;      // of what they are taken from
  Margins::From from = Margins::From::bed;
};

// One value that will not do, and why. `message` (fault.h) makes a sentence of it.
struct SetupFault {
  SetupPlace place;
  std::variant<OutOfRange, TurnedBounds, NoHeight, EqualBounds, RadiusTooLarge, NoShape,
               TooManyVertices, RepeatedVertex, TooFewVertices, NoArea, SelfCrossing, HoleOutside,
               HolesOverlap, PolygonsOverlap, BlankName, DuplicateName, ReservedName, TooManyPoints,
               MarginsMeet>
      what;
};

// "out-of-range", "self-crossing", ...: stable, for programs.
const char* code(const SetupFault& fault);

// "probe.offset.x", "machine.obstacles[1].shape": as the values are called in setup.h.
std::string words(const SetupPlace& place);

// All faults of a setup; none when it may be used. A fault does not hide others, but for those
// that could only be told of sound values.
// Every number must be finite (but for an obstacle's unlimited height) and in its range; bed,
// travel, envelope, obstacles and outlines must have an area, the spot may be a point; rings must
// be simple, polygons must not overlap (touching closer than 1e-9 mm counts as meeting).
// Cost: some microseconds for shapes of few corners, n log n for n of them.
std::vector<SetupFault> validate(const Setup& setup);

// The same for a probe alone. What concerns the machine as well, such as whether the spot is on the
// bed at all, is no fault: it is what `check` answers.
std::vector<SetupFault> validate(const Probe& probe);

// `what()` names the first fault and counts the others; faults() has them all, never none.
//
// A setup that may not be used was given to a function that needs one that may.
class InvalidSetup : public Error {
 public:
  // REQUIRES: faults.
  explicit InvalidSetup(std::vector<SetupFault> faults);

  const std::vector<SetupFault>& faults() const noexcept { return *faults_; }

 private:
  std::shared_ptr<const std::vector<SetupFault>> faults_;  // copies must not throw
};

}  // namespace leeway
