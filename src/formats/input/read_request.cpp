#include "formats/input/read_request.h"

#include "formats/input/fields.h"
#include "formats/input/read_grid.h"
#include "formats/text/names.h"

namespace leeway {
namespace {

constexpr std::string_view kPlaceWords = "two numbers [x, y] in mm";

bool all_digits(std::string_view text) {
  return !text.empty() && text.find_first_not_of("0123456789") == std::string_view::npos;
}

// "grid C,R", as the points of the lattice are called.
bool is_lattice_name(std::string_view name) {
  constexpr std::string_view kStart = "grid ";
  const std::size_t comma = name.find(',');
  return name.substr(0, kStart.size()) == kStart && comma != std::string_view::npos &&
         all_digits(name.substr(kStart.size(), comma - kStart.size())) &&
         all_digits(name.substr(comma + 1));
}

std::optional<std::string> read_point_name(JsonValue value) {
  auto name = read_name(value);
  if (name && (*name == "home" || is_lattice_name(*name))) {
    value.fault("reserved-name", "the name " + in_quotes(*name),
                "any name but \"home\" and \"grid C,R\", which the program uses itself");
  }
  return name;
}

std::optional<Point> read_at(const Fields& fields) {
  const auto at = fields.need("at", kPlaceWords);
  return at ? read_pair(*at, kAnyLength, kPlaceWords) : std::nullopt;
}

std::vector<NamedPoint> read_points(JsonValue value) {
  std::vector<NamedPoint> result;
  NameBook names("point");
  for (const JsonValue item : read_items(value, "an array of points { ... }")) {
    const Fields fields(item, {"name", "at", "frame"}, "a point {\"name\": ..., \"at\": [x, y]}");
    NamedPoint point;
    if (const auto name = fields.need("name", "a name")) {
      point.name = read_point_name(*name).value_or("");
      if (!point.name.empty()) names.add(*name, point.name);
    }
    read_if_there(fields, "frame", point.frame, read_frame);
    const auto at = read_at(fields);
    if (!at) continue;
    point.at = *at;
    result.push_back(std::move(point));
  }
  return result;
}

std::optional<Home> read_home(JsonValue value) {
  const Fields fields(value, {"at", "frame"}, "{\"at\": [x, y], \"frame\": ...}");
  Home home;
  read_if_there(fields, "frame", home.frame, read_frame);
  const auto at = read_at(fields);
  if (!at) return std::nullopt;
  home.at = *at;
  return home;
}

}  // namespace

Request read_request(JsonValue value, const MachineRead& machine) {
  Request request;
  const Fields fields(value, {"grid", "points", "home"}, "what is asked for { ... }");
  if (const auto grid = fields.find("grid")) request.grid = read_grid(*grid, machine);
  if (const auto points = fields.find("points")) request.points = read_points(*points);
  if (const auto home = fields.find("home")) request.home = read_home(*home);
  return request;
}

}  // namespace leeway
