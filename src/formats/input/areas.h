#pragma once
// Whether the rings of one shape make an area, told where the rings stand in the file.

#include <optional>
#include <string>
#include <vector>

#include "formats/json/json_file.h"
#include "leeway/geometry.h"

namespace leeway {

// Collects the rings of a shape as they are read, and notes what is wrong with each and between
// them. Rings at fault do not hide faults between the others.
class AreaCheck {
 public:
  explicit AreaCheck(JsonValue shape) : shape_(shape) {}

  // A ring that begins a polygon, and a hole of the latest polygon; nothing for one that could
  // not be read. `place` is where faults of the ring belong.
  void outer(JsonValue place, const std::optional<Ring>& ring);
  void hole(JsonValue place, const std::optional<Ring>& ring);

  // Something else is wrong with the shape, and noted.
  void spoil() { sound_ = false; }

  // Looks at the rings together; nothing where a fault was noted.
  std::optional<Shape> shape();

 private:
  struct Checked {
    std::optional<Ring> outer;  // nothing where it is at fault
    JsonValue outer_place;
    std::vector<Ring> holes;
    std::vector<JsonValue> hole_places;
    std::vector<std::size_t> hole_numbers;  // from 1, as counted in the file
    std::size_t holes_seen = 0;
  };

  std::optional<Ring> sound_ring(JsonValue place, const std::string& name,
                                 const std::optional<Ring>& ring);
  void check_polygon(std::size_t index);
  void check_polygons();
  std::string polygon_name(std::size_t index) const;

  JsonValue shape_;
  std::vector<Checked> polygons_;
  std::size_t vertices_ = 0;
  bool sound_ = true;
};

}  // namespace leeway
