#pragma once
// From the words of a command line to a command, with faults in our own words.

#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "cli/options.h"

namespace leeway {

// One command of the program.
struct Command {
  const char* name;
  const char* gist;                           // a line for the list of commands
  const char* help;                           // the whole text of `leeway NAME --help`
  std::function<void(Options&)> add_options;  // declares options and positional arguments
  std::function<int()> run;                   // returns the exit status
};

// Runs what the words ask for and returns the exit status. Never throws.
int run_command_line(const std::vector<Command>& commands, int argc, const char* const* argv);

// "; did you mean \"json\"?" or nothing.
std::string suggestion(std::string_view word, const std::vector<std::string_view>& known);

}  // namespace leeway
