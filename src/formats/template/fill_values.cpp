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
  // Not as other numbers for people, which have three decimals at most.
  return shortest(rounded_to(value, facts.numbers.decimals, toward));
}

Text percentage(const FillFacts& facts, const std::optional<Coverage>& coverage) {
  if (!coverage || !coverage->fraction) return std::nullopt;
  return number_text(facts, *coverage->fraction * 100, Toward::below);
}

class Entries {
 public:
  Entries() {
    general();
    mesh();
    home();
    list("mesh.points", "the points of the grid, row by row from the front left");
    place_of_item("mesh.points");
    finding_of_item("mesh.points");
    request();
    list("check.points", "the points that the request asks for");
    name_of_item("check.points");
    item_of_check();
    finding_of_item("check.points");
    of_fit();
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
    whole("walk.program", "the program of a walk, in a text for `walk --wrap`",
          [](const FillFacts& f) -> Text {
            return f.program != nullptr ? Text(*f.program) : std::nullopt;
          });
    exact_point("offset.nozzle_to_probe", "add it to the nozzle's place to get the probe's: ",
                [](const FillFacts& f) { return f.rig.setup().probe.offset; });
    exact_point("offset.probe_to_nozzle", "add it to the probe's place to get the nozzle's: ",
                [](const FillFacts& f) { return -f.rig.setup().probe.offset; });
  }

  // A value of the mesh.
  template <typename Get>
  void of_mesh(const std::string& name, const std::string& meaning, Get get) {
    whole(name, meaning, [get](const FillFacts& f) -> Text {
      return f.numbers.mesh ? get(f, *f.numbers.mesh) : std::nullopt;
    });
  }
  void bounds_of_mesh(const std::string& name, const std::string& meaning,
                      std::optional<Box> MeshNumbers::*which) {
    whole_box(name, meaning, [which](const FillFacts& f) {
      return f.numbers.mesh ? (*f.numbers.mesh).*which : std::nullopt;
    });
  }
  void margins_of_mesh(const std::string& name, const std::string& meaning,
                       std::optional<Margins> MeshNumbers::*which) {
    whole_sides<Margins>("mesh.margins." + name, meaning, Toward::nearest,
                         [which](const FillFacts& f) {
                           return f.numbers.mesh ? (*f.numbers.mesh).*which : std::nullopt;
                         });
  }

  void mesh() {
    choice("mesh.stated", "whether there is a grid: the setup's own, or the one that fits",
           [](const FillFacts& f, const FillItem*) { return f.numbers.mesh.has_value(); });
    of_mesh("mesh.columns", "its columns", [](const FillFacts&, const MeshNumbers& m) -> Text {
      return std::to_string(m.columns);
    });
    of_mesh("mesh.rows", "its rows",
            [](const FillFacts&, const MeshNumbers& m) -> Text { return std::to_string(m.rows); });
    bounds_of_mesh("mesh.probe", "its bounds, where the probe goes", &MeshNumbers::probe);
    bounds_of_mesh("mesh.nozzle", "its bounds, where the nozzle goes", &MeshNumbers::nozzle);
    margins_of_mesh("probe_from_bed", "margins of the probe from the bed's edges",
                    &MeshNumbers::probe_from_bed);
    margins_of_mesh("nozzle_from_bed", "margins of the nozzle from the bed's edges",
                    &MeshNumbers::nozzle_from_bed);
    margins_of_mesh("nozzle_from_travel", "margins of the nozzle from the ends of its travel",
                    &MeshNumbers::nozzle_from_travel);
    margins_of_mesh("probe_from_travel", "margins of the probe from the ends of the travel",
                    &MeshNumbers::probe_from_travel);
    choice("mesh.has_uniform_margin", "whether the four margins of the probe are one number",
           [](const FillFacts& f, const FillItem*) {
             return f.numbers.mesh && f.numbers.mesh->uniform;
           });
    const auto spacing = [this](const char* name, const char* meaning,
                                std::optional<double> MeshNumbers::*which) {
      of_mesh(name, meaning, [which](const FillFacts& f, const MeshNumbers& m) -> Text {
        return m.*which ? number_text(f, *(m.*which)) : std::nullopt;
      });
    };
    spacing("mesh.uniform_margin", "that margin, of the probe from the bed's edges",
            &MeshNumbers::uniform);
    spacing("mesh.spacing.x", "between its columns, from the left on", &MeshNumbers::spacing_x);
    spacing("mesh.spacing.y", "between its rows, from the front on", &MeshNumbers::spacing_y);
    of_mesh("mesh.coverage.percent", "how much of what can be printed it covers",
            [](const FillFacts& f, const MeshNumbers&) {
              return percentage(f, f.numbers.of_mesh.coverage);
            });
    whole_sides<UncoveredStrips>(
        "mesh.uncovered", "printable strip outside the mesh bounds", Toward::above,
        [](const FillFacts& f) {
          const std::optional<Coverage>& coverage = f.numbers.of_mesh.coverage;
          return f.numbers.mesh && coverage ? std::optional(coverage->uncovered) : std::nullopt;
        });
    moves_of_mesh();
    tightest_of_mesh();
  }

  void moves_of_mesh() {
    choice("mesh.moves_judged", "whether the setup states a travel height to judge moves at",
           [](const FillFacts& f, const FillItem*) { return f.numbers.of_mesh.moves.judged; });
    choice("mesh.moves_clear", "whether nothing is known to be in the way between its points",
           [](const FillFacts& f, const FillItem*) { return f.numbers.of_mesh.moves.clear(); });
    choice("mesh.has_least_height", "whether any height is safe for its moves",
           [](const FillFacts& f, const FillItem*) {
             return f.numbers.mesh && f.numbers.of_mesh.moves.safe.least;
           });
    of_mesh("mesh.least_height", "the least safe height of the nozzle for its moves",
            [](const FillFacts& f, const MeshNumbers&) -> Text {
              const std::optional<double>& least = f.numbers.of_mesh.moves.safe.least;
              return least ? number_text(f, *least, Toward::above) : std::nullopt;
            });
  }

  static Text tightest_at(const FillFacts& f, double Point::*axis) {
    const std::optional<Point>& at = f.numbers.tightest_place.probe;
    return at ? number_text(f, (*at).*axis) : std::nullopt;
  }

  void tightest_of_mesh() {
    const auto of_tightest = [this](const char* name, const char* meaning, auto get) {
      whole(name, meaning, [get](const FillFacts& f) -> Text {
        return f.numbers.tightest ? get(f, *f.numbers.tightest) : std::nullopt;
      });
    };
    of_tightest("mesh.tightest.probe.x", "its tightest point, where the probe is: .x",
                [](const FillFacts& f, const FitPoint&) { return tightest_at(f, &Point::x); });
    of_tightest("mesh.tightest.probe.y", "its tightest point, where the probe is: .y",
                [](const FillFacts& f, const FitPoint&) { return tightest_at(f, &Point::y); });
    of_tightest("mesh.tightest.limit", "the limit it is nearest to",
                [](const FillFacts& f, const FitPoint& p) -> Text {
                  return one_line(f.rig.limits().info(p.finding.limit).name);
                });
    of_tightest("mesh.tightest.leeway", "its leeway", [](const FillFacts& f, const FitPoint& p) {
      return number_text(f, p.finding.leeway, Toward::below);
    });
    of_tightest("mesh.tightest.guard", "its guard band", [](const FillFacts& f, const FitPoint& p) {
      return number_text(f, p.finding.guard, Toward::above);
    });
  }

  void home() {
    choice("home.known", "whether there is a place to home at",
           [](const FillFacts& f, const FillItem*) { return f.numbers.home.has_value(); });
    choice("home.stated", "whether the setup states it",
           [](const FillFacts& f, const FillItem*) { return f.numbers.home_is_stated; });
    place("home", "homing point", [](const FillFacts& f) { return f.numbers.home_place; });
    whole("home.leeway", "its least leeway", [](const FillFacts& f) -> Text {
      return f.numbers.home ? number_text(f, f.numbers.home->leeway, Toward::below) : std::nullopt;
    });
  }

  // A place as it is entered, for probe and nozzle.
  template <typename Get>
  void place(const std::string& name, const std::string& meaning, Get get) {
    const auto coordinate = [&](const char* suffix, const char* of,
                                std::optional<Point> PlaceNumbers::*which, double Point::*axis) {
      whole(name + suffix, meaning + of, [=](const FillFacts& f) -> Text {
        const std::optional<Point> at = get(f).*which;
        return at ? number_text(f, (*at).*axis) : std::nullopt;
      });
    };
    coordinate(".probe.x", ", where the probe is: .x", &PlaceNumbers::probe, &Point::x);
    coordinate(".probe.y", ", where the probe is: .y", &PlaceNumbers::probe, &Point::y);
    coordinate(".nozzle.x", ", where the nozzle is: .x", &PlaceNumbers::nozzle, &Point::x);
    coordinate(".nozzle.y", ", where the nozzle is: .y", &PlaceNumbers::nozzle, &Point::y);
  }

  // What only a fit tells.
  void of_fit() {
    choice("fit.feasible", "whether a grid fits", [](const FillFacts& f, const FillItem*) {
      return f.fitted != nullptr && f.fitted->mesh.has_value();
    });
    choice("fit.has_uniform_margin", "whether a grid with one margin on all sides fits",
           [](const FillFacts& f, const FillItem*) {
             return f.fitted != nullptr && f.fitted->uniform_margin;
           });
    whole("fit.uniform_margin", "the margin of that grid, of the probe from the bed's edges",
          [](const FillFacts& f) -> Text {
            const bool there = f.fitted != nullptr && f.fitted->uniform_margin;
            return there ? number_text(f, *f.fitted->uniform_margin) : std::nullopt;
          });
    list("fit.unmet", "named points and homing point of the request that no grid mends");
    name_of_item("fit.unmet");
    finding_of_item("fit.unmet");
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
    position_of_item(list);
  }

  void position_of_item(const std::string& list) {
    const auto coordinate = [&](const char* name, const char* meaning, double Point::*axis,
                                std::optional<Point> PlaceNumbers::*which) {
      of_item(list, name, meaning, [=](const FillFacts& f, const FillItem& item) -> Text {
        const std::optional<Point>& at = item.place.*which;
        return at ? number_text(f, (*at).*axis) : std::nullopt;
      });
    };
    coordinate("probe.x", "where the probe is: .x", &Point::x, &PlaceNumbers::probe);
    coordinate("probe.y", "where the probe is: .y", &Point::y, &PlaceNumbers::probe);
    coordinate("nozzle.x", "where the nozzle is: .x", &Point::x, &PlaceNumbers::nozzle);
    coordinate("nozzle.y", "where the nozzle is: .y", &Point::y, &PlaceNumbers::nozzle);
  }

  void place_of_item(const std::string& list) {
    of_item(list, "column", "its column, from 1 at the left",
            [](const FillFacts&, const FillItem& i) -> Text { return std::to_string(i.column); });
    of_item(list, "row", "its row, from 1 at the front",
            [](const FillFacts&, const FillItem& i) -> Text { return std::to_string(i.row); });
    position_of_item(list);
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

FillItem item_of(const FillFacts& facts, const CheckedPoint& point, const PlaceNumbers& place,
                 const Finding& finding) {
  FillItem item;
  item.name = point_name(facts.rig.setup(), point);
  item.column = point.column;
  item.row = point.row;
  item.place = place;
  item.finding = finding;
  return item;
}

// The points of the mesh come first among the checked ones, in the same order.
std::vector<FillItem> items_of_mesh(const FillFacts& facts) {
  std::vector<FillItem> items;
  if (!facts.numbers.mesh) return items;
  const std::vector<MeshPlace>& places = facts.numbers.mesh->places;
  for (std::size_t i = 0; i < places.size(); ++i) {
    items.push_back(
        item_of(facts, facts.numbers.of_mesh.points[i], places[i].numbers, places[i].finding));
  }
  return items;
}

std::vector<FillItem> items_of_request(const FillFacts& facts) {
  std::vector<FillItem> items;
  for (std::size_t i = 0; i < facts.checked.points.size(); ++i) {
    const PointNumbers& numbers = facts.numbers.points[i];
    items.push_back(item_of(facts, facts.checked.points[i], numbers.place, numbers.finding));
    items.back().nearest = numbers.nearest;
  }
  return items;
}

std::vector<FillItem> unmet_items(const FillFacts& facts) {
  std::vector<FillItem> items;
  if (facts.fitted == nullptr) return items;
  for (const FitUnmet& unmet : facts.fitted->unmet) {
    items.push_back({unmet.name, 0, 0, unmet.place, unmet.point.finding, {}, false});
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
  if (list == "mesh.points") items = items_of_mesh(facts);
  if (list == "fit.unmet") items = unmet_items(facts);
  if (list == "check.points") items = items_of_request(facts);
  if (!items.empty()) items.back().last = true;
  return items;
}

}  // namespace leeway
