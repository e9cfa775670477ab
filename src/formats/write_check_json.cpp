#include <cmath>
#include <nlohmann/json.hpp>

#include "formats/numbers.h"
#include "leeway/write_check.h"

namespace leeway {
namespace {

// Everything beyond ASCII is escaped, so that no name can act on a terminal or turn the direction
// of reading; bytes that are not UTF-8 become U+FFFD.
std::string quoted(const std::string& text) {
  return nlohmann::json(text).dump(-1, ' ', true, nlohmann::json::error_handler_t::replace);
}

// JSON has no number for infinity.
std::string number(double value) { return std::isfinite(value) ? shortest(value) : "null"; }

std::string numbers(double a, double b) { return '[' + number(a) + ',' + number(b) + ']'; }

std::string position(Point p) { return numbers(p.x, p.y); }

// An object in one line. The library's own numbers are not always the shortest, hence by hand.
class Object {
 public:
  Object& add(const char* key, const std::string& json) {
    text_ += text_.size() > 1 ? ",\"" : "\"";
    text_ += key;
    text_ += "\":";
    text_ += json;
    return *this;
  }
  Object& add(const char* key, std::size_t count) { return add(key, std::to_string(count)); }
  std::string text() const { return text_ + '}'; }

 private:
  std::string text_ = "{";
};

std::string nearest(const CheckedPoint& point) {
  if (point.finding.verdict == Verdict::reachable) return position(point.probe);
  return point.has_nearest ? position(point.nearest) : "null";
}

// Writes the points of one result. The names of limits are the same for all.
class PointWriter {
 public:
  PointWriter(const Setup& setup, const Limits& limits, bool all_limits)
      : setup_(setup), limits_(limits), all_limits_(all_limits) {
    for (std::size_t i = 0; i < limits.size(); ++i) names_.push_back(quoted(limits.info(i).name));
  }

  std::string operator()(const CheckedPoint& point) const {
    const Finding& finding = point.finding;
    Object out;
    out.add("name", quoted(point_name(setup_, point)));
    if (point.column > 0) {
      out.add("column", std::to_string(point.column)).add("row", std::to_string(point.row));
    }
    out.add("probe", position(point.probe))
        .add("nozzle", position(point.probe - setup_.probe.offset))
        .add("verdict", quoted(word(finding.verdict)))
        .add("limit", names_[finding.limit])
        .add("leeway", number(finding.leeway))
        .add("guard", number(finding.guard))
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
      out += Object()
                 .add("limit", names_[i])
                 .add("leeway", number(reading.leeway))
                 .add("guard", number(reading.guard))
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
  return Object()
      .add("points", counts.points)
      .add("reachable", counts.reachable)
      .add("marginal", counts.marginal)
      .add("unreachable", counts.unreachable)
      .add("skipped", counts.skipped)
      .text();
}

std::string bounds_object(const Box& box) {
  return Object().add("x", numbers(box.x0, box.x1)).add("y", numbers(box.y0, box.y1)).text();
}

std::string region_object(const RegionSummary& region) {
  Object out;
  out.add("area", number(region.area));
  out.add("bounds", region.bounds ? bounds_object(*region.bounds) : "null");
  if (region.why_empty) out.add("empty", quoted(*region.why_empty));
  return out.text();
}

std::string coverage_object(const std::optional<Coverage>& coverage) {
  if (!coverage) return "null";
  const BlindStrips& blind = coverage->blind;
  return Object()
      .add("fraction", coverage->fraction ? number(*coverage->fraction) : "null")
      .add("blind", Object()
                        .add("left", number(blind.left))
                        .add("right", number(blind.right))
                        .add("front", number(blind.front))
                        .add("back", number(blind.back))
                        .text())
      .text();
}

std::string move_object(const BlockedMove& move, const CheckResult& result, const Setup& setup) {
  const LimitInfo& limit = move.stop.limit;
  Object out;
  out.add("from", quoted(point_name(setup, result.points[move.from])));
  out.add("to", quoted(point_name(setup, result.points[move.to])));
  out.add("limit", quoted(limit.name));
  if (limit.group == LimitGroup::head) {
    out.add("part", quoted(limit.part)).add("obstacle", quoted(limit.obstacle));
  }
  return out.add("leeway", number(move.stop.leeway)).text();
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
    sink((first ? "{\n    " : ",\n    ") + quoted(word(region.kind)) + ": " +
         region_object(region));
    first = false;
  }
  sink(first ? "{}" : "\n  }");
}

}  // namespace

void write_check_json(const CheckResult& result, const Setup& setup, const Limits& limits,
                      const WriteOptions& options, const TextSink& sink) {
  sink("{\n  \"format\": \"leeway-check-1\",\n  \"setup\": " + quoted(result.setup));
  sink(",\n  \"verdict\": " + (result.verdict ? quoted(word(*result.verdict)) : "null"));
  sink(",\n  \"counts\": " + counts_object(result.counts));
  sink(",\n  \"regions\": ");
  write_regions(result.regions, sink);
  sink(",\n  \"coverage\": " + coverage_object(result.coverage));
  sink(",\n  \"points\": ");
  write_lines(result.points, "  ", sink, PointWriter(setup, limits, options.all_limits));
  sink(std::string(",\n  \"moves\": {\n    \"clear\": ") +
       (result.blocked.empty() ? "true" : "false") + ",\n    \"blocked\": ");
  write_lines(result.blocked, "    ", sink,
              [&](const BlockedMove& move) { return move_object(move, result, setup); });
  sink("\n  }\n}\n");
}

}  // namespace leeway
