#include "formats/cover/cover_view.h"

#include <fmt/format.h>

#include <algorithm>

#include "formats/text/names.h"
#include "formats/text/numbers.h"

namespace leeway {
namespace {

constexpr std::size_t kMostStopsShown = 20;
constexpr std::size_t kMostWordsShown = 12;

std::string print_box_words(const Box& box) {
  return fmt::format("x {} to {} and y {} to {}", decimal(box.x0), decimal(box.x1), decimal(box.y0),
                     decimal(box.y1));
}

const char* end_word(LimitSide side) {
  switch (side) {
    case LimitSide::left:
      return "left ";
    case LimitSide::right:
      return "right ";
    case LimitSide::front:
      return "front ";
    case LimitSide::back:
      return "back ";
    default:
      return "";
  }
}

std::string stop_words(const CoverStop& stop, const Words& words) {
  const LimitInfo& limit = stop.limit;
  const std::string amount = at_least(-stop.leeway);
  if (limit.group == LimitGroup::travel) {
    return fmt::format("The nozzle would go {} past the {}end of its travel", amount,
                       end_word(limit.side));
  }
  if (limit.group == LimitGroup::bed) {
    const double gap = stop.leeway + limit.wanted;
    return gap >= 0 ? fmt::format("The print comes {} too near the {}edge of the bed", amount,
                                  end_word(limit.side))
                    : fmt::format("The nozzle would be {} past the {}edge of the bed",
                                  at_least(-gap), end_word(limit.side));
  }
  std::string part = part_words(limit, words.name(limit.part));
  if (part.rfind("the ", 0) == 0) part[0] = 'T';
  return fmt::format("{} comes {} too near {}", part, amount, words.name(limit.obstacle));
}

// "M104 (3 times, from line 5)".
std::string remark_words(const MotionRemark& remark) {
  if (remark.count == 1) return fmt::format("{} (line {})", remark.word, remark.line);
  return fmt::format("{} ({} times, from line {})", remark.word, remark.count, remark.line);
}

void tell_words(const MotionSummary& program, MotionRemark::Kind kind, const char* lead,
                std::vector<std::string>& into) {
  std::vector<std::string> names;
  std::size_t more = 0;
  for (const MotionRemark& remark : program.remarks) {
    if (remark.kind != kind) continue;
    if (names.size() < kMostWordsShown) {
      names.push_back(remark_words(remark));
    } else {
      ++more;
    }
  }
  if (more > 0) names.push_back(fmt::format("{} more", more));
  if (!names.empty()) into.push_back(fmt::format("{}: {}.", lead, joined(names)));
}

std::string in_the_way(const CoverResult& result) {
  if (result.stops.empty()) return ", and all of it can be printed";
  return inside_mesh(result) ? ", but not all of it can be printed"
                             : ". Nor can all of it be printed";
}

}  // namespace

std::string past_words(const FitSides& sides) {
  std::vector<std::string> parts;
  const auto add = [&parts](const std::optional<double>& amount, const char* where) {
    if (amount) parts.push_back(at_least(*amount) + where);
  };
  add(sides.left, " on the left");
  add(sides.right, " on the right");
  add(sides.front, " at the front");
  add(sides.back, " at the back");
  return joined(parts);
}

std::string cover_headline(const CoverResult& result, const MotionSummary* program) {
  const bool unplaced = program != nullptr && program->unplaced > 0;
  if (!result.extent) {
    return unplaced ? "it cannot be known where this prints" : "nothing is printed";
  }
  if (!result.mesh_bounds) {
    return "no grid is asked for, so there are no mesh bounds" + in_the_way(result);
  }
  if (!inside_mesh(result)) {
    return fmt::format("the print is not inside the mesh bounds: it goes past them by {}{}",
                       past_words(result.past), result.stops.empty() ? "" : in_the_way(result));
  }
  if (unplaced) {
    return fmt::format(
        "it cannot be known whether the print is inside the mesh bounds, for where {} "
        "of it would print is not known",
        counted(program->unplaced, "move"));
  }
  return "the print is inside the mesh bounds" + in_the_way(result);
}

std::vector<std::string> stop_sentences(const CoverResult& result, const Words& words) {
  std::vector<std::string> sentences;
  for (const CoverStop& stop : result.stops) {
    if (sentences.size() == kMostStopsShown) break;
    const std::string line = stop.line > 0 ? fmt::format(", in line {}", stop.line) : "";
    sentences.push_back(fmt::format("{}, the nozzle at {} and {} above the bed{}.",
                                    stop_words(stop, words), pair(stop.at), decimal(stop.height),
                                    line));
  }
  return sentences;
}

std::vector<std::string> extent_sentences(const CoverResult& result) {
  if (!result.extent) return {};
  std::vector<std::string> sentences;
  if (!result.of_program) {
    sentences.push_back(fmt::format("The print takes {}. It is taken at the height of the bed.",
                                    print_box_words(*result.extent)));
  } else {
    sentences.push_back(fmt::format("It prints {}, with a line {} wide, up to a height of {}.",
                                    print_box_words(*result.extent), decimal(result.width),
                                    decimal(result.highest)));
    if (result.first_layer && !(*result.first_layer == *result.extent)) {
      sentences.push_back(fmt::format("Its lowest layer, at a height of {}, takes {}.",
                                      decimal(result.lowest),
                                      print_box_words(*result.first_layer)));
    }
  }
  if (result.mesh_bounds) {
    sentences.push_back(fmt::format("The mesh bounds are {}, for the probe.",
                                    print_box_words(*result.mesh_bounds)));
  }
  return sentences;
}

std::vector<std::string> program_sentences(const WriteCoverOptions& options) {
  if (options.program == nullptr) return {};
  const MotionSummary& program = *options.program;
  std::vector<std::string> sentences;
  sentences.push_back(fmt::format("{} read, {} of {} print. E is taken as {} (--extrusion).",
                                  counted(program.lines, "line"), program.printing,
                                  counted(program.moves, "move"),
                                  options.relative_extrusion ? "the length that each move pushes"
                                                             : "the length pushed so far"));
  if (program.unplaced > 0) {
    sentences.push_back(fmt::format(
        "Where {} of those print is not known, from line {} on: no position was given before, or "
        "not since what made it unknown.",
        program.unplaced, program.first_unplaced));
  }
  using Kind = MotionRemark::Kind;
  tell_words(program, Kind::lost, "Positions are unknown after these, until they are given again",
             sentences);
  tell_words(program, Kind::idle, "Taken to move nothing, as their meaning is not known",
             sentences);
  for (const MotionRemark& remark : program.remarks) {
    if (remark.kind == Kind::end) {
      sentences.push_back(
          fmt::format("Line {}, the last, has no end: the program may be cut off.", remark.line));
    }
    if (remark.kind == Kind::behind) {
      sentences.push_back(fmt::format("{} from line {} on stand behind its end, and are not run.",
                                      counted(remark.count, "line"), remark.line));
    }
  }
  return sentences;
}

std::string grid_sentence(const CoverResult& result, const MotionSummary* program) {
  if (!result.extent) return {};
  if (!result.grid_refused.empty()) return "No grid was looked for: " + result.grid_refused + ".";
  if (!result.grid) {
    return "No grid fits within what is printed: its points or the moves between them are not all "
           "clear (see `leeway fit`).";
  }
  const FitMesh& mesh = *result.grid->mesh;
  const std::string size = fmt::format("{} x {} points", mesh.columns, mesh.rows);
  const std::string lacks = past_words(result.grid_lacks);
  const std::string around =
      result.around > 0 ? fmt::format(" with {} around it", decimal(result.around)) : "";
  if (lacks.empty()) {
    return fmt::format("The smallest grid for {}{}, {}, all reachable:",
                       program != nullptr && program->unplaced > 0 ? "what is known of it" : "it",
                       around, size);
  }
  return fmt::format(
      "No grid that covers it all{} can be reached. The largest within it, {}, leaves "
      "out {}:",
      around, size, lacks);
}

std::string check_command_words(const CoverResult& result, const std::string& setup) {
  if (!result.grid) return {};
  const FitMesh& mesh = *result.grid->mesh;
  return fmt::format(
      "leeway fit {} --columns {} --rows {} --sides left={},right={},front={},back={} --write "
      "covered.json && leeway check covered.json",
      setup.empty() ? "SETUP" : shell_word(setup), mesh.columns, mesh.rows,
      shortest(mesh.bounds.x0), shortest(mesh.bounds.x1), shortest(mesh.bounds.y0),
      shortest(mesh.bounds.y1));
}

}  // namespace leeway
