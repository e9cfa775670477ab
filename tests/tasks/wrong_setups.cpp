#include "tasks/wrong_setups.h"

#include <algorithm>
#include <cmath>
#include <random>
#include <string>
#include <utility>

#include "leeway/validate.h"

namespace leeway {
namespace {

class Chance {
 public:
  explicit Chance(std::uint64_t seed) : engine_(seed) {}

  int below(int n) { return static_cast<int>(engine_() % static_cast<std::uint64_t>(n)); }
  bool one_in(int n) { return below(n) == 0; }
  // A multiple of `step`.
  double between(double low, double high, double step = 0.5) {
    const int steps = static_cast<int>(std::lround((high - low) / step));
    return std::round((low + step * below(steps + 1)) * 1000) / 1000;
  }

 private:
  std::mt19937_64 engine_;
};

Shape outline(Chance& chance, double w, double d) {
  switch (chance.below(6)) {
    case 0:
      return Disc{{w / 2, d / 2}, std::min(w, d) / 2};
    case 1:
      return MultiPolygon{{{{0, 0}, {w, 0}, {w, d - 30}, {w - 20, d}, {0, d}}, {}}};
    default:
      return Box{0, w, 0, d};
  }
}

Setup right_setup(Chance& chance) {
  Setup setup;
  const double w = chance.between(100, 400, 5);
  const double d = chance.between(100, 400, 5);
  setup.machine.bed = outline(chance, w, d);
  setup.machine.travel = Box{-chance.between(0, 20), w + chance.between(0, 30),
                             -chance.between(0, 20), d + chance.between(0, 20)};
  setup.machine.print_inset = chance.one_in(3) ? chance.between(1, 20) : 0;
  if (chance.one_in(2)) setup.machine.travel_uncertainty = 0.1;
  if (chance.one_in(2)) setup.machine.bed_uncertainty = 0.2;
  setup.probe.offset = {chance.between(-60, 60), chance.between(-60, 60)};
  if (chance.one_in(2)) setup.probe.offset_uncertainty = {0.15, chance.one_in(2) ? 0.3 : 0.15};
  if (chance.one_in(2)) setup.probe.spot = Disc{{0, 0}, chance.between(1, 9)};
  if (chance.one_in(2)) setup.probe.edge_distance = chance.between(0, 5);
  setup.probe.trigger_height = 2;
  setup.probe.travel_height = 8;
  for (int i = chance.below(5); i > 0; --i) {
    const Point at{chance.between(0, w), chance.between(0, d)};
    const Shape shape = chance.one_in(2) ? Shape(Disc{at, chance.between(2, 8)})
                                         : Shape(Box{at.x, at.x + 20, at.y, at.y + 8});
    setup.machine.obstacles.push_back({"clip " + std::to_string(i), shape, 6, 1});
  }
  if (chance.one_in(2)) setup.machine.head.push_back({"duct", Box{-22, 22, -30, -8}, 3});
  Grid grid;
  grid.columns = 2 + chance.below(9);
  grid.rows = 2 + chance.below(9);
  const double margin = chance.between(5, 40);
  grid.extent = Box{margin, w - margin, margin, d - margin};
  grid.skip_outside_bed = chance.one_in(4);
  setup.request.grid = grid;
  return setup;
}

Shape scaled(const Box& box, double by) {
  return Box{box.x0 * by, box.x1 * by, box.y0 * by, box.y1 * by};
}

// A travel that is not what the machine has.
Shape wrong_travel(Chance& chance, const Box& bed) {
  const double w = bed.width();
  const double d = bed.depth();
  switch (chance.below(6)) {
    case 0:
      return Disc{{chance.between(-100, w), chance.between(-100, d)}, chance.between(20, 90)};
    case 1:
      return MultiPolygon{{{{chance.between(0, w), 0}, {0, 0}, {0, d}}, {}}};
    case 2:
      return MultiPolygon{{{{0, 0}, {w / 3, 0}, {w / 3, d - 20}, {w / 5, d}, {0, d}}, {}}};
    case 3:
      return Box{w + 10, 2 * w, 0, d};
    case 4:
      return scaled({0, w, 0, d}, chance.one_in(2) ? 0.1 : 10);
    default:
      return Box{-w, 0, -d, 0};
  }
}

void mistake(Chance& chance, Setup& setup) {
  const Box bed = bounding_box(setup.machine.bed);
  Probe& probe = setup.probe;
  Grid& grid = *setup.request.grid;
  switch (chance.below(15)) {
    case 0:
      probe.offset.x = -probe.offset.x;
      break;
    case 1:
      probe.offset = 10 * probe.offset;
      break;
    case 2:
      probe.offset = {probe.offset.x + bed.width() / 2, probe.offset.y};
      break;
    case 3:
    case 4:
    case 5:
      setup.machine.travel = wrong_travel(chance, bed);
      break;
    case 6:
      probe.spot = Disc{{0, 0}, chance.between(30, 150)};
      break;
    case 7:
      probe.edge_distance = chance.between(20, 150);
      break;
    case 8:
      setup.machine.print_inset = chance.between(20, 150);
      break;
    case 9:
      probe.offset_uncertainty = {chance.between(1, 30), chance.between(1, 30)};
      break;
    case 10:
      setup.machine.bed = Box{-bed.width(), 0, -bed.depth(), 0};
      break;
    case 11:
      setup.machine.bed = scaled(bed, chance.one_in(2) ? 25.4 : 0.1);
      break;
    case 12:
      setup.machine.obstacles.push_back(
          {"ruler", Box{bed.x0 + 30, bed.x1 - 30, bed.y0 + 40, bed.y0 + 60}, 90, 5});
      break;
    case 13:
      grid.frame = Frame::nozzle;
      break;
    default:
      grid.columns = 2 + chance.below(49);
      grid.rows = 2 + chance.below(49);
      break;
  }
}

}  // namespace

WrongSetup wrong_setup(std::uint64_t seed) {
  Chance chance(seed);
  WrongSetup wrong{right_setup(chance), {}};
  for (int i = 1 + chance.below(3); i > 0; --i) {
    Setup changed = wrong.setup;
    mistake(chance, changed);
    // What no file could hold is told at the door.
    if (validate(changed).empty()) wrong.setup = std::move(changed);
  }
  wrong.options.inside = chance.one_in(6);
  wrong.options.uniform = chance.one_in(8);
  if (chance.one_in(8)) wrong.options.spacing = chance.between(10, 60);
  if (chance.one_in(10)) wrong.options.step = 0.1;
  return wrong;
}

}  // namespace leeway
