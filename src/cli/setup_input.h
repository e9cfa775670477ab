#pragma once
// What the commands that take a setup have in common.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "cli/disk_files.h"
#include "cli/options.h"
#include "cli/output_file.h"
#include "cli/setup_options.h"
#include "leeway/setup.h"

namespace leeway {

// The arguments that such a command has besides its own.
struct SetupArguments {
  std::string setup;
  bool has_setup = false;
  std::string format = "text";
  std::string output;
  bool has_output = false;
  SetupNumbers numbers;  // instead of a file
  bool force = false;    // whatever else is written may replace a file

  // Declares SETUP, --format and --output, the options that stand for a setup, and --force, to be
  // read into this, which must stay where it is.
  void declare(Options& options);
  // The same but for SETUP.
  void declare_without_setup(Options& options);
};

// Throws OptionFault when no setup was named or two were given, or --output has no name.
void check_arguments(const SetupArguments& arguments, const char* command);

// Reads the setup; nothing when it has faults, which are then told on standard error. `text`, when
// given, becomes the text of the file. A setup given as options is kept in `outputs` where saving
// it is asked for.
std::optional<Setup> load_setup(const SetupArguments& arguments, DiskFiles& files, Outputs& outputs,
                                std::string* text = nullptr);

// Whether two paths lead to the same place. No for an empty one.
bool same_file(const std::string& one, const std::string& other);

// Throws OptionFault when `path` exists and may not be replaced.
void refuse_existing(const std::string& path, bool force);

// Throws OptionFault when `output` is what the setup was read from.
void refuse_own_input(const DiskFiles& files, const std::string& output);

// The place of `name` among the formats. Throws OptionFault, with the nearest spelling.
std::size_t format_index(const std::string& name, const std::vector<std::string_view>& formats);

}  // namespace leeway
