#include "cli/commands/explain_command.h"

#include <fmt/format.h>

#include <cmath>
#include <memory>

#include "cli/commands/check_command.h"
#include "cli/failure.h"
#include "cli/observed_places.h"
#include "cli/output_file.h"
#include "cli/setup_input.h"
#include "formats/text/numbers.h"
#include "formats/typed/typed_values.h"
#include "leeway/rig.h"
#include "leeway/write_explain.h"

namespace leeway {
namespace {

constexpr const char* kExplainHelpBegins =
    R"(Usage: leeway explain [BEFORE] SETUP [--point X,Y [--frame FRAME]] [--refused PLACE]...
                      [--accepted PLACE]... [--answer ANSWER]... [--format FORMAT]
                      [--output FILE]

For whoever answers a stranger: why points fail, with the arithmetic written out; which
single mistake would account for it, how probably, and what to look at to tell; whether
simply too much is asked for; what would remedy it, each tried.

  SETUP            the setup, a JSON file; - reads standard input, and paths
                   in it then count from the current folder
  BEFORE           what the setup was before it was changed: what was changed is
                   told as well, and what that did
  --point X,Y      explain this one point instead of what the setup asks for
  --frame FRAME    probe (if left out) or nozzle: what the point is for
  --refused PLACE  a point that the controller refuses: 5,1 for column 5, row 1 of
                   the grid, the name of a point, home, or x=210,y=20 for the
                   probe; may be repeated
  --accepted PLACE the same of a point that it takes
  --answer ANSWER  what was seen at the machine; may be repeated: probe-left,
                   probe-right, probe-in-front, probe-behind, zero-at-corner,
                   zero-at-centre, travel-goes-further, travel-ends-with-bed,
                   margins-from-bed, margins-from-travel, numbers-for-probe,
                   numbers-for-nozzle
  --format FORMAT  text (the default), json, markdown to paste into a reply, or
                   line for a chat
  --output FILE    write to FILE, whole or not at all, instead of standard output
  -h, --help       this text
)";

constexpr const char* kExplainHelpEnds =
    R"(
Examples:
  leeway explain examples/godwit-side-bracket.json
  leeway explain examples/godwit-side-bracket.json examples/godwit-all-well.json
  leeway explain examples/godwit-all-well.json --refused 5,1 --accepted 1,1
  leeway explain examples/godwit-side-bracket.json --point 210,20 --format markdown
  leeway explain --without-setup --bed 233x207 --travel -5..239,-2..211 --offset 38.5,12 \
                 --grid 5x5 --margins left=5,right=35,front=10,back=5

Exit status:
  0  every point is reachable, and stays so within the stated uncertainty
  1  some point is not; or all were left out; or none was asked for and none would work
  2  the setup or the options are of no use, or the output cannot be written
  3  a fault of the program itself

Before anyone tries any of it at the machine: keep fingers out of its reach, mind the hot
nozzle, and let the machine's manual come first.
)";

using ExplainWriter = void (*)(const ExplainResult&, const Rig&, const TextSink&);

const std::vector<std::string_view> kExplainFormats{"text", "json", "markdown", "line"};
constexpr ExplainWriter kExplainWriters[] = {write_explain_text, write_explain_json,
                                             write_explain_markdown, write_explain_line};

struct ExplainArguments {
  SetupArguments setup;
  std::string second;  // then the first is from before
  bool has_second = false;
  std::string point;
  std::string frame;
  std::vector<std::string> refused;
  std::vector<std::string> accepted;
  std::vector<std::string> answers;
};

// A request for one point alone.
std::optional<Request> point_request(const ExplainArguments& arguments) {
  if (arguments.point.empty()) {
    if (!arguments.frame.empty()) throw OptionFault("\"--frame\" goes with \"--point\"");
    return std::nullopt;
  }
  const auto at = typed_numbers(arguments.point);
  if (!at || at->size() != 2) {
    throw OptionFault(
        fmt::format("the option \"--point\" takes two numbers of mm, such as 210,20, not \"{}\"{}",
                    arguments.point, number_hint(arguments.point)));
  }
  if (!arguments.frame.empty() && arguments.frame != "probe" && arguments.frame != "nozzle") {
    throw OptionFault(
        fmt::format("the option \"--frame\" takes probe or nozzle, not \"{}\"", arguments.frame));
  }
  if (std::abs((*at)[0]) > kLargestLength || std::abs((*at)[1]) > kLargestLength) {
    throw OptionFault(fmt::format(
        "the option \"--point\" takes no more than 1000000 mm, not \"{}\"", arguments.point));
  }
  Request request;
  request.points.push_back({"the point",
                            {(*at)[0], (*at)[1]},
                            arguments.frame == "nozzle" ? Frame::nozzle : Frame::probe});
  return request;
}

// The setup from before, where two are given; nothing when it has faults.
std::optional<Setup> load_before(const ExplainArguments& arguments, DiskFiles& files,
                                 Outputs& outputs) {
  if (arguments.setup.setup == "-" && arguments.second == "-") {
    throw OptionFault("only one setup can be read from standard input");
  }
  return load_setup(arguments.setup, files, outputs);
}

int run_explain(const ExplainArguments& given) {
  ExplainArguments arguments = given;
  check_arguments(arguments.setup, "explain");
  const ExplainWriter write =
      kExplainWriters[format_index(arguments.setup.format, kExplainFormats)];
  const std::optional<Request> point = point_request(arguments);
  ExplainOptions options;
  options.answers = answers_named(arguments.answers);
  DiskFiles files;
  Outputs outputs;
  if (arguments.has_second) {
    options.before = load_before(arguments, files, outputs);
    arguments.setup.setup = arguments.second;
  }
  std::optional<Setup> setup = load_setup(arguments.setup, files, outputs);
  if (!setup || (arguments.has_second && !options.before)) return kUnusable;
  if (point) setup->request = *point;
  if (point && options.before) options.before->request = *point;
  options.observed = observed_places(*setup, arguments.refused, arguments.accepted);
  refuse_own_input(files, arguments.setup.output);
  Output& output = outputs.open(arguments.setup.output);
  const Rig rig(*setup);
  const ExplainResult result = explain(rig, options);
  outputs.finish([&] {
    write(result, rig, result_sink(output, arguments.setup.format, arguments.setup.has_output));
  });
  return exit_status(result.check);
}

}  // namespace

Command explain_command() {
  static const std::string help =
      std::string(kExplainHelpBegins) + kSetupNumbersHelp + kExplainHelpEnds;
  const auto arguments = std::make_shared<ExplainArguments>();
  Command command;
  command.name = "explain";
  command.gist = "why points fail, which number may be wrong, what would remedy it";
  command.help = help.c_str();
  command.add_options = [arguments](Options& options) {
    arguments->setup.declare(options);
    options.argument("second", arguments->second, arguments->has_second);
    options.value("--point", arguments->point);
    options.value("--frame", arguments->frame);
    options.values("--refused", arguments->refused);
    options.values("--accepted", arguments->accepted);
    options.values("--answer", arguments->answers);
  };
  command.run = [arguments] { return run_explain(*arguments); };
  return command;
}

}  // namespace leeway
