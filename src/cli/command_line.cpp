#include "cli/command_line.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>

#include "cli/failure.h"
#include "cli/output_file.h"
#include "formats/text/spelling.h"
#include "leeway/version.h"

namespace leeway {
namespace {

constexpr const char* kVersion =
    "leeway " LEEWAY_VERSION
    "\n"
    "Licence MIT: you may use, copy, change and pass on this program.\n"
    "There is NO WARRANTY, to the extent permitted by law.\n";

constexpr const char* kGeneralHelpBegins =
    "Usage: leeway COMMAND ...\n"
    "       leeway help [COMMAND] | leeway --version\n"
    "\n"
    "Tells which points of the bed a levelling probe can reach, and why not the others.\n"
    "A probe hangs beside the nozzle, so it cannot get everywhere.\n"
    "\n"
    "Commands:\n";

constexpr const char* kGeneralHelpEnds =
    "\n"
    "`leeway help COMMAND` tells what a command takes, with examples.\n";

std::string general_help(const std::vector<Command>& commands) {
  std::string text = kGeneralHelpBegins;
  for (const Command& command : commands) {
    text += fmt::format("  {:<8} {}\n", command.name, command.gist);
  }
  return text + kGeneralHelpEnds;
}

int print(std::string_view text) {
  const std::unique_ptr<Output> output = open_output("");
  output->write(text);
  output->complete();
  return kAllWell;
}

constexpr const char* kHelp = "help";
constexpr int kMostArguments = 1000;

// Commands declare options to this and never see the library behind it.
class AppOptions : public Options {
 public:
  explicit AppOptions(CLI::App& app) : app_(app) {}

  void argument(const char* name, std::string& into, bool& given) override {
    value(name, into, &given);
  }
  void arguments(const char* name, std::vector<std::string>& into) override {
    app_.add_option(name, into)->expected(0, kMostArguments);
  }
  void value(const char* name, std::string& into, bool* given) override {
    app_.add_option_function<std::string>(name, [&into, given](const std::string& word) {
      into = word;
      if (given != nullptr) *given = true;
    });
  }
  void values(const char* name, std::vector<std::string>& into) override {
    app_.add_option(name, into)->expected(1)->take_all();
  }
  void flag(const char* name, bool& into) override { app_.add_flag(name, into); }

 private:
  CLI::App& app_;
};

using Words = std::vector<std::string>;

bool named(const Command& command, const Words& words) {
  return std::find(words.begin(), words.end(), command.name) != words.end();
}

// The words that a command line was made of, as CLI11 sees them.
struct Parser {
  // To declare options takes a good part of a short run's time: `declared` says whose are.
  template <typename Declared>
  Parser(const std::vector<Command>& all, Declared declared) : commands(all) {
    app.set_help_flag();
    app.add_flag("-h,--help", help);
    app.add_flag("--version", version);
    // Extras are let in and refused by us: the library stops at the first, and in its own words.
    app.allow_extras();
    app.require_subcommand(0, 1);
    for (const Command& command : commands) {
      CLI::App* sub = app.add_subcommand(command.name);
      sub->set_help_flag();
      sub->add_flag("-h,--help", help);
      sub->allow_extras();
      if (!declared(command)) continue;
      AppOptions options(*sub);
      command.add_options(options);
    }
  }

  // Whether there is nothing to complain about.
  bool reads_all(int argc, const char* const* argv) {
    try {
      app.parse(argc, argv);
    } catch (const CLI::ParseError&) {
      return false;
    }
    return app.remaining(true).empty();
  }

  const Command* chosen() const {
    for (const Command& command : commands) {
      if (app.got_subcommand(command.name)) return &command;
    }
    return nullptr;
  }

  const std::vector<Command>& commands;
  CLI::App app;
  bool help = false;
  bool version = false;
};

std::vector<std::string> option_names(const CLI::App& app) {
  std::vector<std::string> names;
  for (const CLI::Option* option : app.get_options()) {
    for (const std::string& name : option->get_lnames()) names.push_back("--" + name);
  }
  return names;
}

bool is_option(const std::string& word) { return word.size() > 1 && word[0] == '-'; }

// `where` is "" or " check", for the hint at the end.
[[noreturn]] void refuse_line(const std::string& what, const std::string& where) {
  throw OptionFault(fmt::format("{} (see `leeway{} --help`)", what, where));
}

std::string without_value(const std::string& option) { return option.substr(0, option.find('=')); }

void refuse_extras_of(const Command& command, const CLI::App& app) {
  for (const std::string& word : app.remaining()) {
    const std::string where = std::string(" ") + command.name;
    if (!is_option(word)) {
      refuse_line(
          fmt::format("\"{}\" is one argument too many for `leeway {}`", word, command.name),
          where);
    }
    const std::vector<std::string> names = option_names(app);
    refuse_line(fmt::format("`leeway {}` has no option \"{}\"{}", command.name, without_value(word),
                            suggestion(without_value(word), {names.begin(), names.end()})),
                where);
  }
}

std::vector<std::string_view> command_names(const std::vector<Command>& commands) {
  std::vector<std::string_view> names{kHelp};
  for (const Command& command : commands) names.emplace_back(command.name);
  return names;
}

[[noreturn]] void refuse_command(const std::string& word, const std::vector<Command>& commands) {
  refuse_line(
      fmt::format("there is no command \"{}\"{}", word, suggestion(word, command_names(commands))),
      "");
}

// What stands before the command: an option of it is told where it belongs.
void refuse_extras(const Parser& parser) {
  for (const std::string& word : parser.app.remaining()) {
    if (!is_option(word)) refuse_command(word, parser.commands);
    for (const Command& other : parser.commands) {
      const std::vector<std::string> options = option_names(*parser.app.get_subcommand(other.name));
      if (std::find(options.begin(), options.end(), without_value(word)) == options.end()) continue;
      refuse_line(fmt::format("the option \"{}\" comes after the command", without_value(word)),
                  std::string(" ") + other.name);
    }
    const std::vector<std::string> options = option_names(parser.app);
    refuse_line(fmt::format("there is no option \"{}\"{}", without_value(word),
                            suggestion(without_value(word), {options.begin(), options.end()})),
                "");
  }
}

// CLI11's messages hold the option's name; the rest we say ourselves.
[[noreturn]] void refuse_value(const Parser& parser, const std::string& what) {
  const std::size_t at = std::min(what.find("--"), what.size());
  const std::string option = what.substr(at, what.find_first_of(": =", at) - at);
  const Command* command = parser.chosen();
  const CLI::App* app = command ? parser.app.get_subcommand(command->name) : &parser.app;
  const CLI::Option* known = app->get_option_no_throw(option);
  const bool flag = known != nullptr && known->get_expected_max() == 0;
  refuse_line(
      fmt::format("the option \"{}\" takes {}", option, flag ? "no value" : "one value, once"),
      command ? std::string(" ") + command->name : "");
}

int run_parsed(const Parser& parser) {
  const Command* command = parser.chosen();
  if (parser.help) return print(command ? command->help : general_help(parser.commands));
  if (parser.version) return print(kVersion);
  refuse_extras(parser);
  if (command == nullptr) refuse_line("a command is missing", "");
  refuse_extras_of(*command, *parser.app.get_subcommand(command->name));
  return command->run();
}

// `leeway help` and `leeway help COMMAND`; `asked` is what follows.
int print_help(const std::vector<Command>& commands, const Words& asked) {
  if (asked.empty() || asked[0] == kHelp) return print(general_help(commands));
  if (asked.size() > 1) {
    refuse_line(fmt::format("\"{}\" is one argument too many for `leeway help`", asked[1]), "");
  }
  const auto command = std::find_if(commands.begin(), commands.end(),
                                    [&](const Command& c) { return c.name == asked[0]; });
  if (command == commands.end()) refuse_command(asked[0], commands);
  return print(command->help);
}

int parse_and_run(const std::vector<Command>& commands, int argc, const char* const* argv) {
  const Words words(argv, argv + argc);
  if (words.size() > 1 && words[1] == kHelp) {
    return print_help(commands, Words(words.begin() + 2, words.end()));
  }
  Parser brief(commands, [&](const Command& command) { return named(command, words); });
  if (brief.reads_all(argc, argv)) return run_parsed(brief);
  // What is wrong with it may lie in the options of another command.
  Parser parser(commands, [](const Command&) { return true; });
  try {
    parser.app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    refuse_value(parser, error.what());
  }
  return run_parsed(parser);
}

}  // namespace

std::string suggestion(std::string_view word, const std::vector<std::string_view>& known) {
  const std::string_view nearest = nearest_word(word, known);
  return nearest.empty() ? "" : fmt::format("; did you mean \"{}\"?", nearest);
}

int run_command_line(const std::vector<Command>& commands, int argc, const char* const* argv) {
  try {
    return parse_and_run(commands, argc, argv);
  } catch (const ReaderGone&) {
    return kAllWell;
  } catch (...) {
    const Failure failure = failure_of(std::current_exception());
    complain(failure.message);
    return failure.status;
  }
}

}  // namespace leeway
