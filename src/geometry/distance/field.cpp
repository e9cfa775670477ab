#include "geometry/distance/field.h"

#include <limits>

#include "geometry/distance/convex_distance.h"
#include "geometry/plane/segment.h"
#include "geometry/plane/vector.h"
#include "geometry/plane/wide.h"

namespace leeway {

void Field::distances(const double* xs, const double* ys, double* out, std::size_t count) const {
  for (std::size_t i = 0; i < count; ++i) out[i] = distance({xs[i], ys[i]});
}

namespace {

inline double larger(double a, double b) { return a > b ? a : b; }

// Outside, to the nearest side or corner; inside, less than 0 by the depth below the nearest side.
// One formula for one position and for many, so that both give the same bits.
inline double outside_box_distance(const Box& box, double x, double y) {
  const double dx = larger(box.x0 - x, x - box.x1);
  const double dy = larger(box.y0 - y, y - box.y1);
  const double out_x = larger(dx, 0.0);
  const double out_y = larger(dy, 0.0);
  return std::sqrt(out_x * out_x + out_y * out_y) - larger(-larger(dx, dy), 0.0);
}

LEEWAY_WIDE void outside_box_distances(Box box, const double* xs, const double* ys,
                                       double* __restrict out, std::size_t count) {
  for (std::size_t i = 0; i < count; ++i) out[i] = outside_box_distance(box, xs[i], ys[i]);
}

LEEWAY_WIDE void beyond_side_distances(const double* values, double bound, double facing,
                                       double* __restrict out, std::size_t count) {
  for (std::size_t i = 0; i < count; ++i) out[i] = facing * (values[i] - bound);
}

// sign * (|p - center| - radius)
LEEWAY_WIDE void disc_distances(Disc disc, double sign, const double* xs, const double* ys,
                                double* __restrict out, std::size_t count) {
  for (std::size_t i = 0; i < count; ++i) {
    const double x = xs[i] - disc.center.x;
    const double y = ys[i] - disc.center.y;
    out[i] = sign * (std::sqrt(x * x + y * y) - disc.radius);
  }
}

class BeyondSide final : public Field {
 public:
  BeyondSide(Axis axis, double bound, int facing) : axis_(axis), bound_(bound), facing_(facing) {}

  double distance(Point p) const override {
    return facing_ * ((axis_ == Axis::x ? p.x : p.y) - bound_);
  }
  GuardedDistance guarded_distance(Point p, const Spread& spread) const override {
    return {distance(p), spread.along(axis_ == Axis::x ? Point{1, 0} : Point{0, 1})};
  }
  void distances(const double* xs, const double* ys, double* out,
                 std::size_t count) const override {
    beyond_side_distances(axis_ == Axis::x ? xs : ys, bound_, facing_, out, count);
  }
  double least_along(Point a, Point b) const override { return std::min(distance(a), distance(b)); }

 private:
  Axis axis_;
  double bound_;
  int facing_;
};

class InsideDisc final : public Field {
 public:
  explicit InsideDisc(Disc disc) : disc_(disc) {}

  double distance(Point p) const override { return disc_.radius - norm(p - disc_.center); }
  GuardedDistance guarded_distance(Point p, const Spread& spread) const override {
    const Point v = p - disc_.center;
    const double length = norm(v);
    return {disc_.radius - length, spread.within_disc(v)};
  }
  void distances(const double* xs, const double* ys, double* out,
                 std::size_t count) const override {
    disc_distances(disc_, -1, xs, ys, out, count);
  }
  double least_along(Point a, Point b) const override { return std::min(distance(a), distance(b)); }

 private:
  Disc disc_;
};

// Signed distances to a convex set are convex functions along a line, so that a search by thirds
// finds their minimum; least_along of the two classes below rests on it.

class OutsideDisc final : public Field {
 public:
  explicit OutsideDisc(Disc disc) : disc_(disc) {}

  double distance(Point p) const override { return norm(p - disc_.center) - disc_.radius; }
  GuardedDistance guarded_distance(Point p, const Spread& spread) const override {
    const Point v = p - disc_.center;
    const double length = norm(v);
    return {length - disc_.radius, spread.along(v, length)};
  }
  void distances(const double* xs, const double* ys, double* out,
                 std::size_t count) const override {
    disc_distances(disc_, 1, xs, ys, out, count);
  }
  double least_along(Point a, Point b) const override {
    return nearest_on_segment(a, b, disc_.center).distance - disc_.radius;
  }

 private:
  Disc disc_;
};

class OutsideBox final : public Field {
 public:
  explicit OutsideBox(const Box& box) : box_(box) {}

  double distance(Point p) const override { return outside_box_distance(box_, p.x, p.y); }
  GuardedDistance guarded_distance(Point p, const Spread& spread) const override {
    const double dx = std::max(box_.x0 - p.x, p.x - box_.x1);
    const double dy = std::max(box_.y0 - p.y, p.y - box_.y1);
    const double away = distance(p);
    const double near_corner = std::min(dx, dy);
    if (near_corner > Spread::kNoise) return {away, spread.along({dx, dy}, away)};
    // Inside, where two sides are equally near either may decide: the larger guard counts.
    const bool tie = std::abs(dx - dy) < Spread::kNoise;
    if (tie) return {away, spread.most()};
    return {away, spread.along(dx > dy ? Point{1, 0} : Point{0, 1})};
  }
  void distances(const double* xs, const double* ys, double* out,
                 std::size_t count) const override {
    outside_box_distances(box_, xs, ys, out, count);
  }
  double least_along(Point a, Point b) const override {
    return least_convex([this](Point p) { return distance(p); }, a, b);
  }

 private:
  Box box_;
};

class Nowhere final : public Field {
 public:
  double distance(Point) const override { return -std::numeric_limits<double>::infinity(); }
  GuardedDistance guarded_distance(Point p, const Spread& spread) const override {
    return {distance(p), spread.most()};
  }
  double least_along(Point a, Point) const override { return distance(a); }
};

}  // namespace

FieldPtr beyond_side(Axis axis, double bound, int facing) {
  return std::make_unique<BeyondSide>(axis, bound, facing);
}
FieldPtr inside_disc(Disc disc) { return std::make_unique<InsideDisc>(disc); }
FieldPtr outside_disc(Disc disc) { return std::make_unique<OutsideDisc>(disc); }
FieldPtr outside_box(const Box& box) { return std::make_unique<OutsideBox>(box); }
FieldPtr nowhere() { return std::make_unique<Nowhere>(); }

}  // namespace leeway
