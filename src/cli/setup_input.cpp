#include "cli/setup_input.h"

#include <fmt/format.h>

#include <filesystem>
#include <memory>

#include "cli/command_line.h"
#include "cli/failure.h"
#include "cli/output_file.h"
#include "leeway/read_setup.h"

namespace leeway {

void SetupArguments::declare(Options& options) {
  options.argument("setup", setup, has_setup);
  declare_without_setup(options);
}

void SetupArguments::declare_without_setup(Options& options) {
  options.value("--format", format);
  options.value("--output", output, &has_output);
  numbers.declare(options);
  options.flag("--force", force);
}

void check_arguments(const SetupArguments& arguments, const char* command) {
  if (arguments.numbers.without_setup && arguments.has_setup) {
    throw OptionFault(fmt::format("\"--without-setup\" and the setup \"{}\" do not go together",
                                  arguments.setup));
  }
  if (!arguments.numbers.without_setup && arguments.numbers.any()) {
    throw OptionFault(fmt::format(
        "options that stand for a setup go with \"--without-setup\" (see `leeway {} --help`)",
        command));
  }
  if (!arguments.numbers.without_setup && !arguments.has_setup) {
    throw OptionFault(fmt::format("`leeway {0}` needs a setup (see `leeway {0} --help`)", command));
  }
  if (arguments.has_output && arguments.output.empty()) {
    throw OptionFault("the option \"--output\" needs the name of a file");
  }
}

std::optional<Setup> load_setup(const SetupArguments& arguments, DiskFiles& files, Outputs& outputs,
                                std::string* text) {
  const SetupNumbers& numbers = arguments.numbers;
  SourceFile source;
  if (numbers.without_setup) {
    TypedSetup typed = typed_setup(numbers);
    for (const std::string& fault : option_messages(typed.faults)) complain(fault);
    if (!typed.faults.empty()) return std::nullopt;
    source.name = "the options";
    source.text = std::move(typed.text);
  } else {
    source = files.setup(arguments.setup);
  }
  ReadSetup read = read_setup(source, files.finder());
  if (read.setup && numbers.has_save) {
    if (numbers.save.empty() || numbers.save == "-") {
      throw OptionFault("the option \"--save\" needs the name of a file");
    }
    if (same_file(numbers.save, arguments.output)) {
      throw OptionFault("\"--save\" and \"--output\" name the same file");
    }
    refuse_existing(numbers.save, arguments.force);
    outputs.keep(numbers.save, source.text);
  }
  if (text != nullptr) *text = std::move(source.text);
  for (const Fault& fault : read.faults) write_error_line(message(fault));
  return std::move(read.setup);
}

bool same_file(const std::string& one, const std::string& other) {
  if (one.empty() || other.empty()) return false;
  namespace fs = std::filesystem;
  std::error_code error;
  // Absolute first: of a relative path nothing of which exists, no canonical one is made.
  return fs::weakly_canonical(fs::absolute(one, error), error) ==
         fs::weakly_canonical(fs::absolute(other, error), error);
}

void refuse_existing(const std::string& path, bool force) {
  std::error_code error;
  if (force || !std::filesystem::exists(std::filesystem::symlink_status(path, error))) return;
  throw OptionFault(fmt::format("\"{}\" exists already; \"--force\" replaces it", path));
}

void refuse_own_input(const DiskFiles& files, const std::string& output) {
  if (!files.has_read(output)) return;
  throw OptionFault(fmt::format("\"{}\" is read from; choose another file to write", output));
}

std::size_t format_index(const std::string& name, const std::vector<std::string_view>& formats) {
  for (std::size_t i = 0; i < formats.size(); ++i) {
    if (formats[i] == name) return i;
  }
  throw OptionFault(fmt::format("there is no format \"{}\"{} (the formats are {})", name,
                                suggestion(name, formats), fmt::join(formats, ", ")));
}

}  // namespace leeway
