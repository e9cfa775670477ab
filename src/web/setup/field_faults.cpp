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

}  // namespace

WebFault field_fault(const TypedFault& fault) { return {field_message(fault), "", fault.field}; }

}  // namespace leeway
