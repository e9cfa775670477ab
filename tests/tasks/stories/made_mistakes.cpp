#include "tasks/stories/made_mistakes.h"

#include <utility>

namespace leeway {
namespace {

constexpr double kInchInMm = 25.4;

Box* bounds_of(Setup& s) {
  return s.request.grid ? std::get_if<Box>(&s.request.grid->extent) : nullptr;
}
Margins* margins_of(Setup& s) {
  return s.request.grid ? std::get_if<Margins>(&s.request.grid->extent) : nullptr;
}
Box* bed_of(Setup& s) { return std::get_if<Box>(&s.machine.bed); }
Box* travel_of(Setup& s) { return std::get_if<Box>(&s.machine.travel); }

double hundredths(double value) { return std::round(value * 100) / 100; }
Box times(const Box& b, double by) {
  return {hundredths(b.x0 * by), hundredths(b.x1 * by), hundredths(b.y0 * by),
          hundredths(b.y1 * by)};
}
Box moved(const Box& b, Point by) { return {b.x0 + by.x, b.x1 + by.x, b.y0 + by.y, b.y1 + by.y}; }

bool sign_x(Setup& s, Rolls&) {
  s.probe.offset.x = -s.probe.offset.x;
  return s.probe.offset.x != 0;
}
bool sign_y(Setup& s, Rolls&) {
  s.probe.offset.y = -s.probe.offset.y;
  return s.probe.offset.y != 0;
}
bool signs(Setup& s, Rolls&) {
  s.probe.offset = -s.probe.offset;
  return s.probe.offset.x != 0 && s.probe.offset.y != 0;
}
bool swapped(Setup& s, Rolls&) {
  Point& o = s.probe.offset;
  std::swap(o.x, o.y);
  return o.x != o.y;
}
bool as_from_the_side(Setup& s, Rolls& rolls) {
  Point& o = s.probe.offset;
  o = rolls.percent(50) ? Point{-o.y, o.x} : Point{o.y, -o.x};
  if (o.x == 0) o.x = 0;
  if (o.y == 0) o.y = 0;
  return true;
}

bool frame(Setup& s, Rolls& rolls) {
  Box* b = bounds_of(s);
  if (b == nullptr) return false;
  const Point o = s.probe.offset;
  Grid& grid = *s.request.grid;
  if (grid.frame == Frame::nozzle) {
    grid.frame = Frame::probe;
  } else if (rolls.percent(50)) {
    *b = moved(*b, -o);
  } else {
    grid.frame = Frame::nozzle;
  }
  return true;
}

bool from_travel(Setup& s, Rolls&) {
  Margins* m = margins_of(s);
  if (m == nullptr || m->from == Margins::From::travel) return false;
  m->from = Margins::From::travel;
  return true;
}
bool from_bed(Setup& s, Rolls&) {
  Margins* m = margins_of(s);
  if (m == nullptr || m->from == Margins::From::bed) return false;
  m->from = Margins::From::bed;
  return true;
}

// Either the bed, or what is asked for, by the other origin.
bool other_origin(Setup& s, Rolls& rolls, double way) {
  const Box around = bounding_box(s.machine.bed);
  const Point by{way * around.width() / 2, way * around.depth() / 2};
  Box* b = bounds_of(s);
  if (b == nullptr || rolls.percent(40)) {
    Disc* round = std::get_if<Disc>(&s.machine.bed);
    if (round != nullptr) {
      round->center = round->center + by;
    } else {
      s.machine.bed = moved(around, by);
    }
  } else {
    *b = moved(*b, by);
    if (rolls.percent(50)) {
      for (NamedPoint& p : s.request.points) p.at = p.at + by;
    }
  }
  return true;
}
bool at_centre(Setup& s, Rolls& rolls) {
  const Box bed = bounding_box(s.machine.bed);
  return bed.x0 < -50 && other_origin(s, rolls, 1);
}
bool at_corner(Setup& s, Rolls& rolls) {
  const Box bed = bounding_box(s.machine.bed);
  return bed.x0 > -20 && other_origin(s, rolls, -1);
}

bool equals_bed(Setup& s, Rolls&) {
  s.machine.travel = bounding_box(s.machine.bed);
  return true;
}
bool print_area(Setup& s, Rolls& rolls) {
  const Box bed = bounding_box(s.machine.bed);
  const double in = rolls.of(2, 15, 1);
  s.machine.travel = Box{bed.x0 + in, bed.x1 - in, bed.y0 + in, bed.y1 - in};
  return true;
}
bool beyond_bed(Setup& s, Rolls& rolls) {
  const Box bed = bounding_box(s.machine.bed);
  Margins* m = margins_of(s);
  if (m == nullptr || m->from != Margins::From::travel || !(s.machine.travel == Shape(bed))) {
    return false;
  }
  s.machine.travel = Box{bed.x0 - rolls.of(4, 20, 1), bed.x1 + rolls.of(4, 20, 1),
                         bed.y0 - rolls.of(4, 20, 1), bed.y1 + rolls.of(4, 20, 1)};
  return true;
}
bool begins_at_zero(Setup& s, Rolls& rolls) {
  Box* t = travel_of(s);
  if (t == nullptr || bounding_box(s.machine.bed).x0 < -20) return false;
  const Box before = *t;
  if (t->x0 < 0) t->x0 = 0;
  if (t->y0 < 0 && rolls.percent(70)) t->y0 = 0;
  return !(before == *t);
}
bool size_as_end(Setup& s, Rolls& rolls) {
  Box* t = travel_of(s);
  if (t == nullptr || bounding_box(s.machine.bed).x0 < -20) return false;
  const Box before = *t;
  const double way = rolls.percent(50) ? 1 : -1;
  t->x1 += way * t->x0;
  t->y1 += way * t->y0;
  return !(before == *t);
}

bool zero_offset(Setup& s, Rolls& rolls) {
  Box* b = bounds_of(s);
  const Point o = s.probe.offset;
  if (b != nullptr && s.request.grid->frame == Frame::probe && rolls.percent(70)) {
    *b = moved(*b, -o);
    s.request.grid->frame = Frame::nozzle;
  }
  s.probe.offset = {0, 0};
  if (rolls.percent(20)) {
    const double small = rolls.of(1, 10, 1);
    s.probe.offset = {small, small};
  }
  return true;
}
bool measured_elsewhere(Setup& s, Rolls& rolls) {
  const Point by{rolls.sign() * rolls.of(8, 30, 1), rolls.sign() * rolls.of(0, 30, 1)};
  s.probe.offset = s.probe.offset + by;
  return true;
}

bool inches(Setup& s, Rolls& rolls) {
  const double by = 1 / kInchInMm;
  Point& o = s.probe.offset;
  switch (rolls.below(6)) {
    case 0:
      o = {hundredths(o.x * by), hundredths(o.y * by)};
      return true;
    case 1:
      (rolls.percent(50) ? o.x : o.y) *= by;
      o = {hundredths(o.x), hundredths(o.y)};
      return true;
    case 2:
      if (Box* bed = bed_of(s)) return *bed = times(*bed, by), true;
      return false;
    case 3:
      if (Box* b = bounds_of(s)) return *b = times(*b, by), true;
      return false;
    case 4: {
      Box* bed = bed_of(s);
      Box* travel = travel_of(s);
      if (bed == nullptr || travel == nullptr) return false;
      *bed = times(*bed, by);
      *travel = times(*travel, by);
      return true;
    }
    default: {
      Box* b = rolls.percent(50) ? travel_of(s) : bounds_of(s);
      if (b == nullptr) return false;
      double& end = rolls.percent(50) ? b->x1 : b->y1;
      end = hundredths(end * by);
      return true;
    }
  }
}

bool decimal_moved(Setup& s, Rolls& rolls) {
  const double by = rolls.percent(50) ? 10 : 0.1;
  Point& o = s.probe.offset;
  switch (rolls.below(6)) {
    case 0:
      o.x *= by;
      return o.x != 0;
    case 1:
      o.y *= by;
      return o.y != 0;
    case 2: {
      Margins* m = margins_of(s);
      if (m == nullptr) return false;
      double Margins::*sides[] = {&Margins::left, &Margins::right, &Margins::front, &Margins::back};
      m->*sides[rolls.below(4)] *= by;
      return true;
    }
    default: {
      Box* boxes[] = {bounds_of(s), travel_of(s), bed_of(s)};
      Box* b = boxes[rolls.below(3)];
      if (b == nullptr) return false;
      double Box::*sides[] = {&Box::x0, &Box::x1, &Box::y0, &Box::y1};
      double& side = b->*sides[rolls.below(4)];
      side *= by;
      return side != 0;
    }
  }
}

bool counts(Setup& s, Rolls&) {
  if (!s.request.grid) return false;
  std::swap(s.request.grid->columns, s.request.grid->rows);
  return true;
}
bool turned_bed(Setup& s, Rolls& rolls) {
  Box* bed = bed_of(s);
  Box* travel = travel_of(s);
  if (bed == nullptr || travel == nullptr) return false;
  const int which = rolls.below(3);
  if (which != 1) *bed = {bed->y0, bed->y1, bed->x0, bed->x1};
  if (which != 0) *travel = {travel->y0, travel->y1, travel->x0, travel->x1};
  return true;
}
bool margins_swapped(Setup& s, Rolls& rolls) {
  Margins* m = margins_of(s);
  if (m == nullptr) return false;
  const Margins before = *m;
  if (rolls.percent(50)) {
    std::swap(m->left, m->right);
  } else {
    std::swap(m->front, m->back);
  }
  return !(*m == before);
}
bool bounds_swapped(Setup& s, Rolls&) {
  Box* b = bounds_of(s);
  if (b == nullptr) return false;
  *b = {b->y0, b->y1, b->x0, b->x1};
  return true;
}
bool from_the_back(Setup& s, Rolls&) {
  const Box bed = bounding_box(s.machine.bed);
  Box* b = bounds_of(s);
  if (b == nullptr) return false;
  const double sum = bed.y0 + bed.y1;
  *b = {b->x0, b->x1, sum - b->y1, sum - b->y0};
  return true;
}
bool one_margin(Setup& s, Rolls& rolls) {
  Margins* m = margins_of(s);
  if (m == nullptr) return false;
  double Margins::*sides[] = {&Margins::left, &Margins::right, &Margins::front, &Margins::back};
  double& side = m->*sides[rolls.below(4)];
  const double before = side;
  side = rolls.percent(60) ? 0 : hundredths(side / 2);
  return side != before;
}
bool bed_misstated(Setup& s, Rolls& rolls) {
  Box* bed = bed_of(s);
  if (bed == nullptr || bed->x0 < -20) return false;
  const double by = rolls.sign() * rolls.of(10, 60, 5);
  if (rolls.percent(70)) bed->x1 += by;
  if (rolls.percent(70)) bed->y1 += by;
  return true;
}
bool diameter(Setup& s, Rolls&) {
  Disc* spot = std::get_if<Disc>(&s.probe.spot);
  if (spot == nullptr) return false;
  spot->radius *= 2;
  return true;
}
bool uncertainty(Setup& s, Rolls& rolls) {
  const double by = rolls.percent(50) ? 10 : 100;
  switch (rolls.below(3)) {
    case 0:
      s.probe.offset_uncertainty = by * s.probe.offset_uncertainty;
      break;
    case 1:
      s.machine.bed_uncertainty *= by;
      break;
    default:
      s.machine.travel_uncertainty *= by;
  }
  return true;
}
bool home(Setup& s, Rolls&) {
  if (!s.request.home) return false;
  Home& home = *s.request.home;
  home.frame = home.frame == Frame::probe ? Frame::nozzle : Frame::probe;
  return true;
}

}  // namespace

const std::vector<MadeMistake>& made_mistakes() {
  static const std::vector<MadeMistake> all{
      {"sign of x", sign_x},
      {"sign of y", sign_y},
      {"both signs", signs},
      {"axes swapped", swapped},
      {"axes as seen from the side", as_from_the_side},
      {"frame", frame},
      {"frame of home", home},
      {"margins from the travel", from_travel},
      {"margins from the bed", from_bed},
      {"margins exchanged", margins_swapped},
      {"one margin", one_margin},
      {"origin at the centre", at_centre},
      {"origin at the corner", at_corner},
      {"y counted from the back", from_the_back},
      {"travel equals bed", equals_bed},
      {"print area taken for travel", print_area},
      {"travel beyond bed", beyond_bed},
      {"negative end of the travel left out", begins_at_zero},
      {"size of the travel taken for its end", size_as_end},
      {"offset left at zero", zero_offset},
      {"offset measured elsewhere", measured_elsewhere},
      {"inches", inches},
      {"decimal point", decimal_moved},
      {"columns and rows exchanged", counts},
      {"width and depth exchanged", turned_bed},
      {"x and y of the bounds exchanged", bounds_swapped},
      {"size of the bed", bed_misstated},
      {"diameter taken for radius", diameter},
      {"scale of an uncertainty", uncertainty},
  };
  return all;
}

}  // namespace leeway
