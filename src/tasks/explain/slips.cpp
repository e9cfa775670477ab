#include "tasks/explain/slips.h"

#include <algorithm>
#include <cmath>

#include "geometry/plane/by_kind.h"
#include "geometry/plane/polygons.h"
#include "model/limits/limit_list.h"
#include "model/limits/swept.h"
#include "model/limits/ticks.h"

namespace leeway {
namespace {

Ring mapped(Ring ring, const auto& map) {
  for (Point& p : ring) p = rounded_to_ticks(map(p));
  return ring;
}

// `map` is a move, a scaling or an exchange of axes. REQUIRES: it leaves discs round.
Shape mapped(const Shape& shape, const auto& map, double scale) {
  const auto mapped_box = [&](const Box& box) {
    const Point a = rounded_to_ticks(map(Point{box.x0, box.y0}));
    const Point b = rounded_to_ticks(map(Point{box.x1, box.y1}));
    return Box{std::min(a.x, b.x), std::max(a.x, b.x), std::min(a.y, b.y), std::max(a.y, b.y)};
  };
  return by_kind(
      shape, [&](Point p) -> Shape { return rounded_to_ticks(map(p)); },
      [&](const Box& box) -> Shape { return mapped_box(box); },
      [&](const Disc& disc) -> Shape {
        return Disc{rounded_to_ticks(map(disc.center)), rounded_to_ticks(disc.radius * scale)};
      },
      [&](const RoundedBox& rounded) -> Shape {
        return RoundedBox{mapped_box(rounded.box), rounded_to_ticks(rounded.radius * scale)};
      },
      [&](const MultiPolygon& polygons) -> Shape {
        MultiPolygon out = polygons;
        for (Polygon& polygon : out) {
          polygon.outer = mapped(polygon.outer, map);
          for (Ring& hole : polygon.holes) hole = mapped(hole, map);
        }
        return out;
      });
}

Shape shifted(const Shape& shape, Point by) {
  return mapped(
      shape, [by](Point p) { return p + by; }, 1);
}
Shape scaled(const Shape& shape, double by) {
  return mapped(
      shape, [by](Point p) { return by * p; }, by);
}
Shape turned(const Shape& shape) {
  return mapped(
      shape,
      [](Point p) {
        return Point{p.y, p.x};
      },
      1);
}

Frame other(Frame frame) { return frame == Frame::probe ? Frame::nozzle : Frame::probe; }
std::string word_of(Frame frame) { return frame == Frame::probe ? "probe" : "nozzle"; }

// Collects the trials for one setup.
class Trials {
 public:
  explicit Trials(const Setup& setup) : setup_(setup) {
    offsets();
    frames();
    margins();
    origins();
    travels();
    units();
    exchanges();
  }

  std::vector<SlipTrial> take() { return std::move(trials_); }

 private:
  // `edit` changes the setup and notes what it changed.
  template <typename Edit>
  void add(Slip slip, const Edit& edit) {
    SlipTrial trial;
    trial.slip = slip;
    trial.changed = setup_;
    edit(trial.changed, trial.changes);
    if (!trial.changes.empty()) trials_.push_back(std::move(trial));
  }

  void add_offset(Slip slip, Point offset) {
    if (offset == setup_.probe.offset) return;
    add(slip, [&](Setup& s, std::vector<Change>& changes) {
      s.probe.offset = rounded_to_ticks(offset);
      changes.push_back({"/probe/offset", s.probe.offset});
    });
  }

  void offsets() {
    const Point o = setup_.probe.offset;
    if (o.x != 0) add_offset(Slip::sign_of_x, {-o.x, o.y});
    if (o.y != 0) add_offset(Slip::sign_of_y, {o.x, -o.y});
    if (o.x != 0 && o.y != 0) add_offset(Slip::both_signs, -o);
    if (o.x == o.y || o.x == -o.y) return;
    for (const double a : {1.0, -1.0}) {
      for (const double b : {1.0, -1.0}) add_offset(Slip::axes_swapped, {a * o.y, b * o.x});
    }
  }

  static void turn_grid_frame(Setup& s, std::vector<Change>& changes) {
    if (!s.request.grid) return;
    Frame& frame = s.request.grid->frame;
    frame = other(frame);
    changes.push_back({"/request/grid/frame", word_of(frame)});
  }
  static void turn_point_frames(Setup& s, std::vector<Change>& changes) {
    for (std::size_t i = 0; i < s.request.points.size(); ++i) {
      Frame& frame = s.request.points[i].frame;
      frame = other(frame);
      changes.push_back({"/request/points/" + std::to_string(i) + "/frame", word_of(frame)});
    }
  }
  static void turn_home_frame(Setup& s, std::vector<Change>& changes) {
    if (!s.request.home) return;
    Frame& frame = s.request.home->frame;
    frame = other(frame);
    changes.push_back({"/request/home/frame", word_of(frame)});
  }

  void frames() {
    if (setup_.request.grid) add(Slip::frame, turn_grid_frame);
    if (!setup_.request.points.empty()) {
      add(Slip::frame, turn_point_frames);
      if (setup_.request.grid) {
        add(Slip::frame, [](Setup& s, std::vector<Change>& changes) {
          turn_grid_frame(s, changes);
          turn_point_frames(s, changes);
        });
      }
    }
    add(Slip::frame, turn_home_frame);
  }

  void margins() {
    if (!setup_.request.grid) return;
    const auto* margins = std::get_if<Margins>(&setup_.request.grid->extent);
    if (margins == nullptr) return;
    const bool from_travel = margins->from == Margins::From::travel;
    add(from_travel ? Slip::margins_from_travel : Slip::margins_from_bed,
        [&](Setup& s, std::vector<Change>& changes) {
          std::get<Margins>(s.request.grid->extent).from =
              from_travel ? Margins::From::bed : Margins::From::travel;
          changes.push_back(
              {"/request/grid/margins_from", std::string(from_travel ? "bed" : "travel")});
        });
  }

  static void change_bed(Setup& s, std::vector<Change>& changes, const Shape& bed) {
    s.machine.bed = bed;
    changes.push_back({"/machine/bed", bed});
  }
  static void change_travel(Setup& s, std::vector<Change>& changes, const Shape& travel) {
    s.machine.travel = travel;
    changes.push_back({"/machine/travel", travel});
  }

  // Moves what the request says in numbers of its own.
  static void map_request(Setup& s, std::vector<Change>& changes, const auto& map) {
    if (s.request.grid) {
      if (Box* box = std::get_if<Box>(&s.request.grid->extent)) {
        const Point a = rounded_to_ticks(map(Point{box->x0, box->y0}));
        const Point b = rounded_to_ticks(map(Point{box->x1, box->y1}));
        *box = {a.x, b.x, a.y, b.y};
        changes.push_back({"/request/grid/x", Point{a.x, b.x}});
        changes.push_back({"/request/grid/y", Point{a.y, b.y}});
      }
    }
    for (std::size_t i = 0; i < s.request.points.size(); ++i) {
      s.request.points[i].at = rounded_to_ticks(map(s.request.points[i].at));
      changes.push_back({"/request/points/" + std::to_string(i) + "/at", s.request.points[i].at});
    }
    if (s.request.home) {
      s.request.home->at = rounded_to_ticks(map(s.request.home->at));
      changes.push_back({"/request/home/at", s.request.home->at});
    }
  }

  void shift_everything_in_turn(Slip slip, Point by) {
    if (by == Point{0, 0}) return;
    add(slip,
        [&](Setup& s, std::vector<Change>& c) { change_bed(s, c, shifted(s.machine.bed, by)); });
    add(slip, [&](Setup& s, std::vector<Change>& c) {
      change_travel(s, c, shifted(s.machine.travel, by));
    });
    add(slip, [&](Setup& s, std::vector<Change>& c) {
      map_request(s, c, [by](Point p) { return p + by; });
    });
    add(slip, [&](Setup& s, std::vector<Change>& c) {
      change_bed(s, c, shifted(s.machine.bed, by));
      map_request(s, c, [by](Point p) { return p + by; });
    });
  }

  // Half the plate is what lies between its corner and its centre.
  void origins() {
    const Box bed = bounding_box(setup_.machine.bed);
    const Point half{bed.width() / 2, bed.depth() / 2};
    shift_everything_in_turn(Slip::origin_at_centre, -half);
    shift_everything_in_turn(Slip::origin_at_corner, half);
  }

  static bool same(const Box& a, const Box& b) {
    constexpr double kSame = 0.5;  // mm
    return std::abs(a.x0 - b.x0) < kSame && std::abs(a.x1 - b.x1) < kSame &&
           std::abs(a.y0 - b.y0) < kSame && std::abs(a.y1 - b.y1) < kSame;
  }

  void travels() {
    const Box bed = bounding_box(setup_.machine.bed);
    const Box travel = bounding_box(setup_.machine.travel);
    if (!same(bed, travel)) {
      const bool beyond =
          travel.x0 <= bed.x0 && travel.x1 >= bed.x1 && travel.y0 <= bed.y0 && travel.y1 >= bed.y1;
      if (beyond) {
        add(Slip::travel_beyond_bed,
            [&](Setup& s, std::vector<Change>& c) { change_travel(s, c, s.machine.bed); });
      }
      return;
    }
    // As far beyond the plate as the offset and then some: how far it really goes is a question.
    const Point o = setup_.probe.offset;
    const double most = std::max({std::abs(o.x), std::abs(o.y), 5.0}) + 5;
    add(Slip::travel_equals_bed, [&](Setup& s, std::vector<Change>& c) {
      change_travel(s, c,
                    Box{rounded_to_ticks(bed.x0 - most), rounded_to_ticks(bed.x1 + most),
                        rounded_to_ticks(bed.y0 - most), rounded_to_ticks(bed.y1 + most)});
    });
  }

  void scale(Slip slip, double by) {
    const Point o = setup_.probe.offset;
    if (o.x != 0 || o.y != 0) add_offset(slip, by * o);
    add(slip,
        [&](Setup& s, std::vector<Change>& c) { change_bed(s, c, scaled(s.machine.bed, by)); });
    add(slip, [&](Setup& s, std::vector<Change>& c) {
      change_travel(s, c, scaled(s.machine.travel, by));
    });
    add(slip, [&](Setup& s, std::vector<Change>& c) {
      if (!s.request.grid) return;
      if (auto* margins = std::get_if<Margins>(&s.request.grid->extent)) {
        scale_margins(*margins, by, c);
      } else {
        map_request(s, c, [by](Point p) { return by * p; });
      }
    });
  }

  static void scale_margins(Margins& margins, double by, std::vector<Change>& changes) {
    for (double* side : {&margins.left, &margins.right, &margins.front, &margins.back}) {
      *side = rounded_to_ticks(*side * by);
    }
    changes.push_back({"/request/grid/margins/left", margins.left});
    changes.push_back({"/request/grid/margins/right", margins.right});
    changes.push_back({"/request/grid/margins/front", margins.front});
    changes.push_back({"/request/grid/margins/back", margins.back});
  }

  // One number alone, ten times too large or too small.
  void points_lost() {
    const Point o = setup_.probe.offset;
    for (const double by : {0.1, 10.0}) {
      if (o.x != 0) add_offset(Slip::decimal_point, {by * o.x, o.y});
      if (o.y != 0) add_offset(Slip::decimal_point, {o.x, by * o.y});
      for (double Box::*side : {&Box::x0, &Box::x1, &Box::y0, &Box::y1}) {
        one_side(Slip::decimal_point, by, side);
      }
      for (double Margins::*side :
           {&Margins::left, &Margins::right, &Margins::front, &Margins::back}) {
        one_margin(Slip::decimal_point, by, side);
      }
    }
  }

  static bool sound(const Box& box) { return box.x0 < box.x1 && box.y0 < box.y1; }

  void one_side(Slip slip, double by, double Box::*side) {
    const auto of_box = [&](const Box& box) -> std::optional<Box> {
      if (box.*side == 0) return std::nullopt;
      Box out = box;
      out.*side = rounded_to_ticks(out.*side * by);
      if (!sound(out)) return std::nullopt;
      return out;
    };
    using Changed = std::optional<Shape>;
    const auto of_shape = [&](const Shape& shape) {
      return by_kind(
          shape, [](Point) { return Changed(); },
          [&](const Box& box) -> Changed { return of_box(box); },
          [](const Disc&) { return Changed(); },
          [&](const RoundedBox& rounded) -> Changed {
            const std::optional<Box> box = of_box(rounded.box);
            const double radius = rounded.radius;
            if (!box || 2 * radius > std::min(box->width(), box->depth())) return std::nullopt;
            return RoundedBox{*box, radius};
          },
          [](const MultiPolygon&) { return Changed(); });
    };
    if (const auto bed = of_shape(setup_.machine.bed)) {
      add(slip, [&](Setup& s, std::vector<Change>& c) { change_bed(s, c, *bed); });
    }
    if (const auto travel = of_shape(setup_.machine.travel)) {
      add(slip, [&](Setup& s, std::vector<Change>& c) { change_travel(s, c, *travel); });
    }
    if (!setup_.request.grid) return;
    const Box* grid = std::get_if<Box>(&setup_.request.grid->extent);
    if (grid == nullptr || grid->*side == 0) return;
    Box now = *grid;
    now.*side = rounded_to_ticks(now.*side * by);
    if (!sound(now)) return;
    add(slip, [&](Setup& s, std::vector<Change>& c) {
      s.request.grid->extent = now;
      const bool along_x = side == &Box::x0 || side == &Box::x1;
      c.push_back({along_x ? "/request/grid/x" : "/request/grid/y",
                   along_x ? Point{now.x0, now.x1} : Point{now.y0, now.y1}});
    });
  }

  void one_margin(Slip slip, double by, double Margins::*side) {
    if (!setup_.request.grid) return;
    const auto* margins = std::get_if<Margins>(&setup_.request.grid->extent);
    if (margins == nullptr || margins->*side == 0) return;
    add(slip, [&](Setup& s, std::vector<Change>& c) {
      double& value = std::get<Margins>(s.request.grid->extent).*side;
      value = rounded_to_ticks(value * by);
      const char* name = side == &Margins::left    ? "left"
                         : side == &Margins::right ? "right"
                         : side == &Margins::front ? "front"
                                                   : "back";
      c.push_back({std::string("/request/grid/margins/") + name, value});
    });
  }

  void units() {
    constexpr double kInch = 25.4;
    scale(Slip::inches, kInch);
    scale(Slip::inches, 1 / kInch);
    scale(Slip::decimal_point, 10);
    scale(Slip::decimal_point, 0.1);
    points_lost();
  }

  void exchanges() {
    if (setup_.request.grid && setup_.request.grid->columns != setup_.request.grid->rows) {
      add(Slip::columns_and_rows_exchanged, [](Setup& s, std::vector<Change>& c) {
        std::swap(s.request.grid->columns, s.request.grid->rows);
        c.push_back({"/request/grid/columns", static_cast<double>(s.request.grid->columns)});
        c.push_back({"/request/grid/rows", static_cast<double>(s.request.grid->rows)});
      });
    }
    const Box bed = bounding_box(setup_.machine.bed);
    if (std::abs(bed.width() - bed.depth()) < 1e-6) return;
    const auto turn_bed = [](Setup& s, std::vector<Change>& c) {
      change_bed(s, c, turned(s.machine.bed));
    };
    const auto turn_travel = [](Setup& s, std::vector<Change>& c) {
      change_travel(s, c, turned(s.machine.travel));
    };
    add(Slip::width_and_depth_exchanged, turn_bed);
    add(Slip::width_and_depth_exchanged, turn_travel);
    add(Slip::width_and_depth_exchanged, [&](Setup& s, std::vector<Change>& c) {
      turn_bed(s, c);
      turn_travel(s, c);
    });
  }

  const Setup& setup_;
  std::vector<SlipTrial> trials_;
};

double overlap(double a0, double a1, double b0, double b1) {
  return std::max(0.0, std::min(a1, b1) - std::max(a0, b0));
}

// The share of `box` that lies in `in`, by their boxes.
double share(const Box& box, const Box& in) {
  const double all = box.width() * box.depth();
  if (!(all > 0)) return 0;
  return overlap(box.x0, box.x1, in.x0, in.x1) * overlap(box.y0, box.y1, in.y0, in.y1) / all;
}

// 1 within [low, high], falling off by the ratio to it outside.
double within(double value, double low, double high) {
  if (value < low) return std::pow(std::max(value, 1e-3) / low, 2);
  return value > high ? std::pow(high / value, 2) : 1;
}

bool in_head(const Setup& setup) {
  const Point o = setup.probe.offset;
  return std::any_of(setup.machine.head.begin(), setup.machine.head.end(),
                     [o](const HeadPart& part) {
                       const Box box = bounding_box(part.outline);
                       return o.x > box.x0 && o.x < box.x1 && o.y > box.y0 && o.y < box.y1;
                     });
}

// Who has found out what the probe can reach leaves about as much on each side of the mesh.
double evenness(const Setup& setup, const Box& mesh, const Box& bed, const Box& travel) {
  const Point o = setup.probe.offset;
  const double left[] = {
      mesh.x0 - std::max(bed.x0, travel.x0 + o.x), std::min(bed.x1, travel.x1 + o.x) - mesh.x1,
      mesh.y0 - std::max(bed.y0, travel.y0 + o.y), std::min(bed.y1, travel.y1 + o.y) - mesh.y1};
  const auto [least, most] = std::minmax_element(std::begin(left), std::end(left));
  return 1 / (1 + (*most - *least) / 100);
}

double farthest_apart(const Box& a, const Box& b) {
  return std::max(
      {std::abs(a.x0 - b.x0), std::abs(a.x1 - b.x1), std::abs(a.y0 - b.y0), std::abs(a.y1 - b.y1)});
}

}  // namespace

std::vector<SlipTrial> slip_trials(const Setup& setup) { return Trials(setup).take(); }

double plausibility(const Setup& setup) {
  const Box bed = bounding_box(setup.machine.bed);
  const Box travel = bounding_box(setup.machine.travel);
  double p = within(std::hypot(setup.probe.offset.x, setup.probe.offset.y), 12, 80);
  if (in_head(setup)) p *= 0.2;
  p *= within(std::min(bed.width(), bed.depth()), 80, 500);
  p *= within(std::max(bed.width(), bed.depth()), 80, 500);
  // The nozzle gets to most of the plate, and not far beyond it.
  p *= std::pow(share(bed, travel), 2);
  p *= within(travel.width() / bed.width(), 0.8, 1.5) *
       within(travel.depth() / bed.depth(), 0.8, 1.5);
  if (setup.request.grid && setup.request.grid->columns > 1 && setup.request.grid->rows > 1) {
    const Box mesh = lattice_bounds_for_probe(setup, *setup.request.grid);
    if (mesh.width() <= 0 || mesh.depth() <= 0) return 0;
    p *= share(mesh, bed);
    p *= within(mesh.width() / bed.width(), 0.45, 1) * within(mesh.depth() / bed.depth(), 0.45, 1);
    // Meshes are more or less in the middle.
    const double off_x = std::abs(mesh.x0 + mesh.x1 - bed.x0 - bed.x1) / 2 / bed.width();
    const double off_y = std::abs(mesh.y0 + mesh.y1 - bed.y0 - bed.y1) / 2 / bed.depth();
    p *= (1 - std::min(1.0, 2 * off_x)) * (1 - std::min(1.0, 2 * off_y));
    p *= evenness(setup, mesh, bed, travel);
  }
  return p;
}

double size_of_change(const Setup& before, const Setup& after) {
  double size = std::max(
      farthest_apart(bounding_box(before.machine.bed), bounding_box(after.machine.bed)),
      farthest_apart(bounding_box(before.machine.travel), bounding_box(after.machine.travel)));
  const Point o = before.probe.offset;
  const Point p = after.probe.offset;
  size = std::max({size, std::abs(o.x - p.x), std::abs(o.y - p.y)});
  if (before.request.grid && after.request.grid) {
    size = std::max(size, farthest_apart(lattice_bounds_for_probe(before, *before.request.grid),
                                         lattice_bounds_for_probe(after, *after.request.grid)));
  }
  return size;
}

double frequency(const SlipTrial& trial, const Setup& before) {
  switch (trial.slip) {
    case Slip::sign_of_x:
    case Slip::sign_of_y:
      return 1;
    case Slip::offset_left_at_zero:
      return 1;
    case Slip::both_signs:
      return 0.7;
    case Slip::frame:
      return 0.7;
    case Slip::margins_from_travel:
    case Slip::margins_from_bed:
      return 0.7;
    case Slip::width_and_depth_exchanged:
      return trial.changes.size() > 1 ? 0.4 : 0.6;
    case Slip::origin_at_centre:
    case Slip::origin_at_corner:
      // The ends of the travel are what the controller itself reports.
      return trial.changes.front().pointer == "/machine/travel" || trial.changes.size() > 1 ? 0.4
                                                                                            : 0.6;
    case Slip::axes_swapped: {
      const Point o = before.probe.offset;
      return trial.changed.probe.offset == Point{o.y, o.x} ? 0.5 : 0.3;
    }
    case Slip::decimal_point:
      return 0.5;
    case Slip::inches:
      return 0.4;
    case Slip::columns_and_rows_exchanged:
      return 0.3;
    case Slip::travel_equals_bed:
      return 0.5;
    case Slip::travel_beyond_bed:
      return 0.3;
  }
  return 0;
}

}  // namespace leeway
