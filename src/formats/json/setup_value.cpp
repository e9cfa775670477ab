#include "formats/json/setup_value.h"

#include <fmt/format.h>

#include <cmath>

#include "formats/text/wkt.h"
#include "geometry/plane/by_kind.h"

namespace leeway {
namespace {

using Json = nlohmann::ordered_json;

std::string exact_number(double value) { return fmt::format("{}", value); }

// Whole numbers without a point.
Json plain(double value) {
  constexpr double kExact = 9007199254740992;  // 2^53
  if (value == std::floor(value) && std::abs(value) < kExact) {
    return static_cast<std::int64_t>(value);
  }
  return value;
}

Json plain_pair(double a, double b) { return Json::array({plain(a), plain(b)}); }
Json plain_pair(Point p) { return plain_pair(p.x, p.y); }

Json plain_sides(const Box& box) {
  return {{"x", plain_pair(box.x0, box.x1)}, {"y", plain_pair(box.y0, box.y1)}};
}

Json plain_ring(const Ring& ring) {
  Json out = Json::array();
  for (const Point p : ring) out.push_back(plain_pair(p));
  return out;
}

Json plain_polygon(const Polygon& polygon) {
  Json out{{"outer", plain_ring(polygon.outer)}};
  for (const Ring& hole : polygon.holes) out["holes"].push_back(plain_ring(hole));
  return {{"polygon", out}};
}

Json plain_shape(const Shape& shape) {
  return by_kind(
      shape, [](Point) { return Json(); },
      [](const Box& box) {
        return Json{{"rectangle", plain_sides(box)}};
      },
      [](const Disc& disc) {
        return Json{
            {"disc", {{"center", plain_pair(disc.center)}, {"radius", plain(disc.radius)}}}};
      },
      [](const RoundedBox& rounded) {
        Json out = plain_sides(rounded.box);
        out["radius"] = plain(rounded.radius);
        return Json{{"rounded_rectangle", out}};
      },
      [](const MultiPolygon& polygons) {
        if (polygons.size() == 1) return plain_polygon(polygons.front());
        return Json{{"wkt", wkt_text(polygons, exact_number)}};
      });
}

void add_number(Json& into, const char* key, double value, double default_value = 0) {
  if (value != default_value) into[key] = plain(value);
}

void add_name(Json& into, const std::string& name) {
  if (!name.empty()) into["name"] = name;
}

Json plain_machine(const Machine& machine) {
  Json out = Json::object();
  add_name(out, machine.name);
  out["bed"] = plain_shape(machine.bed);
  out["travel"] = plain_shape(machine.travel);
  add_number(out, "print_inset", machine.print_inset);
  for (const Obstacle& obstacle : machine.obstacles) {
    Json one{{"name", obstacle.name}, {"shape", plain_shape(obstacle.shape)}};
    add_number(one, "height", obstacle.height, kUnlimitedHeight);
    add_number(one, "clearance", obstacle.clearance);
    out["obstacles"].push_back(one);
  }
  for (const HeadPart& part : machine.head) {
    Json one{{"name", part.name}, {"outline", plain_shape(part.outline)}};
    add_number(one, "underside", part.underside);
    if (part.top) one["top"] = plain(*part.top);
    out["head"].push_back(one);
  }
  Json uncertainty;
  add_number(uncertainty, "travel", machine.travel_uncertainty);
  add_number(uncertainty, "bed", machine.bed_uncertainty);
  if (!uncertainty.empty()) out["uncertainty"] = uncertainty;
  return out;
}

Json plain_probe(const Probe& probe) {
  Json out = Json::object();
  add_name(out, probe.name);
  out["offset"] = plain_pair(probe.offset);
  if (probe.offset_uncertainty != Point{}) {
    out["offset_uncertainty"] = plain_pair(probe.offset_uncertainty);
  }
  if (const Json spot = plain_shape(probe.spot); !spot.is_null()) out["spot"] = spot;
  add_number(out, "edge_distance", probe.edge_distance);
  add_number(out, "trigger_height", probe.trigger_height);
  if (probe.travel_height) out["travel_height"] = plain(*probe.travel_height);
  if (probe.body) {
    out["body"]["outline"] = plain_shape(probe.body->outline);
    add_number(out["body"], "underside", probe.body->underside);
    if (probe.body->top) out["body"]["top"] = plain(*probe.body->top);
  }
  if (!probe.stowed) out["stowed"] = false;
  return out;
}

const char* plain_word(Frame frame) { return frame == Frame::probe ? "probe" : "nozzle"; }

void add_margins(Json& into, const Margins& m) {
  if (m.left == m.right && m.left == m.front && m.left == m.back) {
    into["margins"] = plain(m.left);
  } else {
    into["margins"] = {{"left", plain(m.left)},
                       {"right", plain(m.right)},
                       {"front", plain(m.front)},
                       {"back", plain(m.back)}};
  }
  if (m.from == Margins::From::travel) into["margins_from"] = "travel";
}

Json plain_grid(const Grid& grid) {
  Json out{{"columns", grid.columns}, {"rows", grid.rows}};
  if (const Margins* margins = std::get_if<Margins>(&grid.extent)) {
    add_margins(out, *margins);
  } else {
    out.update(plain_sides(std::get<Box>(grid.extent)));
  }
  out["frame"] = plain_word(grid.frame);
  if (grid.skip_outside_bed) out["outside_bed"] = "skip";
  return out;
}

Json plain_request(const Request& request) {
  Json out = Json::object();
  if (request.grid) out["grid"] = plain_grid(*request.grid);
  for (const NamedPoint& point : request.points) {
    out["points"].push_back(
        {{"name", point.name}, {"at", plain_pair(point.at)}, {"frame", plain_word(point.frame)}});
  }
  if (request.home) {
    out["home"] = {{"at", plain_pair(request.home->at)},
                   {"frame", plain_word(request.home->frame)}};
  }
  return out;
}

}  // namespace

nlohmann::ordered_json setup_value(const Setup& setup) {
  Json out{{"format", "leeway-setup-1"}};
  add_name(out, setup.name);
  out["machine"] = plain_machine(setup.machine);
  out["probe"] = plain_probe(setup.probe);
  if (setup.mount.envelope) out["mount"]["envelope"] = plain_shape(*setup.mount.envelope);
  for (const KeptClear& kept : setup.mount.keep_clear) {
    out["mount"]["keep_clear"].push_back(
        {{"name", kept.name}, {"outline", plain_shape(kept.outline)}});
  }
  add_number(out, "coverage_factor", setup.coverage_factor, 2);
  if (Json request = plain_request(setup.request); !request.empty()) {
    out["request"] = std::move(request);
  }
  return out;
}

}  // namespace leeway
