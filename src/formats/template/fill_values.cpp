#include "formats/template/fill_values.h"

#include <fmt/format.h>

#include <cmath>

#include "formats/text/names.h"
#include "formats/text/numbers.h"
#include "formats/write/check_view.h"

namespace leeway {
namespace {

using Text = std::optional<std::string>;

enum class Toward { nearest, below, above };

double rounded_to(double value, int decimals, Toward toward) {
  const double units = std::pow(10, decimals);
  const double exact = value * units;
  const double whole = std::round(exact);
  // Decimals lose a little in binary: what is whole but for that stays whole.
  if (toward == Toward::nearest || std::abs(exact - whole) < 1e-6) return whole / units + 0.0;
  return (toward == Toward::below ? std::floor(exact) : std::ceil(exact)) / units + 0.0;
}

// Zeros at the end are trimmed; never "-0". Nothing for what is not finite.
Text number_text(const FillFacts& facts, double value, Toward toward = Toward::nearest) {
  if (!std::isfinite(value)) return std::nullopt;
  return decimal(rounded_to(value, facts.decimals, toward));
}

Point rounded_point(const FillFacts& facts, Point p) {
  return {rounded_to(p.x, facts.decimals, Toward::nearest),
          rounded_to(p.y, facts.decimals, Toward::nearest)};
}

bool reachable(const FillFacts& facts, Point probe) {
  return facts.rig.limits().evaluate(probe).verdict == Verdict::reachable;
}

// A place to send the probe to, when it is reachable as printed.
Text probe_place(const FillFacts& facts, Point probe, double Point::*axis) {
  const Point printed = rounded_point(facts, probe);
  return reachable(facts, printed) ? number_text(facts, printed.*axis) : std::nullopt;
}

Text nozzle_place(const FillFacts& facts, Point probe, double Point::*axis) {
  const Point offset = facts.rig.setup().probe.offset;
  const Point printed = rounded_point(facts, probe - offset);
  return reachable(facts, printed + offset) ? number_text(facts, printed.*axis) : std::nullopt;
}

std::optional<Point> near_and_reachable(const FillFacts& facts, Point p) {
  const double unit = std::pow(10, -facts.decimals);
  const Point around = rounded_point(facts, p);
  std::optional<Point> best;
  double best_is = 0;
  for (int i = -1; i <= 1; ++i) {
    for (int k = -1; k <= 1; ++k) {
      const Point place = rounded_point(facts, around + Point{i * unit, k * unit});
      const double away = std::hypot(place.x - p.x, place.y - p.y);
      if ((best && away >= best_is) || !reachable(facts, place)) continue;
      best = place;
      best_is = away;
    }
  }
  return best;
}

Text percentage(const FillFacts& facts, const std::optional<Coverage>& coverage) {
  if (!coverage || !coverage->fraction) return std::nullopt;
  return number_text(facts, *coverage->fraction * 100, Toward::below);
}

class Entries {
 public:
  Entries() {
    general();
    fit_mesh();
    fit_home();
    list("fit.points", "the points of the grid that fits, row by row from the front left");
    place_of_item("fit.points");
    finding_of_item("fit.points");
    list("fit.unmet", "named points and homing point of the request that no grid mends");
    name_of_item("fit.unmet");
    finding_of_item("fit.unmet");
    request();
    list("check.points", "the points that the request asks for");
    name_of_item("check.points");
    item_of_check();
    finding_of_item("check.points");
  }

  std::vector<FillEntry> take() { return std::move(entries_); }

 private:
  template <typename Value>
  void value(const std::string& name, const std::string& meaning, Value get,
             const std::string& within = {}) {
    entries_.push_back({{FillKind::value, name, within, meaning}, std::move(get), {}});
  }
  template <typename Choice>
  void choice(const std::string& name, const std::string& meaning, Choice get,
              const std::string& within = {}) {
    entries_.push_back({{FillKind::choice, name, within, meaning}, {}, std::move(get)});
  }
  void list(const std::string& name, const std::string& meaning) {
    entries_.push_back({{FillKind::list, name, {}, meaning}, {}, {}});
  }

  // A value of the whole, not of an item.
  template <typename Get>
  void whole(const std::string& name, const std::string& meaning, Get get) {
    value(name, meaning, [get](const FillFacts& f, const FillItem*) -> Text { return get(f); });
  }
  // The offset goes with every other number: it is printed as it is, whatever the decimals.
  template <typename Get>
  void exact_point(const std::string& name, const std::string& meaning, Get get) {
    const auto axis = [&](const char* suffix, double Point::*which) {
      whole(name + suffix, meaning + suffix,
            [get, which](const FillFacts& f) -> Text { return shortest(get(f).*which); });
    };
    axis(".x", &Point::x);
    axis(".y", &Point::y);
  }
  template <typename Get>
  void whole_box(const std::string& name, const std::string& meaning, Get get) {
    const auto bound = [&](const char* suffix, const char* side, double Box::*which) {
      whole(name + suffix, meaning + ", " + side, [get, which](const FillFacts& f) -> Text {
        const std::optional<Box> box = get(f);
        return box ? number_text(f, (*box).*which) : std::nullopt;
      });
    };
    bound(".x0", "left", &Box::x0);
    bound(".x1", "right", &Box::x1);
    bound(".y0", "front", &Box::y0);
    bound(".y1", "back", &Box::y1);
  }
  // Margins or strips, a number a side.
  template <typename Sides, typename Get>
  void whole_sides(const std::string& name, const std::string& meaning, Toward toward, Get get) {
    const auto side = [&](const char* suffix, double Sides::*which) {
      whole(name + "." + suffix, meaning + ", " + suffix,
            [get, which, toward](const FillFacts& f) -> Text {
              const std::optional<Sides> sides = get(f);
              return sides ? number_text(f, (*sides).*which, toward) : std::nullopt;
            });
    };
    side("left", &Sides::left);
    side("right", &Sides::right);
    side("front", &Sides::front);
    side("back", &Sides::back);
  }

  void general() {
    whole("setup", "the setup's name",
          [](const FillFacts& f) -> Text { return one_line(f.rig.setup().name); });
    whole("machine", "the machine's name",
          [](const FillFacts& f) -> Text { return one_line(f.rig.setup().machine.name); });
    whole("caution", "what to mind before anything is tried at the machine",
          [](const FillFacts&) -> Text { return caution(); });
    exact_point("offset.nozzle_to_probe", "add it to the nozzle's place to get the probe's: ",
                [](const FillFacts& f) { return f.rig.setup().probe.offset; });
    exact_point("offset.probe_to_nozzle", "add it to the probe's place to get the nozzle's: ",
                [](const FillFacts& f) { return -f.rig.setup().probe.offset; });
  }

  // A value of the mesh that fits.
  template <typename Get>
  void of_mesh(const std::string& name, const std::string& meaning, Get get) {
    whole(name, meaning, [get](const FillFacts& f) -> Text {
      return f.fitted.mesh ? get(f, *f.fitted.mesh) : std::nullopt;
    });
  }

  void fit_mesh() {
    choice("fit.feasible", "whether a grid fits",
           [](const FillFacts& f, const FillItem*) { return f.fitted.mesh.has_value(); });
    const auto count = [](int n) -> Text { return std::to_string(n); };
    of_mesh("fit.grid.columns", "columns of the grid that fits",
            [count](const FillFacts&, const FitMesh& mesh) { return count(mesh.columns); });
    of_mesh("fit.grid.rows", "its rows",
            [count](const FillFacts&, const FitMesh& mesh) { return count(mesh.rows); });
    whole_box("fit.grid", "its bounds, where the probe goes",
              [](const FillFacts& f) { return f.fitted.numbers.probe; });
    of_mesh("fit.grid.spacing.x", "between its columns",
            [](const FillFacts& f, const FitMesh& mesh) { return number_text(f, mesh.spacing.x); });
    of_mesh("fit.grid.spacing.y", "between its rows",
            [](const FillFacts& f, const FitMesh& mesh) { return number_text(f, mesh.spacing.y); });
    whole_box("fit.nozzle", "its bounds, where the nozzle goes",
              [](const FillFacts& f) { return f.fitted.numbers.nozzle; });
    whole_sides<Margins>("fit.margins.from_bed", "margins of the probe from the bed's edges",
                         Toward::nearest,
                         [](const FillFacts& f) { return f.fitted.numbers.from_bed; });
    whole_sides<Margins>("fit.margins.from_travel",
                         "margins of the nozzle from the ends of its travel", Toward::nearest,
                         [](const FillFacts& f) { return f.fitted.numbers.from_travel; });
    choice(
        "fit.has_uniform_margin", "whether one margin works on all sides",
        [](const FillFacts& f, const FillItem*) { return f.fitted.numbers.uniform.has_value(); });
    whole("fit.uniform_margin", "that margin, of the probe from the bed's edges",
          [](const FillFacts& f) -> Text {
            const std::optional<double>& uniform = f.fitted.numbers.uniform;
            return uniform ? number_text(f, *uniform) : std::nullopt;
          });
    of_mesh("fit.coverage.percent", "how much of what can be printed the grid covers",
            [](const FillFacts& f, const FitMesh& mesh) { return percentage(f, mesh.coverage); });
    whole_sides<UncoveredStrips>(
        "fit.uncovered", "printable strip outside the mesh bounds", Toward::above,
        [](const FillFacts& f) {
          return f.fitted.mesh ? std::optional(f.fitted.mesh->coverage.uncovered) : std::nullopt;
        });
    choice(
        "fit.moves_clear", "whether nothing is in the way between its points",
        [](const FillFacts& f, const FillItem*) { return f.fitted.checked.moves.blocked.empty(); });
    const auto tightest = [](const FillFacts&, const FitMesh& mesh) { return mesh.tightest; };
    of_mesh("fit.tightest.probe.x", "its tightest point, where the probe is: .x",
            [=](const FillFacts& f, const FitMesh& m) {
              return number_text(f, tightest(f, m).probe.x);
            });
    of_mesh("fit.tightest.probe.y", "its tightest point, where the probe is: .y",
            [=](const FillFacts& f, const FitMesh& m) {
              return number_text(f, tightest(f, m).probe.y);
            });
    of_mesh("fit.tightest.limit", "the limit it is nearest to",
            [=](const FillFacts& f, const FitMesh& m) -> Text {
              return one_line(f.rig.limits().info(tightest(f, m).finding.limit).name);
            });
    of_mesh("fit.tightest.leeway", "its leeway", [=](const FillFacts& f, const FitMesh& m) {
      return number_text(f, tightest(f, m).finding.leeway, Toward::below);
    });
    of_mesh("fit.tightest.guard", "what the stated uncertainty asks for of it",
            [=](const FillFacts& f, const FitMesh& m) {
              return number_text(f, tightest(f, m).finding.guard, Toward::above);
            });
  }

  void fit_home() {
    choice("fit.has_home", "whether there is a place to home at",
           [](const FillFacts& f, const FillItem*) { return f.fitted.home.has_value(); });
    const auto place = [this](const char* name, const char* meaning, double Point::*axis,
                              auto print) {
      whole(name, meaning, [axis, print](const FillFacts& f) -> Text {
        return f.fitted.home ? print(f, f.fitted.home->probe, axis) : std::nullopt;
      });
    };
    place("fit.home.probe.x", "homing point, where the probe is: .x", &Point::x, probe_place);
    place("fit.home.probe.y", "homing point, where the probe is: .y", &Point::y, probe_place);
    place("fit.home.nozzle.x", "homing point, where the nozzle is: .x", &Point::x, nozzle_place);
    place("fit.home.nozzle.y", "homing point, where the nozzle is: .y", &Point::y, nozzle_place);
    whole("fit.home.leeway", "its leeway", [](const FillFacts& f) -> Text {
      return f.fitted.home ? number_text(f, f.fitted.home->leeway, Toward::below) : std::nullopt;
    });
  }

  void request() {
    whole("check.verdict", "the worst verdict of the request's points",
          [](const FillFacts& f) -> Text {
            return f.checked.verdict ? Text(word(*f.checked.verdict)) : std::nullopt;
          });
    choice("check.all_reachable", "whether every one is reachable",
           [](const FillFacts& f, const FillItem*) {
             return f.checked.verdict == Verdict::reachable;
           });
    const auto count = [this](const char* name, const char* meaning, std::size_t Counts::*which) {
      whole(name, meaning, [which](const FillFacts& f) -> Text {
        return std::to_string(f.checked.counts.*which);
      });
    };
    count("check.counts.points", "how many points the request asks for", &Counts::points);
    count("check.counts.reachable", "of them reachable", &Counts::reachable);
    count("check.counts.marginal", "of them marginal", &Counts::marginal);
    count("check.counts.unreachable", "of them unreachable", &Counts::unreachable);
    count("check.counts.skipped", "left out, off the bed", &Counts::skipped);
    whole("check.coverage.percent", "how much of what can be printed the request covers",
          [](const FillFacts& f) { return percentage(f, f.checked.coverage); });
    whole_sides<UncoveredStrips>(
        "check.uncovered", "printable strip outside the mesh bounds of the request", Toward::above,
        [](const FillFacts& f) {
          return f.checked.coverage ? std::optional(f.checked.coverage->uncovered) : std::nullopt;
        });
  }

  template <typename Get>
  void of_item(const std::string& within, const std::string& name, const std::string& meaning,
               Get get) {
    value(
        name, meaning,
        [get](const FillFacts& f, const FillItem* item) -> Text { return get(f, *item); }, within);
  }
  template <typename Get>
  void choice_of_item(const std::string& within, const std::string& name,
                      const std::string& meaning, Get get) {
    choice(
        name, meaning, [get](const FillFacts& f, const FillItem* item) { return get(f, *item); },
        within);
  }

  void name_of_item(const std::string& list) {
    of_item(list, "name", "its name, \"grid 3,1\" for a point of the grid",
            [](const FillFacts&, const FillItem& item) -> Text { return one_line(item.name); });
    position_of_item(list, false);
  }

  // Where it goes, printed as it is or only when that is reachable.
  void position_of_item(const std::string& list, bool must_be_reachable) {
    const auto coordinate = [&](const char* name, const char* meaning, double Point::*axis,
                                bool nozzle) {
      of_item(list, name, meaning, [=](const FillFacts& f, const FillItem& item) -> Text {
        if (must_be_reachable) {
          return nozzle ? nozzle_place(f, item.probe, axis) : probe_place(f, item.probe, axis);
        }
        const Point at = nozzle ? item.probe - f.rig.setup().probe.offset : item.probe;
        return number_text(f, at.*axis);
      });
    };
    coordinate("probe.x", "where the probe is: .x", &Point::x, false);
    coordinate("probe.y", "where the probe is: .y", &Point::y, false);
    coordinate("nozzle.x", "where the nozzle is: .x", &Point::x, true);
    coordinate("nozzle.y", "where the nozzle is: .y", &Point::y, true);
  }

  void place_of_item(const std::string& list) {
    of_item(list, "column", "its column, from 1 at the left",
            [](const FillFacts&, const FillItem& i) -> Text { return std::to_string(i.column); });
    of_item(list, "row", "its row, from 1 at the front",
            [](const FillFacts&, const FillItem& i) -> Text { return std::to_string(i.row); });
    position_of_item(list, true);
  }

  void item_of_check() {
    const std::string list = "check.points";
    choice_of_item(list, "on_grid", "whether it is a point of the grid",
                   [](const FillFacts&, const FillItem& i) { return i.column > 0; });
    of_item(list, "column", "its column; 0 off the grid",
            [](const FillFacts&, const FillItem& i) -> Text { return std::to_string(i.column); });
    of_item(list, "row", "its row; 0 off the grid",
            [](const FillFacts&, const FillItem& i) -> Text { return std::to_string(i.row); });
    choice_of_item(list, "has_nearest", "whether a place near it works",
                   [](const FillFacts&, const FillItem& i) { return i.nearest.has_value(); });
    of_item(list, "nearest.x", "the nearest place that works, for the probe: .x",
            [](const FillFacts& f, const FillItem& i) -> Text {
              return i.nearest ? number_text(f, i.nearest->x) : std::nullopt;
            });
    of_item(list, "nearest.y", "the nearest place that works, for the probe: .y",
            [](const FillFacts& f, const FillItem& i) -> Text {
              return i.nearest ? number_text(f, i.nearest->y) : std::nullopt;
            });
  }

  void finding_of_item(const std::string& list) {
    of_item(list, "verdict", "reachable, marginal or unreachable",
            [](const FillFacts&, const FillItem& i) -> Text { return word(i.finding.verdict); });
    choice_of_item(list, "is_reachable", "whether it is reachable",
                   [](const FillFacts&, const FillItem& i) {
                     return i.finding.verdict == Verdict::reachable;
                   });
    of_item(list, "limit", "the limit that decides",
            [](const FillFacts& f, const FillItem& i) -> Text {
              return one_line(f.rig.limits().info(i.finding.limit).name);
            });
    of_item(list, "leeway", "its leeway; below 0 it is out of reach",
            [](const FillFacts& f, const FillItem& i) {
              return number_text(f, i.finding.leeway, Toward::below);
            });
    of_item(list, "guard", "what the stated uncertainty asks for",
            [](const FillFacts& f, const FillItem& i) {
              return number_text(f, i.finding.guard, Toward::above);
            });
    choice_of_item(list, "last", "whether it is the last item",
                   [](const FillFacts&, const FillItem& i) { return i.last; });
  }

  std::vector<FillEntry> entries_;
};

std::vector<FillItem> items_of_mesh(const FillFacts& facts) {
  std::vector<FillItem> items;
  if (!facts.fitted.mesh || !facts.fitted.numbers.probe) return items;
  const FitMesh& mesh = *facts.fitted.mesh;
  const bool skip =
      facts.rig.setup().request.grid && facts.rig.setup().request.grid->skip_outside_bed;
  for (int row = 0; row < mesh.rows; ++row) {
    for (int column = 0; column < mesh.columns; ++column) {
      FillItem item;
      item.probe = grid_point(*facts.fitted.numbers.probe, mesh.columns, mesh.rows, column, row);
      if (skip && facts.rig.limits().on_bed(item.probe) < 0) continue;
      item.column = column + 1;
      item.row = row + 1;
      item.finding = facts.rig.limits().evaluate(item.probe);
      items.push_back(item);
    }
  }
  return items;
}

}  // namespace

const std::vector<FillEntry>& fill_entries() {
  static const std::vector<FillEntry> entries = Entries().take();
  return entries;
}

std::vector<FillItem> fill_items(const FillFacts& facts, const std::string& list) {
  std::vector<FillItem> items;
  if (list == "fit.points") items = items_of_mesh(facts);
  if (list == "fit.unmet") {
    for (const FitUnmet& unmet : facts.fitted.unmet) {
      items.push_back({unmet.name, 0, 0, unmet.point.probe, unmet.point.finding, {}, false});
    }
  }
  if (list == "check.points") {
    for (const CheckedPoint& point : facts.checked.points) {
      FillItem item{point_name(facts.rig.setup(), point),
                    point.column,
                    point.row,
                    point.probe,
                    point.finding,
                    std::nullopt,
                    false};
      if (point.has_nearest) item.nearest = near_and_reachable(facts, point.nearest);
      items.push_back(std::move(item));
    }
  }
  if (!items.empty()) items.back().last = true;
  return items;
}

}  // namespace leeway
