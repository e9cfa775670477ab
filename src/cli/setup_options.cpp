#include "cli/setup_options.h"

#include <fmt/format.h>

#include "formats/text/words.h"

namespace leeway {

const char* const kSetupNumbersHelp =
    R"(
Instead of a file, the numbers themselves:
  --without-setup  take the setup from these options:
  --bed SHAPE      the bed: its size 233x207, from 0, 0; or 233x207@-5,-2, from there; or
                   bounds -5..239,-2..211; or round:94.5, around 0, 0, or round:94.5@x,y;
                   or 'POLYGON ((0 0, 233 0, ...))', well-known text
  --travel SHAPE   where the nozzle may go, likewise
  --origin centre  0, 0 is the middle of a size that says not where it is (or corner)
  --offset X,Y     from nozzle to probe
  --uncertainty X,Y  of the offset; --spot RADIUS and --edge-distance MM of the probe
  --trigger-height MM  of the nozzle as the probe triggers; --travel-height MM between points
  --obstacle NAME=SHAPE@HEIGHT  what stands on the bed, +CLEARANCE behind it if one is wanted:
                   "front clip=30x10@100,-6@6+1"; may be repeated
  --part NAME=SHAPE@UNDERSIDE  a part of the head, around the nozzle; may be repeated
  --grid 5x4       columns and rows of the grid, with --margins MM (or
                   left=MM,right=MM,front=MM,back=MM) or --bounds 20..210,20..190;
  --margins-from   bed or travel; --grid-frame probe or nozzle; --skip-outside leaves out
                   the points off the bed
  --home X,Y       the homing point, for the nozzle
  --name TEXT      what the setup is called
  --save FILE      write the setup that they amount to, with comments, to go on with in an
                   editor (--force replaces a file)
)";

void SetupNumbers::declare(Options& options) {
  options.flag("--without-setup", without_setup);
  for (const TypedField& field : kTypedFields) {
    options.value((std::string("--") + field.name).c_str(), this->*field.number);
  }
  for (const TypedListField& field : kTypedLists) {
    options.values((std::string("--") + field.name).c_str(), this->*field.list);
  }
  options.flag("--skip-outside", skip_outside);
  options.value("--save", save, &has_save);
}

bool SetupNumbers::any() const {
  for (const TypedField& field : kTypedFields) {
    if (!(this->*field.number).empty()) return true;
  }
  for (const TypedListField& field : kTypedLists) {
    if (!(this->*field.list).empty()) return true;
  }
  return has_save || skip_outside;
}

std::string option_message(const TypedFault& fault) {
  switch (fault.kind) {
    case TypedFault::Kind::alone:
      return fmt::format("the option \"--{}\" goes with \"--{}\"", fault.field, fault.says);
    case TypedFault::Kind::either:
      return fmt::format("with \"--grid\" goes either \"--{}\" or \"--{}\"", fault.field,
                         fault.says);
    case TypedFault::Kind::side:
      return fmt::format("\"--{}\" {}", fault.field, fault.says);
    case TypedFault::Kind::value:
      return fmt::format("--{}: {}", fault.field, fault.says);
    case TypedFault::Kind::takes:
      return fmt::format("the option \"--{}\" {}", fault.field, fault.says);
    case TypedFault::Kind::missing:
      break;
  }
  return fmt::format("without a setup the option \"--{}\" is needed", fault.field);
}

std::vector<std::string> option_messages(const std::vector<TypedFault>& faults) {
  std::vector<std::string> out, missing;
  for (const TypedFault& fault : faults) {
    if (fault.kind == TypedFault::Kind::missing) {
      missing.push_back(fmt::format("\"--{}\"", fault.field));
    } else {
      out.push_back(option_message(fault));
    }
  }
  if (missing.empty()) return out;
  out.insert(out.begin(),
             fmt::format("without a setup the option{} {} {} needed", missing.size() > 1 ? "s" : "",
                         joined(missing), missing.size() > 1 ? "are" : "is"));
  return out;
}

}  // namespace leeway
