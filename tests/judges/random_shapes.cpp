#include "judges/random_shapes.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "judges/shapes.h"

namespace leeway::judges {
namespace {

// A ring with a box that is known to lie inside it, for holes; empty where none is known.
struct Patch {
  Ring outer;
  Box inner;
  bool inner_touches = false;  // the left side of `inner` runs along the ring
};

constexpr Box kNoRoom{1, 0, 1, 0};

double cross(Point a, Point b) { return a.x * b.y - a.y * b.x; }
double dot(Point a, Point b) { return a.x * b.x + a.y * b.y; }
double half(double v) { return std::floor(v / 2); }

// A whole number strictly between, in the given part of the way.
double between(Random& random, double low, double high, double from = 0.2, double to = 0.8) {
  const double a = std::max(low + 1, std::ceil(low + from * (high - low)));
  const double b = std::min(high - 1, std::floor(low + to * (high - low)));
  return a >= b ? a : random.whole(static_cast<int>(a), static_cast<int>(b));
}

Ring box_ring(const Box& b) { return {{b.x0, b.y0}, {b.x1, b.y0}, {b.x1, b.y1}, {b.x0, b.y1}}; }

Box inset(const Box& b, double by) { return {b.x0 + by, b.x1 - by, b.y0 + by, b.y1 - by}; }

Patch chamfered(Random& random, const Box& b) {
  const double most = std::floor(std::min(b.width(), b.depth()) / 3);
  const double cut = std::max(1.0, random.whole(1, static_cast<int>(std::max(1.0, most))) * 1.0);
  const int corners = random.whole(1, 15);  // bits: which corners are cut
  Ring ring;
  const auto corner = [&](int bit, Point at, Point in, Point out) {
    if ((corners >> bit) & 1) {
      ring.push_back(at + cut * in);
      ring.push_back(at + cut * out);
    } else {
      ring.push_back(at);
    }
  };
  corner(0, {b.x0, b.y0}, {0, 1}, {1, 0});
  corner(1, {b.x1, b.y0}, {-1, 0}, {0, 1});
  corner(2, {b.x1, b.y1}, {0, -1}, {-1, 0});
  corner(3, {b.x0, b.y1}, {1, 0}, {0, -1});
  return {ring, inset(b, cut), false};
}

Patch rectilinear(Random& random, const Box& b) {
  const double xa = between(random, b.x0, b.x1, 0.2, 0.45);
  const double xb = between(random, b.x0, b.x1, 0.55, 0.8);
  const double ym = between(random, b.y0, b.y1, 0.3, 0.8);
  const Box base{b.x0, b.x1, b.y0, ym};
  switch (random.whole(0, 3)) {
    case 0:  // L
      return {
          {{b.x0, b.y0}, {b.x1, b.y0}, {b.x1, ym}, {xa, ym}, {xa, b.y1}, {b.x0, b.y1}}, base, true};
    case 1:  // U
      return {{{b.x0, b.y0},
               {b.x1, b.y0},
               {b.x1, b.y1},
               {xb, b.y1},
               {xb, ym},
               {xa, ym},
               {xa, b.y1},
               {b.x0, b.y1}},
              base,
              true};
    case 2:  // T
      return {{{b.x0, b.y0},
               {b.x1, b.y0},
               {b.x1, ym},
               {xb, ym},
               {xb, b.y1},
               {xa, b.y1},
               {xa, ym},
               {b.x0, ym}},
              base,
              true};
    default: {  // cross
      const double yl = between(random, b.y0, ym, 0.1, 0.6);
      return {{{xa, b.y0},
               {xb, b.y0},
               {xb, yl},
               {b.x1, yl},
               {b.x1, ym},
               {xb, ym},
               {xb, b.y1},
               {xa, b.y1},
               {xa, ym},
               {b.x0, ym},
               {b.x0, yl},
               {xa, yl}},
              {xa, xb, b.y0, b.y1},
              false};
    }
  }
}

Patch slanted(Random& random, const Box& b) {
  if (random.one_in(3)) {
    return {
        {{b.x0, b.y0}, {b.x1, between(random, b.y0, b.y1)}, {between(random, b.x0, b.x1), b.y1}},
        kNoRoom,
        false};
  }
  const Ring ring{{between(random, b.x0, b.x1, 0.34, 0.66), b.y0},
                  {b.x1, between(random, b.y0, b.y1, 0.34, 0.66)},
                  {between(random, b.x0, b.x1, 0.34, 0.66), b.y1},
                  {b.x0, between(random, b.y0, b.y1, 0.34, 0.66)}};
  // With every vertex in the middle third of its side the middle quarter is always inside.
  const double dx = std::floor(b.width() / 8);
  const double dy = std::floor(b.depth() / 8);
  const Point c{b.x0 + half(b.width()), b.y0 + half(b.depth())};
  return {ring, {c.x - dx, c.x + dx, c.y - dy, c.y + dy}, false};
}

Patch star(Random& random, const Box& b) {
  const int n = random.whole(6, 11);
  const Point c{b.x0 + half(b.width()), b.y0 + half(b.depth())};
  const double rx = half(b.width());
  const double ry = half(b.depth());
  Ring ring;
  for (int i = 0; i < n; ++i) {
    const double turn = 2 * std::numbers::pi * (i + random.real(-0.3, 0.3)) / n;
    const double reach = random.one_in(2) ? random.real(0.45, 0.6) : random.real(0.8, 1);
    ring.push_back({c.x + std::round(rx * reach * std::cos(turn)),
                    c.y + std::round(ry * reach * std::sin(turn))});
  }
  if (!is_simple(ring)) return slanted(random, b);
  const double in = std::floor(0.15 * std::min(rx, ry));
  return {ring, {c.x - in, c.x + in, c.y - in, c.y + in}, false};
}

Patch rounded(Random& random, const Box& b) {
  const double r = half(std::min(b.width(), b.depth()));
  const Point c{b.x0 + half(b.width()), b.y0 + half(b.depth())};
  const int sides = r > 60 ? random.pick({16, 16, 32, 64}) : 8;
  const double in = std::floor(0.55 * r);
  return {round_ring(c, r, sides), {c.x - in, c.x + in, c.y - in, c.y + in}, false};
}

Patch patch(Random& random, Outline outline, const Box& b) {
  switch (outline) {
    case Outline::chamfered:
      return chamfered(random, b);
    case Outline::rectilinear:
      return rectilinear(random, b);
    case Outline::slanted:
      return slanted(random, b);
    case Outline::star:
      return star(random, b);
    case Outline::round:
      return rounded(random, b);
    case Outline::rectangle:
      break;
  }
  return {box_ring(b), b, true};
}

Ring diamond(const Box& b) {
  const double xm = b.x0 + half(b.width());
  const double ym = b.y0 + half(b.depth());
  return {{xm, b.y0}, {b.x1, ym}, {xm, b.y1}, {b.x0, ym}};
}

// Two diamonds that touch each other at a vertex; the first also touches the left side.
std::vector<Ring> touching_holes(const Box& b, bool at_the_side) {
  const double left = b.x0 + (at_the_side ? 0 : 1);
  const double middle = b.x0 + half(b.width());
  return {diamond({left, middle, b.y0 + 1, b.y1 - 1}),
          diamond({middle, b.x1 - 1, b.y0 + 1, b.y1 - 1})};
}

std::vector<Ring> holes_inside(Random& random, Outline outline, const Patch& p, Touching touching) {
  if (p.inner.width() < 24 || p.inner.depth() < 12) return {};
  if (touching == Touching::yes && random.one_in(5))
    return touching_holes(p.inner, p.inner_touches);
  const int cells = random.whole(1, p.inner.width() >= 48 ? 3 : 1);
  const double width = std::floor(p.inner.width() / cells);
  std::vector<Ring> holes;
  for (int i = 0; i < cells; ++i) {
    Box cell{p.inner.x0 + i * width, p.inner.x0 + (i + 1) * width, p.inner.y0, p.inner.y1};
    cell = inset(cell, random.whole(1, 2));
    const double cut = std::floor((cell.depth() - 8) / 2);
    cell.y0 += random.whole(0, static_cast<int>(cut));
    cell.y1 -= random.whole(0, static_cast<int>(cut));
    if (cell.width() < 8 || cell.depth() < 8) continue;
    holes.push_back(random_ring(random, outline, cell));
  }
  return holes;
}

}  // namespace

bool is_simple(const Ring& ring) {
  const std::size_t n = ring.size();
  if (n < 3) return false;
  const auto side = [](Point a, Point b, Point p) {
    const double s = cross(b - a, p - a);
    return s > 0 ? 1 : s < 0 ? -1 : 0;
  };
  const auto on = [](Point a, Point b, Point p) {
    return dot(p - a, p - b) <= 0;  // REQUIRES: in line with a and b
  };
  for (std::size_t i = 0; i < n; ++i) {
    const Point a = ring[i];
    const Point b = ring[(i + 1) % n];
    const Point next = ring[(i + 2) % n];
    if (a == b) return false;
    if (side(a, b, next) == 0 && dot(b - a, next - b) < 0) return false;
    for (std::size_t k = i + 2; k < n; ++k) {
      if (i == 0 && k == n - 1) continue;
      const Point c = ring[k];
      const Point d = ring[(k + 1) % n];
      const int c_side = side(a, b, c);
      const int d_side = side(a, b, d);
      const int a_side = side(c, d, a);
      const int b_side = side(c, d, b);
      if (c_side * d_side < 0 && a_side * b_side < 0) return false;
      if ((c_side == 0 && on(a, b, c)) || (d_side == 0 && on(a, b, d))) return false;
      if ((a_side == 0 && on(c, d, a)) || (b_side == 0 && on(c, d, b))) return false;
    }
  }
  return true;
}

Ring round_ring(Point center, double radius, int sides) {
  Ring ring;
  for (int i = 0; i < sides; ++i) {
    const double turn = 2 * std::numbers::pi * i / sides;
    const Point p{center.x + std::round(radius * std::cos(turn)),
                  center.y + std::round(radius * std::sin(turn))};
    // Rounding may dent the circle: keep only what turns left.
    while (ring.size() >= 2 && cross(ring.back() - ring[ring.size() - 2], p - ring.back()) <= 0) {
      ring.pop_back();
    }
    if (ring.empty() || !(ring.back() == p)) ring.push_back(p);
  }
  while (ring.size() > 3 &&
         cross(ring.back() - ring[ring.size() - 2], ring[0] - ring.back()) <= 0) {
    ring.pop_back();
  }
  return ring;
}

Ring random_ring(Random& random, Outline outline, const Box& within) {
  Ring ring = patch(random, outline, within).outer;
  if (random.one_in(2)) std::reverse(ring.begin(), ring.end());
  return ring;
}

Polygon random_polygon(Random& random, Outline outline, const Box& within, Touching holes) {
  const Patch p = patch(random, outline, within);
  const bool same = outline != Outline::round && random.one_in(2);
  const Outline hole = same ? outline : random.pick({Outline::rectangle, Outline::chamfered});
  Polygon polygon{p.outer,
                  !random.one_in(3) ? std::vector<Ring>{} : holes_inside(random, hole, p, holes)};
  const bool flip_x = random.one_in(2);
  const bool flip_y = random.one_in(2);
  return changed({polygon},
                 [&](Point at) -> Point {
                   return {flip_x ? within.x0 + within.x1 - at.x : at.x,
                           flip_y ? within.y0 + within.y1 - at.y : at.y};
                 })
      .front();
}

MultiPolygon random_multi_polygon(Random& random, Outline outline, const Box& b) {
  const double xm = between(random, b.x0, b.x1, 0.3, 0.7);
  const double ym = between(random, b.y0, b.y1, 0.3, 0.7);
  switch (random.whole(0, 2)) {
    case 0: {
      const double gap = std::min(random.whole(1, 40) * 1.0, std::floor((b.x1 - xm) / 4));
      return {random_polygon(random, outline, {b.x0, xm, b.y0, b.y1}),
              random_polygon(random, outline, {xm + gap, b.x1, b.y0, b.y1})};
    }
    case 1:
      return {{box_ring({b.x0, xm, b.y0, ym}), {}}, {box_ring({xm, b.x1, ym, b.y1}), {}}};
    default: {
      const double edge = std::floor(std::min(b.width(), b.depth()) / 5);
      const Box hole = inset(b, std::max(1.0, edge));
      const Box island = inset(hole, std::max(1.0, std::floor(edge / 2)));
      MultiPolygon both{{box_ring(b), {box_ring(hole)}}};
      if (island.width() >= 8 && island.depth() >= 8) {
        both.push_back(random_polygon(random, outline, island));
      }
      return both;
    }
  }
}

Shape in_mm(const Shape& shape, double units_per_mm) {
  const auto mm = [=](Point p) -> Point { return {p.x / units_per_mm, p.y / units_per_mm}; };
  const auto box = [&](const Box& b) {
    const Point low = mm({b.x0, b.y0});
    const Point high = mm({b.x1, b.y1});
    return Box{low.x, high.x, low.y, high.y};
  };
  return std::visit(
      Kinds{[&](Point p) -> Shape { return mm(p); }, [&](const Box& b) -> Shape { return box(b); },
            [&](const Disc& d) -> Shape {
              return Disc{mm(d.center), d.radius / units_per_mm};
            },
            [&](const RoundedBox& rounded) -> Shape {
              return RoundedBox{box(rounded.box), rounded.radius / units_per_mm};
            },
            [&](const MultiPolygon& p) -> Shape { return changed(p, mm); }},
      shape);
}

}  // namespace leeway::judges
