#include "leeway/write_comparison.h"
#include "formats/compare/comparison_view.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "formats/json/json_text.h"
#include "formats/text/names.h"
#include "formats/text/numbers.h"
#include "formats/text/table.h"
#include "formats/text/words.h"
#include "formats/write/check_view.h"
#include "formats/write/fit_view.h"

namespace leeway {
namespace {

std::string wanted_words(const ComparedGrid& grid) {
  if (grid.mesh) return fmt::format("{} x {}", grid.mesh->columns, grid.mesh->rows);
  const GridWanted& wanted = grid.wanted;
  if (wanted.spacing) return fmt::format("spacing {}", decimal(*wanted.spacing));
  const auto count = [](const std::optional<int>& n) {
    return n ? std::to_string(*n) : std::string("as asked");
  };
  return fmt::format("{} x {}", count(wanted.columns), count(wanted.rows));
}

double after_guard_band(const FitMesh& mesh) {
  return rounded(mesh.tightest.finding.leeway - mesh.tightest.finding.guard);
}

std::string compared_height(const ComparedGrid& grid) {
  return grid.least_height ? at_least(*grid.least_height) : "none is enough";
}

std::string comparison_next(const std::vector<ComparedGrid>& grids) {
  if (grids.empty() || !grids.front().mesh) return "";
  const FitMesh& best = *grids.front().mesh;
  return fmt::format(
      "Best first: by coverage, then by leeway after its guard band. Spacing and leeway are "
      "rounded "
      "down, heights up. Numbers to enter: the same with --columns {} --rows {}.",
      best.columns, best.rows);
}

// The sentences on those that do not fit, each once with the grids that it holds for.
std::vector<std::string> misfits(const std::vector<ComparedGrid>& grids, const Words& words) {
  std::vector<std::pair<std::string, std::string>> reasons;  // why, which
  for (const ComparedGrid& grid : grids) {
    if (grid.mesh) continue;
    const std::string why = misfit_words(grid, words);
    const auto known = std::find_if(reasons.begin(), reasons.end(),
                                    [&](const auto& reason) { return reason.first == why; });
    if (known == reasons.end()) {
      reasons.emplace_back(why, wanted_words(grid));
    } else {
      known->second += ", " + wanted_words(grid);
    }
  }
  std::vector<std::string> out;
  for (const auto& [why, which] : reasons) {
    out.push_back(fmt::format("Does not fit: {}. {}", which, why));
  }
  return out;
}

std::string compared_object(const ComparedGrid& grid, const Rig& rig, const Words& words) {
  JsonObject out;
  out.add("fits", grid.mesh ? "true" : "false");
  if (!grid.mesh) {
    const GridWanted& wanted = grid.wanted;
    out.add("columns", wanted.columns ? std::to_string(*wanted.columns) : "null");
    out.add("rows", wanted.rows ? std::to_string(*wanted.rows) : "null");
    out.add("spacing", json_optional_number(wanted.spacing));
    out.add("reason", json_text(misfit_words(grid, words)));
    return out.text();
  }
  const FitMesh& mesh = *grid.mesh;
  const Finding& finding = mesh.tightest.finding;
  out.add("columns", std::to_string(mesh.columns));
  out.add("rows", std::to_string(mesh.rows));
  out.add("x", json_numbers(mesh.bounds.x0, mesh.bounds.x1));
  out.add("y", json_numbers(mesh.bounds.y0, mesh.bounds.y1));
  out.add("spacing", json_position(mesh.spacing));
  out.add("coverage", json_optional_number(mesh.coverage.fraction));
  out.add("limit", json_text(rig.limits().info(finding.limit).name));
  out.add("leeway", json_number(finding.leeway));
  out.add("guard", json_number(finding.guard));
  out.add("moves_clear", !grid.moves_judged ? "null" : grid.moves_clear ? "true" : "false");
  out.add("least_height", json_optional_number(grid.least_height));
  return out.text();
}

// Those of one share, as it is printed, that are not blocked.
std::vector<std::string> that_cover_most(const std::vector<ComparedGrid>& grids) {
  constexpr std::size_t kMostNamed = 4;
  const auto covers = [](const ComparedGrid& grid) { return comparison_cells(grid)[1]; };
  std::vector<std::string> names;
  std::size_t others = 0;
  for (const ComparedGrid& grid : grids) {
    if (!grid.mesh || !grid.moves_clear || covers(grid) != covers(grids.front())) continue;
    names.size() < kMostNamed ? names.push_back(wanted_words(grid)) : static_cast<void>(++others);
  }
  if (others > 0) names.push_back(fmt::format("{} more", others));
  return names;
}

}  // namespace

std::string comparison_summary(const std::vector<ComparedGrid>& grids, const std::string& name) {
  const auto fit = std::count_if(grids.begin(), grids.end(), [](const ComparedGrid& grid) {
    return grid.mesh && grid.moves_clear;
  });
  std::string out = fmt::format("{}: {} compared, ", name, counted(grids.size(), "grid"));
  if (fit == 0) return out + "none of which fits.";
  const FitMesh& best = *grids.front().mesh;
  out += fmt::format("{} fit{}; ", fit, fit == 1 ? "s" : "");
  const std::vector<std::string> most = that_cover_most(grids);
  out += joined(most) + (most.size() > 1 ? " cover most, all the same" : " covers most");
  if (best.coverage.fraction) {
    out += fmt::format(", {} % of what can be printed", percent(*best.coverage.fraction));
  }
  return out + ".";
}

const std::vector<std::string>& comparison_heads() {
  static const std::vector<std::string> heads = {
      "grid", "covers", "spacing x, y", "tightest leeway", "after guard", "least safe height"};
  return heads;
}

std::vector<std::string> comparison_cells(const ComparedGrid& grid) {
  if (!grid.mesh) return {wanted_words(grid)};
  const FitMesh& mesh = *grid.mesh;
  return {wanted_words(grid),
          mesh.coverage.fraction ? percent(*mesh.coverage.fraction) + " %" : "unknown",
          fmt::format("{}, {}", at_most(mesh.spacing.x), at_most(mesh.spacing.y)),
          signed_amount(mesh.tightest.finding.leeway),
          signed_amount(after_guard_band(mesh)),
          compared_height(grid) + (grid.moves_clear ? "" : ": blocked as stated")};
}

std::string misfit_words(const ComparedGrid& grid, const Words& words) {
  if (!grid.refused.empty()) return grid.refused + ".";
  FitResult result;
  result.limiting = grid.limiting;
  result.most_kept = grid.most_kept;
  return limiting_sentence(result, words);
}

std::string compared_name(const Rig& rig, const Words& words) {
  const std::string& name = rig.setup().name;
  return name.empty() ? "This setup" : words.name(name);
}

void write_comparison_text(const std::vector<ComparedGrid>& grids, const Rig& rig,
                           const TextSink& sink) {
  const Words words(rig, text_name);
  sink(paragraph(comparison_summary(grids, compared_name(rig, words))));
  sink("Lengths are in mm. Leeway: how far it could still go before something stops it.\n");
  if (!grids.empty() && grids.front().mesh) {
    sink("\n");
    Table table(comparison_heads());
    for (const ComparedGrid& grid : grids) {
      if (grid.mesh) table.add(" ", comparison_cells(grid));
    }
    table.write(sink);
    sink("\n" + paragraph(comparison_next(grids)));
  }
  for (const std::string& misfit : misfits(grids, words)) sink("\n" + paragraph(misfit));
  sink("\n" + paragraph(caution()));
}

void write_comparison_markdown(const std::vector<ComparedGrid>& grids, const Rig& rig,
                               const TextSink& sink) {
  const Words words(rig, markdown_name);
  sink(comparison_summary(grids, "**" + compared_name(rig, words) + "**") +
       "\n\nLengths are in mm. Leeway: how far it could still go before something stops it.\n");
  if (!grids.empty() && grids.front().mesh) {
    sink(fmt::format("\n| {} |\n| --- | ---: | ---: | ---: | ---: | ---: |\n",
                     fmt::join(comparison_heads(), " | ")));
    for (const ComparedGrid& grid : grids) {
      if (grid.mesh) sink(fmt::format("| {} |\n", fmt::join(comparison_cells(grid), " | ")));
    }
    sink("\n- " + comparison_next(grids) + "\n");
  } else {
    sink("\n");
  }
  for (const std::string& misfit : misfits(grids, words)) sink("- " + misfit + "\n");
  sink(std::string("- ") + caution() + "\n");
}

void write_comparison_json(const std::vector<ComparedGrid>& grids, const Rig& rig,
                           const TextSink& sink) {
  const Words words(rig, text_name);
  std::string out = "[";
  for (const ComparedGrid& grid : grids) {
    out += (out.size() > 1 ? ",\n  " : "\n  ") + compared_object(grid, rig, words);
  }
  sink(out + (grids.empty() ? "]\n" : "\n]\n"));
}

}  // namespace leeway
