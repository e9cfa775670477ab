#include "web/setup/field_faults.h"

#include <fmt/format.h>

namespace leeway {
namespace {

std::string field_message(const TypedFault& fault) {
  switch (fault.kind) {
    case TypedFault::Kind::missing:
      return fmt::format("This is needed, such as {}.", fault.says);
    case TypedFault::Kind::alone:
      return fmt::format("This goes with \"{}\", which is empty.", fault.says);
    case TypedFault::Kind::either:
      return fmt::format("Either this or \"{}\" is needed, and not both.", fault.says);
    case TypedFault::Kind::takes:
    case TypedFault::Kind::side:
      return fmt::format("This {}.", fault.says);
    case TypedFault::Kind::value:
      break;
  }
  std::string says = fault.says;
  if (says[0] >= 'a' && says[0] <= 'z') says[0] = static_cast<char>(says[0] - 32);
  return says + ".";
}

// Bounds that won't do stand at the end that was typed last.
int box_of(const SetupPlace& place) {
  switch (place.field) {
    case SetupField::obstacle_name:
    case SetupField::part_name:
      return 0;
    case SetupField::obstacle_height:
    case SetupField::part_underside:
      return 5;
    case SetupField::obstacle_clearance:
      return 6;
    default:
      break;
  }
  switch (place.detail) {
    case SetupDetail::x0:
      return 1;
    case SetupDetail::x:
    case SetupDetail::x1:
      return 2;
    case SetupDetail::y0:
      return 3;
    case SetupDetail::y:
    case SetupDetail::y1:
      return 4;
    default:
      return -1;
  }
}

}  // namespace

WebFault field_fault(const TypedFault& fault) {
  WebFault out{field_message(fault), "", fault.field};
  if (fault.place && (fault.field == "obstacle" || fault.field == "part")) {
    out.item = static_cast<int>(fault.place->item);
    out.box = box_of(*fault.place);
  }
  return out;
}

}  // namespace leeway
