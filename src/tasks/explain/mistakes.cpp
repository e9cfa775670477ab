#include "tasks/explain/mistakes.h"

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

Changes together(Changes changes, const Changes& further) {
  changes.insert(changes.end(), further.begin(), further.end());
  return changes;
}

Frame other(Frame frame) { return frame == Frame::probe ? Frame::nozzle : Frame::probe; }

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

  std::vector<MistakeTrial> take() { return std::move(trials_); }

 private:
  void add(Mistake mistake, Changes changes) {
    if (changes.empty()) return;
    Setup changed = applied(changes, setup_);
    trials_.push_back({mistake, std::move(changes), std::move(changed)});
  }

  void add_offset(Mistake mistake, Point offset) {
    if (offset == setup_.probe.offset) return;
    add(mistake, {ProbeOffset{rounded_to_ticks(offset)}});
  }

  void offsets() {
    const Point o = setup_.probe.offset;
    if (o.x != 0) add_offset(Mistake::sign_of_x, {-o.x, o.y});
    if (o.y != 0) add_offset(Mistake::sign_of_y, {o.x, -o.y});
    if (o.x != 0 && o.y != 0) add_offset(Mistake::both_signs, -o);
    if (o.x == o.y || o.x == -o.y) return;
    for (const double a : {1.0, -1.0}) {
      for (const double b : {1.0, -1.0}) add_offset(Mistake::axes_swapped, {a * o.y, b * o.x});
    }
  }

  void frames() {
    const Request& request = setup_.request;
    Changes grid;
    if (request.grid) grid.push_back(GridFrame{other(request.grid->frame)});
    Changes points;
    for (std::size_t i = 0; i < request.points.size(); ++i) {
      points.push_back(PointFrame{i, other(request.points[i].frame)});
    }
    add(Mistake::frame, grid);
    add(Mistake::frame, points);
    if (!grid.empty() && !points.empty()) add(Mistake::frame, together(grid, points));
    if (request.home) add(Mistake::frame, {HomeFrame{other(request.home->frame)}});
  }

  const Margins* asked_margins() const {
    if (!setup_.request.grid) return nullptr;
    return std::get_if<Margins>(&setup_.request.grid->extent);
  }

  const Box* asked_bounds() const {
    if (!setup_.request.grid) return nullptr;
    return std::get_if<Box>(&setup_.request.grid->extent);
  }

  void margins() {
    const Margins* margins = asked_margins();
    if (margins == nullptr) return;
    const bool from_travel = margins->from == Margins::From::travel;
    add(from_travel ? Mistake::margins_from_travel : Mistake::margins_from_bed,
        {GridMarginsFrom{from_travel ? Margins::From::bed : Margins::From::travel}});
  }

  // Moves what the request says in numbers of its own.
  Changes mapped_request(const auto& map) const {
    const Request& request = setup_.request;
    Changes changes;
    if (const Box* box = asked_bounds()) {
      const Point a = rounded_to_ticks(map(Point{box->x0, box->y0}));
      const Point b = rounded_to_ticks(map(Point{box->x1, box->y1}));
      changes.push_back(GridAlongX{a.x, b.x});
      changes.push_back(GridAlongY{a.y, b.y});
    }
    for (std::size_t i = 0; i < request.points.size(); ++i) {
      changes.push_back(PointPlace{i, rounded_to_ticks(map(request.points[i].at))});
    }
    if (request.home) changes.push_back(HomePlace{rounded_to_ticks(map(request.home->at))});
    return changes;
  }

  void shift_everything_in_turn(Mistake mistake, Point by) {
    if (by == Point{0, 0}) return;
    const BedShape bed{shifted(setup_.machine.bed, by)};
    const Changes request = mapped_request([by](Point p) { return p + by; });
    add(mistake, {bed});
    add(mistake, {TravelShape{shifted(setup_.machine.travel, by)}});
    add(mistake, request);
    add(mistake, together({bed}, request));
  }

  // Half the bed is what lies between its corner and its centre.
  void origins() {
    const Box bed = bounding_box(setup_.machine.bed);
    const Point half{bed.width() / 2, bed.depth() / 2};
    shift_everything_in_turn(Mistake::origin_at_centre, -half);
    shift_everything_in_turn(Mistake::origin_at_corner, half);
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
      if (beyond) add(Mistake::travel_beyond_bed, {TravelShape{setup_.machine.bed}});
      return;
    }
    // As far beyond the bed as the offset and then some: how far it really goes is a question.
    const Point o = setup_.probe.offset;
    const double most = std::max({std::abs(o.x), std::abs(o.y), 5.0}) + 5;
    add(Mistake::travel_equals_bed,
        {TravelShape{Box{rounded_to_ticks(bed.x0 - most), rounded_to_ticks(bed.x1 + most),
                         rounded_to_ticks(bed.y0 - most), rounded_to_ticks(bed.y1 + most)}}});
  }

  void scale(Mistake mistake, double by) {
    const Point o = setup_.probe.offset;
    if (o.x != 0 || o.y != 0) add_offset(mistake, by * o);
    add(mistake, {BedShape{scaled(setup_.machine.bed, by)}});
    add(mistake, {TravelShape{scaled(setup_.machine.travel, by)}});
    if (const Margins* margins = asked_margins()) {
      add(mistake, scaled_margins(*margins, by));
    } else if (setup_.request.grid) {
      add(mistake, mapped_request([by](Point p) { return by * p; }));
    }
  }

  static Changes scaled_margins(const Margins& margins, double by) {
    const auto side = [by](GridSide edge, double margin) {
      return GridMargin{edge, rounded_to_ticks(margin * by)};
    };
    return {side(GridSide::left, margins.left), side(GridSide::right, margins.right),
            side(GridSide::front, margins.front), side(GridSide::back, margins.back)};
  }

  // One number alone, ten times too large or too small.
  void points_lost() {
    const Point o = setup_.probe.offset;
    for (const double by : {0.1, 10.0}) {
      if (o.x != 0) add_offset(Mistake::decimal_point, {by * o.x, o.y});
      if (o.y != 0) add_offset(Mistake::decimal_point, {o.x, by * o.y});
      for (double Box::*side : {&Box::x0, &Box::x1, &Box::y0, &Box::y1}) {
        one_side(Mistake::decimal_point, by, side);
      }
      if (const Margins* margins = asked_margins()) {
        one_margin(Mistake::decimal_point, by, GridSide::left, margins->left);
        one_margin(Mistake::decimal_point, by, GridSide::right, margins->right);
        one_margin(Mistake::decimal_point, by, GridSide::front, margins->front);
        one_margin(Mistake::decimal_point, by, GridSide::back, margins->back);
      }
    }
  }

  static bool sound(const Box& box) { return box.x0 < box.x1 && box.y0 < box.y1; }

  void one_side(Mistake mistake, double by, double Box::*side) {
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
    if (const auto bed = of_shape(setup_.machine.bed)) add(mistake, {BedShape{*bed}});
    if (const auto travel = of_shape(setup_.machine.travel)) add(mistake, {TravelShape{*travel}});
    const Box* grid = asked_bounds();
    if (grid == nullptr || grid->*side == 0) return;
    Box now = *grid;
    now.*side = rounded_to_ticks(now.*side * by);
    if (!sound(now)) return;
    const bool along_x = side == &Box::x0 || side == &Box::x1;
    add(mistake,
        {along_x ? Change(GridAlongX{now.x0, now.x1}) : Change(GridAlongY{now.y0, now.y1})});
  }

  void one_margin(Mistake mistake, double by, GridSide edge, double margin) {
    if (margin != 0) add(mistake, {GridMargin{edge, rounded_to_ticks(margin * by)}});
  }

  void units() {
    constexpr double kInch = 25.4;
    scale(Mistake::inches, kInch);
    scale(Mistake::inches, 1 / kInch);
    scale(Mistake::decimal_point, 10);
    scale(Mistake::decimal_point, 0.1);
    points_lost();
  }

  void exchanges() {
    const std::optional<Grid>& grid = setup_.request.grid;
    if (grid && grid->columns != grid->rows) {
      add(Mistake::columns_and_rows_exchanged, {GridColumns{grid->rows}, GridRows{grid->columns}});
    }
    const Box box = bounding_box(setup_.machine.bed);
    if (std::abs(box.width() - box.depth()) < 1e-6) return;
    const BedShape bed{turned(setup_.machine.bed)};
    const TravelShape travel{turned(setup_.machine.travel)};
    add(Mistake::width_and_depth_exchanged, {bed});
    add(Mistake::width_and_depth_exchanged, {travel});
    add(Mistake::width_and_depth_exchanged, {bed, travel});
  }

  const Setup& setup_;
  std::vector<MistakeTrial> trials_;
};

}  // namespace

std::vector<MistakeTrial> mistake_trials(const Setup& setup) { return Trials(setup).take(); }

}  // namespace leeway
