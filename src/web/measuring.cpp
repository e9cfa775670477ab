// An offset from readings.

#include "web/answers.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "formats/text/numbers.h"
#include "formats/typed/typed_values.h"
#include "leeway/read_readings.h"
#include "leeway/write_measure.h"
#include "web/text_so_far.h"

namespace leeway {
namespace {

// Readings by their place from 0.
MeasureOptions measure_asked(const std::vector<Reading>& readings,
                             const std::string& typed_resolution, const std::vector<double>& drop) {
  MeasureOptions options;
  if (!typed_resolution.empty()) {
    const std::optional<double> resolution = typed_number(typed_resolution);
    if (!resolution || *resolution < 0 || *resolution > 1000) {
      WebFault fault;
      fault.message = fmt::format("This takes a number of mm from 0 to 1000, not \"{}\"{}.",
                                  typed_resolution, number_hint(typed_resolution));
      fault.field = "resolution";
      throw Refused({fault});
    }
    options.resolution = *resolution;
  }
  options.dropped.assign(readings.size(), false);
  for (const double place : drop) {
    if (!(place >= 0 && place < static_cast<double>(readings.size()))) {
      throw Refused("There is no such reading to drop.", "/drop");
    }
    options.dropped[static_cast<std::size_t>(place)] = true;
  }
  if (std::find(options.dropped.begin(), options.dropped.end(), false) == options.dropped.end()) {
    throw Refused("All readings are dropped; at least one must stay.", "/drop");
  }
  return options;
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
  return {{"/probe/offset", Json::array({probe->offset.x, probe->offset.y})},
          {"/probe/offset_uncertainty", Json::array({probe->uncertainty.x, probe->uncertainty.y})}};
}

}  // namespace

Json answer_measure(Session&, Asked& asked) {
  using Writer = decltype(&write_measure_text);
  static constexpr std::array<WebFormat<Writer>, 3> kFormats{
      {{"text", write_measure_text},
       {"json", write_measure_json},
       {"markdown", write_measure_markdown}}};
  const WebFormat<Writer>& format = format_asked(asked, kFormats);
  SourceFile source;
  source.name = "the readings";
  source.text = asked.text("readings", "");
  const std::string resolution = asked.typed("resolution");
  const std::vector<double> drop = asked.numbers("drop").value_or(std::vector<double>{});
  asked.done();
  const ReadReadings read = read_readings(source);
  if (!read.faults.empty()) throw Refused(read.faults);
  const MeasureOptions options = measure_asked(read.readings, resolution, drop);
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
    out["outliers"].push_back(
        {{"reading", outlier.reading}, {"axis", outlier.axis}, {"score", rounded(outlier.score)}});
  }
  out["changes"] = use_of(result);
  return out;
}

}  // namespace leeway
