#include <cmath>

#include "formats/bracket/bracket_view.h"
#include "formats/json/json_text.h"
#include "formats/text/wkt.h"
#include "leeway/write_bracket.h"

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

std::string trade_object(const BracketTrade& trade) {
  return JsonObject()
      .add("leeway", json_number(trade.leeway))
      .add("coverage", json_number(trade.coverage))
      .add("offset", json_position(trade.offset))
      .text();
}

std::string choice_object(const std::optional<BracketChoice>& choice) {
  if (!choice) return "null";
  return JsonObject()
      .add("offset", json_position(choice->trade.offset))
      .add("leeway", json_number(choice->trade.leeway))
      .add("coverage", json_number(choice->trade.coverage))
      .add("blocked_moves", choice->blocked_moves)
      .text();
}

void add_trade_off(const BracketResult& r, JsonObject& object) {
  std::vector<std::string> trades;
  if (r.trade_off) {
    for (const BracketTrade& trade : r.trade_off->curve) trades.push_back(trade_object(trade));
  }
  object.add("trade_off", json_list(trades));
  object.add("recommended",
             r.trade_off ? JsonObject()
                               .add("most_coverage", choice_object(r.trade_off->most_coverage))
                               .add("knee", choice_object(r.trade_off->knee))
                               .add("most_leeway", choice_object(r.trade_off->most_leeway))
                               .text()
                         : "null");
  if (r.leeway_wanted) {
    object.add("wanted", JsonObject()
                             .add("leeway", json_number(*r.leeway_wanted))
                             .add("best", choice_object(r.asked))
                             .text());
  }
}

std::string name_as_it_is(std::string_view name) { return std::string(name); }

std::string influences_list(const BracketReport& report) {
  static const char* const ends[] = {"left", "right", "front", "back"};
  std::vector<std::string> out;
  const std::vector<InfluenceRow> rows = BracketView(report, name_as_it_is).influences();
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const BracketInfluence& one = report.window->influences[i];
    out.push_back(JsonObject()
                      .add("setup", json_text(report.setups[one.setup].name))
                      .add("number", json_text(rows[i].number))
                      .add("end", json_text(ends[one.end]))
                      .add("moves", json_number(one.moves))
                      .text());
  }
  return json_list(out);
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
  if (!r.tolerance.none()) {
    object.add("tolerance", JsonObject()
                                .add("round", json_number(r.tolerance.round))
                                .add("along", json_position(r.tolerance.box))
                                .text());
  }
  object.add("window", window_object(report));
  object.add("influences", influences_list(report));
  object.add("present", JsonObject()
                            .add("offset", json_position(r.present.offset))
                            .add("inside", truth(r.present.inside))
                            .add("leeway", json_number(r.present.leeway))
                            .add("coverage", json_optional_number(r.present.coverage))
                            .add("blocked_moves", r.present.blocked_moves)
                            .add("overlaps", json_list(names_of(r.present.overlaps)))
                            .text());
  object.add("best", r.best ? JsonObject()
                                  .add("offset", json_position(r.best->offset))
                                  .add("leeway", json_number(r.best->leeway))
                                  .add("coverage", json_optional_number(r.best->coverage))
                                  .add("blocked_moves", r.best->blocked_moves)
                                  .text()
                            : "null");
  object.add("nearest", r.nearest
                            ? JsonObject()
                                  .add("offset", json_position(r.nearest->offset))
                                  .add("move", json_position(r.nearest->offset - r.present.offset))
                                  .add("leeway", json_number(r.nearest->leeway))
                                  .add("coverage", json_optional_number(r.nearest->coverage))
                                  .add("blocked_moves", r.nearest->blocked_moves)
                                  .text()
                            : "null");
  add_trade_off(r, object);
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

// A number for each offset that is open, null for the others.
std::string map_object(const CoverageMap& map) {
  std::string rows = "[";
  for (int row = 0; row < map.y.count; ++row) {
    rows += row > 0 ? ",\n[" : "\n[";
    for (int column = 0; column < map.x.count; ++column) {
      const double share = map.at(column, row);
      if (column > 0) rows += ',';
      if (!map.is_open(column, row)) {
        rows += "null";
      } else {
        rows += json_number(map.points > 0 ? std::round(share * static_cast<double>(map.points))
                                           : share);
      }
    }
    rows += ']';
  }
  JsonObject object;
  object.add("x", steps_list(map.x)).add("y", steps_list(map.y));
  if (map.points > 0) {
    object.add("points", rows + "]");
  } else {
    object.add("printable_area", json_number(map.printable_area)).add("coverage", rows + "]");
  }
  return object.text();
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
      .add("probe", ranked.candidate.probe ? json_text(ranked.candidate.probe->name) : "null")
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
