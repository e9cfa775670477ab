#pragma once
// Plane geometry as plain values. Lengths are millimetres, areas square millimetres.
//
// Nothing here is checked: a NaN or a box turned round can be built. `validate` (validate.h) says
// whether a setup made of them may be used.

#include <variant>
#include <vector>

#include "leeway/error.h"

namespace leeway {

// A position, or a way from one to another. Compared as it stands, without any tolerance.
struct Point {
  double x = 0;
  double y = 0;

  friend Point operator+(Point a, Point b) { return {a.x + b.x, a.y + b.y}; }
  friend Point operator-(Point a, Point b) { return {a.x - b.x, a.y - b.y}; }
  friend Point operator-(Point a) { return {-a.x, -a.y}; }
  friend Point operator*(double s, Point a) { return {s * a.x, s * a.y}; }
  friend bool operator==(Point a, Point b) { return a.x == b.x && a.y == b.y; }
};

// An axis-parallel rectangle, edges included. Empty when x0 > x1 or y0 > y1.
struct Box {
  double x0 = 0;
  double x1 = 0;
  double y0 = 0;
  double y1 = 0;

  double width() const { return x1 - x0; }
  double depth() const { return y1 - y0; }
  bool empty() const { return x0 > x1 || y0 > y1; }
  friend bool operator==(const Box&, const Box&) = default;
};

// Its rim included. As a limit it is exact: it never becomes a polygon.
struct Disc {
  Point center;
  double radius = 0;

  friend bool operator==(const Disc&, const Disc&) = default;
};

// An axis-parallel rectangle with corners rounded by a radius: what a disc of that radius covers
// whose centre is in the rectangle moved in by it. The radius is above 0 and at most half of the
// shorter side.
struct RoundedBox {
  Box box;
  double radius = 0;

  friend bool operator==(const RoundedBox&, const RoundedBox&) = default;
};

// Values from, ..., to at equal steps. REQUIRES: count >= 1; from < to where count > 1.
struct Steps {
  double from = 0;
  double to = 0;
  int count = 1;

  // 1 where there is only one value, so that one may always divide by it.
  double step() const { return count > 1 ? (to - from) / (count - 1) : 1; }
  // The last value is `to` itself, whatever the steps before it lose in binary.
  double at(int i) const { return i > 0 && i == count - 1 ? to : from + i * step(); }

  friend bool operator==(const Steps&, const Steps&) = default;
};

// A closed ring without the closing point, in either winding.
using Ring = std::vector<Point>;

// An area with its boundary. Rings may wind either way; the holes' edges belong to it.
struct Polygon {
  Ring outer;
  std::vector<Ring> holes;

  friend bool operator==(const Polygon&, const Polygon&) = default;
};

// Polygons whose interiors are disjoint; no polygon at all is the empty set.
using MultiPolygon = std::vector<Polygon>;

// What a setup may say wherever it says "shape". The single point is what an absent sensing
// spot and the bare nozzle are; no file can write it.
using Shape = std::variant<Point, Box, Disc, RoundedBox, MultiPolygon>;

// An overlay of polygons failed its own checks in every way of computing it. A fault of the
// program, never of the input; the message names the operation and where on the bed it was.
class OverlayFault : public Error {
 public:
  using Error::Error;
};

}  // namespace leeway
