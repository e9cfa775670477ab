#include "leeway/rewrite_setup.h"

#include <fmt/format.h>

#include "formats/json/json_editor.h"
#include "formats/json/json_text.h"
#include "formats/text/numbers.h"

namespace leeway {
namespace {

std::string grid_text(const FitMesh& mesh, bool skip) {
  return fmt::format(
      R"({{"columns": {}, "rows": {}, "x": [{}, {}], "y": [{}, {}], "frame": "probe"{}}})",
      mesh.columns, mesh.rows, shortest(mesh.bounds.x0), shortest(mesh.bounds.x1),
      shortest(mesh.bounds.y0), shortest(mesh.bounds.y1), skip ? R"(, "outside_bed": "skip")" : "");
}

std::string pair_text(Point p) { return fmt::format("[{}, {}]", shortest(p.x), shortest(p.y)); }

}  // namespace

Rewritten rewrite_grid(std::string_view text, const FitMesh& mesh,
                       const std::function<std::string(const std::string&)>& new_path) {
  JsonEditor editor(text);
  const auto move_path = [&](std::uint32_t node) {
    const std::string* path = editor.string(node);
    if (path == nullptr) return;
    const std::string now = new_path(*path);
    if (now != *path) editor.replace(node, json_text(now));
  };
  const std::uint32_t probe = editor.top("probe");
  move_path(editor.top("machine"));
  move_path(probe);
  move_path(editor.member(probe, "profile"));
  const std::uint32_t request = editor.top("request");
  const std::uint32_t grid = editor.member(request, "grid");
  const std::string* outside = editor.string(editor.member(grid, "outside_bed"));
  const std::string now = grid_text(mesh, outside != nullptr && *outside == "skip");
  if (grid != JsonEditor::kNone) {
    editor.replace(grid, now);
  } else if (request != JsonEditor::kNone) {
    editor.add_first(request, "\"grid\": " + now);
  } else {
    editor.add_last("\"request\": {\"grid\": " + now + "}");
  }
  return editor.result();
}

Rewritten rewrite_offset(std::string_view text, Point offset, Point uncertainty,
                         std::optional<double> coverage_factor) {
  JsonEditor editor(text);
  const std::string offset_text = pair_text(offset);
  const std::string uncertainty_text = pair_text(uncertainty);
  const std::uint32_t probe = editor.top("probe");
  if (coverage_factor) {
    const std::string factor = shortest(*coverage_factor);
    if (const std::uint32_t node = editor.top("coverage_factor"); node != JsonEditor::kNone) {
      editor.replace(node, factor);
    } else {
      editor.add_after(probe, "\"coverage_factor\": " + factor);
    }
  }
  if (const std::string* profile = editor.string(probe)) {
    editor.replace(probe,
                   fmt::format(R"({{"profile": {}, "offset": {}, "offset_uncertainty": {}}})",
                               json_text(*profile), offset_text, uncertainty_text));
    return editor.result();
  }
  std::string missing;
  const auto put = [&](const char* key, const std::string& value) {
    if (const std::uint32_t node = editor.member(probe, key); node != JsonEditor::kNone) {
      editor.replace(node, value);
    } else {
      missing += fmt::format("{}\"{}\": {}", missing.empty() ? "" : ", ", key, value);
    }
  };
  put("offset", offset_text);
  put("offset_uncertainty", uncertainty_text);
  if (!missing.empty()) editor.add_first(probe, missing);
  return editor.result();
}

}  // namespace leeway
