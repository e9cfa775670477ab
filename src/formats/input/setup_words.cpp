#include "formats/input/setup_words.h"
#include "leeway/fault.h"

#include <fmt/format.h>

#include "formats/json/json_file.h"
#include "formats/text/names.h"
#include "formats/text/numbers.h"

namespace leeway {
namespace {

struct FoundAllowed {
  std::string found;
  std::string allowed;
};

std::string at(Point p) { return "(" + pair(p) + ")"; }

// Several polygons may share one place in a file, so that they need a number.
std::string of_polygon(std::size_t index) {
  return index == 0 ? std::string() : fmt::format(" of polygon {}", index + 1);
}

std::string a_ring(const SetupPlace& place) {
  if (place.ring == 0) return "an outer ring" + of_polygon(place.polygon);
  return fmt::format("a ring (hole {}{})", place.ring, of_polygon(place.polygon));
}

std::string hole(const SetupPlace& place) {
  return fmt::format("hole {}{}", place.ring, of_polygon(place.polygon));
}

// "obstacle", as one of which each needs a name of its own.
std::string_view kind_of_names(SetupField field) {
  if (field == SetupField::obstacle_name) return "obstacle";
  if (field == SetupField::keep_clear_name) return "outline to keep clear";
  return field == SetupField::part_name ? "part of the head" : "point";
}

struct FaultWords {
  const SetupPlace& place;

  FoundAllowed operator()(const OutOfRange& fault) const {
    return {fmt::format("the number {}", fault.found), std::string(words(fault.range))};
  }
  FoundAllowed operator()(const TurnedBounds& fault) const {
    return {fmt::format("bounds turned round, {} to {}", fault.low, fault.high),
            "the lower one first"};
  }
  FoundAllowed operator()(const NoHeight& fault) const {
    return {fmt::format("{}, not above the underside of {}", shortest(fault.top),
                        shortest(fault.underside)),
            "a height above the underside"};
  }
  FoundAllowed operator()(const EqualBounds& fault) const {
    return {fmt::format("the bound {} twice", fault.at),
            "two different numbers, the lower one first"};
  }
  FoundAllowed operator()(const RadiusTooLarge& fault) const {
    return {fmt::format("corners of radius {}", fault.radius),
            fmt::format("at most half of the shorter side, {} mm", fault.most)};
  }
  FoundAllowed operator()(const NoShape&) const {
    return {"a shape without an area",
            "a rectangle, rounded or not, a disc or at least one polygon"};
  }
  FoundAllowed operator()(const TooManyVertices& fault) const {
    return {fmt::format("a shape of {} vertices", fault.vertices),
            fmt::format("at most {}", kMostVertices)};
  }
  FoundAllowed operator()(const RepeatedVertex& fault) const {
    return {fmt::format("{} with the point {} twice in a row", a_ring(place), at(fault.at)),
            "a ring without its closing point and without repeated points"};
  }
  FoundAllowed operator()(const TooFewVertices&) const {
    return {a_ring(place) + " with fewer than 3 different points", "at least 3 different points"};
  }
  FoundAllowed operator()(const NoArea&) const {
    return {a_ring(place) + " whose points all lie on one line", "a ring around an area"};
  }
  FoundAllowed operator()(const SelfCrossing& fault) const {
    return {fmt::format("{} that crosses or touches itself at {}: the edge from {} to {} "
                        "meets the edge from {} to {}",
                        a_ring(place), at(fault.at), at(fault.first_from), at(fault.first_to),
                        at(fault.second_from), at(fault.second_to)),
            "a ring that meets itself nowhere"};
  }
  FoundAllowed operator()(const HoleOutside& fault) const {
    return {fmt::format("{} outside its outer ring, or along it, at {}", hole(place), at(fault.at)),
            "a hole inside the outer ring, touching it at points at most"};
  }
  FoundAllowed operator()(const HolesOverlap& fault) const {
    return {fmt::format("{} overlapping hole {}, or along it, at {}", hole(place), fault.other,
                        at(fault.at)),
            "holes that touch each other at points at most"};
  }
  FoundAllowed operator()(const PolygonsOverlap& fault) const {
    return {fmt::format("polygon {} overlapping polygon {}, or along it, at {}", fault.polygon + 1,
                        fault.other + 1, at(fault.at)),
            "polygons that touch each other at points at most"};
  }
  FoundAllowed operator()(const BlankName& fault) const {
    return {fault.empty ? "an empty text" : "a blank text", std::string(kNameWords)};
  }
  FoundAllowed operator()(const DuplicateName& fault) const {
    return {"the name " + in_quotes(fault.name) + " a second time",
            fmt::format("a name of its own for each {}", kind_of_names(place.field))};
  }
  FoundAllowed operator()(const ReservedName& fault) const {
    return {"the name " + in_quotes(fault.name),
            fmt::format("any name but {}, which the program uses itself",
                        place.field == SetupField::part_name ? "\"nozzle\" and \"probe body\""
                                                             : "\"home\" and \"grid C,R\"")};
  }
  FoundAllowed operator()(const TooManyPoints& fault) const {
    return {fmt::format("a grid of {} x {} = {} points", fault.columns, fault.rows,
                        static_cast<std::int64_t>(fault.columns) * fault.rows),
            fmt::format("at most {} points", kMostGridPoints)};
  }
  FoundAllowed operator()(const MarginsMeet& fault) const {
    return {fmt::format("margins {} of {} mm in all, of the {}'s {} mm",
                        fault.along_x ? "left and right" : "front and back", fault.taken,
                        fault.from == Margins::From::bed ? "bed" : "travel", fault.size),
            "margins that leave a grid between them"};
  }
};

}  // namespace

std::string_view words(NumberRange range) {
  switch (range) {
    case NumberRange::length:
      return "a number of mm, at most 1e6 mm either way";
    case NumberRange::distance:
      return "a number of mm from 0 to at most 1e6 mm";
    case NumberRange::radius:
      return "a radius above 0 and at most 1e6 mm";
    case NumberRange::coverage_factor:
      return "a number above 0 and at most 100";
    case NumberRange::count:
      break;
  }
  return "a whole number from 1 to 10000000";
}

Fault in_words(const SetupFault& fault) {
  FoundAllowed text = std::visit(FaultWords{fault.place}, fault.what);
  Fault told;
  told.code = code(fault);
  told.found = std::move(text.found);
  told.allowed = std::move(text.allowed);
  return told;
}

std::string message(const SetupFault& fault) {
  Fault told = in_words(fault);
  told.file = words(fault.place);
  return message(told);
}

}  // namespace leeway
