#include "judges/run.h"

#include <cmath>
#include <cstdlib>
#include <nlohmann/json.hpp>
#include <stdexcept>

#ifndef LEEWAY_DEFAULT_SETUPS
#define LEEWAY_DEFAULT_SETUPS 20000
#endif

namespace leeway::judges {
namespace {

using nlohmann::json;

std::uint64_t number(const std::string& text, const char* what) {
  std::size_t used = 0;
  std::uint64_t value = 0;
  try {
    value = std::stoull(text, &used);
  } catch (const std::exception&) {
    used = 0;
  }
  if (used == 0 || used != text.size()) {
    throw std::runtime_error(std::string(what) + " is not a number: " + text);
  }
  return value;
}

std::string variable(const char* name) {
  const char* value = std::getenv(name);
  return value == nullptr ? "" : value;
}

json json_of(Point p) { return {p.x, p.y}; }

json json_of(const Ring& ring) {
  json points = json::array();
  for (const Point& p : ring) points.push_back(json_of(p));
  return points;
}

std::string wkt_ring(const Ring& ring) {
  std::string text = "(";
  for (std::size_t i = 0; i <= ring.size(); ++i) {
    const Point p = ring[i % ring.size()];
    text += (i == 0 ? "" : ", ") + json(p.x).dump() + " " + json(p.y).dump();
  }
  return text + ")";
}

std::string wkt(const MultiPolygon& polygons) {
  std::string text = "MULTIPOLYGON (";
  for (const Polygon& p : polygons) {
    text += (&p == &polygons.front() ? "(" : ", (") + wkt_ring(p.outer);
    for (const Ring& hole : p.holes) text += ", " + wkt_ring(hole);
    text += ")";
  }
  return text + ")";
}

json json_of(const Shape& shape) {
  if (const auto* b = std::get_if<Box>(&shape)) {
    return {{"rectangle", {{"x", {b->x0, b->x1}}, {"y", {b->y0, b->y1}}}}};
  }
  if (const auto* d = std::get_if<Disc>(&shape)) {
    return {{"disc", {{"center", json_of(d->center)}, {"radius", d->radius}}}};
  }
  if (const auto* r = std::get_if<RoundedBox>(&shape)) {
    return {
        {"rounded_rectangle",
         {{"x", {r->box.x0, r->box.x1}}, {"y", {r->box.y0, r->box.y1}}, {"radius", r->radius}}}};
  }
  const auto& polygons = std::get<MultiPolygon>(shape);
  if (polygons.size() != 1) return {{"wkt", wkt(polygons)}};
  json polygon{{"outer", json_of(polygons.front().outer)}};
  for (const Ring& hole : polygons.front().holes) polygon["holes"].push_back(json_of(hole));
  return {{"polygon", polygon}};
}

json json_of(const Machine& m) {
  json out{{"format", "leeway-machine-1"},
           {"name", m.name},
           {"bed", json_of(m.bed)},
           {"travel", json_of(m.travel)},
           {"print_inset", m.print_inset},
           {"uncertainty", {{"travel", m.travel_uncertainty}, {"bed", m.bed_uncertainty}}}};
  for (const Obstacle& o : m.obstacles) {
    json one{{"name", o.name}, {"shape", json_of(o.shape)}, {"clearance", o.clearance}};
    if (std::isfinite(o.height)) one["height"] = o.height;
    out["obstacles"].push_back(one);
  }
  for (const HeadPart& h : m.head) {
    out["head"].push_back(
        {{"name", h.name}, {"outline", json_of(h.outline)}, {"underside", h.underside}});
  }
  return out;
}

json json_of(const Probe& p) {
  json out{{"offset", json_of(p.offset)},
           {"offset_uncertainty", json_of(p.offset_uncertainty)},
           {"edge_distance", p.edge_distance},
           {"trigger_height", p.trigger_height},
           {"travel_height", p.travel_height.value_or(p.trigger_height)}};
  if (!std::holds_alternative<Point>(p.spot)) out["spot"] = json_of(p.spot);
  if (!p.stowed) out["stowed"] = false;
  if (p.body) {
    out["body"] = {{"outline", json_of(p.body->outline)}, {"underside", p.body->underside}};
  }
  return out;
}

const char* frame(Frame f) { return f == Frame::probe ? "probe" : "nozzle"; }

json json_of(const Request& request) {
  json out = json::object();
  if (const auto& g = request.grid) {
    json grid{{"columns", g->columns}, {"rows", g->rows}, {"frame", frame(g->frame)}};
    if (const auto* b = std::get_if<Box>(&g->extent)) {
      grid["x"] = {b->x0, b->x1};
      grid["y"] = {b->y0, b->y1};
    } else {
      const auto& m = std::get<Margins>(g->extent);
      grid["margins"] = {
          {"left", m.left}, {"right", m.right}, {"front", m.front}, {"back", m.back}};
      grid["margins_from"] = m.from == Margins::From::bed ? "bed" : "travel";
    }
    if (g->skip_outside_bed) grid["outside_bed"] = "skip";
    out["grid"] = grid;
  }
  for (const NamedPoint& p : request.points) {
    out["points"].push_back({{"name", p.name}, {"at", json_of(p.at)}, {"frame", frame(p.frame)}});
  }
  if (request.home) {
    out["home"] = {{"at", json_of(request.home->at)}, {"frame", frame(request.home->frame)}};
  }
  return out;
}

}  // namespace

CaseRange cases_to_look_at() {
  CaseRange run;
  const std::string seed = variable("LEEWAY_SEED");
  if (!seed.empty()) run.seed = number(seed, "LEEWAY_SEED");
  const std::string only = variable("LEEWAY_CASE");
  if (!only.empty()) {
    run.first = number(only, "LEEWAY_CASE");
    run.end = run.first + 1;
    return run;
  }
  const std::string setups = variable("LEEWAY_SETUPS");
  const std::uint64_t count =
      setups.empty() ? LEEWAY_DEFAULT_SETUPS : number(setups, "LEEWAY_SETUPS");
  run.end = count;
  const std::string shard = variable("LEEWAY_SHARD");
  if (!shard.empty()) {
    const auto slash = shard.find('/');
    const std::uint64_t part = number(shard.substr(0, slash), "LEEWAY_SHARD");
    const std::uint64_t of =
        slash == std::string::npos ? 0 : number(shard.substr(slash + 1), "LEEWAY_SHARD");
    if (part >= of) throw std::runtime_error("LEEWAY_SHARD is not part/parts: " + shard);
    run.first = count * part / of;
    run.end = count * (part + 1) / of;
  }
  return run;
}

std::string how_to_repeat(const CaseRange& run, std::uint64_t index) {
  return "LEEWAY_SEED=" + std::to_string(run.seed) + " LEEWAY_CASE=" + std::to_string(index);
}

std::string setup_file(const Setup& setup) {
  json file = {{"format", "leeway-setup-1"},
               {"name", setup.name},
               {"machine", json_of(setup.machine)},
               {"probe", json_of(setup.probe)},
               {"coverage_factor", setup.coverage_factor},
               {"request", json_of(setup.request)}};
  if (setup.mount.envelope) file["mount"] = {{"envelope", json_of(*setup.mount.envelope)}};
  return file.dump();
}

}  // namespace leeway::judges
