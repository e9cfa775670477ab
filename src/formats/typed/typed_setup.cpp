#include "formats/typed/typed_setup.h"

#include <fmt/format.h>

#include <cmath>

#include "formats/input/setup_words.h"
#include "formats/text/numbers.h"
#include "leeway/validate.h"

namespace leeway {
namespace {

// "x": [left, right], "y": [front, back].
std::string ranges_text(const Box& box) {
  return fmt::format("\"x\": [{}, {}], \"y\": [{}, {}]", shortest(box.x0), shortest(box.x1),
                     shortest(box.y0), shortest(box.y1));
}

std::string shape_text(const Shape& shape) {
  if (const Disc* disc = std::get_if<Disc>(&shape)) {
    return fmt::format(R"({{"disc": {{"center": [0, 0], "radius": {}}}}})", shortest(disc->radius));
  }
  return fmt::format("{{\"rectangle\": {{{}}}}}", ranges_text(std::get<Box>(shape)));
}

std::string point_text(Point p) { return fmt::format("[{}, {}]", shortest(p.x), shortest(p.y)); }

Box box_of(const std::pair<TypedRange, TypedRange>& ranges) {
  return {ranges.first.from, ranges.first.to, ranges.second.from, ranges.second.to};
}

// The options, read into a setup; what cannot be read is a fault.
class TypedReader {
 public:
  explicit TypedReader(const TypedNumbers& typed) : typed_(typed) {
    setup_.name = "This setup";
    need();
    goes_with("margins", typed.margins, "grid", typed.grid);
    goes_with("bounds", typed.bounds, "grid", typed.grid);
    goes_with("margins-from", typed.margins_from, "margins", typed.margins);
    goes_with("grid-frame", typed.grid_frame, "grid", typed.grid);
    shape("bed", typed.bed, setup_.machine.bed);
    shape("travel", typed.travel, setup_.machine.travel);
    probe();
    if (!typed.grid.empty()) grid();
    if (!typed.home.empty()) {
      setup_.request.home = Home{};
      point("home", typed.home, "two numbers of mm, such as 115,105", setup_.request.home->at);
    }
  }

  const Setup& setup() const { return setup_; }
  const std::vector<TypedFault>& faults() const { return faults_; }

 private:
  void refuse(TypedFault::Kind kind, const char* field, std::string says) {
    faults_.push_back({kind, field, std::move(says)});
  }

  void need() {
    const auto look = [this](const char* field, const std::string& typed, const char* such_as) {
      if (typed.empty()) refuse(TypedFault::Kind::missing, field, such_as);
    };
    look("bed", typed_.bed, "233x207");
    look("travel", typed_.travel, "-5..239,-2..211");
    look("offset", typed_.offset, "-38.5,12");
  }

  void goes_with(const char* field, const std::string& typed, const char* other,
                 const std::string& other_typed) {
    if (typed.empty() || !other_typed.empty()) return;
    refuse(TypedFault::Kind::alone, field, other);
  }

  void takes(const char* field, const std::string& found, const char* allowed,
             const std::string& hint = "") {
    refuse(TypedFault::Kind::takes, field,
           fmt::format("takes {}, not \"{}\"{}", allowed, found,
                       hint.empty() ? number_hint(found) : hint));
  }

  void shape(const char* field, const std::string& typed, Shape& into) {
    if (typed.empty()) return;
    constexpr std::string_view kRound = "round:";
    if (typed.compare(0, kRound.size(), kRound) == 0) {
      if (const auto radius = typed_number(std::string_view(typed).substr(kRound.size()))) {
        into = Disc{{0, 0}, *radius};
        return;
      }
    } else if (const auto size = typed_size(typed)) {
      into = Box{0, size->first, 0, size->second};
      return;
    } else if (const auto box = ranges_in(typed)) {
      into = box_of(*box);
      return;
    }
    takes(field, typed,
          "a size such as 233x207, bounds such as -5..239,-2..211, or round:RADIUS around 0, 0",
          range_hint(typed));
  }

  void point(const char* field, const std::string& typed, const char* allowed, Point& into) {
    if (typed.empty()) return;
    const auto numbers = typed_numbers(typed);
    if (!numbers || numbers->size() != 2) return takes(field, typed, allowed);
    into = {(*numbers)[0], (*numbers)[1]};
  }

  void number(const char* field, const std::string& typed, const char* allowed, double& into) {
    if (typed.empty()) return;
    const auto found = typed_number(typed);
    if (!found) return takes(field, typed, allowed);
    into = *found;
  }

  void probe() {
    Probe& probe = setup_.probe;
    point("offset", typed_.offset, "two numbers of mm, such as -38.5,12", probe.offset);
    point("uncertainty", typed_.uncertainty, "two numbers of mm, such as 0.15,0.15",
          probe.offset_uncertainty);
    if (!typed_.spot.empty()) {
      Disc spot{{0, 0}, 1};
      number("spot", typed_.spot, "a radius in mm", spot.radius);
      probe.spot = spot;
    }
    number("edge-distance", typed_.edge_distance, "a number of mm", probe.edge_distance);
  }

  int count(double typed) {
    if (typed == std::floor(typed) && std::abs(typed) < 1e9) return static_cast<int>(typed);
    takes("grid", typed_.grid, "whole numbers of columns and rows, such as 5x4");
    return 1;
  }

  void grid() {
    Grid grid;
    if (const auto size = typed_size(typed_.grid)) {
      grid.columns = count(size->first);
      grid.rows = count(size->second);
    } else {
      takes("grid", typed_.grid, "columns and rows, such as 5x4");
    }
    if (typed_.margins.empty() == typed_.bounds.empty()) {
      refuse(TypedFault::Kind::either, "margins", "bounds");
    } else if (typed_.bounds.empty()) {
      grid.extent = margins();
    } else if (const auto box = ranges_in(typed_.bounds)) {
      grid.extent = box_of(*box);
    } else {
      takes("bounds", typed_.bounds, "bounds such as 20..210,20..190", range_hint(typed_.bounds));
    }
    grid.frame = word("grid-frame", typed_.grid_frame, "probe", "nozzle") == "nozzle"
                     ? Frame::nozzle
                     : Frame::probe;
    setup_.request.grid = grid;
  }

  TypedSides margin_sides() {
    ReadSides read = sides_in("margins", typed_.margins);
    if (!read.fault) return read.sides;
    faults_.push_back(*std::move(read.fault));
    return {0, 0, 0, 0};
  }

  Margins margins() {
    Margins margins;
    if (const auto all = typed_number(typed_.margins)) {
      margins.left = margins.right = margins.front = margins.back = *all;
    } else {
      const TypedSides sides = margin_sides();
      if (!sides.all()) {
        takes("margins", typed_.margins,
              "one number of mm, or all four sides: left=MM,right=MM,front=MM,back=MM");
        return margins;
      }
      margins.left = *sides.left;
      margins.right = *sides.right;
      margins.front = *sides.front;
      margins.back = *sides.back;
    }
    if (word("margins-from", typed_.margins_from, "bed", "travel") == "travel") {
      margins.from = Margins::From::travel;
    }
    return margins;
  }

  std::string word(const char* field, const std::string& typed, const char* one,
                   const char* other) {
    if (!typed.empty() && typed != one && typed != other) {
      takes(field, typed, fmt::format("{} or {}", one, other).c_str());
    }
    return typed;
  }

  const TypedNumbers& typed_;
  Setup setup_;
  std::vector<TypedFault> faults_;
};

const char* typed_field_of(SetupField field) {
  switch (field) {
    case SetupField::bed:
      return "bed";
    case SetupField::travel:
      return "travel";
    case SetupField::offset:
      return "offset";
    case SetupField::offset_uncertainty:
      return "uncertainty";
    case SetupField::spot:
      return "spot";
    case SetupField::edge_distance:
      return "edge-distance";
    case SetupField::bounds:
      return "bounds";
    case SetupField::margins:
      return "margins";
    case SetupField::home_at:
      return "home";
    default:
      return "grid";
  }
}

// "right end 4 is left of left end 236".
std::string value_fault(const SetupFault& fault) {
  const bool along_x = fault.place.detail == SetupDetail::x;
  if (const auto* turned = std::get_if<TurnedBounds>(&fault.what)) {
    return along_x ? fmt::format("right end {} is left of left end {}", shortest(turned->high),
                                 shortest(turned->low))
                   : fmt::format("back end {} is in front of front end {}", shortest(turned->high),
                                 shortest(turned->low));
  }
  if (const auto* equal = std::get_if<EqualBounds>(&fault.what)) {
    return fmt::format("{} are both {}", along_x ? "left and right end" : "front and back end",
                       shortest(equal->at));
  }
  const Fault told = in_words(fault);
  return fmt::format("found {}; allowed: {}", told.found, told.allowed);
}

std::string probe_text(const TypedNumbers& typed, const Probe& probe) {
  std::string out = "\"offset\": " + point_text(probe.offset);
  if (!typed.uncertainty.empty()) {
    out += ", \"offset_uncertainty\": " + point_text(probe.offset_uncertainty);
  }
  if (!typed.spot.empty()) out += ", \"spot\": " + shape_text(probe.spot);
  if (!typed.edge_distance.empty()) {
    out += ", \"edge_distance\": " + shortest(probe.edge_distance);
  }
  return out;
}

std::string margins_text(const TypedNumbers& typed, const Margins& margins) {
  std::string out = "\"margins\": ";
  if (typed_number(typed.margins)) {
    out += shortest(margins.left);
  } else {
    out += fmt::format(R"({{"left": {}, "right": {}, "front": {}, "back": {}}})",
                       shortest(margins.left), shortest(margins.right), shortest(margins.front),
                       shortest(margins.back));
  }
  if (!typed.margins_from.empty()) {
    out += fmt::format(", \"margins_from\": \"{}\"", typed.margins_from);
  }
  return out;
}

std::string grid_text(const TypedNumbers& typed, const Grid& grid) {
  std::string out = fmt::format("{{\"columns\": {}, \"rows\": {}, ", grid.columns, grid.rows);
  const Margins* margins = std::get_if<Margins>(&grid.extent);
  out += margins ? margins_text(typed, *margins) : ranges_text(std::get<Box>(grid.extent));
  if (!typed.grid_frame.empty()) out += fmt::format(", \"frame\": \"{}\"", typed.grid_frame);
  return out + "}";
}

std::string setup_text(const TypedNumbers& typed, const Setup& setup) {
  std::string request;
  if (setup.request.grid) {
    request = fmt::format("\n    \"grid\": {}", grid_text(typed, *setup.request.grid));
  }
  if (setup.request.home) {
    request += fmt::format("{}\n    \"home\": {{\"at\": {}, \"frame\": \"nozzle\"}}",
                           request.empty() ? "" : ",", point_text(setup.request.home->at));
  }
  return fmt::format(R"({{
  "format": "leeway-setup-1",
  "name": "This setup",
  "machine": {{
    "bed": {},
    "travel": {}
  }},
  "probe": {{{}}}{}
}}
)",
                     shape_text(setup.machine.bed), shape_text(setup.machine.travel),
                     probe_text(typed, setup.probe),
                     request.empty() ? "" : fmt::format(",\n  \"request\": {{{}\n  }}", request));
}

}  // namespace

TypedSetup typed_setup(const TypedNumbers& typed) {
  const TypedReader reader(typed);
  TypedSetup out;
  out.faults = reader.faults();
  if (!out.faults.empty()) return out;
  for (const SetupFault& fault : validate(reader.setup())) {
    out.faults.push_back(
        {TypedFault::Kind::value, typed_field_of(fault.place.field), value_fault(fault)});
  }
  if (out.faults.empty()) out.text = setup_text(typed, reader.setup());
  return out;
}

}  // namespace leeway
