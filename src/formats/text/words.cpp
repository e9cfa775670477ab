#include "formats/text/words.h"

#include <fmt/format.h>

#include <cmath>

#include "formats/text/numbers.h"
#include "formats/text/sides.h"
#include "geometry/plane/assert.h"

namespace leeway {
namespace {

const char* side_word(LimitSide side) {
  switch (side) {
    case LimitSide::left:
      return "left";
    case LimitSide::right:
      return "right";
    case LimitSide::front:
      return "front";
    case LimitSide::back:
      return "back";
    case LimitSide::rim:
      return "rim";
    case LimitSide::edge:
    case LimitSide::none:
      break;
  }
  return "edge";
}

// "x = 248.5" for a straight side, "248.5, 8" else. A shortfall that would drown in three
// decimals gets more.
std::string position(LimitSide side, Point p, double leeway) {
  const bool fine = std::abs(leeway) < 0.01;
  if (!is_straight(side)) return decimal(p.x, fine) + ", " + decimal(p.y, fine);
  return along_x(side) ? "x = " + decimal(p.x, fine) : "y = " + decimal(p.y, fine);
}

}  // namespace

std::string joined(const std::vector<std::string>& parts) {
  std::string out;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (i > 0) out += i + 1 == parts.size() ? " and " : ", ";
    out += parts[i];
  }
  return out;
}

std::string part_words(const LimitInfo& limit, const std::string& shown) {
  switch (limit.part_id.kind) {
    case PartId::Kind::nozzle:
      return "the nozzle";
    case PartId::Kind::body:
      return "the body of the probe";
    case PartId::Kind::head:
    case PartId::Kind::kept_clear:
      break;
  }
  return shown;
}

std::string offset_words(Point offset) {
  const char* nozzle = "the nozzle";
  std::vector<std::string> parts;
  const auto say = [&](double amount, const char* below, const char* above) {
    if (amount == 0) return;
    parts.push_back(fmt::format("{} {} {}", decimal(std::abs(amount)), amount < 0 ? below : above,
                                parts.empty() ? nozzle : "it"));
  };
  say(offset.x, "to the left of", "to the right of");
  say(offset.y, "in front of", "behind");
  return parts.empty() ? "exactly under the nozzle" : joined(parts);
}

std::string move_words(Point move) {
  std::vector<std::string> parts;
  const auto say = [&](double amount, const char* below, const char* above) {
    if (amount != 0) {
      parts.push_back(
          fmt::format("{} to the {}", decimal(std::abs(amount)), amount < 0 ? below : above));
    }
  };
  say(rounded(move.x), "left", "right");
  say(rounded(move.y), "front", "back");
  return parts.empty() ? "nowhere" : joined(parts);
}

bool Words::bare_point() const { return std::holds_alternative<Point>(setup_.probe.spot); }

bool Words::states_uncertainty() const {
  const Point u = setup_.probe.offset_uncertainty;
  return u.x > 0 || u.y > 0 || setup_.machine.bed_uncertainty > 0 ||
         setup_.machine.travel_uncertainty > 0;
}

std::string Words::point(const CheckedPoint& point) const {
  const std::string name = point_name(setup_, point);
  const bool ours = point.column > 0 || point.name_index == kHomeIndex;
  return ours ? name : style_(name);
}

std::string Words::limit(std::uint32_t index) const {
  const LimitInfo& limit = limits_.info(index);
  const bool named = limit.part_id.kind == PartId::Kind::head;
  switch (limit.group) {
    case LimitGroup::obstacle:
      return "obstacle " + style_(limit.obstacle);
    case LimitGroup::head:
      return fmt::format("{} over {}", named ? style_(limit.part) : limit.part,
                         style_(limit.obstacle));
    case LimitGroup::travel:
    case LimitGroup::bed:
    case LimitGroup::envelope:
    case LimitGroup::beside:
      break;
  }
  return limit.name;
}

std::string Words::past_travel(const LimitInfo& limit, Point probe, double leeway) const {
  const std::string end = is_straight(limit.side)
                              ? fmt::format("past the {} end of", side_word(limit.side))
                              : fmt::format("outside the {} of", side_word(limit.side));
  return fmt::format("the nozzle would have to go to {}, {} {} its travel",
                     position(limit.side, nozzle(probe), leeway), at_least(-leeway), end);
}

std::string Words::off_bed(const LimitInfo& limit, Point probe, double leeway) const {
  const std::string edge = place(limit);
  const double gap = rounded(leeway + limit.wanted);
  const std::string subject = bare_point()
                                  ? "the probe, at " + position(limit.side, probe, leeway) + ","
                                  : "the sensing area";
  if (gap >= 0) {
    return fmt::format("{} would keep only {} from {}, where {} is wanted: {} short", subject,
                       at_most(gap), edge, decimal(limit.wanted, true), at_least(-leeway));
  }
  std::string over = fmt::format("{} would be {} past {}", subject, at_least(-gap), edge);
  if (limit.wanted <= 0) return over;
  return fmt::format("{}, and {} inside it is wanted: {} short", over, decimal(limit.wanted, true),
                     at_least(-leeway));
}

std::string Words::too_near(const LimitInfo& limit, double leeway) const {
  const bool head = family_of(limit.group).of_part;
  const std::string subject = head           ? part_words(limit, style_(limit.part))
                              : bare_point() ? "the probe"
                                             : "the sensing area";
  const std::string obstacle = style_(limit.obstacle);
  const double gap = rounded(leeway + limit.wanted);
  if (gap >= 0) {
    return fmt::format("{} would keep only {} from {}, where {} is wanted: {} too near", subject,
                       at_most(gap), obstacle, decimal(limit.wanted, true), at_least(-leeway));
  }
  const char* over = head ? "would come down on" : "would be over";
  const std::string clearance = limit.wanted > 0 ? fmt::format(" ({} of it the wanted clearance)",
                                                               decimal(limit.wanted, true))
                                                 : "";
  return fmt::format("{} {} {}: {} too near{}", subject, over, obstacle, at_least(-leeway),
                     clearance);
}

std::string Words::impossible(const LimitInfo& limit) const {
  switch (limit.group) {
    case LimitGroup::travel:
      return "the travel of the nozzle is empty";
    case LimitGroup::bed:
      return "the bed has no place that is large enough for the sensing area";
    case LimitGroup::obstacle:
    case LimitGroup::head:
    case LimitGroup::envelope:
    case LimitGroup::beside:
      break;
  }
  return fmt::format("no position at all keeps clear of {}", style_(limit.obstacle));
}

std::string Words::reason(const CheckedPoint& point) const {
  const LimitInfo& limit = limits_.info(point.finding.limit);
  const double leeway = point.finding.leeway;
  if (std::isinf(leeway)) return impossible(limit);
  if (leeway >= 0) {
    return fmt::format("only {}, but the stated uncertainty asks for {}", room(point.finding),
                       at_least(point.finding.guard));
  }
  switch (limit.group) {
    case LimitGroup::travel:
      return past_travel(limit, point.probe, leeway);
    case LimitGroup::bed:
      return off_bed(limit, point.probe, leeway);
    case LimitGroup::obstacle:
    case LimitGroup::head:
    case LimitGroup::envelope:
    case LimitGroup::beside:
      break;
  }
  return too_near(limit, leeway);
}

std::string Words::sensing() const { return bare_point() ? "the probe" : "the sensing area"; }

std::string Words::brief_bed(const LimitInfo& limit, double leeway, const char* up_to) const {
  const double gap = rounded(leeway + limit.wanted);
  const std::string wanted = decimal(limit.wanted, true);
  if (gap >= 0) {
    return fmt::format("{} would be only {} inside {}, not {}", sensing(), at_most(gap),
                       place(limit), wanted);
  }
  return fmt::format("{} would be {}{} past {}{}", sensing(), up_to, at_least(-gap), place(limit),
                     limit.wanted > 0 ? fmt::format(", not {} inside", wanted) : "");
}

std::string Words::brief_near(const LimitInfo& limit, double leeway, const char* up_to) const {
  const bool head = family_of(limit.group).of_part;
  const std::string subject = head ? part_words(limit, style_(limit.part)) : sensing();
  return fmt::format("{} would {} {}, {}{} too near", subject, head ? "come down on" : "be over",
                     style_(limit.obstacle), up_to, at_least(-leeway));
}

std::string Words::brief(const CheckedPoint& point, bool worst) const {
  const char* up_to = worst ? "up to " : "";
  const LimitInfo& limit = limits_.info(point.finding.limit);
  const double leeway = point.finding.leeway;
  if (std::isinf(leeway)) return impossible(limit);
  if (leeway >= 0) {
    return fmt::format("only {} of leeway to {}, where {} is wanted", at_most(leeway),
                       where(point.finding.limit), at_least(point.finding.guard));
  }
  switch (limit.group) {
    case LimitGroup::travel:
      break;
    case LimitGroup::bed:
      return brief_bed(limit, leeway, up_to);
    case LimitGroup::obstacle:
    case LimitGroup::head:
    case LimitGroup::envelope:
    case LimitGroup::beside:
      return brief_near(limit, leeway, up_to);
  }
  return fmt::format("the nozzle would be {}{} {} the {}{} of its travel", up_to, at_least(-leeway),
                     is_straight(limit.side) ? "past" : "outside", side_word(limit.side),
                     is_straight(limit.side) ? " end" : "");
}

std::string Words::where(std::uint32_t index) const {
  const LimitInfo& info = limits_.info(index);
  const LimitFamily family = family_of(info.group);
  const bool side = !family.of_obstacle && !is_of_mount(info.group);
  return side ? place(info) : limit(index);
}

std::string Words::place(const LimitInfo& limit) const {
  const auto side = [&](const char* end, const char* whose) {
    return fmt::format("the {}{} of {}", side_word(limit.side), is_straight(limit.side) ? end : "",
                       whose);
  };
  switch (limit.group) {
    case LimitGroup::travel:
      return side(" end", "the nozzle's travel");
    case LimitGroup::bed:
      return side(" edge", "the bed");
    case LimitGroup::obstacle:
    case LimitGroup::head:
    case LimitGroup::envelope:
    case LimitGroup::beside:
      break;
  }
  return style_(limit.obstacle);
}

std::string Words::room(const Finding& finding) const {
  LEEWAY_ASSERT(finding.leeway >= 0);
  const LimitInfo& limit = limits_.info(finding.limit);
  const std::string left = at_most(finding.leeway);
  const std::string beyond =
      limit.wanted > 0 ? fmt::format(" (after the {} wanted)", decimal(limit.wanted, true)) : "";
  if (family_of(limit.group).of_part) {
    return fmt::format("{} of leeway between {} and {}{}", left,
                       part_words(limit, style_(limit.part)), place(limit), beyond);
  }
  return fmt::format("{} of leeway to {}{}", left, place(limit), beyond);
}

std::string Words::nearest(const CheckedPoint& point) const {
  if (!point.has_nearest) return "no point that works was found";
  return "the nearest point that works is " + pair(point.nearest);
}

std::string Words::stop(const MoveStop& stop) const {
  const LimitInfo& limit = stop.limit;
  if (stop.leeway >= 0) {
    return fmt::format("{} of leeway on the way, and the stated uncertainty asks for {} ({})",
                       at_most(stop.leeway), at_least(stop.guard), style_(limit.name));
  }
  if (!family_of(limit.group).of_part) {
    return fmt::format("the nozzle would pass {} by {}", place(limit), at_least(-stop.leeway));
  }
  const std::string clearance = limit.wanted > 0 ? fmt::format(" ({} of it the wanted clearance)",
                                                               decimal(limit.wanted, true))
                                                 : "";
  return fmt::format("{} would pass {} too near to {}{}", part_words(limit, style_(limit.part)),
                     at_least(-stop.leeway), style_(limit.obstacle), clearance);
}

}  // namespace leeway
