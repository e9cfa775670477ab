#include "leeway/write_measure.h"

#include <fmt/format.h>

#include <cmath>
#include <limits>

#include "formats/json/json_text.h"
#include "formats/text/names.h"
#include "formats/text/numbers.h"
#include "formats/text/table.h"
#include "formats/text/words.h"
#include "formats/write/check_view.h"

namespace leeway {
namespace {

const char* axis_word(int axis) { return axis == 0 ? "x" : "y"; }

const char* along_word(Trend::Along along) {
  switch (along) {
    case Trend::Along::x:
      return "x";
    case Trend::Along::y:
      return "y";
    case Trend::Along::order:
      break;
  }
  return "order";
}

// A deviation or uncertainty: never understated.
std::string amount(const std::optional<double>& value) {
  return value ? at_least(*value) : "unknown";
}

std::string freedom(const std::optional<double>& value) {
  if (!value) return "unknown";
  if (std::isinf(*value)) return "infinite";
  return decimal(std::floor(*value * 10 + 1e-9) / 10);
}

std::string factor(const std::optional<double>& value) {
  return value ? decimal(*value) : "unknown";
}

struct Row {
  std::string what, x, y;
};

std::vector<Row> rows_of(const MeasureResult& r) {
  const AxisMeasure& x = r.axes[0];
  const AxisMeasure& y = r.axes[1];
  return {{"offset, nozzle to probe (the mean)", decimal(x.offset), decimal(y.offset)},
          {"experimental standard deviation", amount(x.standard_deviation),
           amount(y.standard_deviation)},
          {"standard uncertainty of the mean", amount(x.standard_uncertainty),
           amount(y.standard_uncertainty)},
          {"degrees of freedom", freedom(x.degrees_of_freedom), freedom(y.degrees_of_freedom)},
          {"coverage factor for 95 % (Student's t)", factor(x.coverage_factor),
           factor(y.coverage_factor)},
          {"expanded uncertainty, 95 %", amount(x.expanded_uncertainty),
           amount(y.expanded_uncertainty)}};
}

std::string summary_words(const MeasureResult& r) {
  const std::string pairs = fmt::format("{} pair{}", r.pairs, r.pairs == 1 ? "" : "s");
  const std::string dropped = r.dropped > 0 ? fmt::format(" ({} dropped)", r.dropped) : "";
  return fmt::format(
      "The offset from nozzle to probe is {}, from {} of readings{}: the probe is {}.",
      pair(r.offset()), pairs, dropped, offset_words(r.offset()));
}

std::string single_words(const MeasureResult& r, const MeasureOptions& options) {
  if (r.pairs != 1) return "";
  if (options.resolution > 0) {
    return "From a single pair the uncertainty is that of the resolution alone: how well the dot "
           "was "
           "met is not in it. Take more pairs, at several dots.";
  }
  return "From a single pair nothing can be said of the uncertainty. Take more pairs, at several "
         "dots, or say --resolution.";
}

std::string factor_words(const MeasureResult& r) {
  if (r.pairs < 2 || !r.axes[0].coverage_factor) return "";
  const double most = std::max(*r.axes[0].coverage_factor, *r.axes[1].coverage_factor);
  if (most <= 2.05) return "";
  return fmt::format(
      "With so few pairs, 95 % asks for a coverage factor of {}; a setup's is 2 if left out. Write "
      "\"coverage_factor\": {} into it, or take more pairs.",
      decimal(std::ceil(most * 100) / 100), decimal(std::ceil(most * 100) / 100));
}

std::string identical_words(const MeasureResult& r, const MeasureOptions& options) {
  if (r.pairs < 2 || options.resolution > 0) return "";
  if (*r.axes[0].standard_deviation > 1e-9 && *r.axes[1].standard_deviation > 1e-9) return "";
  return "Readings that all agree say that the resolution is too coarse to see how far they "
         "differ, "
         "not that there is no uncertainty: say --resolution.";
}

std::vector<std::string> outlier_words(const MeasureResult& r, const std::vector<Reading>& readings,
                                       NameStyle style) {
  std::vector<std::string> out;
  for (const Outlier& outlier : r.outliers) {
    out.push_back(fmt::format(
        "{} stands out in {}: its modified z-score is {}, beyond {}. It is not dropped; look at "
        "it, "
        "and if you know why, drop it with --drop.{}",
        style(readings[outlier.reading].label), axis_word(outlier.axis),
        decimal(std::round(outlier.score * 10) / 10), decimal(MeasureResult::kOutlierLimit),
        r.pairs < 15 ? " With so few pairs such a score comes up by chance in one set of four."
                     : ""));
  }
  return out;
}

std::vector<std::string> trend_words(const MeasureResult& r) {
  std::vector<std::string> out;
  for (const Trend& trend : r.trends) {
    if (trend.p >= MeasureResult::kSuspicion) continue;
    const std::string p = trend.p < 0.0001 ? "below 0.0001" : fmt::format("{:.2g}", trend.p);
    if (trend.along == Trend::Along::order) {
      out.push_back(fmt::format(
          "A suspicion: the offset in {} drifts from reading to reading, by {} each (p {}). The "
          "bracket may be loose.",
          axis_word(trend.axis), decimal(trend.slope, true), p));
    } else {
      out.push_back(fmt::format(
          "A suspicion: the offset in {} changes with the place on the bed, by {} "
          "per "
          "100 in {} (p {}). The bracket may be loose, or an axis tilted or out of square.",
          axis_word(trend.axis), decimal(trend.slope * 100), along_word(trend.along), p));
    }
  }
  return out;
}

std::string block_words(const MeasureResult& r) {
  const auto probe = measured_probe(r);
  if (!probe)
    return fmt::format("\"offset\": [{}, {}]", decimal(r.offset().x), decimal(r.offset().y));
  return fmt::format("\"offset\": [{}, {}],\n\"offset_uncertainty\": [{}, {}]",
                     decimal(probe->offset.x), decimal(probe->offset.y),
                     decimal(probe->uncertainty.x), decimal(probe->uncertainty.y));
}

std::vector<std::string> sentences(const MeasureResult& r, const std::vector<Reading>& readings,
                                   const MeasureOptions& options, NameStyle style) {
  std::vector<std::string> out;
  const auto say = [&out](std::string sentence) {
    if (!sentence.empty()) out.push_back(std::move(sentence));
  };
  say(single_words(r, options));
  say(identical_words(r, options));
  say(factor_words(r));
  if (r.correlation) {
    say(fmt::format("The offsets in x and y are correlated by {}.",
                    decimal(std::round(*r.correlation * 100) / 100)));
  }
  for (std::string& sentence : outlier_words(r, readings, style)) say(std::move(sentence));
  for (std::string& sentence : trend_words(r)) say(std::move(sentence));
  return out;
}

std::string per_axis(const MeasureResult& r, std::optional<double> AxisMeasure::*member) {
  return '[' + json_optional_number(r.axes[0].*member) + ',' +
         json_optional_number(r.axes[1].*member) + ']';
}

// A probability, which six decimals would flatten.
std::string probability(double p) { return fmt::format("{:.6g}", p); }

}  // namespace

std::optional<MeasuredProbe> measured_probe(const MeasureResult& result) {
  const std::optional<Point> u = result.uncertainty();
  if (!u) return std::nullopt;
  const auto nearest = [](double mm) { return std::round(mm * 1000) / 1000 + 0.0; };
  const auto up = [](double mm) { return std::ceil(mm * 1000 - 1e-6) / 1000; };
  return MeasuredProbe{{nearest(result.offset().x), nearest(result.offset().y)},
                       {up(u->x), up(u->y)}};
}

void write_measure_text(const MeasureResult& result, const std::vector<Reading>& readings,
                        const MeasureOptions& options, const TextSink& sink) {
  sink(paragraph(summary_words(result)));
  sink("Lengths are in mm.\n\n");
  Table table({"what", "x", "y"});
  for (const Row& row : rows_of(result)) table.add(" ", {row.what, row.x, row.y});
  table.write(sink);
  for (const std::string& sentence : sentences(result, readings, options, text_name)) {
    sink("\n" + paragraph(sentence));
  }
  sink("\nFor the probe of a setup:\n\n");
  std::string block = "  " + block_words(result) + "\n";
  for (std::size_t at = block.find('\n'); at + 1 < block.size(); at = block.find('\n', at + 1)) {
    block.insert(at + 1, "  ");
  }
  sink(block);
  sink("\n" + paragraph(caution()));
}

void write_measure_markdown(const MeasureResult& result, const std::vector<Reading>& readings,
                            const MeasureOptions& options, const TextSink& sink) {
  sink(summary_words(result) +
       "\n\nLengths are in mm.\n\n| what | x | y |\n| --- | ---: | ---: |\n");
  for (const Row& row : rows_of(result)) {
    sink(fmt::format("| {} | {} | {} |\n", row.what, row.x, row.y));
  }
  sink("\n");
  for (const std::string& sentence : sentences(result, readings, options, markdown_name)) {
    sink("- " + sentence + "\n");
  }
  sink(std::string("- ") + caution() + "\n\nFor the probe of a setup:\n\n```\n" +
       block_words(result) + "\n```\n");
}

void write_measure_json(const MeasureResult& result, const std::vector<Reading>& readings,
                        const MeasureOptions&, const TextSink& sink) {
  const auto member = [&](const char* key, const std::string& json) {
    sink(fmt::format(",\n  \"{}\": {}", key, json));
  };
  sink("{\n  \"format\": \"leeway-measure-1\"");
  member("pairs", std::to_string(result.pairs));
  member("dropped", std::to_string(result.dropped));
  member("offset", json_position(result.offset()));
  member("standard_deviation", per_axis(result, &AxisMeasure::standard_deviation));
  member("standard_uncertainty", per_axis(result, &AxisMeasure::standard_uncertainty));
  member("degrees_of_freedom", per_axis(result, &AxisMeasure::degrees_of_freedom));
  member("coverage_factor", per_axis(result, &AxisMeasure::coverage_factor));
  member("expanded_uncertainty", per_axis(result, &AxisMeasure::expanded_uncertainty));
  member("probability", json_number(MeasureResult::kProbability));
  member("correlation", json_optional_number(result.correlation));
  std::string outliers = "[";
  for (const Outlier& outlier : result.outliers) {
    const std::string label = json_text(readings[outlier.reading].label);
    if (outliers.find(label) != std::string::npos) continue;  // on both axes: named once
    outliers += (outliers.size() > 1 ? "," : "") + label;
  }
  member("outliers", outliers + "]");
  std::string trends = "[";
  for (const Trend& trend : result.trends) {
    trends += (trends.size() > 1 ? ",\n    " : "\n    ") +
              JsonObject()
                  .add("axis", json_text(axis_word(trend.axis)))
                  .add("along", json_text(along_word(trend.along)))
                  .add("slope", fmt::format("{:.9g}", trend.slope + 0.0))
                  .add("p", probability(trend.p))
                  .text();
  }
  member("trends", trends + (trends.size() > 1 ? "\n  ]" : "]"));
  const auto probe = measured_probe(result);
  member("probe", JsonObject()
                      .add("offset", json_position(probe ? probe->offset : result.offset()))
                      .add("offset_uncertainty", probe ? json_position(probe->uncertainty) : "null")
                      .text());
  sink("\n}\n");
}

}  // namespace leeway
