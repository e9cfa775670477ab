#pragma once
// A setup given as options instead of a file.

#include <string>
#include <vector>

#include "cli/options.h"
#include "formats/typed/typed_setup.h"

namespace leeway {

// The numbers as typed, and what else goes with them.
struct SetupNumbers : TypedNumbers {
  bool without_setup = false;
  std::string save;
  bool has_save = false;

  // Declares the options, to be read into this, which must stay where it is.
  void declare(Options& options);
  // Whether any of them is used.
  bool any() const;
};

// A sentence that names the option.
std::string option_message(const TypedFault& fault);
// Those of all; what is missing is told at once.
std::vector<std::string> option_messages(const std::vector<TypedFault>& faults);

// What stands in the list of options of a help text.
extern const char* const kSetupNumbersHelp;

}  // namespace leeway
