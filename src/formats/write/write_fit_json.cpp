#include <cmath>

#include <fmt/format.h>

#include "formats/json/json_text.h"
#include "formats/text/change_text.h"
#include "geometry/plane/by_kind.h"
#include "leeway/rig.h"
#include "leeway/write_fit.h"

namespace leeway {
namespace {

// Margins and bounds are rounded to the nearest 1e-6, which nothing of them is finer than.
std::string box_or_null(const std::optional<Box>& box) { return box ? json_bounds(*box) : "null"; }

std::string margins_object(const std::optional<Margins>& margins) {
  if (!margins) return "null";
  return JsonObject()
      .add("left", json_number(margins->left))
      .add("right", json_number(margins->right))
      .add("front", json_number(margins->front))
      .add("back", json_number(margins->back))
      .text();
}

std::string spacing_array(const MeshNumbers& numbers) {
  return fmt::format("[{},{}]", json_optional_number(numbers.spacing_x),
                     json_optional_number(numbers.spacing_y));
}

std::string grid_object(const FitMesh& mesh, const std::string& spacing) {
  return JsonObject()
      .add("columns", std::to_string(mesh.columns))
      .add("rows", std::to_string(mesh.rows))
      .add("x", json_numbers(mesh.bounds.x0, mesh.bounds.x1))
      .add("y", json_numbers(mesh.bounds.y0, mesh.bounds.y1))
      .add("spacing", spacing)
      .text();
}

std::string fit_point_object(const FitPoint& point, Point offset, const Limits& limits) {
  return JsonObject()
      .add("probe", json_position(point.probe))
      .add("nozzle", json_position(point.probe - offset))
      .add("limit", json_text(limits.info(point.finding.limit).name))
      .add("leeway", json_number(point.finding.leeway))
      .add("guard", json_number(point.finding.guard))
      .text();
}

std::string home_object(const std::optional<FitHome>& home, Point offset) {
  if (!home) return "null";
  return JsonObject()
      .add("probe", json_position(home->probe))
      .add("nozzle", json_position(home->probe - offset))
      .add("leeway", json_number(home->leeway))
      .text();
}

std::string request_object(const FitResult& result) {
  if (!result.before) return "null";
  return JsonObject()
      .add("columns", std::to_string(result.columns_before))
      .add("rows", std::to_string(result.rows_before))
      .add("x", json_numbers(result.before->x0, result.before->x1))
      .add("y", json_numbers(result.before->y0, result.before->y1))
      .add("points", result.points_before)
      .add("failing", result.failing_before)
      .add("coverage", json_coverage(result.coverage_before))
      .text();
}

struct RemedyWords {
  std::string parameter;
  Changes changes;  // none of what an option asks for: there is nothing in the setup to change
};

RemedyWords remedy_words(const FitChange& change) {
  using Words = RemedyWords;
  return by_kind(
      change,
      [](const SideLetGo& c) {
        return Words{std::string("side ") + word_of(c.edge), {}};
      },
      [](const WithinLetGo&) {
        return Words{"within", {}};
      },
      [](const SearchStep&) {
        return Words{"step", {}};
      },
      [](const GridColumns& c) {
        return Words{"columns", {c}};
      },
      [](const GridRows& c) {
        return Words{"rows", {c}};
      },
      [](const EdgeDistance& c) {
        return Words{"edge distance", {c}};
      },
      [](const CoverageFactor& c) {
        return Words{"coverage factor", {c}};
      },
      [](const ProbeOffset& c) {
        return Words{"offset", {c}};
      });
}

std::string remedy_object(const FitRemedy& remedy, const Setup& setup) {
  const RemedyWords words = remedy_words(remedy.change);
  return JsonObject()
      .add("parameter", json_text(words.parameter))
      .add("change", json_changes(words.changes, setup))
      .add("grid", grid_object(remedy.mesh, json_position(remedy.mesh.spacing)))
      .text();
}

// The items of an array, one a line.
template <class Items, class ToObject>
std::string array_of(const Items& items, const ToObject& to_object) {
  std::string out = "[";
  for (const auto& item : items) {
    out += (out.size() > 1 ? ",\n    " : "\n    ") + to_object(item);
  }
  return out + (items.empty() ? "]" : "\n  ]");
}

std::string limiting_object(const FitResult& result, const Limits& limits) {
  if (!result.limiting) return "null";
  JsonObject out;
  out.add("empty", result.limiting->why_empty ? json_text(*result.limiting->why_empty) : "null");
  if (result.limiting->covers_nothing) out.add("covers_nothing", "true");
  if (result.limiting->why_unprintable)
    out.add("unprintable", json_text(*result.limiting->why_unprintable));
  out.add("place", fit_point_object(result.limiting->place, result.offset, limits));
  return out.text();
}

std::string unmet_object(const FitUnmet& unmet, Point offset, const Limits& limits) {
  return JsonObject()
      .add("name", json_text(unmet.name))
      .add("point", fit_point_object(unmet.point, offset, limits))
      .text();
}

std::string moves_object(const FitResult& result, const Setup& setup) {
  const CheckResult& checked = result.checked;
  const CheckedMoves& moves = checked.moves;
  std::string blocked = "[";
  for (const BlockedMove& move : moves.blocked) {
    const auto name = [&](std::size_t i) {
      return json_text(point_name(setup, checked.points[i]));
    };
    blocked += (blocked.size() > 1 ? ",\n    " : "\n    ") +
               JsonObject()
                   .add("from", name(move.from))
                   .add("to", name(move.to))
                   .add("limit", json_text(move.stop.limit.name))
                   .add("leeway", json_number(move.stop.leeway))
                   .add("guard", json_number(move.stop.guard))
                   .text();
  }
  blocked += blocked.size() > 1 ? "\n  ]" : "]";
  return JsonObject()
      .add("judged", moves.judged ? "true" : "false")
      .add("clear", !moves.judged   ? "null"
                    : moves.clear() ? "true"
                                    : "false")
      .add("blocked", blocked)
      .add("least_height", json_optional_number(moves.safe.least))
      .text();
}

std::string mesh_members(const FitResult& result, const Rig& rig) {
  const FitMesh& mesh = *result.mesh;
  const MeshNumbers& numbers = result.numbers;
  std::string out;
  const auto member = [&out](const char* key, const std::string& json) {
    out += std::string(",\n  \"") + key + "\": " + json;
  };
  member("grid", grid_object(mesh, spacing_array(numbers)));
  member("nozzle", box_or_null(numbers.nozzle));
  member("margins", JsonObject()
                        .add("from_bed", margins_object(numbers.probe_from_bed))
                        .add("from_travel", margins_object(numbers.nozzle_from_travel))
                        .text());
  member("uniform_margin",
         JsonObject()
             .add("from_bed", result.uniform_margin ? json_number(*result.uniform_margin) : "null")
             .text());
  member("coverage", json_coverage(mesh.coverage));
  member("skipped", std::to_string(mesh.skipped));
  member("tightest", fit_point_object(mesh.tightest, result.offset, rig.limits()));
  member("moves", moves_object(result, rig.setup()));
  member("neighbour", result.neighbour
                          ? JsonObject()
                                .add("grid", grid_object(*result.neighbour,
                                                         json_position(result.neighbour->spacing)))
                                .add("coverage", json_coverage(result.neighbour->coverage))
                                .text()
                          : "null");
  if (result.higher) {
    member("higher", JsonObject()
                         .add("least_height", json_number(result.higher->height))
                         .add("grid", grid_object(result.higher->mesh,
                                                  json_position(result.higher->mesh.spacing)))
                         .add("coverage", json_coverage(result.higher->mesh.coverage))
                         .text());
  }
  return out;
}

}  // namespace

void write_fit_json(const FitResult& result, const Rig& rig, const TextSink& sink) {
  sink("{\n  \"format\": \"leeway-fit-2\",\n  \"setup\": " + json_text(result.setup));
  sink(std::string(",\n  \"feasible\": ") + (result.mesh ? "true" : "false"));
  if (result.keep > 0) {
    sink(",\n  \"keep\": " + JsonObject()
                                 .add("asked", json_number(result.keep))
                                 .add("most", json_optional_number(result.most_kept))
                                 .text());
  }
  if (result.mesh) sink(mesh_members(result, rig));
  sink(",\n  \"offset\": " + JsonObject()
                                 .add("nozzle_to_probe", json_position(result.offset))
                                 .add("probe_to_nozzle", json_position(-result.offset))
                                 .text());
  sink(",\n  \"home\": " + home_object(result.home, result.offset));
  sink(",\n  \"request\": " + request_object(result));
  sink(",\n  \"unmet\": " + array_of(result.unmet, [&](const FitUnmet& unmet) {
         return unmet_object(unmet, result.offset, rig.limits());
       }));
  if (!result.mesh) {
    sink(",\n  \"limiting\": " + limiting_object(result, rig.limits()));
    sink(",\n  \"remedies\": " + array_of(result.remedies, [&](const FitRemedy& remedy) {
           return remedy_object(remedy, rig.setup());
         }));
  }
  sink("\n}\n");
}

}  // namespace leeway
