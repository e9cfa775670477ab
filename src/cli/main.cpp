#include "cli/check_command.h"
#include "cli/command_line.h"
#include "cli/draw_command.h"
#include "cli/explain_command.h"
#include "cli/fill_command.h"
#include "cli/fit_command.h"
#include "cli/measure_command.h"
#include "cli/output_file.h"

int main(int argc, char** argv) {
  leeway::prepare_streams();
  return leeway::run_command_line(
      {leeway::check_command(), leeway::fit_command(), leeway::explain_command(),
       leeway::draw_command(), leeway::fill_command(), leeway::measure_command()},
      argc, argv);
}
