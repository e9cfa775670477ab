#include "formats/typed/typed_setup.h"

#include <fmt/format.h>

#include <cmath>

#include "formats/input/setup_words.h"
#include "formats/text/names.h"
#include "formats/text/numbers.h"
#include "formats/typed/typed_shape.h"
#include "leeway/validate.h"
#include "leeway/write_setup.h"

namespace leeway {
namespace {

Box box_of(const std::pair<TypedRange, TypedRange>& ranges) {
  return {ranges.first.from, ranges.first.to, ranges.second.from, ranges.second.to};
}

// The options, read into a setup; what cannot be read is a fault.
class TypedReader {
 public:
  explicit TypedReader(const TypedNumbers& typed) : typed_(typed) {
    setup_.name = typed.name.empty() ? "This setup" : typed.name;
    need();
    goes_with("margins", typed.margins, "grid", typed.grid);
    goes_with("bounds", typed.bounds, "grid", typed.grid);
    goes_with("margins-from", typed.margins_from, "margins", typed.margins);
    goes_with("grid-frame", typed.grid_frame, "grid", typed.grid);
    if (typed.skip_outside) goes_with("skip-outside", "yes", "grid", typed.grid);
    machine();
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

  void machine() {
    Machine& machine = setup_.machine;
    const std::string& origin = word("origin", typed_.origin, "corner", "centre");
    if (!origin.empty()) origin_ = origin == "centre" ? TypedOrigin::centre : TypedOrigin::corner;
    shape("bed", typed_.bed, machine.bed);
    shape("travel", typed_.travel, machine.travel);
    if (!origin.empty() && !origin_used_ && faults_.empty()) {
      refuse(TypedFault::Kind::value, "origin",
             "nothing is left to place: bed and travel say where they are");
    }
    for (const std::string& typed : typed_.obstacles) obstacle(typed);
    for (const std::string& typed : typed_.parts) part(typed);
    const auto add = [](const auto& read, auto& into) {
      into.insert(into.end(), read.begin(), read.end());
    };
    add(typed_.read_obstacles, machine.obstacles);
    add(typed_.read_parts, machine.head);
  }

  void shape(const char* field, const std::string& typed, Shape& into) {
    if (typed.empty()) return;
    TypedShape read = typed_shape(typed, origin_);
    if (!read.shape) return takes(field, typed, kTypedShapes, read.hint);
    origin_used_ = origin_used_ || !read.placed;
    into = *std::move(read.shape);
  }

  // "NAME=SHAPE@REST": the shape may hold an @ of its own.
  struct NamedShape {
    std::string name;
    Shape shape;
    std::string rest;
  };

  std::optional<NamedShape> named_shape(const char* field, const std::string& typed,
                                        const char* such_as) {
    const std::size_t equals = typed.find('=');
    const std::size_t at = typed.rfind('@');
    if (equals == std::string::npos || at == std::string::npos || at < equals) {
      takes(field, typed, such_as);
      return std::nullopt;
    }
    const std::string shape = typed.substr(equals + 1, at - equals - 1);
    TypedShape read = typed_shape(shape);
    if (!read.shape) {
      takes(field, typed, fmt::format("{}, its shape {}", such_as, kTypedShapes).c_str(),
            read.hint);
      return std::nullopt;
    }
    return NamedShape{typed.substr(0, equals), *std::move(read.shape), typed.substr(at + 1)};
  }

  void obstacle(const std::string& typed) {
    constexpr const char* kSuchAs = "NAME=SHAPE@HEIGHT or NAME=SHAPE@HEIGHT+CLEARANCE";
    const auto read = named_shape("obstacle", typed, kSuchAs);
    if (!read) return;
    Obstacle obstacle;
    obstacle.name = read->name;
    obstacle.shape = read->shape;
    const std::size_t plus = read->rest.find('+');
    const auto height = typed_number(read->rest.substr(0, plus));
    const auto clearance = plus == std::string::npos ? std::optional<double>(0)
                                                     : typed_number(read->rest.substr(plus + 1));
    if (!height || !clearance) return takes("obstacle", typed, kSuchAs);
    obstacle.height = *height;
    obstacle.clearance = *clearance;
    setup_.machine.obstacles.push_back(std::move(obstacle));
  }

  void part(const std::string& typed) {
    constexpr const char* kSuchAs = "NAME=SHAPE@UNDERSIDE, around the nozzle";
    const auto read = named_shape("part", typed, kSuchAs);
    if (!read) return;
    const auto underside = typed_number(read->rest);
    if (!underside) return takes("part", typed, kSuchAs);
    setup_.machine.head.push_back({read->name, read->shape, *underside});
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
    number("trigger-height", typed_.trigger_height, "a number of mm", probe.trigger_height);
    if (!typed_.travel_height.empty()) {
      probe.travel_height = 0;
      number("travel-height", typed_.travel_height, "a number of mm", *probe.travel_height);
    }
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
      const auto two = typed_numbers(typed_.grid);
      takes("grid", typed_.grid, "columns and rows, such as 5x4",
            two && two->size() == 2
                ? fmt::format("; did you mean \"{}x{}\"?", shortest((*two)[0]), shortest((*two)[1]))
                : "");
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
    grid.skip_outside_bed = typed_.skip_outside;
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

  const std::string& word(const char* field, const std::string& typed, const char* one,
                          const char* other) {
    if (!typed.empty() && typed != one && typed != other) {
      takes(field, typed, fmt::format("{} or {}", one, other).c_str());
    }
    return typed;
  }

  const TypedNumbers& typed_;
  Setup setup_;
  TypedOrigin origin_ = TypedOrigin::usual;
  bool origin_used_ = false;
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
    case SetupField::name:
      return "name";
    case SetupField::trigger_height:
      return "trigger-height";
    case SetupField::travel_height:
      return "travel-height";
    case SetupField::obstacle_name:
    case SetupField::obstacle_shape:
    case SetupField::obstacle_height:
    case SetupField::obstacle_clearance:
      return "obstacle";
    case SetupField::part_name:
    case SetupField::part_outline:
    case SetupField::part_underside:
      return "part";
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

const char* number_of_item(SetupField field) {
  switch (field) {
    case SetupField::obstacle_height:
      return ", height";
    case SetupField::obstacle_clearance:
      return ", clearance";
    case SetupField::part_underside:
      return ", underside";
    default:
      return "";
  }
}

// Of several obstacles or parts: which, and which number of it.
std::string item_before(const Setup& setup, const SetupPlace& place) {
  const std::string field = typed_field_of(place.field);
  if (field != "obstacle" && field != "part") return "";
  const std::string& name = field == "part" ? setup.machine.head[place.item].name
                                            : setup.machine.obstacles[place.item].name;
  return in_quotes(name) + number_of_item(place.field) + ": ";
}

}  // namespace

TypedSetup typed_setup(const TypedNumbers& typed) {
  const TypedReader reader(typed);
  TypedSetup out;
  out.faults = reader.faults();
  if (!out.faults.empty()) return out;
  for (const SetupFault& fault : validate(reader.setup())) {
    out.faults.push_back({TypedFault::Kind::value, typed_field_of(fault.place.field),
                          item_before(reader.setup(), fault.place) + value_fault(fault),
                          fault.place});
  }
  if (out.faults.empty()) out.text = commented_setup(reader.setup());
  return out;
}

}  // namespace leeway
