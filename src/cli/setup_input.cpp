#include "cli/setup_input.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>

#include "cli/command_line.h"
#include "cli/failure.h"
#include "leeway/read_setup.h"

namespace leeway {

void SetupArguments::declare(CLI::App& app) {
  app.add_option_function<std::string>("setup", [this](const std::string& path) {
    setup = path;
    has_setup = true;
  });
  app.add_option("--format", format);
  app.add_option_function<std::string>("--output", [this](const std::string& path) {
    output = path;
    has_output = true;
  });
}

void check_arguments(const SetupArguments& arguments, const char* command) {
  if (!arguments.has_setup) {
    throw OptionFault(fmt::format("`leeway {0}` needs a setup (see `leeway {0} --help`)", command));
  }
  if (arguments.has_output && arguments.output.empty()) {
    throw OptionFault("the option \"--output\" needs the name of a file");
  }
}

std::optional<Setup> load_setup(const SetupArguments& arguments, DiskFiles& files,
                                std::string* text) {
  SourceFile source = files.setup(arguments.setup);
  ReadSetup read = read_setup(source, files.finder());
  if (text != nullptr) *text = std::move(source.text);
  for (const Fault& fault : read.faults) write_error_line(message(fault));
  return std::move(read.setup);
}

void refuse_own_input(const DiskFiles& files, const std::string& output) {
  if (!files.has_read(output)) return;
  throw OptionFault(fmt::format(
      "\"{}\" is what the setup is read from; choose another file for the output", output));
}

std::size_t format_index(const std::string& name, const std::vector<std::string_view>& formats) {
  for (std::size_t i = 0; i < formats.size(); ++i) {
    if (formats[i] == name) return i;
  }
  throw OptionFault(fmt::format("there is no format \"{}\"{} (the formats are {})", name,
                                suggestion(name, formats), fmt::join(formats, ", ")));
}

}  // namespace leeway
