#include "tasks/cover/arc.h"

#include <algorithm>
#include <cmath>

namespace leeway {
namespace {

constexpr double kTurn = 6.283185307179586;
constexpr double kMostChords = 10'000;

struct ArcAngles {
  double radius = 0;
  double from = 0;
  double sweep = 0;  // above 0 anticlockwise, at most a turn either way
};

ArcAngles arc_angles(const PrintedMove& move) {
  const Point start = move.from - *move.center;
  const Point end = move.to - *move.center;
  ArcAngles arc{std::hypot(start.x, start.y), std::atan2(start.y, start.x), 0};
  arc.sweep = std::atan2(end.y, end.x) - arc.from;
  if (move.clockwise) {
    if (arc.sweep >= 0) arc.sweep -= kTurn;
  } else if (arc.sweep <= 0) {
    arc.sweep += kTurn;
  }
  if (move.from == move.to) arc.sweep = move.clockwise ? -kTurn : kTurn;
  return arc;
}

// Whether the arc passes the direction `angle`.
bool passes(const ArcAngles& arc, double angle) {
  double ahead = arc.sweep > 0 ? angle - arc.from : arc.from - angle;
  while (ahead < 0) ahead += kTurn;
  while (ahead >= kTurn) ahead -= kTurn;
  return ahead < std::fabs(arc.sweep);
}

}  // namespace

Box box_of(const PrintedMove& move) {
  Box box{std::min(move.from.x, move.to.x), std::max(move.from.x, move.to.x),
          std::min(move.from.y, move.to.y), std::max(move.from.y, move.to.y)};
  if (!move.center) return box;
  const ArcAngles arc = arc_angles(move);
  const Point c = *move.center;
  if (passes(arc, 0)) box.x1 = std::max(box.x1, c.x + arc.radius);
  if (passes(arc, kTurn / 4)) box.y1 = std::max(box.y1, c.y + arc.radius);
  if (passes(arc, kTurn / 2)) box.x0 = std::min(box.x0, c.x - arc.radius);
  if (passes(arc, 3 * kTurn / 4)) box.y0 = std::min(box.y0, c.y - arc.radius);
  return box;
}

std::vector<Point> chords_of(const PrintedMove& move, double most) {
  std::vector<Point> corners{move.from};
  if (move.center) {
    const ArcAngles arc = arc_angles(move);
    // A chord over an angle a is r (1 - cos(a / 2)) from its arc.
    const double angle = 2 * std::acos(1 - std::min(1.0, most / std::max(arc.radius, most)));
    const double count = std::clamp(std::ceil(std::fabs(arc.sweep) / angle), 1.0, kMostChords);
    for (double i = 1; i < count; ++i) {
      const double at = arc.from + arc.sweep * i / count;
      corners.push_back(*move.center + arc.radius * Point{std::cos(at), std::sin(at)});
    }
  }
  corners.push_back(move.to);
  return corners;
}

}  // namespace leeway
