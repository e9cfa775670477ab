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

}  // namespace

std::vector<SlipTrial> slip_trials(const Setup& setup) { return Trials(setup).take(); }

}  // namespace leeway
