// What is seen while something is dragged: verdicts, sentences, the plan, the head.

#include "web/answers.h"

#include <fmt/format.h>

#include <cmath>

#include "formats/text/names.h"
#include "formats/text/numbers.h"
#include "formats/text/summary.h"
#include "formats/write/check_view.h"
#include "leeway/check.h"
#include "leeway/draw.h"

namespace leeway {
namespace {

// More points are drawn, but not listed one by one.
constexpr std::size_t kMostPointsInFrame = kMostPlanElements;

Json json_of(Point p) { return Json::array({rounded(p.x), rounded(p.y)}); }

Json json_of(const Box& box) {
  return Json::array({rounded(box.x0), rounded(box.x1), rounded(box.y0), rounded(box.y1)});
}

Json json_of(const Counts& counts) {
  return {{"points", counts.points},
          {"reachable", counts.reachable},
          {"marginal", counts.marginal},
          {"unreachable", counts.unreachable},
          {"skipped", counts.skipped}};
}

// Minus infinity as null.
Json leeway_of(double leeway) { return std::isfinite(leeway) ? Json(rounded(leeway)) : Json(); }

std::string why(const CheckedPoint& point, const Words& words) {
  return point.finding.verdict == Verdict::reachable ? room_sentence(point, words)
                                                     : words.reason(point);
}

struct Framed {
  const Rig& rig;
  const CheckResult& result;
  Words words;
  PlanView view;
};

Json point_of(const Framed& framed, std::size_t i) {
  const CheckedPoint& point = framed.result.points[i];
  const Finding& finding = point.finding;
  const LimitInfo& limit = framed.rig.limits().info(finding.limit);
  Json out{{"id", i},
           {"name", point_name(framed.rig.setup(), point)},
           {"probe", json_of(point.probe)},
           {"nozzle", json_of(framed.words.nozzle(point.probe))},
           {"verdict", word(finding.verdict)},
           {"limit", limit.name},
           {"leeway", leeway_of(finding.leeway)},
           {"guard", rounded(finding.guard)},
           {"reason", why(point, framed.words)}};
  if (point.column > 0) {
    out["column"] = point.column;
    out["row"] = point.row;
  }
  if (point.has_nearest) out["nearest"] = json_of(point.nearest);
  return out;
}

Json points_of(const Framed& framed) {
  Json out = Json::array();
  if (framed.result.points.size() <= kMostPointsInFrame) {
    for (std::size_t i = 0; i < framed.result.points.size(); ++i) {
      out.push_back(point_of(framed, i));
    }
    return out;
  }
  const auto failing = failing_points(framed.result, kMostPointsShown);
  for (const std::size_t i : named_points(framed.result, failing)) {
    out.push_back(point_of(framed, i));
  }
  return out;
}

Json coverage_of(const CheckResult& result) {
  if (!result.coverage) return nullptr;
  const UncoveredStrips& strips = result.coverage->uncovered;
  const auto& fraction = result.coverage->fraction;
  return {{"fraction", fraction ? Json(rounded(*fraction)) : Json()},
          {"uncovered",
           {{"left", rounded(strips.left)},
            {"right", rounded(strips.right)},
            {"front", rounded(strips.front)},
            {"back", rounded(strips.back)}}}};
}

// What can be taken hold of, in mm: the grid's bounds for the probe, home, the offset.
Json handles_of(const Setup& setup) {
  Json out{{"offset", json_of(setup.probe.offset)}};
  if (setup.request.grid) out["grid"] = json_of(grid_bounds_for_probe(setup, *setup.request.grid));
  if (setup.request.home) {
    const Home& home = *setup.request.home;
    const Point probe = probe_position(home.at, home.frame, setup.probe.offset);
    out["home"] = {{"probe", json_of(probe)}, {"nozzle", json_of(probe - setup.probe.offset)}};
  }
  out["bed"] = json_of(bounding_box(setup.machine.bed));
  out["travel"] = json_of(bounding_box(setup.machine.travel));
  Json obstacles = Json::array();
  for (const Obstacle& obstacle : setup.machine.obstacles) {
    obstacles.push_back({{"name", obstacle.name}, {"box", json_of(bounding_box(obstacle.shape))}});
  }
  out["obstacles"] = obstacles;
  return out;
}

Json sentences_of(const Framed& framed) {
  const CheckResult& result = framed.result;
  const Setup& setup = framed.rig.setup();
  Json out{{"headline",
            setup_name(result, framed.words) + ": " + summary(result, setup, framed.words) + "."},
           {"before", first_remark(setup, result, text_name)},
           {"remarks", remark_sentences(setup, result, text_name)},
           {"tightest", tightest_sentence(result, framed.words)},
           {"coverage", coverage_sentence(result, setup)},
           {"home", home_sentence(result, framed.words)},
           {"moves", moves_sentence(result, setup, framed.words)},
           {"empty", empty_region_sentences(result)},
           {"caution", caution()}};
  return out;
}

Json view_of(const PlanView& view) {
  return {{"scale", view.scale},
          {"corner", Json::array({view.corner.x, view.corner.y})},
          {"width", view.width},
          {"height", view.height},
          {"drawing",
           Json::array({view.drawing.x0, view.drawing.x1, view.drawing.y0, view.drawing.y1})}};
}

// How the plan is to be drawn.
struct PlanAsked {
  EmbedOptions embed;
  std::optional<Point> head;  // the probe
  bool links = false;
};

PlanAsked plan_asked(const Json* object, const Setup& setup) {
  static const Json kNone = Json::object();
  WebRequest asked(object == nullptr ? kNone : *object, "/plan");
  PlanAsked plan;
  plan.embed.prefix = "plan-";
  plan.embed.title = asked.flag("title");
  plan.embed.legend = asked.flag("legend");
  plan.embed.caution = asked.flag("caution");
  plan.embed.point_titles = asked.flag("titles", true);
  plan.embed.extent = asked.box("extent");
  const double width = asked.number("width").value_or(plan.embed.width);
  const auto head = asked.pair("head");
  const Frame frame = frame_asked(asked);
  plan.links = asked.flag("links");
  asked.done();
  constexpr double kMostPlanWidth = 4000;
  if (!(width >= kLeastPlanWidth && width <= kMostPlanWidth)) {
    throw Refused(
        fmt::format("The plan's width must be from {} to {}.", kLeastPlanWidth, kMostPlanWidth),
        "/plan/width");
  }
  plan.embed.width = width;
  if (head) plan.head = probe_position(*head, frame, setup.probe.offset);
  return plan;
}

void link_all(const CheckResult& result, EmbedOptions& embed) {
  if (result.points.size() > kMostPointsInFrame) return;
  for (std::size_t i = 0; i < result.points.size(); ++i) embed.linked.push_back(i);
}

Json dimension_of(const Dimension& dimension, const Limits& limits) {
  return {{"limit", limits.info(dimension.limit).name},
          {"leeway", leeway_of(dimension.reading.leeway)},
          {"guard", rounded(dimension.reading.guard)},
          {"from", json_of(dimension.from)},
          {"to", json_of(dimension.to)}};
}

Json head_of(const Rig& rig, const HeadPlace& place, const Words& words) {
  CheckedPoint point;
  point.probe = place.probe;
  point.finding = place.finding;
  Json dimensions = Json::array();
  for (const Dimension& one : place.dimensions)
    dimensions.push_back(dimension_of(one, rig.limits()));
  return {{"probe", json_of(place.probe)},
          {"nozzle", json_of(words.nozzle(place.probe))},
          {"verdict", word(place.finding.verdict)},
          {"limit", rig.limits().info(place.finding.limit).name},
          {"leeway", leeway_of(place.finding.leeway)},
          {"guard", rounded(place.finding.guard)},
          {"reason", why(point, words)},
          {"dimensions", dimensions}};
}

}  // namespace

Frame frame_asked(WebRequest& asked) {
  const std::string frame = asked.text("frame", "probe");
  if (frame == "probe") return Frame::probe;
  if (frame == "nozzle") return Frame::nozzle;
  throw Refused("The request's \"frame\" must be probe or nozzle.");
}

Json answer_frame(Session& session, WebRequest& asked) {
  const Json* changes = asked.object("changes");
  const Json* plan_options = asked.object("plan");
  const bool with_points = asked.flag("points", true);
  asked.done();
  if (changes != nullptr) apply_changes(session, *changes);
  const Rig& rig = session.rig();
  PlanAsked plan = plan_asked(plan_options, rig.setup());
  CheckOptions options;
  options.progress = session.progress();
  const CheckResult result = check(rig, options);
  DrawOptions draw;
  if (plan.head) draw.head = place_head(rig, *plan.head);
  if (plan.links) link_all(result, plan.embed);
  std::string svg;
  const PlanView view = write_plan_element(result, rig, draw, plan.embed,
                                           [&svg](std::string_view text) { svg += text; });
  const Framed framed{rig, result, Words(rig, text_name), view};
  Json out{{"verdict", result.verdict ? Json(word(*result.verdict)) : Json()},
           {"counts", json_of(result.counts)}};
  out.update(sentences_of(framed));
  out["fraction"] = coverage_of(result);
  if (with_points) out["points"] = points_of(framed);
  out["handles"] = handles_of(rig.setup());
  if (draw.head) out["head"] = head_of(rig, *draw.head, framed.words);
  out["view"] = view_of(view);
  out["plan"] = std::move(svg);
  if (changes != nullptr) out["setup"] = session.whole();
  return out;
}

Json answer_head(Session& session, WebRequest& asked) {
  const auto at = asked.pair("at");
  const Frame frame = frame_asked(asked);
  asked.done();
  if (!at) throw Refused("The request has no \"at\".");
  const Rig& rig = session.rig();
  const Point probe = probe_position(*at, frame, rig.setup().probe.offset);
  const HeadPlace place = place_head(rig, probe);
  return head_of(rig, place, Words(rig, text_name));
}

Json answer_style(Session&, WebRequest& asked) {
  asked.done();
  return {{"text", plan_css()}};
}

}  // namespace leeway
