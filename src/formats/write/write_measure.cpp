#include "leeway/write_measure.h"

#include <fmt/format.h>

#include <algorithm>
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

std::size_t fewest_pairs(const MeasureResult& r) {
  return std::min(r.axes[0].pairs, r.axes[1].pairs);
}

// The readings that stand out and wait for a word, each once.
std::vector<std::size_t> undecided(const MeasureResult& r) {
  std::vector<std::size_t> out;
  for (const Outlier& outlier : r.outliers) {
    if (!outlier.kept) out.push_back(outlier.reading);
  }
  std::sort(out.begin(), out.end());
  out.erase(std::unique(out.begin(), out.end()), out.end());
  return out;
}

// "six", "six and seven", "six, seven, eight and 3 more".
std::string undecided_names(const MeasureResult& r, const std::vector<Reading>& readings,
                            NameStyle style) {
  constexpr std::size_t kMostNames = 3;
  const std::vector<std::size_t> which = undecided(r);
  std::string out;
  for (std::size_t i = 0; i < std::min(which.size(), kMostNames); ++i) {
    const bool last = i + 1 == which.size();
    out += (i == 0 ? "" : last ? " and " : ", ") + style(readings[which[i]].label);
  }
  if (which.size() > kMostNames) out += fmt::format(" and {} more", which.size() - kMostNames);
  return out;
}

// The first thing said where a reading stands out: before any number that it may have spoiled.
std::string decide_words(const MeasureResult& r, const std::vector<Reading>& readings,
                         NameStyle style) {
  const std::size_t count = undecided(r).size();
  if (count == 0) return "";
  const char* them = count == 1 ? "it" : "them";
  const std::string without = r.offset_without
                                  ? fmt::format("Without {} the offset from nozzle to probe is {}.",
                                                them, pair(*r.offset_without))
                                  : fmt::format("Without {} no offset is left.", them);
  return fmt::format(
      "Look at this first: {} stand{} out. {} Say which holds, with --drop or --keep and the "
      "label; until then nothing is written into a setup.",
      undecided_names(r, readings, style), count == 1 ? "s" : "", without);
}

std::string summary_words(const MeasureResult& r) {
  const std::string pairs = counted(r.pairs, "pair");
  const bool alike = r.axes[0].pairs == r.pairs && r.axes[1].pairs == r.pairs;
  const std::string told =
      alike ? "" : fmt::format(" ({} tell of x, {} of y)", r.axes[0].pairs, r.axes[1].pairs);
  const std::string dropped = r.dropped > 0 ? fmt::format(" ({} dropped)", r.dropped) : "";
  return fmt::format("{} from nozzle to probe is {}, from {} of readings{}{}: the probe is {}.",
                     r.undecided() ? "With every reading the offset" : "The offset",
                     pair(r.offset()), pairs, told, dropped, offset_words(r.offset()));
}

std::string single_words(const MeasureResult& r, const MeasureOptions& options) {
  if (fewest_pairs(r) != 1) return "";
  const char* axis = r.axes[0].pairs > 1 ? " in y" : r.axes[1].pairs > 1 ? " in x" : "";
  if (options.resolution > 0) {
    return fmt::format(
        "From a single pair{} the uncertainty is that of the resolution alone: how well the dot "
        "was met is not in it. Take more pairs, at several dots.",
        axis);
  }
  return fmt::format(
      "From a single pair{} nothing can be said of the uncertainty. Take more pairs, at several "
      "dots, or say --resolution.",
      axis);
}

// Where 95 % asks for clearly more than what a setup has if it says nothing, rounded up. A single
// pair has no scatter to ask for it.
std::optional<double> wanted_factor(const MeasureResult& r) {
  double most = 0;
  for (const AxisMeasure& axis : r.axes) {
    if (axis.pairs > 1) most = std::max(most, *axis.coverage_factor);
  }
  if (most <= 2.05) return std::nullopt;
  return std::ceil(most * 100) / 100;
}

std::string factor_words(const MeasureResult& r) {
  const std::optional<double> wanted = wanted_factor(r);
  if (!wanted) return "";
  return fmt::format(
      "With so few pairs, 95 % asks for a coverage factor of {}; a setup's is 2 if left out. Write "
      "\"coverage_factor\": {} into it, or take more pairs.",
      decimal(*wanted), decimal(*wanted));
}

std::string identical_words(const MeasureResult& r, const MeasureOptions& options) {
  if (fewest_pairs(r) < 2 || options.resolution > 0) return "";
  if (*r.axes[0].standard_deviation > 1e-9 && *r.axes[1].standard_deviation > 1e-9) return "";
  return "Readings that all agree say that the resolution is too coarse to see how far they "
         "differ, "
         "not that there is no uncertainty: say --resolution.";
}

// Rounded against calling it rare.
std::string chance_words(const Outlier& outlier, std::size_t pairs) {
  if (!outlier.chance) return "";
  const auto sets = static_cast<int>(std::lround(1 / *outlier.chance));
  const std::string often =
      sets == 1 ? "more than one of two" : fmt::format("at most one of {}", sets);
  return fmt::format(
      " Of sets of {} pairs without any mistake, {} hold{} such a score by chance (simulated, "
      "normal "
      "readings).",
      pairs, often, sets == 1 ? "" : "s");
}

std::vector<std::string> outlier_words(const MeasureResult& r, const std::vector<Reading>& readings,
                                       NameStyle style) {
  std::vector<std::string> out;
  for (const Outlier& outlier : r.outliers) {
    const std::size_t pairs = r.axes[static_cast<std::size_t>(outlier.axis)].pairs;
    out.push_back(fmt::format(
        "{} stands out in {}: its modified z-score is {}, beyond {}.{} {}",
        style(readings[outlier.reading].label), axis_word(outlier.axis),
        decimal(std::round(outlier.score * 10) / 10), decimal(MeasureResult::kOutlierLimit),
        chance_words(outlier, pairs),
        outlier.kept
            ? "It is kept, as you say."
            : "Look for a mistake: another dot, figures exchanged, a knock. If you find one, "
              "--drop it; if you took it again and it is right, --keep it."));
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

// What to copy, and before it where it goes.
struct Block {
  std::string where;
  std::string text;
};

Block block_of(const MeasureResult& r) {
  const auto probe = measured_probe(r);
  if (!probe) {
    return {"For the probe of a setup:",
            fmt::format("\"offset\": [{}, {}]", decimal(r.offset().x), decimal(r.offset().y))};
  }
  const std::string offset =
      fmt::format("\"offset\": [{}, {}]", decimal(probe->offset.x), decimal(probe->offset.y));
  const std::string uncertainty =
      fmt::format("\"offset_uncertainty\": [{}, {}]", decimal(probe->uncertainty.x),
                  decimal(probe->uncertainty.y));
  if (!probe->coverage_factor) return {"For the probe of a setup:", offset + ",\n" + uncertainty};
  return {"For a setup:", fmt::format("\"probe\": {{\n  {},\n  {}\n}},\n\"coverage_factor\": {}",
                                      offset, uncertainty, decimal(*probe->coverage_factor))};
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

// Each line with `before` in front.
std::string indented(const std::string& text, const std::string& before) {
  std::string out = before;
  for (const char c : text) {
    out += c;
    if (c == '\n') out += before;
  }
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
                       {up(u->x), up(u->y)},
                       wanted_factor(result)};
}

void write_measure_text(const MeasureResult& result, const std::vector<Reading>& readings,
                        const MeasureOptions& options, const TextSink& sink) {
  const std::string decide = decide_words(result, readings, text_name);
  if (!decide.empty()) sink(paragraph(decide) + "\n");
  sink(paragraph(summary_words(result)));
  sink("Lengths are in mm.\n\n");
  Table table({"what", "x", "y"});
  for (const Row& row : rows_of(result)) table.add(" ", {row.what, row.x, row.y});
  table.write(sink);
  for (const std::string& sentence : sentences(result, readings, options, text_name)) {
    sink("\n" + paragraph(sentence));
  }
  if (decide.empty()) {
    const Block block = block_of(result);
    sink("\n" + block.where + "\n\n" + indented(block.text, "  ") + "\n");
  }
  sink("\n" + paragraph(caution()));
}

void write_measure_markdown(const MeasureResult& result, const std::vector<Reading>& readings,
                            const MeasureOptions& options, const TextSink& sink) {
  const std::string decide = decide_words(result, readings, markdown_name);
  if (!decide.empty()) sink(decide + "\n\n");
  sink(summary_words(result) +
       "\n\nLengths are in mm.\n\n| what | x | y |\n| --- | ---: | ---: |\n");
  for (const Row& row : rows_of(result)) {
    sink(fmt::format("| {} | {} | {} |\n", row.what, row.x, row.y));
  }
  sink("\n");
  for (const std::string& sentence : sentences(result, readings, options, markdown_name)) {
    sink("- " + sentence + "\n");
  }
  sink(std::string("- ") + caution() + "\n");
  if (!decide.empty()) return;
  const Block block = block_of(result);
  sink("\n" + block.where + "\n\n```\n" + block.text + "\n```\n");
}

void write_measure_json(const MeasureResult& result, const std::vector<Reading>& readings,
                        const MeasureOptions&, const TextSink& sink) {
  const auto member = [&](const char* key, const std::string& json) {
    sink(fmt::format(",\n  \"{}\": {}", key, json));
  };
  sink("{\n  \"format\": \"leeway-measure-2\"");
  member("pairs", std::to_string(result.pairs));
  member("pairs_of_axis", fmt::format("[{},{}]", result.axes[0].pairs, result.axes[1].pairs));
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
    outliers += (outliers.size() > 1 ? ",\n    " : "\n    ") +
                JsonObject()
                    .add("label", json_text(readings[outlier.reading].label))
                    .add("axis", json_text(axis_word(outlier.axis)))
                    .add("score", json_number(outlier.score))
                    .add("chance", json_optional_number(outlier.chance))
                    .add("kept", outlier.kept ? "true" : "false")
                    .text();
  }
  member("outliers", outliers + (outliers.size() > 1 ? "\n  ]" : "]"));
  member("offset_without", result.offset_without ? json_position(*result.offset_without) : "null");
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
  member("wanted_coverage_factor",
         json_optional_number(probe ? probe->coverage_factor : std::nullopt));
  member("probe",
         result.undecided()
             ? "null"
             : JsonObject()
                   .add("offset", json_position(probe ? probe->offset : result.offset()))
                   .add("offset_uncertainty", probe ? json_position(probe->uncertainty) : "null")
                   .text());
  sink("\n}\n");
}

}  // namespace leeway
