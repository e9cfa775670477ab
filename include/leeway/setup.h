#pragma once
// A setup as values: the machine, the probe and what is asked of them.
//
// Millimetres, machine coordinates, right-handed (ISO 841): x to the right, y away from the
// operator. `offset` is always from nozzle to probe: probe = nozzle + offset.
// The functions here trust the values; `validate` (validate.h) is what checks them.

#include <cstddef>
#include <limits>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "leeway/geometry.h"

namespace leeway {

// No length or coordinate may be larger, in mm.
inline constexpr double kLargestLength = 1e6;
inline constexpr double kLargestCoverageFactor = 100;
inline constexpr std::size_t kMostVertices = 10'000;  // of one shape

inline constexpr double kUnlimitedHeight = std::numeric_limits<double>::infinity();

// Something that stands on the bed.
struct Obstacle {
  std::string name;
  Shape shape;
  double height = kUnlimitedHeight;  // above the bed; 0 spoils a reading and blocks nothing
  double clearance = 0;              // wanted distance from whatever passes

  friend bool operator==(const Obstacle&, const Obstacle&) = default;
};

// A part of the moving head.
struct HeadPart {
  std::string name;
  Shape outline;         // relative to the nozzle
  double underside = 0;  // above the nozzle tip, >= 0
  // Above the nozzle tip; unlimited where it is not stated. Only a probe beside it asks.
  std::optional<double> top = std::nullopt;

  friend bool operator==(const HeadPart&, const HeadPart&) = default;
};

// Shapes are in machine coordinates. Distances and uncertainties are >= 0.
struct Machine {
  std::string name;
  Shape bed;     // the bed
  Shape travel;  // where the nozzle may be sent
  double print_inset = 0;
  std::vector<Obstacle> obstacles;
  std::vector<HeadPart> head;
  double travel_uncertainty = 0;  // standard uncertainty of the ends of the travel
  double bed_uncertainty = 0;     // standard uncertainty of where the bed lies

  friend bool operator==(const Machine&, const Machine&) = default;
};

// What of the probe moves with it besides the spot. It goes where the true offset puts it.
struct ProbeBody {
  Shape outline;         // relative to the probe point
  double underside = 0;  // above the nozzle tip; negative for a pin that reaches below it
  // Above the nozzle tip; unlimited where it is not stated. Only parts of the head beside it ask.
  std::optional<double> top = std::nullopt;

  friend bool operator==(const ProbeBody&, const ProbeBody&) = default;
};

// Only the offset must be given; what is left out asks for nothing.
struct Probe {
  std::string name;
  Point offset;               // from nozzle to probe
  Point offset_uncertainty;   // standard uncertainty of each component, >= 0
  Shape spot = Point{};       // sensing spot, relative to the probe point
  double edge_distance = 0;   // wanted from the spot to the edge of the bed
  double trigger_height = 0;  // of the nozzle above the bed when the probe triggers
  // Of the nozzle above the bed between points. Moves are not judged where it is not stated.
  std::optional<double> travel_height;
  std::optional<ProbeBody> body;
  bool stowed = true;  // while printing; where it stays down its body is in the way of prints too

  friend bool operator==(const Probe&, const Probe&) = default;
};

// Whether numbers say where the probe shall be or where the nozzle shall be.
enum class Frame { probe, nozzle };

// Distances inward from each side of a bounding box.
struct Margins {
  enum class From { bed, travel };
  double left = 0;
  double right = 0;
  double front = 0;
  double back = 0;
  From from = From::bed;

  friend bool operator==(const Margins&, const Margins&) = default;
};

inline constexpr long kMostGridPoints = 10'000'000;  // of one grid

// Points in columns and rows at equal steps, the outermost on the bounds.
struct Grid {
  int columns = 1;
  int rows = 1;
  std::variant<Box, Margins> extent;  // in `frame`
  Frame frame = Frame::probe;
  bool skip_outside_bed = false;  // leave out grid points off the bed

  friend bool operator==(const Grid&, const Grid&) = default;
};

// A point of the user's own, such as above a levelling screw.
struct NamedPoint {
  std::string name;
  Point at;
  Frame frame = Frame::probe;

  friend bool operator==(const NamedPoint&, const NamedPoint&) = default;
};

// Where the machine probes before it knows its height: judged like any other point.
struct Home {
  Point at;
  Frame frame = Frame::nozzle;

  friend bool operator==(const Home&, const Home&) = default;
};

// What is asked for: any of the three, or nothing.
struct Request {
  std::optional<Grid> grid;
  std::vector<NamedPoint> points;
  std::optional<Home> home;

  friend bool operator==(const Request&, const Request&) = default;
};

// Whether any point is asked for.
bool asks_for_points(const Request& request);

// What the probe's body must not enter, such as the way of a belt, whatever its height.
struct KeptClear {
  std::string name;
  Shape outline;  // relative to the nozzle

  friend bool operator==(const KeptClear&, const KeptClear&) = default;
};

// Where a bracket could hold a probe at all.
struct Mount {
  std::optional<Shape> envelope;  // of the probe point, relative to the nozzle
  std::vector<KeptClear> keep_clear;

  friend bool operator==(const Mount&, const Mount&) = default;
};

// All that a verdict depends on. `coverage_factor` is k of JCGM 100: a guard band is k times the
// standard uncertainty.
struct Setup {
  std::string name;
  Machine machine;
  Probe probe;
  Mount mount;
  double coverage_factor = 2;
  Request request;

  friend bool operator==(const Setup&, const Setup&) = default;
};

// Where the probe is when `at` is meant in `frame`.
Point probe_position(Point at, Frame frame, Point offset);

// The same request, all of it said for the probe: what is asked for the nozzle is converted with
// the setup's offset, and stays where it is when the offset is changed.
Request held_for_probe(const Setup& setup);

// The smallest box around a shape; a multi-polygon without polygons gives an empty box.
Box bounding_box(const Shape& shape);

// The bounds of a grid in its own frame: as given, or inward from the bounding box
// of bed or travel. The box is empty when the margins meet.
Box grid_bounds(const Grid& grid, const Machine& machine);

// The same in probe coordinates.
Box grid_bounds_for_probe(const Setup& setup, const Grid& grid);

// Column 0..columns-1 and row 0..rows-1, from the front left, of a grid over `bounds`. A single
// column or row stands in the middle.
Point grid_point(const Box& bounds, int columns, int rows, int column, int row);

}  // namespace leeway
