// An offset from readings.

#include "web/answers.h"

#include <fmt/format.h>

#include <array>

#include "formats/text/numbers.h"
#include "formats/typed/typed_values.h"
#include "leeway/read_readings.h"
#include "leeway/write_measure.h"
#include "web/results/text_so_far.h"

namespace leeway {
namespace {

// Readings by their places from 0.
std::vector<bool> places_asked(WebRequest& asked, const char* key) {
  std::vector<bool> out;
  for (const double place : asked.numbers(key).value_or(std::vector<double>{})) {
    if (!(place >= 0 && place < static_cast<double>(kMostReadings))) {
      throw Refused(fmt::format("There is no such reading to {}.", key), fmt::format("/{}", key));
    }
    const auto index = static_cast<std::size_t>(place);
    if (out.size() <= index) out.resize(index + 1);
    out[index] = true;
  }
  return out;
}

double resolution_asked(const std::string& typed) {
  if (typed.empty()) return 0;
  const std::optional<double> resolution = typed_number(typed);
  if (resolution && *resolution >= 0 && *resolution <= 1000) return *resolution;
  WebFault fault;
  fault.message = fmt::format("This takes a number of mm from 0 to 1000, not {}{}.",
                              in_quotes(typed), number_hint(typed));
  fault.field = "resolution";
  throw Refused({fault});
}

Json reading_json(const Reading& reading, bool dropped) {
  const auto pair_json = [](Point p) { return Json::array({rounded(p.x), rounded(p.y)}); };
  return {{"label", reading.label},
          {"nozzle", pair_json(reading.nozzle_over)},
          {"probe", pair_json(reading.probe_over)},
          {"offset", pair_json(reading.offset())},
          {"dropped", dropped}};
}

// What "use it" does to a setup.
Json use_of(const MeasureResult& result) {
  const std::optional<MeasuredProbe> probe = measured_probe(result);
  if (!probe) return nullptr;
  Json out{
      {"/probe/offset", Json::array({probe->offset.x, probe->offset.y})},
      {"/probe/offset_uncertainty", Json::array({probe->uncertainty.x, probe->uncertainty.y})}};
  if (probe->coverage_factor) out["/coverage_factor"] = *probe->coverage_factor;
  return out;
}

}  // namespace

Json answer_measure(Session&, WebRequest& asked) {
  using Writer = decltype(&write_measure_text);
  static constexpr std::array<WebFormat<Writer>, 3> kFormats{
      {{"text", write_measure_text},
       {"json", write_measure_json},
       {"markdown", write_measure_markdown}}};
  const WebFormat<Writer>& format = format_asked(asked, kFormats);
  SourceFile source;
  source.name = "the readings";
  source.text = asked.text("readings", "");
  MeasureOptions options;
  options.resolution = resolution_asked(asked.typed("resolution"));
  options.dropped = places_asked(asked, "drop");
  options.kept = places_asked(asked, "keep");
  asked.done();
  const ReadReadings read = read_readings(source);
  if (!read.faults.empty()) throw Refused(read.faults);
  const std::size_t count = read.readings.size();
  if (options.dropped.size() > count || options.kept.size() > count) {
    throw Refused("There is no such reading.");
  }
  options.dropped.resize(count);
  options.kept.resize(count);
  const MeasureResult result = measure(read.readings, options);
  TextSoFar text(format.name);
  format.write(result, read.readings, options, text.sink());
  Json out = text.answer(true);
  out["readings"] = Json::array();
  for (std::size_t i = 0; i < read.readings.size(); ++i) {
    out["readings"].push_back(reading_json(read.readings[i], options.dropped[i]));
  }
  out["outliers"] = Json::array();
  for (const Outlier& outlier : result.outliers) {
    out["outliers"].push_back({{"reading", outlier.reading},
                               {"axis", outlier.axis},
                               {"score", rounded(outlier.score)},
                               {"kept", outlier.kept}});
  }
  out["undecided"] = result.undecided();
  out["changes"] = result.undecided() ? Json() : use_of(result);
  return out;
}

}  // namespace leeway
