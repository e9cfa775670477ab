#pragma once
// A setup given as options instead of a file.

#include <string>
#include <vector>

#include "cli/options.h"

namespace leeway {

// As typed; empty where not given.
struct SetupNumbers {
  bool without_setup = false;
  std::string bed, travel, offset, uncertainty, spot, edge_distance;
  std::string grid, margins, bounds, margins_from, grid_frame, home;
  std::string save;
  bool has_save = false;

  // Declares the options, to be read into this, which must stay where it is.
  void declare(Options& options);
  // Whether any of them is used.
  bool any() const;
};

// What the options amount to: the setup as a file would hold it, or a message for each fault, which
// names the option.
struct TypedSetup {
  std::string text;
  std::vector<std::string> faults;
};
TypedSetup typed_setup(const SetupNumbers& numbers);

// What stands in the list of options of a help text.
extern const char* const kSetupNumbersHelp;

}  // namespace leeway
