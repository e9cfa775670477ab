#include "formats/json/json_text.h"

#include <cmath>
#include <nlohmann/json.hpp>

#include "formats/text/numbers.h"

namespace leeway {

std::string json_text(const std::string& text) {
  return nlohmann::json(text).dump(-1, ' ', true, nlohmann::json::error_handler_t::replace);
}

std::string json_number(double value) { return std::isfinite(value) ? shortest(value) : "null"; }

std::string json_optional_number(const std::optional<double>& value) {
  return value ? json_number(*value) : "null";
}

std::string json_numbers(double a, double b) {
  return '[' + json_number(a) + ',' + json_number(b) + ']';
}

std::string json_position(Point p) { return json_numbers(p.x, p.y); }

std::string json_bounds(const Box& box) {
  return JsonObject()
      .add("x", json_numbers(box.x0, box.x1))
      .add("y", json_numbers(box.y0, box.y1))
      .text();
}

std::string json_coverage(const std::optional<Coverage>& coverage) {
  if (!coverage) return "null";
  const UncoveredStrips& uncovered = coverage->uncovered;
  return JsonObject()
      .add("fraction", json_optional_number(coverage->fraction))
      .add("uncovered", JsonObject()
                            .add("left", json_number(uncovered.left))
                            .add("right", json_number(uncovered.right))
                            .add("front", json_number(uncovered.front))
                            .add("back", json_number(uncovered.back))
                            .text())
      .text();
}

}  // namespace leeway
