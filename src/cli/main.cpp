#include "cli/command_line.h"
#include "cli/commands/bracket_command.h"
#include "cli/commands/check_command.h"
#include "cli/commands/cover_command.h"
#include "cli/commands/draw_command.h"
#include "cli/commands/explain_command.h"
#include "cli/commands/fill_command.h"
#include "cli/commands/fit_command.h"
#include "cli/commands/measure_command.h"
#include "cli/commands/walk_command.h"
#include "cli/output_file.h"

int main(int argc, char** argv) {
  leeway::prepare_streams();
  return leeway::run_command_line(
      {leeway::check_command(), leeway::fit_command(), leeway::explain_command(),
       leeway::bracket_command(), leeway::draw_command(), leeway::fill_command(),
       leeway::measure_command(), leeway::walk_command(), leeway::cover_command()},
      argc, argv);
}
