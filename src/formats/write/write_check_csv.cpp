#include <cmath>

#include "formats/text/names.h"
#include "formats/text/numbers.h"
#include "leeway/rig.h"
#include "leeway/write_check.h"

namespace leeway {
namespace {

constexpr const char* kHeader =
    "name,column,row,probe_x,probe_y,nozzle_x,nozzle_y,verdict,limit,leeway,guard,nearest_x,"
    "nearest_y\r\n";
constexpr std::size_t kFlushAt = 1u << 16;

// A number has no way to be infinite in a spreadsheet: the field stays empty.
void add_number(std::string& out, double value) {
  out += ',';
  if (std::isfinite(value)) out += shortest(value);
}

void add_position(std::string& out, Point p) {
  add_number(out, p.x);
  add_number(out, p.y);
}

void add_limit(std::string& out, const std::string& name, double leeway, double guard) {
  out += ',';
  out += name;
  add_number(out, leeway);
  add_number(out, guard);
}

// The fields before and after those of the limit.
struct CsvLine {
  std::string before;
  std::string after;
};

CsvLine line_of(const CheckedPoint& point, const Setup& setup) {
  CsvLine line;
  line.before = csv_text(point_name(setup, point));
  const bool grid = point.column > 0;
  line.before += ',' + (grid ? std::to_string(point.column) : "");
  line.before += ',' + (grid ? std::to_string(point.row) : "");
  add_position(line.before, point.probe);
  add_position(line.before, point.probe - setup.probe.offset);
  line.before += ',';
  line.before += word(point.finding.verdict);
  if (point.finding.verdict == Verdict::reachable) {
    add_position(line.after, point.probe);
  } else if (point.has_nearest) {
    add_position(line.after, point.nearest);
  } else {
    line.after += ",,";
  }
  line.after += "\r\n";
  return line;
}

}  // namespace

void write_check_csv(const CheckResult& result, const Rig& rig, const WriteOptions& options,
                     const TextSink& sink) {
  std::vector<std::string> names;
  for (std::size_t i = 0; i < rig.limits().size(); ++i)
    names.push_back(csv_text(rig.limits().info(i).name));

  std::string out = kHeader;
  for (const CheckedPoint& point : result.points) {
    const CsvLine line = line_of(point, rig.setup());
    const Finding& finding = point.finding;
    for (std::size_t i = 0; options.all_limits && i < rig.limits().size(); ++i) {
      const LimitReading reading = rig.limits().reading(i, point.probe);
      out += line.before;
      add_limit(out, names[i], reading.leeway, reading.guard);
      out += line.after;
    }
    if (!options.all_limits) {
      out += line.before;
      add_limit(out, names[finding.limit], finding.leeway, finding.guard);
      out += line.after;
    }
    if (out.size() < kFlushAt) continue;
    sink(out);
    out.clear();
  }
  sink(out);
}

}  // namespace leeway
