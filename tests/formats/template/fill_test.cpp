// Templates: what is filled in, and what is refused.

#include "leeway/fill.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <sstream>

#include "model/setups.h"

namespace leeway {
namespace {

struct Job {
  leeway::Setup setup = godwit();
  int decimals = 2;
  FitOptions options;
  bool fit_first = true;
  std::string program;  // of a walk

  Filled operator()(const std::string& text) const {
    FitOptions with = options;
    with.decimals = decimals;
    with.remedies = false;
    const Rig rig(setup);
    const CheckResult checked = check(rig);
    std::optional<FitResult> fitted;
    if (fit_first) fitted = fit(rig, with);
    const FitResult* const made = fitted ? &*fitted : nullptr;
    const NumbersToEnter numbers = numbers_to_enter(rig, checked, made, decimals);
    return fill_template({"sheet.txt", "sheet.txt", text, ""},
                         {rig, checked, numbers, made, program.empty() ? nullptr : &program});
  }
  std::string text(const std::string& from) const {
    const Filled filled = (*this)(from);
    EXPECT_TRUE(filled.faults.empty()) << message(filled.faults.front());
    return filled.text;
  }
};

std::string only_fault(const Filled& filled) {
  EXPECT_EQ(filled.faults.size(), 1u);
  EXPECT_EQ(filled.text, "");
  return filled.faults.empty() ? "" : message(filled.faults.front());
}

TEST(Fill, PutsInNumbersOfFitAndCheck) {
  const Job job;
  EXPECT_EQ(job.text("{{setup}}: {{mesh.probe.x0}} to {{mesh.probe.x1}}"),
            "Godwit, side bracket: 5.5 to 200");
  EXPECT_EQ(
      job.text("{{mesh.nozzle.x0}} {{offset.nozzle_to_probe.x}} {{offset.probe_to_nozzle.x}}"),
      "44 -38.5 38.5");
  EXPECT_EQ(job.text("{{check.counts.points}}/{{check.counts.unreachable}} {{check.verdict}}"),
            "27/6 unreachable");
}

TEST(Fill, RepeatsListsAndChooses) {
  Job job;
  job.setup.request.grid->columns = 2;
  job.setup.request.grid->rows = 2;
  EXPECT_EQ(job.text("{{#mesh.points}}{{column}},{{row}}{{^last}};{{/last}}{{/mesh.points}}"),
            "1,1;2,1;1,2;2,2");
  EXPECT_EQ(job.text("{{#fit.feasible}}yes{{/fit.feasible}}{{^fit.feasible}}no{{/fit.feasible}}"),
            "yes");
  EXPECT_EQ(job.text("{{#check.points}}{{^is_reachable}}{{name}} {{limit}} {{leeway}}\n"
                     "{{/is_reachable}}{{/check.points}}"),
            "grid 2,1 travel right -9.5\ngrid 2,2 travel right -9.5\n");
}

TEST(Fill, EscapesNothing) {
  Job job;
  job.setup.name = "a<b> & \"c\" 'd'";
  EXPECT_EQ(job.text("{{setup}}|{{{setup}}}|{{&setup}}"),
            "a<b> & \"c\" 'd'|a<b> & \"c\" 'd'|a<b> & \"c\" 'd'");
}

TEST(Fill, MakesNamesHarmless) {
  Job job;
  job.setup.name = "two\nlines \x1b[31m {{mesh.probe.x0}}";
  const std::string text = job.text("{{setup}}");
  EXPECT_EQ(text.find('\n'), std::string::npos);
  EXPECT_EQ(text.find('\x1b'), std::string::npos);
  // A name is never a template of its own.
  EXPECT_NE(text.find("{{mesh.probe.x0}}"), std::string::npos);
}

TEST(Fill, RoundsAndTrimsNumbersAndNeverSaysMinusZero) {
  Job job;
  job.setup.machine.bed = Box{-115.004, 115, -105, 105};
  job.setup.machine.travel = Box{-119, 121, -107, 109};
  job.options.sides = {-80.004, {}, -60, {}};
  EXPECT_EQ(job.text("{{mesh.probe.x0}}"), "-80");
  job.decimals = 3;
  EXPECT_EQ(job.text("{{mesh.probe.x0}}"), "-80.004");
  job.options.sides = {-80, 0, -60, {}};
  EXPECT_EQ(job.text("{{mesh.probe.x1}}"), "0");
  job.setup.probe.offset = {-38.5, 0};
  EXPECT_EQ(job.text("{{offset.probe_to_nozzle.y}}"), "0");
}

// A rounded offset would not go with the bounds beside it.
TEST(Fill, PrintsTheOffsetAsItIs) {
  Job job;
  job.decimals = 0;
  job.setup.probe.offset = {-38.4951, 12.3};
  EXPECT_EQ(job.text("{{offset.nozzle_to_probe.x}} {{offset.probe_to_nozzle.y}}"),
            "-38.4951 -12.3");
}

TEST(Fill, RefusesTemplatesThatWouldTakeForever) {
  const Job job;
  std::string deep;
  for (int i = 0; i < 20000; ++i) deep += "{{#fit.feasible}}";
  const Filled nested = job(deep);
  EXPECT_GE(nested.faults.size(), 1u);
  // The rest is counted in one more.
  EXPECT_LE(nested.faults.size(), 1001u);
  const Filled large = job(std::string(kLargestFile + 1, 'x'));
  EXPECT_NE(only_fault(large).find("bytes"), std::string::npos);
}

TEST(Fill, RepeatsListsOfAnyLength) {
  Job wide;
  wide.options.columns = 300;
  wide.options.rows = 300;
  const std::string text = wide.text("{{#mesh.points}}{{row}}\n{{/mesh.points}}");
  EXPECT_EQ(std::count(text.begin(), text.end(), '\n'), 90'000);
}

// The specification of Mustache, 1.4, "Standalone Lines" of sections, inverted sections, comments
// and changes of braces; its cases were written down from memory.
TEST(Fill, TagsThatStandAloneTakeTheirLineWithThem) {
  const Job job;
  EXPECT_EQ(job.text("| This Is\n{{#fit.feasible}}\n|\n{{/fit.feasible}}\n| A Line"),
            "| This Is\n|\n| A Line");
  EXPECT_EQ(job.text("| This Is\n  {{^fit.feasible}}\n|\n  {{/fit.feasible}}\n| A Line"),
            "| This Is\n| A Line");
  EXPECT_EQ(job.text("|\r\n{{#fit.feasible}}\r\n{{/fit.feasible}}\r\n|"), "|\r\n|");
  EXPECT_EQ(job.text("  {{#fit.feasible}}\n#{{/fit.feasible}}\n/"), "#\n/");
  EXPECT_EQ(job.text("#{{#fit.feasible}}\n/\n  {{/fit.feasible}}"), "#\n/\n");
  EXPECT_EQ(job.text(" {{#fit.feasible}}YES{{/fit.feasible}}\n {{#fit.feasible}}GOOD"
                     "{{/fit.feasible}}\n"),
            " YES\n GOOD\n");
  EXPECT_EQ(job.text("Begin.\n  {{=@ @=}}\nEnd."), "Begin.\nEnd.");
  EXPECT_EQ(job.text("{{#fit.feasible}} {{! two }}\n{{/fit.feasible}}"), " \n");
  EXPECT_EQ(job.text("  {{setup}}\n"), "  Godwit, side bracket\n");
}

// Bounds at a whole number of mm lie inside those at three decimals, and are checked.
TEST(Fill, RoundsBoundsInward) {
  Job job;
  job.options.sides = {20.4, 180.6, 60.3, 180.7};
  job.decimals = 0;
  EXPECT_EQ(job.text("{{mesh.probe.x0}} {{mesh.probe.x1}} {{mesh.probe.y0}} {{mesh.probe.y1}}"),
            "21 180 61 180");
  EXPECT_EQ(job.text("{{mesh.margins.probe_from_bed.left}} {{mesh.margins.probe_from_bed.right}}"),
            "21 53");
}

// The leeway is that where somebody goes, and the strips those that such bounds leave.
TEST(Fill, TellsOfWhatItPrints) {
  Job job;
  job.fit_first = false;
  job.setup = bare(Box{0, 60, 0, 60}, Box{0, 60, 0, 60});
  job.setup.request.grid = Grid{2, 2, Box{0.4, 59.6, 10.4, 40}, Frame::probe, false};
  job.decimals = 0;
  EXPECT_EQ(job.text("{{mesh.probe.x0}} {{mesh.probe.x1}} {{mesh.probe.y0}}"), "1 59 11");
  EXPECT_EQ(job.text("{{mesh.uncovered.left}} {{mesh.uncovered.right}} {{mesh.uncovered.front}}"),
            "1 1 11");
  // 58 x 29 of 60 x 60.
  EXPECT_EQ(job.text("{{mesh.coverage.percent}}"), "46");
  // 0.4 goes to 0, 59.6 to 60: on the edge of the bed.
  EXPECT_EQ(job.text("{{#mesh.points}}{{probe.x}}:{{leeway}} {{/mesh.points}}"),
            "0:0 60:0 0:0 60:0 ");
  EXPECT_EQ(job.text("{{mesh.tightest.probe.x}} {{mesh.tightest.leeway}}"), "0 0");
  job.decimals = 1;
  EXPECT_EQ(job.text("{{#mesh.points}}{{probe.x}}:{{leeway}} {{/mesh.points}}"),
            "0.4:0.4 59.6:0.4 0.4:0.4 59.6:0.4 ");
}

TEST(Fill, RefusesWhatRoundingWouldSpoil) {
  Job job;
  job.setup = bare(Box{0, 60, 0, 60}, Box{0, 60, 0, 60});
  job.setup.machine.obstacles = {{"post", Box{30.4, 40, -5, 65}, 5, 0}};
  job.setup.request.grid = Grid{3, 2, Box{0, 60, 0, 60}, Frame::probe, false};
  job.options.sides = {10.4, 50.2, {}, {}};
  job.decimals = 0;  // 10.4 to 50.2 has its middle at 30.3; 11 to 50 at 30.5, under the post
  const Filled filled = job("one\n  {{mesh.probe.x0}}");
  EXPECT_EQ(
      only_fault(filled),
      "sheet.txt:2:3: found \"mesh.probe.x0\", which has no value here: rounded to 0 decimals "
      "it would not be safe at every point; allowed: --decimals 1");
}

TEST(Fill, EveryPrintedPlaceOfTheMeshIsReachable) {
  for (int decimals = 0; decimals <= 3; ++decimals) {
    Job job;
    job.decimals = decimals;
    job.setup.probe.offset = {-38.4567, 12.3456};
    const Limits limits(job.setup);
    const Filled probes = job("{{#mesh.points}}{{probe.x}} {{probe.y}}\n{{/mesh.points}}");
    if (decimals >= 2) {
      EXPECT_TRUE(probes.faults.empty());
    }
    std::istringstream in(probes.text);
    Point p;
    while (in >> p.x >> p.y) EXPECT_EQ(limits.evaluate(p).verdict, Verdict::reachable);
    const Filled nozzles = job("{{#mesh.points}}{{nozzle.x}} {{nozzle.y}}\n{{/mesh.points}}");
    std::istringstream more(nozzles.text);
    while (more >> p.x >> p.y) {
      EXPECT_EQ(limits.evaluate(p + job.setup.probe.offset).verdict, Verdict::reachable);
    }
  }
}

TEST(Fill, TellsUnknownNamesWithPlaceAndNearest) {
  const Job job;
  EXPECT_EQ(
      only_fault(job("first\nx = {{ mesh.prode.x0 }}")),
      "sheet.txt:2:5: found the unknown name \"mesh.prode.x0\"; allowed: a name of the table in "
      "profiles/README.md; did you mean \"mesh.probe.x0\"?");
  EXPECT_EQ(job("{{a}}{{b}}{{#c}}{{/c}}").faults.size(), 3u);
}

TEST(Fill, TellsNamesOutsideTheirList) {
  EXPECT_NE(only_fault(Job{}("{{column}}")).find("outside the list"), std::string::npos);
}

TEST(Fill, TellsWhatIsNoTemplate) {
  const Job job;
  for (const char* text :
       {"{{setup", "{{#mesh.points}}", "{{/mesh.points}}", "{{}}", "{{#}}{{/}}", "{{>other}}",
        "{{<parent}}{{/parent}}", "{{#setup}}{{/setup}}", "{{mesh.points}}", "{{=<% %>}}",
        "{{{setup}}", "{{#mesh.points}}{{/check.points}}", "{{= =}}", "{{=a=}}",
        "{{#mesh.points}}{{#check.points}}{{/check.points}}{{/mesh.points}}"}) {
    const Filled filled = job(text);
    EXPECT_FALSE(filled.faults.empty()) << text;
    EXPECT_EQ(filled.text, "") << text;
  }
}

TEST(Fill, TellsValuesThatAreNotThere) {
  Job job;
  job.options.sides.left = -50;  // nothing fits
  EXPECT_EQ(
      only_fault(job("{{mesh.probe.x0}}")),
      "sheet.txt:1:1: found \"mesh.probe.x0\", which has no value here: nothing fits; allowed: "
      "it inside {{#mesh.stated}}");
  EXPECT_EQ(job.text("{{#mesh.stated}}{{mesh.probe.x0}}{{/mesh.stated}}-"), "-");
  job.options = {};
  job.setup.probe.offset = {-500, 0};  // nor can it home
  job.setup.request.home.reset();
  EXPECT_NE(only_fault(job("{{home.probe.x}}")).find("{{#home.known}}"), std::string::npos);
}

TEST(Fill, LeavesOutCommentsAndTheirLines) {
  const Job job;
  EXPECT_EQ(job.text("{{! all of it\n over two lines }}\nx{{!here}}y\n  {{!alone}}  \nz"), "xy\nz");
  EXPECT_EQ(job.text("{{!a}}\r\nb\r\n"), "b\r\n");
}

TEST(Fill, TakesOtherBraces) {
  EXPECT_EQ(Job{}.text("{{=<% %>=}}<%setup%> {{setup}} <%={{ }}=%>{{setup}}"),
            "Godwit, side bracket {{setup}} Godwit, side bracket");
}

TEST(Fill, TextWithoutTagsIsKeptByteByByte) {
  std::string bytes;
  for (int c = 1; c < 256; ++c) {
    if (c != '{') bytes += static_cast<char>(c);
  }
  EXPECT_EQ(Job{}.text(bytes), bytes);
  EXPECT_EQ(Job{}.text(""), "");
}

TEST(Fill, EveryNameHasAMeaningAndStandsInTheTable) {
  std::ifstream file(LEEWAY_SOURCE_DIR "/profiles/README.md");
  std::stringstream readme;
  readme << file.rdbuf();
  std::size_t names = 0;
  for (const FillName& name : fill_names()) {
    ++names;
    EXPECT_FALSE(name.meaning.empty()) << name.name;
    const std::string shown =
        name.kind == FillName::Kind::value ? "`" + name.name + "`" : "`{{#" + name.name + "}}`";
    EXPECT_NE(readme.str().find(shown), std::string::npos)
        << shown << " is not in profiles/README.md";
  }
  EXPECT_GT(names, 80u);
}

TEST(Fill, HasAProgramOnlyRoundAWalk) {
  Job job;
  EXPECT_EQ(only_fault(job("{{walk.program}}")),
            "sheet.txt:1:1: found \"walk.program\", which has no value here: only a walk has a "
            "program; allowed: it in a text for `walk --wrap`");
  job.program = "G1 X1 Y2\n";
  EXPECT_EQ(job.text("before\n{{walk.program}}behind"), "before\nG1 X1 Y2\nbehind");
  // Numbers of the setup may lie beyond the travel; a walk's do not.
  EXPECT_EQ(only_fault(job("{{walk.program}}G1 X{{mesh.nozzle.x1}}")),
            "sheet.txt:1:21: found \"mesh.nozzle.x1\" round a walk; allowed: walk.program, setup, "
            "machine and caution");
}

// Each name alone, on a setup where everything has a value.
TEST(Fill, EveryNameCanBeUsed) {
  Job job;
  job.setup.request.points.push_back({"far right", {225, 100}, Frame::probe});
  job.options.sides = {48, 185, 48, 159};  // four margins alike
  for (const FillName& name : fill_names()) {
    job.program = name.name == "walk.program" ? "G1 X1 Y2\n" : "";
    std::string text = name.kind == FillName::Kind::value
                           ? "{{" + name.name + "}}"
                           : "{{#" + name.name + "}}x{{/" + name.name + "}}{{^" + name.name +
                                 "}}y{{/" + name.name + "}}";
    if (!name.within.empty()) text = "{{#" + name.within + "}}" + text + "{{/" + name.within + "}}";
    const Filled filled = job(text);
    EXPECT_TRUE(filled.faults.empty()) << text << ": " << message(filled.faults.front());
    EXPECT_FALSE(filled.text.empty()) << text;
  }
}

}  // namespace
}  // namespace leeway
