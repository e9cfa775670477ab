#include <cmath>
#include <nlohmann/json.hpp>

#include "formats/numbers.h"
#include "leeway/write_check.h"

namespace leeway {
namespace {

using Json = nlohmann::ordered_json;

// Everything beyond ASCII is escaped, so that no name can act on a terminal or turn the direction
// of reading; bytes that are not UTF-8 become U+FFFD.
std::string dumped(const Json& json) {
  return json.dump(-1, ' ', true, Json::error_handler_t::replace);
}

// Rounded to 1e-6; whole numbers without a point; null for what JSON has no number for.
Json number(double value) {
  if (!std::isfinite(value)) return nullptr;
  const double clean = rounded(value);
  if (clean == std::trunc(clean) && std::abs(clean) < 1e9) return static_cast<std::int64_t>(clean);
  return clean;
}

Json position(Point p) { return Json::array({number(p.x), number(p.y)}); }

Json nearest(const CheckedPoint& point) {
  if (point.finding.verdict == Verdict::reachable) return position(point.probe);
  return point.has_nearest ? position(point.nearest) : Json(nullptr);
}

Json point_object(const CheckedPoint& point, const Setup& setup, const Limits& limits,
                  const WriteOptions& options) {
  Json out;
  out["name"] = point_name(setup, point);
  if (point.column > 0) {
    out["column"] = point.column;
    out["row"] = point.row;
  }
  const Finding& finding = point.finding;
  out["probe"] = position(point.probe);
  out["nozzle"] = position(point.probe - setup.probe.offset);
  out["verdict"] = word(finding.verdict);
  out["limit"] = limits.info(finding.limit).name;
  out["leeway"] = number(finding.leeway);
  out["guard"] = number(finding.guard);
  out["nearest"] = nearest(point);
  if (!options.all_limits) return out;
  Json& all = out["limits"] = Json::array();
  for (std::size_t i = 0; i < limits.size(); ++i) {
    const LimitReading reading = limits.reading(i, point.probe);
    all.push_back({{"limit", limits.info(i).name},
                   {"leeway", number(reading.leeway)},
                   {"guard", number(reading.guard)}});
  }
  return out;
}

Json counts_object(const Counts& counts) {
  return {{"points", counts.points},
          {"reachable", counts.reachable},
          {"marginal", counts.marginal},
          {"unreachable", counts.unreachable},
          {"skipped", counts.skipped}};
}

Json region_object(const RegionSummary& region) {
  Json out;
  out["area"] = number(region.area);
  out["bounds"] = nullptr;
  if (region.bounds) {
    out["bounds"] = {{"x", Json::array({number(region.bounds->x0), number(region.bounds->x1)})},
                     {"y", Json::array({number(region.bounds->y0), number(region.bounds->y1)})}};
  }
  if (region.why_empty) out["empty"] = *region.why_empty;
  return out;
}

Json coverage_object(const std::optional<Coverage>& coverage) {
  if (!coverage) return nullptr;
  const BlindStrips& blind = coverage->blind;
  return {{"fraction", coverage->fraction ? number(*coverage->fraction) : Json(nullptr)},
          {"blind",
           {{"left", number(blind.left)},
            {"right", number(blind.right)},
            {"front", number(blind.front)},
            {"back", number(blind.back)}}}};
}

Json move_object(const BlockedMove& move, const CheckResult& result, const Setup& setup) {
  Json out;
  out["from"] = point_name(setup, result.points[move.from]);
  out["to"] = point_name(setup, result.points[move.to]);
  const LimitInfo& limit = move.stop.limit;
  out["limit"] = limit.name;
  if (limit.group == LimitGroup::head) {
    out["part"] = limit.part;
    out["obstacle"] = limit.obstacle;
  }
  out["leeway"] = number(move.stop.leeway);
  return out;
}

// The items of an array, one a line, between "[" and "]".
template <class Items, class ToObject>
void write_lines(const Items& items, const std::string& indent, const TextSink& sink,
                 const ToObject& to_object) {
  bool first = true;
  for (const auto& item : items) {
    sink((first ? "[\n" : ",\n") + indent + "  " + dumped(to_object(item)));
    first = false;
  }
  sink(first ? "[]" : "\n" + indent + "]");
}

void write_regions(const std::vector<RegionSummary>& regions, const TextSink& sink) {
  bool first = true;
  for (const RegionSummary& region : regions) {
    sink((first ? "{\n    " : ",\n    ") + dumped(word(region.kind)) + ": " +
         dumped(region_object(region)));
    first = false;
  }
  sink(first ? "{}" : "\n  }");
}

}  // namespace

void write_check_json(const CheckResult& result, const Setup& setup, const Limits& limits,
                      const WriteOptions& options, const TextSink& sink) {
  sink("{\n  \"format\": \"leeway-check-1\",\n  \"setup\": " + dumped(result.setup));
  sink(",\n  \"verdict\": " + dumped(result.verdict ? Json(word(*result.verdict)) : Json(nullptr)));
  sink(",\n  \"counts\": " + dumped(counts_object(result.counts)));
  sink(",\n  \"regions\": ");
  write_regions(result.regions, sink);
  sink(",\n  \"coverage\": " + dumped(coverage_object(result.coverage)));
  sink(",\n  \"points\": ");
  write_lines(result.points, "  ", sink, [&](const CheckedPoint& point) {
    return point_object(point, setup, limits, options);
  });
  sink(std::string(",\n  \"moves\": {\n    \"clear\": ") +
       (result.blocked.empty() ? "true" : "false") + ",\n    \"blocked\": ");
  write_lines(result.blocked, "    ", sink,
              [&](const BlockedMove& move) { return move_object(move, result, setup); });
  sink("\n  }\n}\n");
}

}  // namespace leeway
