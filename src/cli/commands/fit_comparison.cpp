#include "cli/commands/fit_comparison.h"

#include "cli/failure.h"
#include "cli/output_file.h"
#include "cli/terminal.h"
#include "formats/typed/typed_grids.h"
#include "leeway/write_comparison.h"

namespace leeway {
namespace {

using ComparisonWriter = void (*)(const std::vector<ComparedGrid>&, const Rig&, const TextSink&);

const std::vector<std::string_view> kComparisonFormats{"text", "json", "markdown"};
constexpr ComparisonWriter kComparisonWriters[] = {write_comparison_text, write_comparison_json,
                                                   write_comparison_markdown};

std::vector<GridWanted> wanted_grids(const FitArguments& fit) {
  ReadGrids read = typed_grids(fit);
  if (read.fault) {
    throw OptionFault(option_message(*read.fault) + " (see `leeway fit --help`)");
  }
  return std::move(read.wanted);
}

FitOptions options_besides(FitArguments fit) {
  fit.columns = fit.rows = fit.spacing = "";
  return fit_options(fit);
}

}  // namespace

int run_comparison(const SetupArguments& arguments, const FitArguments& fit) {
  const auto write = kComparisonWriters[format_index(arguments.format, kComparisonFormats)];
  const std::vector<GridWanted> wanted = wanted_grids(fit);
  FitOptions options = options_besides(fit);
  DiskFiles files;
  Outputs outputs;
  const std::optional<Setup> setup = load_setup(arguments, files, outputs);
  if (!setup) return kUnusable;
  refuse_own_input(files, arguments.output);
  Output& output = outputs.open(arguments.output);
  const Rig rig(*setup);
  ProgressLine progress("Comparing");
  options.progress = [&](double done) {
    progress.show(done);
    return true;
  };
  const std::vector<ComparedGrid> grids = compare_grids(rig, wanted, options);
  outputs.finish(
      [&] { write(grids, rig, result_sink(output, arguments.format, arguments.has_output)); });
  return grids.front().mesh && grids.front().moves_clear ? kAllWell : kNotSo;
}

}  // namespace leeway
