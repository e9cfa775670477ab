#include "model/setup/validate_shape.h"
#include "leeway/validate.h"

#include <algorithm>
#include <cmath>

#include "geometry/validity/validity.h"

namespace leeway {
namespace {

// Looks at the rings of a shape one by one, then together. Rings at fault do not hide faults
// between the others.
class AreaRules {
 public:
  AreaRules(const MultiPolygon& polygons, SetupPlace place, SetupFaults& faults)
      : polygons_(polygons), place_(place), faults_(faults), before_(faults.size()) {}

  bool check() {
    for (std::size_t i = 0; i < polygons_.size(); ++i) look_at_rings(i);
    if (vertices_ > kMostVertices) {
      note(place_, TooManyVertices{vertices_});
    } else {
      for (const Sound& sound : sound_) look_at_holes(sound);
      look_at_polygons();
    }
    return faults_.size() == before_;
  }

 private:
  // What is sound of a polygon whose outer ring is.
  struct Sound {
    std::size_t polygon = 0;
    Polygon rings;
    std::vector<std::size_t> holes;  // which ring each hole is
  };

  template <typename What>
  void note(SetupPlace place, What what) {
    faults_.push_back({place, std::move(what)});
  }

  SetupPlace ring_place(std::size_t polygon, std::size_t ring) const {
    SetupPlace place = detail_of(place_, SetupDetail::ring);
    place.polygon = polygon;
    place.ring = ring;
    return place;
  }

  void look_at_rings(std::size_t index) {
    const Polygon& polygon = polygons_[index];
    const bool outer = is_sound(polygon.outer, ring_place(index, 0));
    Sound sound{index, {polygon.outer, {}}, {}};
    for (std::size_t h = 0; h < polygon.holes.size(); ++h) {
      if (!is_sound(polygon.holes[h], ring_place(index, h + 1))) continue;
      sound.rings.holes.push_back(polygon.holes[h]);
      sound.holes.push_back(h + 1);
    }
    if (outer) sound_.push_back(std::move(sound));
  }

  bool is_sound(const Ring& ring, SetupPlace place) {
    return are_numbers(ring, place) && is_simple(ring, place);
  }

  bool are_numbers(const Ring& ring, SetupPlace place) {
    bool sound = true;
    for (place.vertex = 0; place.vertex < ring.size(); ++place.vertex) {
      const Point p = ring[place.vertex];
      const auto component = [&](double number, SetupDetail detail) {
        return check_number(number, NumberRange::length, detail_of(place, detail), faults_);
      };
      sound = both(component(p.x, SetupDetail::vertex_x), sound);
      sound = both(component(p.y, SetupDetail::vertex_y), sound);
    }
    return sound;
  }

  bool is_simple(const Ring& ring, SetupPlace place) {
    // A repeated vertex must not hide that the ring crosses itself: that is looked for without it.
    const Ring tidy = without_repeats(ring);
    vertices_ += tidy.size();
    // Beyond the limit the shape is refused anyway, and need not cost the time.
    if (vertices_ > kMostVertices) return false;
    if (const auto fault = ring_fault(tidy)) {
      note_ring(tidy, *fault, place);
      return false;
    }
    if (tidy.size() == ring.size()) return true;
    note(place, RepeatedVertex{first_repeat(ring, tidy)});
    return false;
  }

  // Where the ring is not what is left of it.
  static Point first_repeat(const Ring& ring, const Ring& tidy) {
    for (std::size_t i = 0; i < tidy.size(); ++i) {
      if (!(ring[i] == tidy[i])) return ring[i];
    }
    return ring[tidy.size()];
  }

  void note_ring(const Ring& ring, const RingFault& fault, SetupPlace place) {
    const auto end = [&](std::size_t edge) { return ring[(edge + 1) % ring.size()]; };
    switch (fault.kind) {
      case RingFault::Kind::too_few_vertices:
        return note(place, TooFewVertices{});
      case RingFault::Kind::no_area:
        return note(place, NoArea{});
      case RingFault::Kind::self_crossing:
        return note(place, SelfCrossing{fault.place, ring[fault.edge_a], end(fault.edge_a),
                                        ring[fault.edge_b], end(fault.edge_b)});
    }
  }

  void look_at_holes(const Sound& sound) {
    for (const PolygonFault& fault : polygon_faults(sound.rings)) {
      const SetupPlace place = ring_place(sound.polygon, sound.holes[fault.a]);
      if (fault.kind == PolygonFault::Kind::hole_outside) {
        note(place, HoleOutside{fault.place});
      } else {
        note(place, HolesOverlap{sound.holes[fault.b], fault.place});
      }
    }
  }

  void look_at_polygons() {
    MultiPolygon whole;
    for (const Sound& sound : sound_) whole.push_back(sound.rings);
    for (const PolygonFault& fault : polygons_faults(whole)) {
      note(place_, PolygonsOverlap{sound_[fault.a].polygon, sound_[fault.b].polygon, fault.place});
    }
  }

  const MultiPolygon& polygons_;
  SetupPlace place_;
  SetupFaults& faults_;
  std::size_t before_;
  std::vector<Sound> sound_;
  std::size_t vertices_ = 0;
};

struct ShapeRules {
  PointAllowed point;
  SetupPlace place;
  SetupFaults& faults;

  // No file can write a point as a shape, but code can.
  bool operator()(Point p) const {
    if (point == PointAllowed::yes) return check_pair(p, NumberRange::length, place, faults);
    faults.push_back({place, NoShape{}});
    return false;
  }
  bool operator()(const Box& box) const { return check_bounds(box, false, false, place, faults); }
  bool operator()(const Disc& disc) const {
    const auto number = [&](double value, NumberRange range, SetupDetail detail) {
      return check_number(value, range, detail_of(place, detail), faults);
    };
    const bool x = number(disc.center.x, NumberRange::length, SetupDetail::center_x);
    const bool y = number(disc.center.y, NumberRange::length, SetupDetail::center_y);
    return both(number(disc.radius, NumberRange::radius, SetupDetail::radius), x && y);
  }
  bool operator()(const RoundedBox& rounded) const {
    const double radius = rounded.radius;
    const SetupPlace at = detail_of(place, SetupDetail::radius);
    const bool box = (*this)(rounded.box);
    if (!both(check_number(radius, NumberRange::radius, at, faults), box)) return false;
    const double most = std::min(rounded.box.width(), rounded.box.depth()) / 2;
    // What decimals lose in binary does not count.
    if (radius <= most + 1e-9) return true;
    faults.push_back({at, RadiusTooLarge{radius, most}});
    return false;
  }
  bool operator()(const MultiPolygon& polygons) const {
    if (!polygons.empty()) return AreaRules(polygons, place, faults).check();
    faults.push_back({place, NoShape{}});
    return false;
  }
};

bool check_axis(double low, double high, bool equal_allowed, SetupPlace axis, SetupFaults& faults) {
  const bool along_x = axis.detail == SetupDetail::x;
  const auto bound = [&](double number, SetupDetail detail) {
    return check_number(number, NumberRange::length, detail_of(axis, detail), faults);
  };
  const bool first = bound(low, along_x ? SetupDetail::x0 : SetupDetail::y0);
  const bool second = bound(high, along_x ? SetupDetail::x1 : SetupDetail::y1);
  if (!first || !second) return false;
  if (low > high) faults.push_back({axis, TurnedBounds{low, high}});
  if (low == high && !equal_allowed) faults.push_back({axis, EqualBounds{low}});
  return low < high || (low == high && equal_allowed);
}

}  // namespace

// Each comparison is false for NaN.
bool in_range(double number, NumberRange range) {
  switch (range) {
    case NumberRange::length:
      return std::abs(number) <= kLargestLength;
    case NumberRange::distance:
      return number >= 0 && number <= kLargestLength;
    case NumberRange::radius:
      return number > 0 && number <= kLargestLength;
    case NumberRange::coverage_factor:
      return number > 0 && number <= kLargestCoverageFactor;
    case NumberRange::count:
      return number >= 1 && number <= static_cast<double>(kMostGridPoints);
  }
  return false;
}

bool check_number(double number, NumberRange range, SetupPlace place, SetupFaults& faults) {
  if (in_range(number, range)) return true;
  faults.push_back({place, OutOfRange{number, range}});
  return false;
}

bool check_pair(Point pair, NumberRange range, SetupPlace place, SetupFaults& faults) {
  const bool x = check_number(pair.x, range, detail_of(place, SetupDetail::x), faults);
  return both(check_number(pair.y, range, detail_of(place, SetupDetail::y), faults), x);
}

bool check_bounds(const Box& box, bool equal_x, bool equal_y, SetupPlace place,
                  SetupFaults& faults) {
  const bool x = check_axis(box.x0, box.x1, equal_x, detail_of(place, SetupDetail::x), faults);
  return both(check_axis(box.y0, box.y1, equal_y, detail_of(place, SetupDetail::y), faults), x);
}

bool check_shape(const Shape& shape, PointAllowed point, SetupPlace place, SetupFaults& faults) {
  return std::visit(ShapeRules{point, place, faults}, shape);
}

}  // namespace leeway
