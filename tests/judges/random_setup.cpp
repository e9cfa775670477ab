#include "judges/random_setup.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <string>
#include <utility>
#include <vector>

#include "judges/random_shapes.h"
#include "judges/shapes.h"
#include "leeway/validate.h"

namespace leeway::judges {
namespace {

// Smallest extent, in units, of a box that still holds any polygon of random_shapes.h.
constexpr double kLeastForPolygon = 24;
constexpr double kLeastForMulti = 60;

MultiPolygon rotated_a_little(const MultiPolygon& polygons, double turn) {
  const double c = std::cos(turn);
  const double s = std::sin(turn);
  return changed(polygons, [=](Point p) -> Point {
    return {c * p.x - s * p.y, s * p.x + c * p.y};
  });
}

// Rounding noise on every vertex, as sums that should cancel leave it, or a little more.
MultiPolygon with_noise(Random& random, const MultiPolygon& polygons) {
  const double there = random.real(5, 500);
  const double noise = random.pick({0.0, 1e-12, 1e-9});
  const auto jolt = [&](double v) { return (v + there) - there + random.real(-noise, noise); };
  return changed(polygons, [&](Point p) {
    const double x = jolt(p.x);
    return Point{x, jolt(p.y)};
  });
}

// Makes one setup. Shapes are in units (see random_shapes.h) until `finish`.
class Maker {
 public:
  Maker(std::uint64_t seed, const RandomSetupOptions& options) : random_(seed), options_(options) {
    const auto other = static_cast<Family>(random_.whole(1, kFamilies - 1));
    family_ = options.family ? *options.family : random_.one_in(2) ? Family::mixed : other;
    per_mm_ = random_.pick({2, 10, 10, 100});
  }

  Setup make() {
    setup_.name = std::string("random ") + word(family_);
    setup_.coverage_factor = random_.pick({1.0, 2.0, 2.0, 2.5, 3.0});
    make_bed();
    make_probe();
    make_travel();
    const int obstacles = random_.whole(0, 6);
    for (int i = 1; i <= obstacles; ++i) add_obstacle(i);
    const int parts = random_.whole(0, 3);
    for (int i = 1; i <= parts; ++i) add_part(i);
    finish();
    add_noise();
    make_uncertainties();
    make_request();
    return std::move(setup_);
  }

 private:
  enum class Kind { box, disc, rounded, polygon, multi };

  double units(double mm) const { return std::round(mm * per_mm_); }
  double size(double low_mm, double high_mm) {
    return std::max(8.0, units(random_.real(low_mm, high_mm)));
  }
  double decimal(double low_mm, double high_mm) {
    return units(random_.real(low_mm, high_mm)) / per_mm_;
  }
  double distance(std::initializer_list<double> mm) {
    return options_.distances ? random_.pick(mm) : 0;
  }

  Outline outline() {
    switch (family_) {
      case Family::rectangles:
        return random_.pick({Outline::rectangle, Outline::rectilinear});
      case Family::chamfers:
        return random_.pick({Outline::chamfered, Outline::chamfered, Outline::rectilinear});
      case Family::slanted:
        return random_.pick({Outline::slanted, Outline::star});
      case Family::rounds:
        return Outline::round;
      case Family::near_copies:
        return random_.pick({Outline::slanted, Outline::round, Outline::chamfered});
      case Family::mixed:
        break;
    }
    return random_.pick({Outline::rectangle, Outline::chamfered, Outline::rectilinear,
                         Outline::slanted, Outline::star, Outline::round});
  }

  // Weights are in tenths: boxes, discs, polygons; the rest are multi-polygons.
  Kind kind(int boxes, int discs, int polygons) {
    const int roll = random_.whole(1, 10);
    if (roll <= boxes) return Kind::box;
    if (roll <= boxes + discs) {
      if (family_ != Family::mixed || !options_.discs) return Kind::polygon;
      return random_.one_in(2) ? Kind::disc : Kind::rounded;
    }
    return roll <= boxes + discs + polygons ? Kind::polygon : Kind::multi;
  }

  Shape shape(Kind of, const Box& within) {
    const double least = std::min(within.width(), within.depth());
    if (of == Kind::disc) {
      const double r = std::max(1.0, std::floor(least / 2));
      return Disc{{within.x0 + r, within.y0 + r}, r};
    }
    if (of == Kind::rounded) {
      const double r = least * random_.pick({0.5, 0.5, 0.3, 0.1});
      return RoundedBox{within, std::max(1.0, std::floor(r))};
    }
    // Noise on every vertex would turn a touch into a crossing.
    const bool exact = family_ != Family::near_copies;
    if (of == Kind::multi && exact && least >= kLeastForMulti) {
      return random_multi_polygon(random_, outline(), within);
    }
    if (of != Kind::box && least >= kLeastForPolygon) {
      return MultiPolygon{
          random_polygon(random_, outline(), within, exact ? Touching::yes : Touching::no)};
    }
    return within;
  }

  // A shape about a point, a little or a lot off it.
  Shape shape_about(Kind of, double low_mm, double high_mm, double off_mm) {
    const double w = size(low_mm, high_mm);
    const double d = random_.one_in(3) ? w : size(low_mm, high_mm);
    const Point c{units(random_.real(-off_mm, off_mm)), units(random_.real(-off_mm, off_mm))};
    const Point low{c.x - std::floor(w / 2), c.y - std::floor(d / 2)};
    return shape(of, {low.x, low.x + w, low.y, low.y + d});
  }

  void make_bed() {
    const double w = size(60, 320);
    const double d = random_.one_in(4) ? w : size(60, 320);
    Point low{0, 0};
    if (random_.one_in(3)) low = {-std::floor(w / 2), -std::floor(d / 2)};
    if (random_.one_in(4)) low = {units(random_.real(-40, 40)), units(random_.real(-40, 40))};
    const bool chamfers = family_ == Family::chamfers && !random_.one_in(4);
    setup_.machine.bed =
        shape(chamfers ? Kind::polygon : kind(4, 2, 3), {low.x, low.x + w, low.y, low.y + d});
    setup_.machine.print_inset = distance({0, 0, 1, 2.5});
    placed_.push_back(setup_.machine.bed);
  }

  void make_probe() {
    Probe& probe = setup_.probe;
    probe.name = "random probe";
    probe.offset = {decimal(-60, 60), decimal(-60, 60)};
    if (random_.one_in(8)) probe.offset = {};
    if (!random_.one_in(4)) {
      const bool huge = random_.one_in(60);  // which may fit on no place of the bed
      probe.spot =
          shape_about(kind(3, 4, 2), huge ? 80 : 1, huge ? 200 : 16, random_.one_in(2) ? 0 : 5);
    }
    probe.edge_distance = distance({0, 0, 0.5, 1, 2.5});
    probe.trigger_height = random_.pick({0.0, 1.0, 2.0, 3.0});
    probe.travel_height = probe.trigger_height + random_.pick({0.0, 3.0, 6.0});
    if (random_.one_in(2)) {
      probe.body = ProbeBody{shape_about(kind(5, 2, 2), 4, 30, 6),
                             random_.pick({-3.0, -1.0, 0.0, 1.0, 3.0, 4.0})};
    }
  }

  void make_travel() {
    const Box bed = bounding_box(setup_.machine.bed);
    const Kind of = kind(5, 2, 2);
    const auto side = [&] { return units(random_.real(-15, 35)); };
    Box box{bed.x0 - side(), bed.x1 + side(), bed.y0 - side(), bed.y1 + side()};
    if (random_.one_in(3)) {  // as far as the probe needs it, to the unit
      const Point o{units(setup_.probe.offset.x), units(setup_.probe.offset.y)};
      box = {bed.x0 - o.x, bed.x1 - o.x, bed.y0 - o.y, bed.y1 - o.y};
    }
    if (random_.one_in(4)) box = bed;
    if (random_.one_in(3)) {
      // What the builder of a machine with the usual play at both sides has.
      box = {box.x0 - units(4), box.x1 + units(6), box.y0 - units(2), box.y1 + units(4)};
    }
    setup_.machine.travel = shape(of, box);
  }

  // A lattice point on an edge of a shape that is already there.
  Point point_on_an_edge() {
    const Shape& there = random_.pick_from(placed_);
    if (std::holds_alternative<Disc>(there)) return {};
    if (const auto* rounded = std::get_if<RoundedBox>(&there)) {
      return {rounded->box.x0 + rounded->radius, rounded->box.y0};
    }
    const MultiPolygon polygons = as_polygons(there);
    const Polygon& polygon = random_.pick_from(polygons);
    const Ring& ring = polygon.holes.empty() || random_.one_in(2)
                           ? polygon.outer
                           : random_.pick_from(polygon.holes);
    const auto i = static_cast<std::size_t>(random_.whole(0, static_cast<int>(ring.size()) - 1));
    const Point a = ring[i];
    const Point along = ring[(i + 1) % ring.size()] - a;
    const long steps = std::max(1L, std::gcd(std::lround(along.x), std::lround(along.y)));
    const double t = random_.whole(0, static_cast<int>(steps)) / static_cast<double>(steps);
    return {std::round(a.x + t * along.x), std::round(a.y + t * along.y)};
  }

  // A vertex, or for a disc a point at 0, 37 or 90 degrees (6-8-10 triangles are on the lattice).
  Point point_of(const Shape& of) {
    if (const auto* d = std::get_if<Disc>(&of)) {
      const double r = d->radius;
      const bool whole = std::fmod(r, 5) == 0;
      return d->center + random_.pick({Point{r, 0}, Point{0, -r}, Point{-r, 0},
                                       whole ? Point{0.6 * r, 0.8 * r} : Point{0, r}});
    }
    if (const auto* rounded = std::get_if<RoundedBox>(&of)) {
      const Box& b = rounded->box;
      const double r = rounded->radius;
      return random_.pick({Point{b.x0, b.y0 + r}, Point{b.x1 - r, b.y0}, Point{b.x1, b.y1 - r}});
    }
    const MultiPolygon polygons = as_polygons(of);
    return random_.pick_from(random_.pick_from(polygons).outer);
  }

  // Moves a new shape so that it touches, or is flush with, something already there.
  Shape put(const Shape& fresh) {
    const Box bed = bounding_box(setup_.machine.bed);
    const Box own = bounding_box(fresh);
    const auto anywhere = [&](double low, double high) {
      return static_cast<double>(random_.whole(static_cast<int>(low), static_cast<int>(high)));
    };
    Point by{anywhere(bed.x0, bed.x1) - own.x0 - std::floor(own.width() / 2),
             anywhere(bed.y0, bed.y1) - own.y0 - std::floor(own.depth() / 2)};
    const int way = random_.whole(0, family_ == Family::mixed ? 3 : 2);
    if (way == 0) {
      by = point_on_an_edge() - point_of(fresh);
    } else if (way == 1) {  // flush with a side of a box around something
      const Box other = bounding_box(random_.pick_from(placed_));
      if (random_.one_in(2)) {
        by.x = random_.pick({other.x0, other.x1}) - random_.pick({own.x0, own.x1});
      } else {
        by.y = random_.pick({other.y0, other.y1}) - random_.pick({own.y0, own.y1});
      }
    }
    return moved(fresh, by);
  }

  Shape copy_of_an_obstacle() {
    const Shape& from = setup_.machine.obstacles.empty()
                            ? random_.pick_from(placed_)
                            : random_.pick_from(setup_.machine.obstacles).shape;
    const Box box = bounding_box(from);
    Point by{random_.pick({0.0, box.width(), -box.width()}),
             random_.pick({0.0, box.depth(), -box.depth()})};
    if (random_.one_in(4)) by = {std::floor(by.x / 2), by.y};
    return moved(from, by);
  }

  void add_obstacle(int number) {
    Obstacle obstacle;
    obstacle.name = "obstacle " + std::to_string(number);
    const bool copies = family_ == Family::rounds || family_ == Family::near_copies;
    if (number > 1 && random_.one_in(copies ? 2 : 6)) {
      obstacle.shape = copy_of_an_obstacle();
    } else {
      obstacle.shape = put(shape_about(kind(3, 2, 4), 2, 50, 0));
    }
    obstacle.height = random_.pick({0.0, 1.0, 2.0, 4.0, 6.0, 12.0, kUnlimitedHeight});
    obstacle.clearance = distance({0, 0, 0.5, 1, 2.5});
    placed_.push_back(obstacle.shape);
    setup_.machine.obstacles.push_back(std::move(obstacle));
  }

  void add_part(int number) {
    HeadPart part;
    part.name = "part " + std::to_string(number);
    part.outline = shape_about(kind(4, 2, 3), 3, 30, 35);
    part.underside = random_.pick({0.0, 1.0, 2.0, 3.0, 5.0, 8.0});
    setup_.machine.head.push_back(std::move(part));
  }

  void finish() {
    Machine& machine = setup_.machine;
    machine.name = "random machine";
    machine.bed = in_mm(machine.bed, per_mm_);
    machine.travel = in_mm(machine.travel, per_mm_);
    setup_.probe.spot = in_mm(setup_.probe.spot, per_mm_);
    if (setup_.probe.body) setup_.probe.body->outline = in_mm(setup_.probe.body->outline, per_mm_);
    for (Obstacle& o : machine.obstacles) o.shape = in_mm(o.shape, per_mm_);
    for (HeadPart& h : machine.head) h.outline = in_mm(h.outline, per_mm_);
  }

  void add_noise() {
    if (family_ != Family::near_copies || setup_.machine.obstacles.empty()) return;
    std::vector<Obstacle>& obstacles = setup_.machine.obstacles;
    const std::size_t originals = obstacles.size();
    const double turn = random_.one_in(2) ? random_.real(-0.2, 0.2) : 0;
    if (turn != 0) {  // vertices off every lattice, as an import from a drawing has them
      for (Obstacle& o : obstacles) o.shape = rotated_a_little(as_polygons(o.shape), turn);
    }
    const int copies = random_.whole(1, 4);
    for (int i = 1; i <= copies; ++i) {
      Obstacle copy =
          obstacles[static_cast<std::size_t>(random_.whole(0, static_cast<int>(originals) - 1))];
      copy.name = "copy " + std::to_string(i);
      const bool micrometre = random_.one_in(3);
      copy.shape = micrometre ? moved(copy.shape, {random_.pick({-0.001, 0.0, 0.001}), 0.001})
                              : Shape{with_noise(random_, as_polygons(copy.shape))};
      obstacles.push_back(std::move(copy));
    }
  }

  void make_uncertainties() {
    if (!options_.uncertainties) return;
    const double x = random_.pick({0.0, 0.05, 0.15, 0.6});
    const double y = options_.isotropic || random_.one_in(2) ? x : random_.pick({0.0, 0.1, 0.4});
    setup_.probe.offset_uncertainty = {x, y};
    setup_.machine.travel_uncertainty = random_.pick({0.0, 0.0, 0.1});
    setup_.machine.bed_uncertainty = random_.pick({0.0, 0.0, 0.2});
  }

  void make_request() {
    const Box bed = bounding_box(setup_.machine.bed);
    Request& request = setup_.request;
    if (!random_.one_in(8)) {
      Grid grid;
      grid.columns = random_.whole(1, 9);
      grid.rows = random_.whole(1, 9);
      grid.frame = random_.one_in(3) ? Frame::nozzle : Frame::probe;
      grid.skip_outside_bed = random_.one_in(3);
      if (random_.one_in(2)) {
        grid.extent = Box{bed.x0 + decimal(0, 20), bed.x1 - decimal(0, 20), bed.y0 + decimal(0, 20),
                          bed.y1 - decimal(0, 20)};
      } else {
        grid.extent = Margins{decimal(0, 20), decimal(0, 20), decimal(0, 20), decimal(0, 20),
                              random_.one_in(3) ? Margins::From::travel : Margins::From::bed};
      }
      request.grid = grid;
    }
    const int points = random_.whole(0, 3);
    for (int i = 1; i <= points; ++i) {
      request.points.push_back({"point " + std::to_string(i),
                                {decimal(bed.x0, bed.x1), decimal(bed.y0, bed.y1)},
                                random_.one_in(3) ? Frame::nozzle : Frame::probe});
    }
    if (random_.one_in(2)) {
      request.home = Home{{decimal(bed.x0, bed.x1), decimal(bed.y0, bed.y1)}, Frame::nozzle};
    }
  }

  Random random_;
  RandomSetupOptions options_;
  Family family_ = Family::mixed;
  int per_mm_ = 10;
  std::vector<Shape> placed_;
  Setup setup_;
};

}  // namespace

const char* word(Family family) {
  switch (family) {
    case Family::mixed:
      return "mixed";
    case Family::rectangles:
      return "rectangles";
    case Family::chamfers:
      return "chamfers";
    case Family::slanted:
      return "slanted";
    case Family::rounds:
      return "rounds";
    case Family::near_copies:
      return "near-copies";
  }
  return "";
}

Setup random_setup(std::uint64_t seed, const RandomSetupOptions& options) {
  Setup setup = Maker(seed, options).make();
  setup.probe.stowed = seed % 5 != 0;
  // Once in many thousands margins meet.
  if (!validate(setup).empty()) setup.request.grid.reset();
  return setup;
}

}  // namespace leeway::judges
