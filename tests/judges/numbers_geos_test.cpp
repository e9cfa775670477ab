// The numbers that templates and reports print, entered as a controller would take them and held
// against GEOS (https://libgeos.org): bounds, margins, start with spacing and count, single points
// and the homing point, in both frames, at any number of decimals.

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <map>
#include <sstream>

#include "judges/complaints.h"
#include "judges/geos_judge.h"
#include "judges/geos_moves.h"
#include "judges/random_setup.h"
#include "leeway/fill.h"
#include "leeway/fit.h"

namespace leeway::judges {
namespace {

constexpr double kDoubt_mm = 1e-6;
// One setup in so many.
constexpr std::uint64_t kEvery = 20;

using Numbers = std::map<std::string, std::vector<double>>;

std::string line(const std::string& name, std::initializer_list<const char*> values) {
  std::string out = name;
  for (const char* value : values) out += " {{" + std::string(value) + "}}";
  return out + "\n";
}

std::string sides(const std::string& margins) {
  std::string out = margins;
  for (const char* side : {"left", "right", "front", "back"}) {
    out += " {{mesh.margins." + margins + "." + side + "}}";
  }
  return out + "\n";
}

// One template each, so that what rounding would spoil leaves the others.
std::vector<std::string> templates() {
  return {
      line("probe", {"mesh.probe.x0", "mesh.probe.x1", "mesh.probe.y0", "mesh.probe.y1"}),
      line("nozzle", {"mesh.nozzle.x0", "mesh.nozzle.x1", "mesh.nozzle.y0", "mesh.nozzle.y1"}),
      line("spacing", {"mesh.spacing.x", "mesh.spacing.y"}),
      sides("probe_from_bed"),
      sides("nozzle_from_bed"),
      sides("nozzle_from_travel"),
      sides("probe_from_travel"),
      "probe_points{{#mesh.points}} {{probe.x}} {{probe.y}}{{/mesh.points}}\n",
      "nozzle_points{{#mesh.points}} {{nozzle.x}} {{nozzle.y}}{{/mesh.points}}\n",
      "{{#home.known}}" + line("home_probe", {"home.probe.x", "home.probe.y"}) + "{{/home.known}}",
      "{{#home.known}}" + line("home_nozzle", {"home.nozzle.x", "home.nozzle.y"}) +
          "{{/home.known}}",
  };
}

Numbers filled(const FillFacts& facts, std::size_t& without) {
  Numbers numbers;
  for (const std::string& text : templates()) {
    const Filled out = fill_template({"t", "t", text, ""}, facts);
    without += !out.faults.empty();
    std::istringstream in(out.text);
    std::string name;
    if (!(in >> name)) continue;
    for (double value; in >> value;) numbers[name].push_back(value);
  }
  return numbers;
}

// A mesh as a controller has it once its numbers are entered.
struct Entered {
  std::string how;
  std::vector<Point> probes;  // in rows
  int columns = 0;
  int rows = 0;
};

class Controller {
 public:
  Controller(const Setup& setup, int columns, int rows, const Numbers& numbers)
      : setup_(setup), columns_(columns), rows_(rows), numbers_(numbers) {}

  std::vector<Entered> meshes() {
    const Box bed = bounding_box(setup_.machine.bed);
    const Box travel = bounding_box(setup_.machine.travel);
    const Point offset = setup_.probe.offset;
    bounds("probe", {});
    bounds("nozzle", offset);
    margins("probe_from_bed", bed, {});
    margins("nozzle_from_bed", bed, offset);
    margins("nozzle_from_travel", travel, offset);
    margins("probe_from_travel", travel, {});
    points("probe_points", {});
    points("nozzle_points", offset);
    return std::move(meshes_);
  }

 private:
  const std::vector<double>* of(const std::string& name) const {
    const auto found = numbers_.find(name);
    return found == numbers_.end() ? nullptr : &found->second;
  }

  void lattice(const std::string& how, Point start, Point step, Point offset) {
    Entered mesh{how, {}, columns_, rows_};
    for (int row = 0; row < rows_; ++row) {
      for (int column = 0; column < columns_; ++column) {
        mesh.probes.push_back(
            {start.x + column * step.x + offset.x, start.y + row * step.y + offset.y});
      }
    }
    meshes_.push_back(std::move(mesh));
  }

  void between(const std::string& how, double x0, double x1, double y0, double y1, Point offset) {
    lattice(how, {x0, y0}, {(x1 - x0) / (columns_ - 1), (y1 - y0) / (rows_ - 1)}, offset);
  }

  void bounds(const std::string& name, Point offset) {
    const auto* b = of(name);
    if (b == nullptr) return;
    between(name, (*b)[0], (*b)[1], (*b)[2], (*b)[3], offset);
    if (const auto* step = of("spacing")) {
      lattice(name + " with spacing", {(*b)[0], (*b)[2]}, {(*step)[0], (*step)[1]}, offset);
    }
  }

  void margins(const std::string& name, const Box& around, Point offset) {
    const auto* m = of(name);
    if (m == nullptr) return;
    between(name, around.x0 + (*m)[0], around.x1 - (*m)[1], around.y0 + (*m)[2],
            around.y1 - (*m)[3], offset);
  }

  void points(const std::string& name, Point offset) {
    const auto* list = of(name);
    if (list == nullptr) return;
    Entered mesh{name, {}, columns_, rows_};
    for (std::size_t i = 0; i + 1 < list->size(); i += 2) {
      mesh.probes.push_back({(*list)[i] + offset.x, (*list)[i + 1] + offset.y});
    }
    meshes_.push_back(std::move(mesh));
  }

  const Setup& setup_;
  int columns_;
  int rows_;
  const Numbers& numbers_;
  std::vector<Entered> meshes_;
};

class Comparison {
 public:
  explicit Comparison(const CaseRange& run)
      : unsafe("what is printed can be probed", run), blocked("and its moves are clear", run) {}

  void look_at(std::uint64_t index, Setup setup, Random& random) {
    setup.request = {};
    setup.request.grid =
        Grid{random.whole(2, 5), random.whole(2, 5), Box{0, 1, 0, 1}, Frame::probe, false};
    FitOptions options;
    options.step = 1;
    options.remedies = false;
    options.decimals = random.whole(0, kMostDecimals);
    const Rig rig(setup);
    const FitResult fitted = fit(rig, options);
    if (!fitted.mesh) return;
    look_at_numbers(index, rig, &fitted, options.decimals);
    // The setup's own grid, at numbers that no decimals hold.
    const Box b = fitted.mesh->bounds;
    const double in = random.real(0, 0.2);
    setup.request.grid->extent = Box{b.x0 + in, b.x1 - in / 3, b.y0 + in / 7, b.y1 - in};
    look_at_numbers(index, rig.asking(setup.request), nullptr, options.decimals);
  }

  Complaints unsafe;
  Complaints blocked;
  std::size_t numbers = 0;
  std::size_t meshes = 0;
  std::size_t ways = 0;
  std::size_t without = 0;

 private:
  void look_at_numbers(std::uint64_t index, const Rig& rig, const FitResult* fitted, int decimals) {
    const CheckResult checked = check(rig);
    const NumbersToEnter to_enter = numbers_to_enter(rig, checked, fitted, decimals);
    if (!to_enter.mesh_is_safe) return;
    ++numbers;
    const Numbers printed = filled({rig, checked, to_enter, fitted}, without);
    const Setup& setup = rig.setup();
    GeosJudge judge(setup);
    const std::vector<Entered> all =
        Controller(setup, to_enter.mesh->columns, to_enter.mesh->rows, printed).meshes();
    for (const Entered& mesh : all) {
      ++meshes;
      look_at_points(index, setup, mesh, decimals, judge);
    }
    // Sweeping parts along a way costs GEOS much: one mesh of each.
    if (setup.probe.travel_height && !all.empty()) {
      look_at_moves(index, setup, all[index / kEvery % all.size()], decimals);
    }
    look_at_home(index, setup, printed, "home_probe", {}, judge);
    look_at_home(index, setup, printed, "home_nozzle", setup.probe.offset, judge);
  }

  void look_at_points(std::uint64_t index, const Setup& setup, const Entered& mesh, int decimals,
                      GeosJudge& judge) {
    for (const Point p : mesh.probes) {
      const double leeway = judge.least_leeway(p);
      if (leeway >= -kDoubt_mm) continue;
      unsafe.add(index, setup,
                 fmt::format("{} in {} decimals: ({}, {}), {} left", mesh.how, decimals, p.x, p.y,
                             leeway));
      return;
    }
  }

  void look_at_moves(std::uint64_t index, const Setup& setup, const Entered& mesh, int decimals) {
    const GeosMoveJudge judge(setup);
    const auto at = [&](int row, int i) {
      const int column = row % 2 == 0 ? i : mesh.columns - 1 - i;
      return mesh.probes[static_cast<std::size_t>(row * mesh.columns + column)];
    };
    Point from = at(0, 0);
    for (int row = 0; row < mesh.rows; ++row) {
      for (int i = 0; i < mesh.columns; ++i) {
        const Point to = at(row, i);
        ++ways;
        if (!(to == from) && judge.left(from, to, *setup.probe.travel_height) < -kDoubt_mm) {
          blocked.add(index, setup,
                      fmt::format("{} in {} decimals: ({}, {}) to ({}, {})", mesh.how, decimals,
                                  from.x, from.y, to.x, to.y));
          return;
        }
        from = to;
      }
    }
  }

  void look_at_home(std::uint64_t index, const Setup& setup, const Numbers& printed,
                    const std::string& name, Point offset, GeosJudge& judge) {
    const auto found = printed.find(name);
    if (found == printed.end()) return;
    const Point p{found->second[0] + offset.x, found->second[1] + offset.y};
    if (judge.least_leeway(p) < -kDoubt_mm) unsafe.add(index, setup, name);
  }
};

TEST(NumbersAgainstGeos, MayBeEnteredAsPrinted) {
  const CaseRange run = cases_to_look_at();
  Comparison c(run);
  const bool one = run.end - run.first == 1;
  std::size_t refused = 0;
  for (std::uint64_t i = run.first; i < run.end; ++i) {
    if (i % kEvery != 0 && !one) continue;
    Random random(seed_of_case(run.seed, i));
    const leeway::Setup setup = random_setup(random.bits());
    try {
      c.look_at(i, setup, random);
    } catch (const Error&) {
      ++refused;  // too detailed, or nothing to look for
    }
  }
  fmt::print(
      "seed {}, cases {} to {}: {} sets of numbers, {} meshes entered, {} moves; {} ways without "
      "numbers, {} setups refused\n",
      run.seed, run.first, run.end, c.numbers, c.meshes, c.ways, c.without, refused);
  EXPECT_EQ(c.unsafe.count(), 0u);
  EXPECT_EQ(c.blocked.count(), 0u);
  if (!one) {
    EXPECT_GT(c.meshes, 0u);
    EXPECT_GT(c.ways, 0u);
    EXPECT_LT(c.without * 5, c.meshes);
  }
}

}  // namespace
}  // namespace leeway::judges
