#include "cli/setup_options.h"

#include <fmt/format.h>

#include "formats/text/words.h"

namespace leeway {

const char* const kSetupNumbersHelp =
    R"(
Instead of a file, the numbers themselves:
  --without-setup  take the setup from these options:
  --bed 233x207    the bed: its size from 0, 0; or bounds -5..239,-2..211; or round:94.5
  --travel ...     where the nozzle may go, likewise
  --offset X,Y     from nozzle to probe
  --uncertainty X,Y  of the offset; --spot RADIUS and --edge-distance MM of the probe
  --grid 5x4       columns and rows of the grid, with --margins MM (or
                   left=MM,right=MM,front=MM,back=MM) or --bounds 20..210,20..190;
  --margins-from   bed or travel; --grid-frame probe or nozzle
  --home X,Y       the homing point, for the nozzle
  --save FILE      write the setup that they amount to (--force replaces a file)
)";

void SetupNumbers::declare(Options& options) {
  options.flag("--without-setup", without_setup);
  for (const TypedField& field : kTypedFields) {
    options.value((std::string("--") + field.name).c_str(), this->*field.number);
  }
  options.value("--save", save, &has_save);
}

bool SetupNumbers::any() const {
  for (const TypedField& field : kTypedFields) {
    if (!(this->*field.number).empty()) return true;
  }
  return has_save;
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
