#include "formats/json/json_text.h"
#include "leeway/write_cover.h"

namespace leeway {
namespace {

std::string cover_box(const std::optional<Box>& box) { return box ? json_bounds(*box) : "null"; }

// How far on each side; 0 where nothing goes past.
std::string cover_sides(const FitSides& sides) {
  return JsonObject()
      .add("left", json_number(sides.left.value_or(0)))
      .add("right", json_number(sides.right.value_or(0)))
      .add("front", json_number(sides.front.value_or(0)))
      .add("back", json_number(sides.back.value_or(0)))
      .text();
}

std::string cover_stop(const CoverStop& stop) {
  return JsonObject()
      .add("limit", json_text(stop.limit.name))
      .add("leeway", json_number(stop.leeway))
      .add("nozzle", json_position(stop.at))
      .add("height", json_number(stop.height))
      .add("line", stop.line > 0 ? std::to_string(stop.line) : "null")
      .text();
}

std::string cover_grid(const CoverResult& result) {
  if (!result.grid) return "null";
  const FitMesh& mesh = *result.grid->mesh;
  return JsonObject()
      .add("columns", std::to_string(mesh.columns))
      .add("rows", std::to_string(mesh.rows))
      .add("x", json_numbers(mesh.bounds.x0, mesh.bounds.x1))
      .add("y", json_numbers(mesh.bounds.y0, mesh.bounds.y1))
      .add("nozzle", cover_box(result.grid->numbers.nozzle))
      .add("lacks", cover_sides(result.grid_lacks))
      .text();
}

template <class Items, class ToObject>
std::string cover_list(const Items& items, const ToObject& to_object) {
  std::string out = "[";
  for (const auto& item : items) out += (out.size() > 1 ? ",\n    " : "\n    ") + to_object(item);
  return out + (out.size() > 1 ? "\n  ]" : "]");
}

const char* remark_key(MotionRemark::Kind kind) {
  switch (kind) {
    case MotionRemark::Kind::idle:
      return "idle";
    case MotionRemark::Kind::lost:
      return "lost";
    case MotionRemark::Kind::end:
      return "end";
    case MotionRemark::Kind::behind:
      break;
  }
  return "behind";
}

std::string cover_remark(const MotionRemark& remark) {
  return JsonObject()
      .add("kind", json_text(remark_key(remark.kind)))
      .add("word", json_text(remark.word))
      .add("count", remark.count)
      .add("line", remark.line)
      .text();
}

std::string cover_program(const MotionSummary& program) {
  return JsonObject()
      .add("lines", program.lines)
      .add("moves", program.moves)
      .add("printing", program.printing)
      .add("unplaced", program.unplaced)
      .add("words", cover_list(program.remarks, cover_remark))
      .text();
}

}  // namespace

bool known_inside(const CoverResult& result, const MotionSummary* program) {
  return all_inside(result) && (program == nullptr || program->unplaced == 0);
}

void write_cover_json(const CoverResult& result, const Rig&, const WriteCoverOptions& options,
                      const TextSink& sink) {
  const auto member = [&sink](const char* key, const std::string& json) {
    sink(std::string(",\n  \"") + key + "\": " + json);
  };
  sink("{\n  \"format\": \"leeway-cover-1\",\n  \"setup\": " + json_text(result.setup));
  member("inside", known_inside(result, options.program) ? "true" : "false");
  member("print", cover_box(result.extent));
  member("first_layer", cover_box(result.first_layer));
  member("width", json_number(result.width));
  member("height", json_number(result.highest));
  member("mesh_bounds", cover_box(result.mesh_bounds));
  member("past", result.mesh_bounds && result.extent ? cover_sides(result.past) : "null");
  member("stops", cover_list(result.stops, cover_stop));
  member("around", json_number(result.around));
  member("grid", cover_grid(result));
  member("program", options.program != nullptr ? cover_program(*options.program) : "null");
  sink("\n}\n");
}

}  // namespace leeway
