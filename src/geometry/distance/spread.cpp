#include "geometry/distance/spread.h"

#include "geometry/plane/assert.h"

namespace leeway {
namespace {

// Half the axes of the ellipse whose support function the guard is.
struct Ellipse {
  double a = 0;
  double b = 0;

  double support(Point m) const { return std::sqrt(a * a * m.x * m.x + b * b * m.y * m.y); }
};

// From the parametric angle of its farthest point: where the derivative of the square of the
// distance, which divided by sine and cosine falls all the way through the quadrant, is 0. With the
// tangent t of half the angle, sine and cosine are 2t / (1 + t^2) and (1 - t^2) / (1 + t^2):
// nothing here calls the C library's, which are slow and differ in the last bit from one to the
// next. By Newton's method, and by halving where that leaves the bracket.
double farthest_by_angle(Point v, const Ellipse& e) {
  const double up = e.b * v.y;
  const double down = 2 * e.a * v.x;
  const double across = 2 * (e.b * e.b - e.a * e.a);
  double low = 0;
  double high = 1;
  double t = 0.5;
  // The distance is flat at its greatest: so much off in t is far below rounding there.
  constexpr double kNear = 1e-11;
  for (int i = 0; i < 40; ++i) {
    const double tt = t * t;
    const double rises = up * (1 - tt * tt) - down * t * (1 + tt) + across * t * (1 - tt);
    const double slope = -4 * up * t * tt - down * (1 + 3 * tt) + across * (1 - 3 * tt);
    (rises > 0 ? low : high) = t;
    const double newton = t - rises / slope;
    const double next = newton > low && newton < high ? newton : (low + high) / 2;
    const bool near = std::abs(next - t) < kNear;
    t = next;
    if (near) break;
  }
  const double more = 1 + t * t;
  return std::hypot(v.x + e.a * (1 - t * t) / more, v.y + 2 * e.b * t / more);
}

// How far the farthest point of the ellipse around v is from the origin. REQUIRES: v in the first
// quadrant, not the origin.
double farthest(Point v, const Ellipse& e) {
  LEEWAY_ASSERT(v.x >= 0 && v.y >= 0);
  const double length = std::sqrt(v.x * v.x + v.y * v.y);
  if (length < 8 * std::max(e.a, e.b)) return farthest_by_angle(v, e);
  // Seen from far away: towards the point of the ellipse that is farthest in the direction seen
  // before. Off the axes at first, where the direction might be stuck in a saddle.
  Point m = (1 / length) * (v + Point{1e-6 * length, 1e-6 * length});
  for (int i = 0; i < 30; ++i) {
    const double support = e.support(m);
    const Point p = v + (1 / support) * Point{e.a * e.a * m.x, e.b * e.b * m.y};
    const double away = std::sqrt(p.x * p.x + p.y * p.y);
    const Point next = (1 / away) * p;
    // The distance is flat there: an angle off by d costs d^2.
    if (std::abs(next.x - m.x) + std::abs(next.y - m.y) < 1e-9) return away;
    m = next;
  }
  return farthest_by_angle(v, e);
}

}  // namespace

double Spread::within_disc(Point v) const {
  if (same_all_round()) return most();
  const double length = std::sqrt(v.x * v.x + v.y * v.y);
  if (length <= kNoise || factor <= 0) return most();
  // max over unit m of (v . m + along(m)) is the support of the ellipse around v, over all
  // directions: the distance of its farthest point.
  const Ellipse ellipse{factor * std::hypot(x, all), factor * std::hypot(y, all)};
  return farthest({std::abs(v.x), std::abs(v.y)}, ellipse) - length;
}

}  // namespace leeway
