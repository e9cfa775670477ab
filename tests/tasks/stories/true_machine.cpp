#include "tasks/stories/true_machine.h"

#include <string>
#include <variant>

namespace leeway {
namespace {

struct Overtravel {
  double left, right, front, back;
};

Overtravel overtravel(Rolls& rolls) {
  const auto small = [&] { return rolls.of(0, 15, rolls.percent(70) ? 1 : 0.5); };
  switch (rolls.below(8)) {
    case 0:
    case 1:
      return {0, 0, 0, 0};
    case 2: {
      const double same = rolls.of(1, 20, 1);
      return {same, same, same, same};
    }
    case 3:
    case 4:
    case 5: {
      Overtravel over{small(), small(), small(), small()};
      if (rolls.percent(15)) over.left = -rolls.of(1, 6, 1);
      return over;
    }
    default: {
      // Far past one side, or two: room for a tool change, a wiper, a wide head.
      Overtravel over{small(), small(), small(), small()};
      double* sides[] = {&over.left, &over.right, &over.front, &over.back};
      *sides[rolls.below(4)] = rolls.of(20, 80, rolls.percent(50) ? 5 : 1);
      if (rolls.percent(30)) *sides[rolls.below(4)] = rolls.of(20, 80, 5);
      return over;
    }
  }
}

double bed_size(Rolls& rolls) {
  const double step = rolls.percent(60) ? 10 : rolls.percent(60) ? 5 : 1;
  return rolls.percent(60) ? rolls.of(150, 400, step) : rolls.log_of(100, 1000, step);
}

Point probe_offset(Rolls& rolls) {
  const double step = rolls.percent(40) ? 1 : rolls.percent(50) ? 0.5 : 0.1;
  const auto far = [&] { return rolls.sign() * rolls.of(18, 65, step); };
  const auto near = [&] { return rolls.sign() * rolls.of(2, 20, step); };
  switch (rolls.below(6)) {
    case 0:
      return {far(), 0};
    case 1:
      return {0, far()};
    case 2:
    case 3:
      return {far(), near()};
    case 4:
      return {near(), far()};
    default:
      return {far(), far()};
  }
}

void add_head(Setup& setup, Rolls& rolls) {
  const Point o = setup.probe.offset;
  const double w = rolls.of(8, 20, 1);
  const double d = rolls.of(8, 20, 1);
  Box duct{-w, w, -d - 8, d - 8};
  if (rolls.percent(50)) duct = {-w, w, -d + 8, d + 8};
  const double gap = 10;
  const bool beside =
      o.x < duct.x0 - gap || o.x > duct.x1 + gap || o.y < duct.y0 - gap || o.y > duct.y1 + gap;
  if (beside) setup.machine.head.push_back({"duct", duct, 3});
}

void add_clip(Setup& setup, Rolls& rolls) {
  const Box bed = bounding_box(setup.machine.bed);
  const double middle = (bed.x0 + bed.x1) / 2;
  const bool front = rolls.percent(50);
  const double y = front ? bed.y0 : bed.y1;
  setup.machine.obstacles.push_back(
      {"clip", Box{middle - 12, middle + 12, y - 4, y + 4}, 5, rolls.percent(50) ? 1.0 : 0.0});
}

double guard_of(double a, double b, double k) {
  return std::ceil(k * std::hypot(a, b) * 10 - 1e-9) / 10;
}

// The outermost place at `wanted` from `low`, on the person's own lattice, and inside.
double inward_up(double value, double step) { return std::ceil(value / step - 1e-9) * step; }
double inward_down(double value, double step) { return std::floor(value / step + 1e-9) * step; }

Box rounded_in(const Box& box, double step) {
  return {inward_up(box.x0, step), inward_down(box.x1, step), inward_up(box.y0, step),
          inward_down(box.y1, step)};
}

// People think in distances from the edge of the bed, or in coordinates.
Box rounded_from_bed(const Box& box, const Box& bed, double step) {
  return {bed.x0 + inward_up(box.x0 - bed.x0, step), bed.x1 - inward_up(bed.x1 - box.x1, step),
          bed.y0 + inward_up(box.y0 - bed.y0, step), bed.y1 - inward_up(bed.y1 - box.y1, step)};
}

double round_step(Rolls& rolls) {
  return rolls.percent(45) ? 5 : rolls.percent(40) ? 1 : rolls.percent(70) ? 10 : 0.5;
}

Box spared(const Box& box, double left, double right, double front, double back) {
  return {box.x0 + left, box.x1 - right, box.y0 + front, box.y1 - back};
}

// Says a box that is meant for the probe in one of the forms a request has.
void ask_for(Request& request, const Box& mesh, const Setup& setup, Rolls& rolls) {
  Grid grid{3 + rolls.below(7), 3 + rolls.below(7), mesh, Frame::probe, false};
  if (rolls.percent(60)) grid.rows = grid.columns;
  const Point o = setup.probe.offset;
  const bool round = std::holds_alternative<Disc>(setup.machine.bed);
  const Box bed = bounding_box(setup.machine.bed);
  const Box travel = bounding_box(setup.machine.travel);
  const auto margins = [&](const Box& in, const Box& of, Margins::From from) {
    return Margins{of.x0 > in.x0 ? 0.0 : in.x0 - of.x0, of.x1 - in.x1, in.y0 - of.y0, of.y1 - in.y1,
                   from};
  };
  const int form = rolls.below(10);
  if (form < 3) {
    grid.extent = margins(mesh, bed, Margins::From::bed);
  } else if (form == 3 && mesh.x0 >= travel.x0 && mesh.x1 <= travel.x1 && mesh.y0 >= travel.y0 &&
             mesh.y1 <= travel.y1) {
    grid.extent = margins(mesh, travel, Margins::From::travel);
  } else if (form == 4) {
    grid.extent = Box{mesh.x0 - o.x, mesh.x1 - o.x, mesh.y0 - o.y, mesh.y1 - o.y};
    grid.frame = Frame::nozzle;
  }
  grid.skip_outside_bed = round;
  request.grid = grid;
}

void ask_for_points(Request& request, const Box& mesh, Rolls& rolls) {
  const char* names[] = {"front left screw", "front right screw", "back left screw",
                         "back right screw"};
  const Point at[] = {
      {mesh.x0, mesh.y0}, {mesh.x1, mesh.y0}, {mesh.x0, mesh.y1}, {mesh.x1, mesh.y1}};
  const int count = rolls.percent(80) ? 4 : 3;
  for (int i = 0; i < count; ++i) request.points.push_back({names[i], at[i], Frame::probe});
}

// In the middle, or out of the way: near a corner of what is asked for.
void ask_for_home(Request& request, const Box& mesh, const Setup& setup, Rolls& rolls) {
  const Box bed = bounding_box(setup.machine.bed);
  const Point o = setup.probe.offset;
  const Point corners[] = {
      {mesh.x0, mesh.y0}, {mesh.x1, mesh.y0}, {mesh.x0, mesh.y1}, {mesh.x1, mesh.y1}};
  Point at{(bed.x0 + bed.x1) / 2, (bed.y0 + bed.y1) / 2};
  const Frame frame = rolls.percent(50) ? Frame::probe : Frame::nozzle;
  if (rolls.percent(50)) {
    const Point corner = corners[rolls.below(4)];
    at = frame == Frame::probe ? corner : corner - o;
  }
  request.home = Home{at, frame};
}

Request asking(const Box& mesh, const Setup& setup, Rolls& rolls) {
  Request request;
  const int what = rolls.below(10);
  if (what > 0) ask_for(request, mesh, setup, rolls);
  if (what < 2) ask_for_points(request, mesh, rolls);
  if (rolls.percent(25)) ask_for_home(request, mesh, setup, rolls);
  return request;
}

// A box that leaves `margin` on every side of the bed.
Box even(const Box& bed, double margin) { return spared(bed, margin, margin, margin, margin); }

}  // namespace

Setup true_machine(Rolls& rolls) {
  Setup setup;
  setup.name = "story";
  const double width = bed_size(rolls);
  const double depth = rolls.percent(45) ? width : bed_size(rolls);
  const int origin = rolls.below(10);
  Point corner{0, 0};
  if (origin >= 8) corner = {-width / 2, -depth / 2};
  if (origin == 7) corner = {rolls.of(-10, 10, 1), rolls.of(-10, 10, 1)};
  const Overtravel over = overtravel(rolls);
  const bool round = rolls.percent(10);
  if (round) {
    const double radius = width / 2;
    setup.machine.bed = Disc{{0, 0}, radius};
    const double more = rolls.of(0, 12, 1);
    if (rolls.percent(50)) {
      setup.machine.travel = Disc{{0, 0}, radius + more};
    } else {
      setup.machine.travel =
          Box{-radius - over.left, radius + over.right, -radius - over.front, radius + over.back};
    }
  } else {
    setup.machine.bed = Box{corner.x, corner.x + width, corner.y, corner.y + depth};
    setup.machine.travel = Box{corner.x - over.left, corner.x + width + over.right,
                               corner.y - over.front, corner.y + depth + over.back};
  }
  setup.probe.offset = probe_offset(rolls);
  if (rolls.percent(65)) setup.probe.spot = Disc{{0, 0}, rolls.of(1, 9, 0.5)};
  if (rolls.percent(40)) setup.probe.edge_distance = rolls.of(0.5, 5, 0.5);
  if (rolls.percent(60)) {
    setup.machine.travel_uncertainty = rolls.of(0.1, 0.3, 0.1);
    setup.machine.bed_uncertainty = rolls.of(0.1, 0.3, 0.1);
    const double u = rolls.of(0.1, 0.4, 0.05);
    setup.probe.offset_uncertainty = {u, u};
  }
  setup.probe.trigger_height = 1;
  if (rolls.percent(40)) add_head(setup, rolls);
  if (!round && rolls.percent(25)) add_clip(setup, rolls);
  return setup;
}

Box reach_box(const Setup& setup) {
  const Machine& m = setup.machine;
  const Probe& p = setup.probe;
  const double k = setup.coverage_factor;
  const double spot = bounding_box(p.spot).x1;
  const double on_bed =
      spot + p.edge_distance + guard_of(p.offset_uncertainty.x, m.bed_uncertainty, k);
  const double in_travel = guard_of(m.travel_uncertainty, 0, k);
  Box bed = bounding_box(m.bed);
  Box travel = bounding_box(m.travel);
  bed = even(bed, on_bed);
  travel = even(travel, in_travel);
  Box reach{std::max(bed.x0, travel.x0 + p.offset.x), std::min(bed.x1, travel.x1 + p.offset.x),
            std::max(bed.y0, travel.y0 + p.offset.y), std::min(bed.y1, travel.y1 + p.offset.y)};
  return reach;
}

Request fitting_request(const Setup& setup, Rolls& rolls) {
  const Box bed = bounding_box(setup.machine.bed);
  const Box reach = reach_box(setup);
  const double step = round_step(rolls);
  Box mesh = reach;
  const int style = rolls.below(20);
  if (style < 9) {
    // Small even margins to what the probe reaches.
    const double even_by = rolls.percent(50) ? 0 : rolls.of(0, 10, 1);
    mesh = even(reach, even_by);
  } else if (style < 15) {
    // One margin on all sides, as large as the worst side needs.
    const double worst =
        std::max({reach.x0 - bed.x0, bed.x1 - reach.x1, reach.y0 - bed.y0, bed.y1 - reach.y1});
    return asking(even(bed, inward_up(worst, step) + (rolls.percent(30) ? step : 0)), setup, rolls);
  } else {
    const auto some = [&](double size) { return size * 0.2 * rolls.unit(); };
    mesh = spared(reach, some(reach.width()), some(reach.width()), some(reach.depth()),
                  some(reach.depth()));
  }
  mesh = rolls.percent(50) ? rounded_in(mesh, step) : rounded_from_bed(mesh, bed, step);
  return asking(mesh, setup, rolls);
}

Request careless_request(const Setup& setup, Rolls& rolls) {
  const Box bed = bounding_box(setup.machine.bed);
  const Box reach = reach_box(setup);
  const double step = round_step(rolls);
  const double most = std::min(bed.width(), bed.depth()) / 4;
  const int style = rolls.below(20);
  Box mesh = bed;
  if (style < 7) {
    const double margin = rolls.of(5, std::min(most, 40.0), rolls.percent(80) ? 5 : 1);
    mesh = even(bed, margin);
  } else if (style < 14) {
    mesh = rounded_in(even(reach, rolls.percent(50) ? 0 : rolls.of(0, 10, 1)), step);
    double Box::*sides[] = {&Box::x0, &Box::x1, &Box::y0, &Box::y1};
    for (int i = rolls.percent(60) ? 1 : 2; i > 0; --i) {
      double Box::*side = sides[rolls.below(4)];
      const double way = side == &Box::x0 || side == &Box::y0 ? -1 : 1;
      mesh.*side += way * rolls.of(2, 40, rolls.percent(60) ? 5 : 1);
    }
    mesh = {std::max(mesh.x0, bed.x0 + 2), std::min(mesh.x1, bed.x1 - 2),
            std::max(mesh.y0, bed.y0 + 2), std::min(mesh.y1, bed.y1 - 2)};
  } else {
    const auto some = [&] { return rolls.of(5, std::min(most, 35.0), step); };
    mesh = spared(bed, some(), some(), some(), some());
  }
  return asking(mesh, setup, rolls);
}

}  // namespace leeway
