#include <cmath>

#include "formats/json/json_text.h"
#include "formats/text/wkt.h"
#include "formats/write/bracket_view.h"

namespace leeway {
namespace {

std::vector<std::string> names_of(const std::vector<std::string>& parts) {
  std::vector<std::string> out;
  for (const std::string& part : parts) out.push_back(json_text(part));
  return out;
}

std::string json_list(const std::vector<std::string>& items) {
  std::string text = "[";
  for (const std::string& item : items) text += (text.size() > 1 ? "," : "") + item;
  return text + "]";
}

std::string truth(bool value) { return value ? "true" : "false"; }

// With several setups a name alone would not say whose point it is.
std::string bracket_point_object(const BracketPoint& point, const BracketReport& report) {
  return JsonObject()
      .add("setup", json_text(report.setups[point.setup].name))
      .add("name", json_text(point.name))
      .add("probe", json_position(point.probe))
      .text();
}

std::string stop_object(const BracketStop& stop, const BracketReport& report) {
  JsonObject object;
  object.add("limit", json_text(stop.limit.name));
  object.add("point", stop.point ? json_text(stop.point->name) : "null");
  object.add("setup", json_text(report.setups[stop.setup].name));
  return object.text();
}

std::string window_object(const BracketReport& report) {
  const BracketResult& r = *report.window;
  JsonObject object;
  object.add("empty", truth(r.window.empty));
  object.add("area", json_number(r.window.area));
  object.add("bounds", r.window.bounds ? json_bounds(*r.window.bounds) : "{}");
  object.add("wkt", json_text(wkt_text(r.window.region)));
  if (!r.window.sides.empty()) {
    JsonObject sides;
    const char* const names[] = {"left", "right", "front", "back"};
    for (std::size_t i = 0; i < r.window.sides.size(); ++i) {
      sides.add(names[i], stop_object(r.window.sides[i].stop, report));
    }
    object.add("beyond", sides.text());
  }
  return object.text();
}

std::string cover_object(const std::optional<BracketCover>& cover) {
  if (!cover) return "null";
  return JsonObject()
      .add("fraction", json_number(cover->share))
      .add("one_left", json_number(cover->left))
      .add("one_right", json_number(cover->right))
      .add("one_front", json_number(cover->front))
      .add("one_back", json_number(cover->back))
      .text();
}

std::string most_object(const BracketMost& most, const BracketReport& report) {
  std::vector<std::string> missed;
  for (const BracketPoint& point : most.missed) {
    missed.push_back(bracket_point_object(point, report));
  }
  return JsonObject()
      .add("offset", json_position(most.offset))
      .add("leeway", json_number(most.leeway))
      .add("reached", most.reached)
      .add("at_most", most.at_most)
      .add("missed", json_list(missed))
      .text();
}

void add_window(const BracketReport& report, JsonObject& object) {
  const BracketResult& r = *report.window;
  std::vector<std::string> out_of_reach;
  for (const PointOutOfReach& u : r.out_of_reach) {
    const Limits& limits = r.rigs[u.point.setup].limits();
    out_of_reach.push_back(JsonObject()
                               .add("setup", json_text(report.setups[u.point.setup].name))
                               .add("name", json_text(u.point.name))
                               .add("probe", json_position(u.point.probe))
                               .add("limit", json_text(limits.info(u.limit).name))
                               .add("leeway", json_number(u.leeway))
                               .add("guard", json_number(u.guard))
                               .text());
  }
  object.add("points", r.points);
  object.add("out_of_reach", json_list(out_of_reach));
  object.add("window", window_object(report));
  object.add("present", JsonObject()
                            .add("offset", json_position(r.present.offset))
                            .add("inside", truth(r.present.inside))
                            .add("leeway", json_number(r.present.leeway))
                            .add("blocked_moves", r.present.blocked_moves)
                            .add("overlaps", json_list(names_of(r.present.overlaps)))
                            .text());
  object.add("best", r.best ? JsonObject()
                                  .add("offset", json_position(r.best->offset))
                                  .add("leeway", json_number(r.best->leeway))
                                  .add("blocked_moves", r.best->blocked_moves)
                                  .text()
                            : "null");
  object.add("nearest", r.nearest
                            ? JsonObject()
                                  .add("offset", json_position(r.nearest->offset))
                                  .add("move", json_position(r.nearest->offset - r.present.offset))
                                  .add("blocked_moves", r.nearest->blocked_moves)
                                  .text()
                            : "null");
  std::vector<std::string> names;
  std::vector<std::string> points;
  for (const BracketPoint& point : r.conflict) {
    names.push_back(json_text(point.name));
    points.push_back(bracket_point_object(point, report));
  }
  object.add("conflict", json_list(names));
  object.add("conflict_points", json_list(points));
  object.add("most", r.most ? most_object(*r.most, report) : "null");
  object.add("mount_alone", truth(r.mount_alone));
  object.add("shrink", r.shrink ? JsonObject()
                                      .add("all", json_optional_number(r.shrink->all))
                                      .add("x", json_optional_number(r.shrink->x))
                                      .add("y", json_optional_number(r.shrink->y))
                                      .text()
                                : "null");
  std::vector<std::string> setups;
  for (const BracketSetup& setup : r.setups) {
    setups.push_back(JsonObject()
                         .add("setup", json_text(setup.name))
                         .add("points", setup.points)
                         .add("skipped", setup.skipped)
                         .add("offset", json_position(setup.offset))
                         .add("leeway", json_optional_number(setup.leeway_at_best))
                         .add("coverage", cover_object(setup.cover))
                         .add("coverage_at_best", cover_object(setup.cover_at_best))
                         .text());
  }
  object.add("setups", json_list(setups));
}

std::string steps_list(const Steps& steps) {
  std::vector<std::string> values;
  for (int i = 0; i < steps.count; ++i) values.push_back(json_number(steps.at(i)));
  return json_list(values);
}

std::string map_object(const CoverageMap& map) {
  std::string rows = "[";
  for (int row = 0; row < map.y.count; ++row) {
    rows += row > 0 ? ",\n[" : "\n[";
    for (int column = 0; column < map.x.count; ++column) {
      if (column > 0) rows += ',';
      rows += json_number(map.at(column, row));
    }
    rows += ']';
  }
  return JsonObject()
      .add("x", steps_list(map.x))
      .add("y", steps_list(map.y))
      .add("printable_area", json_number(map.printable_area))
      .add("coverage", rows + "]")
      .text();
}

std::string candidate_object(const RankedCandidate& ranked, const BracketReport& report) {
  std::vector<std::string> covers;
  for (std::size_t s = 0; s < ranked.covers.size(); ++s) {
    const CandidateCover& cover = ranked.covers[s];
    std::vector<std::string> missed;
    for (const std::string& name : missed_names(cover, report.setups[s])) {
      missed.push_back(json_text(name));
    }
    covers.push_back(JsonObject()
                         .add("setup", json_text(report.setups[s].name))
                         .add("coverage", json_optional_number(cover.share))
                         .add("uncovered", JsonObject()
                                               .add("left", json_number(cover.uncovered.left))
                                               .add("right", json_number(cover.uncovered.right))
                                               .add("front", json_number(cover.uncovered.front))
                                               .add("back", json_number(cover.uncovered.back))
                                               .text())
                         .add("grid", cover.mesh ? json_bounds(cover.mesh->bounds) : "null")
                         .add("points", cover.points)
                         .add("failing", cover.failing)
                         .add("missed", json_list(missed))
                         .add("leeway", json_optional_number(cover.leeway))
                         .add("mount", cover.mount.empty() ? "null" : json_text(cover.mount))
                         .text());
  }
  return JsonObject()
      .add("rank", ranked.rank)
      .add("name", json_text(ranked.candidate.name))
      .add("offset", json_position(ranked.candidate.offset))
      .add("setups", json_list(covers))
      .text();
}

}  // namespace

void write_bracket_json(const BracketReport& report, const TextSink& sink) {
  JsonObject object;
  object.add("format", json_text("leeway-bracket-2"));
  if (report.window) add_window(report, object);
  if (report.map) object.add("map", map_object(*report.map));
  if (!report.candidates.empty()) {
    std::vector<std::string> candidates;
    for (const RankedCandidate& ranked : report.candidates) {
      candidates.push_back(candidate_object(ranked, report));
    }
    object.add("candidates", json_list(candidates));
  }
  sink(object.text() + "\n");
}

}  // namespace leeway
