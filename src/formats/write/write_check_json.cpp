#include "formats/json/json_text.h"
#include "formats/text/names.h"
#include "formats/text/summary.h"
#include "leeway/rig.h"
#include "leeway/write_check.h"

namespace leeway {
namespace {

std::string nearest(const CheckedPoint& point) {
  if (point.finding.verdict == Verdict::reachable) return json_position(point.probe);
  return point.has_nearest ? json_position(point.nearest) : "null";
}

// Writes the points of one result. The names of limits are the same for all.
class PointWriter {
 public:
  PointWriter(const Rig& rig, bool all_limits)
      : setup_(rig.setup()), limits_(rig.limits()), all_limits_(all_limits) {
    for (std::size_t i = 0; i < rig.limits().size(); ++i)
      names_.push_back(json_text(rig.limits().info(i).name));
  }

  std::string operator()(const CheckedPoint& point) const {
    const Finding& finding = point.finding;
    JsonObject out;
    out.add("name", json_text(point_name(setup_, point)));
    if (point.column > 0) {
      out.add("column", std::to_string(point.column)).add("row", std::to_string(point.row));
    }
    out.add("probe", json_position(point.probe))
        .add("nozzle", json_position(point.probe - setup_.probe.offset))
        .add("verdict", json_text(word(finding.verdict)))
        .add("limit", names_[finding.limit])
        .add("leeway", json_number(finding.leeway))
        .add("guard", json_number(finding.guard))
        .add("nearest", nearest(point));
    if (all_limits_) out.add("limits", limits_of(point.probe));
    return out.text();
  }

 private:
  std::string limits_of(Point probe) const {
    std::string out = "[";
    for (std::size_t i = 0; i < names_.size(); ++i) {
      const LimitReading reading = limits_.reading(i, probe);
      if (i > 0) out += ',';
      out += JsonObject()
                 .add("limit", names_[i])
                 .add("leeway", json_number(reading.leeway))
                 .add("guard", json_number(reading.guard))
                 .text();
    }
    return out + ']';
  }

  const Setup& setup_;
  const Limits& limits_;
  bool all_limits_;
  std::vector<std::string> names_;  // quoted
};

std::string counts_object(const Counts& counts) {
  return JsonObject()
      .add("points", counts.points)
      .add("reachable", counts.reachable)
      .add("marginal", counts.marginal)
      .add("unreachable", counts.unreachable)
      .add("skipped", counts.skipped)
      .text();
}

std::string region_object(const RegionSummary& region) {
  JsonObject out;
  out.add("area", json_number(region.area));
  out.add("bounds", region.bounds ? json_bounds(*region.bounds) : "null");
  if (region.why_empty) out.add("empty", json_text(*region.why_empty));
  return out.text();
}

std::string move_object(const BlockedMove& move, const CheckResult& result, const Setup& setup) {
  const LimitInfo& limit = move.stop.limit;
  JsonObject out;
  out.add("from", json_text(point_name(setup, result.points[move.from])));
  out.add("to", json_text(point_name(setup, result.points[move.to])));
  out.add("limit", json_text(limit.name));
  if (family_of(limit.group).of_part) {
    out.add("part", json_text(limit.part)).add("obstacle", json_text(limit.obstacle));
  }
  return out.add("leeway", json_number(move.stop.leeway))
      .add("guard", json_number(move.stop.guard))
      .text();
}

// The items of an array, one a line, between "[" and "]".
template <class Items, class ToObject>
void write_lines(const Items& items, const std::string& indent, const TextSink& sink,
                 const ToObject& to_object) {
  bool first = true;
  for (const auto& item : items) {
    sink((first ? "[\n" : ",\n") + indent + "  " + to_object(item));
    first = false;
  }
  sink(first ? "[]" : "\n" + indent + "]");
}

void write_regions(const std::vector<RegionSummary>& regions, const TextSink& sink) {
  bool first = true;
  for (const RegionSummary& region : regions) {
    sink((first ? "{\n    " : ",\n    ") + json_text(word(region.kind)) + ": " +
         region_object(region));
    first = false;
  }
  sink(first ? "{}" : "\n  }");
}

void write_moves(const CheckResult& result, const Setup& setup, const TextSink& sink) {
  const CheckedMoves& moves = result.moves;
  const char* clear = !moves.judged ? "null" : moves.clear() ? "true" : "false";
  sink(std::string("{\n    \"judged\": ") + (moves.judged ? "true" : "false"));
  sink(std::string(",\n    \"clear\": ") + clear + ",\n    \"blocked\": ");
  write_lines(moves.blocked, "    ", sink,
              [&](const BlockedMove& move) { return move_object(move, result, setup); });
  sink(",\n    \"least_height\": " + json_optional_number(moves.safe.least) + "\n  }");
}

}  // namespace

void write_check_json(const CheckResult& result, const Rig& rig, const WriteOptions& options,
                      const TextSink& sink) {
  sink("{\n  \"format\": \"leeway-check-2\",\n  \"setup\": " + json_text(result.setup));
  sink(",\n  \"verdict\": " + (result.verdict ? json_text(word(*result.verdict)) : "null"));
  sink(",\n  \"counts\": " + counts_object(result.counts));
  sink(",\n  \"regions\": ");
  write_regions(result.regions, sink);
  sink(",\n  \"coverage\": " + json_coverage(result.coverage));
  sink(",\n  \"points\": ");
  write_lines(result.points, "  ", sink, PointWriter(rig, options.all_limits));
  sink(",\n  \"moves\": ");
  write_moves(result, rig.setup(), sink);
  sink(",\n  \"remarks\": ");
  write_lines(remarks(rig.setup(), result), "  ", sink, [](const Remark& remark) {
    return JsonObject()
        .add("remark", json_text(key(remark.kind)))
        .add("says", json_text(sentence(remark, text_name)))
        .text();
  });
  sink("\n}\n");
}

RegionsWanted regions_told(std::string_view format, const Request& request) {
  if (format == "json") return RegionsWanted::all;
  const bool table = format == "csv" && asks_for_points(request);
  return table ? RegionsWanted::none : RegionsWanted::empty;
}

}  // namespace leeway
