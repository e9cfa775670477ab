#include "formats/input/read_request.h"

#include "formats/input/fields.h"
#include "formats/input/read_grid.h"
#include "formats/text/names.h"

namespace leeway {
namespace {

constexpr std::string_view kPlaceWords = "two numbers [x, y] in mm";

Point read_at(const Fields& fields, const Slot& slot) {
  constexpr Point kUnreadPoint{kUnread, kUnread};
  const auto at = fields.need("at", kPlaceWords);
  if (!at) return kUnreadPoint;
  return read_pair(*at, NumberRange::length, kPlaceWords, slot).value_or(kUnreadPoint);
}

std::vector<NamedPoint> read_points(JsonValue value, Places& places) {
  std::vector<NamedPoint> result;
  for (const JsonValue item : read_items(value, "an array of points { ... }")) {
    const Fields fields(item, {"name", "at", "frame"}, "a point {\"name\": ..., \"at\": [x, y]}");
    const auto slot = [&](SetupField field) {
      return Slot{{field, SetupDetail::whole, result.size()}, places};
    };
    NamedPoint point;
    if (const auto name = fields.need("name", "a name")) {
      point.name = read_name(*name, NameNeeded::yes, slot(SetupField::point_name)).value_or("");
    }
    read_if_there(fields, "frame", point.frame, read_frame);
    point.at = read_at(fields, slot(SetupField::point_at));
    result.push_back(std::move(point));
  }
  return result;
}

Home read_home(JsonValue value, Places& places) {
  const Fields fields(value, {"at", "frame"}, "{\"at\": [x, y], \"frame\": ...}");
  Home home;
  read_if_there(fields, "frame", home.frame, read_frame);
  home.at = read_at(fields, {{SetupField::home_at}, places});
  return home;
}

}  // namespace

Request read_request(JsonValue value, Places& places) {
  Request request;
  const Fields fields(value, {"grid", "points", "home"}, "what is asked for { ... }");
  if (const auto grid = fields.find("grid")) request.grid = read_grid(*grid, places);
  if (const auto points = fields.find("points")) request.points = read_points(*points, places);
  if (const auto home = fields.find("home")) request.home = read_home(*home, places);
  return request;
}

}  // namespace leeway
