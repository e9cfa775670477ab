// Where the probe may sit.

#include "web/answers.h"

#include <fmt/format.h>

#include <array>
#include <cmath>

#include "formats/bracket/bracket_view.h"
#include "formats/drawing/heat_colours.h"
#include "formats/drawing/svg.h"
#include "formats/text/names.h"
#include "formats/text/numbers.h"
#include "leeway/coverage_map.h"
#include "leeway/read_candidates.h"
#include "leeway/read_setup.h"
#include "leeway/write_bracket.h"
#include "web/results/text_so_far.h"
#include "web/setup/shipped.h"

namespace leeway {
namespace {

// [from, to, count]. What the offsets may be is for coverage_map to say.
Steps steps_asked(WebRequest& asked, const char* key) {
  const auto three = asked.triple(key);
  if (!three) return {0, 0, 1};
  const auto& [from, to, count] = *three;
  if (count != std::floor(count) || count < 1 || count > static_cast<double>(kMostMapOffsets)) {
    throw Refused(fmt::format("The third number of \"{}\" is how many, a whole number.", key));
  }
  return {from, to, static_cast<int>(count)};
}

std::optional<MapSteps> map_asked(const Json* map) {
  if (map == nullptr) return std::nullopt;
  WebRequest asked(*map, "/map");
  MapSteps steps{steps_asked(asked, "x"), steps_asked(asked, "y")};
  asked.done();
  return steps;
}

// The session's setup, and others that came as texts of their own, whole.
std::vector<Setup> setups_asked(const Session& session, const std::vector<std::string>& others) {
  std::vector<Setup> setups{session.rig().setup()};
  for (std::size_t i = 0; i < others.size(); ++i) {
    setups.push_back(whole_setup(others[i], fmt::format("setup {}", i + 2)));
  }
  return setups;
}

CoverageMap held(CommonMap common, const std::vector<Setup>& setups) {
  if (common.map) return *std::move(common.map);
  throw Refused(fmt::format("{} has no printable area, so that there is nothing to cover.",
                            in_quotes(setups[common.unprintable].name)));
}

bool any_point_asked(const std::vector<Setup>& setups) {
  return std::any_of(setups.begin(), setups.end(),
                     [](const Setup& setup) { return asks_for_points(setup.request); });
}

Json offset_of(const std::optional<BracketOffset>& offset) {
  if (!offset) return nullptr;
  return {{"offset", Json::array({rounded(offset->offset.x), rounded(offset->offset.y)})},
          {"leeway", rounded(offset->leeway)}};
}

// The window as a path around the nozzle, in the units of a picture of that scale, y down.
Json window_json(const BracketResult& result, double scale) {
  const BracketWindow& window = result.window;
  Json out{{"empty", window.empty}, {"area", rounded(window.area)}};
  if (window.bounds) {
    const Box& box = *window.bounds;
    out["bounds"] =
        Json::array({rounded(box.x0), rounded(box.x1), rounded(box.y0), rounded(box.y1)});
  }
  out["path"] = path_data(window.region, View{scale, {}});
  out["inside"] = result.present.inside;
  out["leeway"] =
      std::isfinite(result.present.leeway) ? Json(rounded(result.present.leeway)) : Json();
  out["best"] = offset_of(result.best);
  out["nearest"] = offset_of(result.nearest);
  return out;
}

Json steps_json(const Steps& steps) { return Json::array({steps.from, steps.to, steps.count}); }

// Shares in whole thousandths, a row for each y from the front, and the colour of each whole
// percent.
Json map_json(const CoverageMap& map) {
  Json shares = Json::array();
  for (const double share : map.coverage) shares.push_back(std::lround(1000 * share));
  Json colours = Json::array();
  for (int percent = 0; percent <= 100; ++percent) colours.push_back(heat_colour(percent / 100.0));
  return {
      {"x", steps_json(map.x)}, {"y", steps_json(map.y)}, {"shares", shares}, {"colours", colours}};
}

// By its name alone: a page has no folders.
SourceFile shipped_probe(std::string_view path, std::string_view) {
  SourceFile source;
  source.name = source.identity = path;
  const std::string file(path.substr(path.rfind('/') + 1));
  if (const ShippedFile* shipped = shipped_file("profiles/probes/" + file)) {
    source.text = shipped->text;
  } else {
    source.problem = "here only the probes that come with the page can be named";
  }
  return source;
}

}  // namespace

Setup whole_setup(const std::string& text, const std::string& name) {
  SourceFile source;
  source.name = name;
  source.text = text;
  ReadSetup read = read_setup(source, [](std::string_view path, std::string_view) {
    SourceFile none;
    none.name = path;
    none.problem = "only whole setups can be compared; save it whole";
    return none;
  });
  if (!read.setup) throw Refused(read.faults);
  return *std::move(read.setup);
}

Json answer_bracket(Session& session, WebRequest& asked) {
  using Writer = decltype(&write_bracket_text);
  static constexpr std::array<WebFormat<Writer>, 5> kFormats{{{"text", write_bracket_text},
                                                              {"json", write_bracket_json},
                                                              {"markdown", write_bracket_markdown},
                                                              {"csv", write_bracket_csv},
                                                              {"svg", write_bracket_svg}}};
  const WebFormat<Writer>& format = format_asked(asked, kFormats);
  std::optional<MapSteps> steps = map_asked(asked.object("map"));
  const std::optional<std::string> table = asked.text("candidates");
  const auto others = asked.texts("setups").value_or(std::vector<std::string>{});
  asked.done();
  if (format.name == "csv" && !steps && !table) {
    throw Refused("The format csv is for \"map\" or \"candidates\".", "/format");
  }
  const std::vector<Setup> setups = setups_asked(session, others);
  ReadCandidates candidates;
  if (table) {
    SourceFile source;
    source.name = "the candidates";
    source.text = *table;
    candidates = read_candidates(source, shipped_probe);
    if (!candidates.faults.empty()) throw Refused(candidates.faults);
  }
  BracketReport report;
  report.setups = setups;
  if (any_point_asked(setups) || (!steps && !table)) {
    BracketOptions options;
    options.progress = session.progress();
    report.window = bracket(setups, options);
  }
  if (!steps && format.name == "svg") {
    std::vector<Point> offsets;
    for (const Candidate& candidate : candidates.candidates) offsets.push_back(candidate.offset);
    steps =
        map_around(setups, report.window ? report.window->window.bounds : std::nullopt, offsets);
  }
  if (steps) {
    const BracketWindow* window = report.window ? &report.window->window : nullptr;
    report.map = held(map_with_window(setups, window, *steps, {}, session.progress()), setups);
  }
  if (table) {
    CandidateOptions options;
    options.progress = session.progress();
    report.candidates = rank_candidates(setups, candidates.candidates, options);
  }
  TextSoFar text(format.name);
  format.write(report, text.sink());
  return text.answer(!report.window || all_well(*report.window));
}

Json answer_window(Session& session, WebRequest& asked) {
  const bool with_map = asked.flag("map");
  const double scale = asked.number("scale").value_or(1);
  const double steps = asked.number("steps").value_or(60);
  asked.done();
  if (!(scale > 0) || !(steps >= 10 && steps <= 400)) {
    throw Refused("A window's scale is above 0, its steps from 10 to 400.");
  }
  const std::vector<Setup> setups{session.rig().setup()};
  Json out = Json::object();
  BracketReport report;
  report.setups = setups;
  if (any_point_asked(setups)) {
    BracketOptions options;
    options.progress = session.progress();
    options.influences = false;
    report.window = bracket(setups, options);
    out["window"] = window_json(*report.window, scale);
    out["says"] = BracketView(report, text_name).summary();
  }
  if (with_map) {
    const auto bounds = report.window ? report.window->window.bounds : std::nullopt;
    const MapSteps around = map_around(setups, bounds, {}, static_cast<int>(steps));
    out["map"] =
        map_json(held(common_coverage_map(setups, around.x, around.y, session.progress()), setups));
  }
  return out;
}

}  // namespace leeway
