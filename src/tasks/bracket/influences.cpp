#include "tasks/bracket/influences.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <tuple>
#include <variant>

#include "geometry/plane/polygons.h"
#include "model/setup/door.h"
#include "tasks/go_on.h"

namespace leeway {
namespace {

using NumberOf = BracketInfluence::Of;
using NumberEdge = BracketInfluence::Edge;

constexpr std::size_t kMostInfluences = 5;
constexpr double kSmallStep_mm = 0.1;
constexpr double kHeightStep_mm = 1;

// A number, and how to get at it in a copy of the setups.
struct Number {
  BracketInfluence what;
  std::size_t index = 0;  // of the obstacle or part

  bool is_height() const {
    return what.of == NumberOf::obstacle_height || what.of == NumberOf::underside ||
           what.of == NumberOf::trigger_height;
  }
};

Box* box_within(Shape& shape) {
  if (Box* box = std::get_if<Box>(&shape)) return box;
  if (RoundedBox* rounded = std::get_if<RoundedBox>(&shape)) return &rounded->box;
  return nullptr;
}

double* edge_of(Shape& shape, NumberEdge edge) {
  if (edge == NumberEdge::radius) {
    Disc* disc = std::get_if<Disc>(&shape);
    return disc != nullptr ? &disc->radius : nullptr;
  }
  Box* box = box_within(shape);
  if (box == nullptr) return nullptr;
  switch (edge) {
    case NumberEdge::left:
      return &box->x0;
    case NumberEdge::right:
      return &box->x1;
    case NumberEdge::front:
      return &box->y0;
    case NumberEdge::back:
      return &box->y1;
    case NumberEdge::radius:
    case NumberEdge::none:
      break;
  }
  return nullptr;
}

// Nothing where the setup has no such number.
double* number_in(Setup& setup, const Number& number) {
  Machine& machine = setup.machine;
  const NumberEdge edge = number.what.edge;
  switch (number.what.of) {
    case NumberOf::travel:
      return edge_of(machine.travel, edge);
    case NumberOf::bed:
      return edge_of(machine.bed, edge);
    case NumberOf::obstacle:
      return edge_of(machine.obstacles[number.index].shape, edge);
    case NumberOf::clearance:
      return &machine.obstacles[number.index].clearance;
    case NumberOf::obstacle_height:
      return &machine.obstacles[number.index].height;
    case NumberOf::part:
      return edge_of(machine.head[number.index].outline, edge);
    case NumberOf::underside:
      return &machine.head[number.index].underside;
    case NumberOf::trigger_height:
      return &setup.probe.trigger_height;
    case NumberOf::body:
      return setup.probe.body ? edge_of(setup.probe.body->outline, edge) : nullptr;
    case NumberOf::envelope:
      return setup.mount.envelope ? edge_of(*setup.mount.envelope, edge) : nullptr;
  }
  return nullptr;
}

class NumbersAtEnds {
 public:
  explicit NumbersAtEnds(std::span<const Setup> setups) : setups_(setups) {}

  void take(const BracketStop& stop) {
    setup_ = stop.setup;
    switch (stop.limit.group) {
      case LimitGroup::travel:
        add_shape(NumberOf::travel);
        break;
      case LimitGroup::head:
        add_head(stop.limit);
        break;
      case LimitGroup::envelope:
        add_shape(NumberOf::envelope);
        break;
      case LimitGroup::beside:
        if (stop.limit.part_id.kind == PartId::Kind::head) add_part(stop.limit.part_id);
        add_shape(NumberOf::body);
        break;
      case LimitGroup::bed:
      case LimitGroup::obstacle:
        break;
    }
    const std::optional<Grid>& grid = setups_[setup_].request.grid;
    if (stop.point && stop.point->of_grid && grid) {
      if (const Margins* margins = std::get_if<Margins>(&grid->extent)) {
        add_shape(margins->from == Margins::From::bed ? NumberOf::bed : NumberOf::travel);
      }
    }
  }

  const std::vector<Number>& numbers() const { return numbers_; }

 private:
  void add_head(const LimitInfo& limit) {
    const std::string& obstacle = setups_[setup_].machine.obstacles[limit.obstacle_id].name;
    add_shape(NumberOf::obstacle, limit.obstacle_id, obstacle);
    add(NumberOf::clearance, limit.obstacle_id, obstacle);
    add(NumberOf::obstacle_height, limit.obstacle_id, obstacle);
    if (limit.part_id.kind == PartId::Kind::head) add_part(limit.part_id);
    add(NumberOf::trigger_height);
  }
  void add_part(const PartId& id) {
    const std::string& part = setups_[setup_].machine.head[id.index].name;
    add_shape(NumberOf::part, id.index, part);
    add(NumberOf::underside, id.index, part);
  }
  void add_shape(NumberOf of, std::size_t index = 0, const std::string& name = {}) {
    for (const NumberEdge edge : {NumberEdge::left, NumberEdge::right, NumberEdge::front,
                                  NumberEdge::back, NumberEdge::radius}) {
      add(of, index, name, edge);
    }
  }
  void add(NumberOf of, std::size_t index = 0, const std::string& name = {},
           NumberEdge edge = NumberEdge::none) {
    const Number number{{setup_, of, name, edge, 0, 0}, index};
    const bool known = std::any_of(numbers_.begin(), numbers_.end(), [&](const Number& n) {
      return n.what.setup == setup_ && n.what.of == of && n.what.edge == edge && n.index == index;
    });
    Setup setup = setups_[setup_];
    if (!known && number_in(setup, number) != nullptr) numbers_.push_back(number);
  }

  std::span<const Setup> setups_;
  std::size_t setup_ = 0;
  std::vector<Number> numbers_;
};

// Nothing where the change is none that a machine may have, or leaves no window.
std::optional<Box> ends_with(const BracketProblem& problem, const Number& number, double by) {
  const auto all = problem.setups();
  std::vector<Setup> setups(all.begin(), all.end());
  // What is asked for for the nozzle stays where it is.
  Setup& changed = setups[number.what.setup];
  *number_in(changed, number) += by;
  try {
    require_valid(changed);
    const BracketProblem other(setups, problem.tolerance());
    if (other.within_reach().size() != problem.within_reach().size()) return std::nullopt;
    return bounds(other.window(other.within_reach()));
  } catch (const InvalidSetup&) {
    return std::nullopt;
  }
}

std::array<double, 4> as_ends(const Box& box) { return {box.x0, box.x1, box.y0, box.y1}; }

// Of each end what a millimetre more does, from how `by` moves it.
std::array<double, 4> moves_by(const BracketProblem& problem, const Number& number, const Box& now,
                               double by) {
  std::array<double, 4> moves{};
  const std::optional<Box> changed = ends_with(problem, number, by);
  if (!changed) return moves;
  for (std::size_t end = 0; end < 4; ++end) {
    const double rate = (as_ends(*changed)[end] - as_ends(now)[end]) / by;
    moves[end] = std::round(rate * 100) / 100 + 0.0;
  }
  return moves;
}

// A height matters or not: so both ways are looked at.
std::array<double, 4> moves_of(const BracketProblem& problem, const Number& number,
                               const Box& now) {
  if (!number.is_height()) return moves_by(problem, number, now, kSmallStep_mm);
  std::array<double, 4> moves = moves_by(problem, number, now, kHeightStep_mm);
  const std::array<double, 4> down = moves_by(problem, number, now, -kHeightStep_mm);
  for (std::size_t end = 0; end < 4; ++end) {
    if (std::abs(down[end]) > std::abs(moves[end])) moves[end] = down[end];
  }
  return moves;
}

}  // namespace

std::vector<BracketInfluence> influences_on(const BracketProblem& problem,
                                            const BracketWindow& window, const Progress& progress) {
  NumbersAtEnds at_ends(problem.setups());
  for (const BracketSide& side : window.sides) at_ends.take(side.stop);
  const std::optional<Box> now = bounds(window.region);
  std::vector<BracketInfluence> found;
  if (!now) return found;
  for (const Number& number : at_ends.numbers()) {
    go_on(progress);
    const std::array<double, 4> moves = moves_of(problem, number, *now);
    for (std::size_t end = 0; end < 4; ++end) {
      // Less than this is what polygons are rounded by.
      if (std::abs(moves[end]) < 0.03) continue;
      found.push_back(number.what);
      found.back().end = end;
      found.back().moves = moves[end];
    }
  }
  std::stable_sort(found.begin(), found.end(),
                   [](const BracketInfluence& a, const BracketInfluence& b) {
                     return std::abs(a.moves) > std::abs(b.moves);
                   });
  if (found.size() > kMostInfluences) found.resize(kMostInfluences);
  return found;
}

}  // namespace leeway
