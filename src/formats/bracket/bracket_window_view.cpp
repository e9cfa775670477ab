// What is told of the window: where it ends and why, what would move its ends, and why there is
// none.

#include <fmt/format.h>

#include <algorithm>

#include "formats/bracket/bracket_view.h"
#include "formats/text/numbers.h"

namespace leeway {
namespace {

const char* const kSideWords[] = {"left", "right", "front", "back"};

using Of = BracketInfluence::Of;

const char* const kEdgeWords[] = {"left edge", "right edge", "front edge", "back edge", "radius"};

std::string edge_words(const BracketInfluence& influence, const std::string& owner) {
  return fmt::format("the {} of {}", kEdgeWords[static_cast<int>(influence.edge)], owner);
}

std::string number_words(const BracketInfluence& influence, const std::string& name) {
  switch (influence.of) {
    case Of::travel:
      return edge_words(influence, "the travel");
    case Of::bed:
      return edge_words(influence, "the bed");
    case Of::obstacle:
    case Of::part:
      return edge_words(influence, name);
    case Of::clearance:
      return "the clearance of " + name;
    case Of::obstacle_height:
      return "the height of " + name;
    case Of::underside:
      return "the underside of " + name;
    case Of::trigger_height:
      return "the trigger height";
    case Of::body:
      return edge_words(influence, "the probe's body");
    case Of::envelope:
      return edge_words(influence, "the envelope");
  }
  return "";
}

}  // namespace

std::string BracketView::stop(const BracketStop& stop) const {
  const LimitInfo& limit = stop.limit;
  const std::string where =
      stop.point ? fmt::format("at {}{} ", style_(stop.point->name), at_setup(stop.setup)) : "";
  switch (limit.group) {
    case LimitGroup::travel:
      if (limit.side <= LimitSide::back) {
        return fmt::format("{}the nozzle would be past the {} end of its travel", where,
                           kSideWords[static_cast<int>(limit.side)]);
      }
      return where + "the nozzle would leave its travel";
    case LimitGroup::envelope:
      return "the mount's envelope ends" + at_setup(stop.setup);
    case LimitGroup::beside:
      if (limit.part_id.kind == PartId::Kind::nozzle) {
        return "the nozzle would stand in the body of the probe" + at_setup(stop.setup);
      }
      if (limit.part_id.kind == PartId::Kind::kept_clear) {
        return fmt::format("the probe would be in {}, which is kept clear{}", style_(limit.part),
                           at_setup(stop.setup));
      }
      return fmt::format("the probe would sit in {}{}", style_(limit.part), at_setup(stop.setup));
    case LimitGroup::bed:
    case LimitGroup::obstacle:
    case LimitGroup::head:
      break;
  }
  return fmt::format("{}{} would come down on {}", where, part_words(limit, style_(limit.part)),
                     style_(limit.obstacle));
}

std::vector<std::string> BracketView::sides() const {
  std::vector<std::string> out;
  const BracketWindow& window = report_.window->window;
  for (std::size_t i = 0; i < window.sides.size(); ++i) {
    out.push_back(fmt::format("To the {} as far as {} = {}; beyond it {}.", kSideWords[i],
                              i < 2 ? "x" : "y", decimal(window.sides[i].at, true),
                              stop(window.sides[i].stop)));
  }
  if (window.region.size() > 1) {
    out.push_back(fmt::format("It falls into {} parts; these are the ends of all together.",
                              window.region.size()));
  } else if (window.bounds &&
             window.area < 0.999 * window.bounds->width() * window.bounds->depth()) {
    out.push_back("These are its ends; not every pair between them works (see the map).");
  }
  if (!window.empty && window.region.empty()) {
    out.push_back("It is as thin as a line or a point: nothing may be off at all.");
  }
  const bool bodies = std::all_of(report_.setups.begin(), report_.setups.end(),
                                  [](const Setup& s) { return s.probe.body.has_value(); });
  if (!window.empty && !bodies) {
    out.push_back(
        "No body of the probe is stated, so that nothing keeps it off the nozzle: not "
        "every one of these can be built.");
  }
  constexpr double kEdge = 0.1;
  const BracketResult& r = *report_.window;
  if (!r.present.inside && r.nearest && r.nearest->leeway < kEdge && r.tolerance.none()) {
    out.push_back(
        "The nearest that works is at the very edge: add what printing and fitting the bracket "
        "may be off, and measure the offset once it is built.");
  }
  return out;
}

std::string BracketView::point_words(const BracketPoint& point) const {
  return fmt::format("{}{} at {}", style_(point.name), at_setup(point.setup), pair(point.probe));
}

std::string BracketView::most_words(const BracketMost& most) const {
  const bool exact = most.reached == most.at_most;
  std::vector<std::string> names;
  for (const BracketPoint& point : most.missed) {
    if (names.size() == kMostOutOfReachShown) {
      names.push_back(fmt::format("{} more", most.missed.size() - names.size()));
      break;
    }
    names.push_back(point_words(point));
  }
  return fmt::format(
      "{} {} of these {}: {}, with leeway {} then. It misses {}; without {} the window opens{}.",
      exact ? "The most that one offset reaches is" : "One offset reaches", most.reached,
      most.reached + most.missed.size(), pair(most.offset), signed_amount(most.leeway),
      joined(names), names.size() == 1 ? "it" : "them",
      exact ? ", and no fewer would do"
            : fmt::format(". Whether another reaches up to {} is not known", most.at_most));
}

std::vector<InfluenceRow> BracketView::influences() const {
  std::vector<InfluenceRow> rows;
  for (const BracketInfluence& one : report_.window->influences) {
    rows.push_back({number_words(one, style_(one.name)) + at_setup(one.setup),
                    fmt::format("{} end", kSideWords[one.end]),
                    fmt::format("{}{}", one.moves > 0 ? "+" : "", decimal(one.moves))});
  }
  return rows;
}

std::vector<std::string> BracketView::conflict() const {
  std::vector<std::string> out;
  const BracketResult& r = *report_.window;
  if (!r.window.empty || r.points == r.out_of_reach.size()) return out;
  if (r.mount_alone) {
    out.push_back(
        "The mount alone leaves no place for the probe: the head's parts and what is kept clear "
        "take "
        "up all of it.");
    return out;
  }
  std::vector<std::string> names;
  for (const BracketPoint& point : r.conflict) names.push_back(point_words(point));
  if (names.size() == 1) {
    const bool mount = std::any_of(report_.setups.begin(), report_.setups.end(),
                                   [](const Setup& setup) { return setup.mount != Mount{}; });
    out.push_back(fmt::format("No offset{} reaches {}, even by itself.",
                              mount ? " that the mount allows" : "", names.front()));
  } else {
    out.push_back(
        fmt::format("No offset reaches all of these, though one would if any of them were left "
                    "out: {}.",
                    joined(names)));
  }
  if (r.most) out.push_back(most_words(*r.most));
  if (!r.shrink) return out;
  std::vector<std::string> ways;
  const auto add = [&](const std::optional<double>& by, const char* which) {
    if (by) ways.push_back(fmt::format("{} inward by {}", which, decimal(*by)));
  };
  add(r.shrink->all, "all four sides");
  add(r.shrink->x, "left and right");
  add(r.shrink->y, "front and back");
  if (ways.empty()) {
    out.push_back("No smaller grid would mend that.");
  } else {
    std::string text;
    for (const std::string& way : ways) text += (text.empty() ? "" : ", or ") + way;
    out.push_back(fmt::format("A smaller grid would work: {}.", text));
  }
  return out;
}

}  // namespace leeway
