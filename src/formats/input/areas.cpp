#include "formats/input/areas.h"

#include <fmt/format.h>

#include "formats/text/numbers.h"
#include "geometry/validity/validity.h"

namespace leeway {
namespace {

std::string at(Point p) { return "(" + pair(p) + ")"; }

Point edge_end(const Ring& ring, std::size_t edge) {
  std::size_t next = edge;
  do {
    next = (next + 1) % ring.size();
  } while (ring[next] == ring[edge] && next != edge);
  return ring[next];
}

void note_ring_fault(JsonValue place, const std::string& name, const Ring& ring,
                     const RingFault& fault) {
  switch (fault.kind) {
    case RingFault::Kind::too_few_vertices:
      place.fault("too-few-vertices", name + " with fewer than 3 different points",
                  "at least 3 different points");
      return;
    case RingFault::Kind::no_area:
      place.fault("no-area", name + " whose points all lie on one line", "a ring around an area");
      return;
    case RingFault::Kind::self_crossing:
      place.fault("self-crossing",
                  fmt::format("{} that crosses or touches itself at {}: the edge from {} to {} "
                              "meets the edge from {} to {}",
                              name, at(fault.place), at(ring[fault.edge_a]),
                              at(edge_end(ring, fault.edge_a)), at(ring[fault.edge_b]),
                              at(edge_end(ring, fault.edge_b))),
                  "a ring that meets itself nowhere");
      return;
  }
}

}  // namespace

void AreaCheck::outer(JsonValue place, const std::optional<Ring>& ring) {
  polygons_.push_back({std::nullopt, place, {}, {}, {}, 0});
  const std::string name = "an outer ring" + polygon_name(polygons_.size() - 1);
  polygons_.back().outer = sound_ring(place, name, ring);
}

void AreaCheck::hole(JsonValue place, const std::optional<Ring>& ring) {
  if (polygons_.empty()) outer(shape_, std::nullopt);  // its absence has been noted
  Checked& polygon = polygons_.back();
  ++polygon.holes_seen;
  const std::string name =
      fmt::format("a ring (hole {}{})", polygon.holes_seen, polygon_name(polygons_.size() - 1));
  if (auto sound = sound_ring(place, name, ring)) {
    polygon.holes.push_back(*std::move(sound));
    polygon.hole_places.push_back(place);
    polygon.hole_numbers.push_back(polygon.holes_seen);
  }
}

std::optional<Ring> AreaCheck::sound_ring(JsonValue place, const std::string& name,
                                          const std::optional<Ring>& ring) {
  if (ring) {
    Ring tidy = without_repeats(*ring);
    vertices_ += tidy.size();
    // Beyond the limit the shape is refused anyway, and need not cost the time.
    if (vertices_ > kMostVertices) return std::nullopt;
    const auto fault = ring_fault(tidy);
    if (!fault) return tidy;
    note_ring_fault(place, name, tidy, *fault);
  }
  sound_ = false;
  return std::nullopt;
}

// In well-known text several polygons share one place in the file, so that they need a number.
std::string AreaCheck::polygon_name(std::size_t index) const {
  return index == 0 ? std::string() : fmt::format(" of polygon {}", index + 1);
}

void AreaCheck::check_polygon(std::size_t index) {
  const Checked& checked = polygons_[index];
  if (!checked.outer) return;
  for (const PolygonFault& fault : polygon_faults({*checked.outer, checked.holes})) {
    sound_ = false;
    const JsonValue place = checked.hole_places[fault.a];
    const std::string hole =
        fmt::format("hole {}{}", checked.hole_numbers[fault.a], polygon_name(index));
    if (fault.kind == PolygonFault::Kind::hole_outside) {
      place.fault(
          "hole-outside",
          fmt::format("{} outside its outer ring, or along it, at {}", hole, at(fault.place)),
          "a hole inside the outer ring, touching it at points at most");
    } else {
      place.fault("holes-overlap",
                  fmt::format("{} overlapping hole {}, or along it, at {}", hole,
                              checked.hole_numbers[fault.b], at(fault.place)),
                  "holes that touch each other at points at most");
    }
  }
}

void AreaCheck::check_polygons() {
  MultiPolygon whole;
  std::vector<std::size_t> numbers;
  for (std::size_t i = 0; i < polygons_.size(); ++i) {
    if (!polygons_[i].outer) continue;
    whole.push_back({*polygons_[i].outer, polygons_[i].holes});
    numbers.push_back(i + 1);
  }
  for (const PolygonFault& fault : polygons_faults(whole)) {
    sound_ = false;
    shape_.fault("polygons-overlap",
                 fmt::format("polygon {} overlapping polygon {}, or along it, at {}",
                             numbers[fault.a], numbers[fault.b], at(fault.place)),
                 "polygons that touch each other at points at most");
  }
}

std::optional<Shape> AreaCheck::shape() {
  if (vertices_ > kMostVertices) {
    shape_.fault("too-many-vertices", fmt::format("a shape of {} vertices", vertices_),
                 fmt::format("at most {}", kMostVertices));
    return std::nullopt;
  }
  for (std::size_t i = 0; i < polygons_.size(); ++i) check_polygon(i);
  check_polygons();
  if (!sound_ || polygons_.empty()) return std::nullopt;
  MultiPolygon result;
  for (Checked& polygon : polygons_) {
    result.push_back({*std::move(polygon.outer), std::move(polygon.holes)});
  }
  return Shape(std::move(result));
}

}  // namespace leeway
