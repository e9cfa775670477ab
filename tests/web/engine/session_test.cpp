// The page's engine natively: what it answers, and that nothing a page could send hurts it.

#include "web/session.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <string>

#include "judges/random_setup.h"
#include "leeway/read_setup.h"
#include "leeway/write_setup.h"

extern "C" int leeway_progress(double) { return 0; }

namespace leeway {
namespace {

class Page {
 public:
  Json operator()(const std::string& request) { return Json::parse(session_.answer(request)); }
  Json operator()(const char* request) { return (*this)(std::string(request)); }
  Json operator()(const Json& request) { return (*this)(request.dump()); }

 private:
  Session session_{[](double) { return true; }};
};

Json read_example(Page& page, const char* name) {
  return page(Json{{"do", "read"}, {"example", name}});
}

void expect_faults(const Json& answer) {
  EXPECT_EQ(answer["ok"], false) << answer.dump().substr(0, 400);
  ASSERT_FALSE(answer["faults"].empty());
  for (const Json& fault : answer["faults"]) {
    const std::string message = fault["message"];
    EXPECT_GT(message.size(), 10u);
    EXPECT_EQ(message.find("fault of the program"), std::string::npos) << message;
  }
}

TEST(PageSession, ReadsEveryExampleAndFramesIt) {
  Page page;
  const Json examples = page(R"({"do":"examples"})")["examples"];
  ASSERT_GE(examples.size(), 8u);
  for (const Json& example : examples) {
    EXPECT_GT(example["says"].get<std::string>().size(), 20u) << example["name"];
    ASSERT_EQ(read_example(page, example["name"].get<std::string>().c_str())["ok"], true);
    const Json frame = page(R"({"do":"frame","plan":{"width":400,"links":true}})");
    ASSERT_EQ(frame["ok"], true) << frame.dump();
    EXPECT_EQ(frame["points"].size(), frame["counts"]["points"]);
    EXPECT_NE(frame["headline"].get<std::string>().find(example["title"].get<std::string>()),
              std::string::npos);
  }
}

TEST(PageSession, AChangeOfTheOffsetAnswersAsTheSetupReadAnew) {
  Page page;
  read_example(page, "curlew-clips");
  const Json moved = page(R"({"do":"frame","changes":{"/probe/offset":[-30.5,19]}})");
  ASSERT_EQ(moved["ok"], true);
  Page other;
  const Json text = page(R"({"do":"save"})")["text"];
  ASSERT_EQ(other(Json{{"do", "read"}, {"text", text}})["ok"], true);
  const Json anew = other(R"({"do":"frame"})");
  EXPECT_EQ(moved["plan"], anew["plan"]);
  EXPECT_EQ(moved["points"], anew["points"]);
}

TEST(PageSession, WhatIsRefusedChangesNothing) {
  Page page;
  read_example(page, "godwit-side-bracket");
  const Json before = page(R"({"do":"save"})");
  const Json refused =
      page(R"({"do":"change","changes":{"/probe/offset":[1,2],"/request/grid/columns":0}})");
  expect_faults(refused);
  EXPECT_EQ(refused["faults"][0]["pointer"], "/request/grid/columns");
  EXPECT_EQ(page(R"({"do":"save"})"), before);
}

TEST(PageSession, ApplyingTheGridOfAFitMakesAllItsPointsReachable) {
  Page page;
  read_example(page, "godwit-side-bracket");
  const Json fit = page(R"({"do":"fit","format":"json"})");
  ASSERT_EQ(fit["fits"], true);
  ASSERT_EQ(fit["apply"][0]["kind"], "grid");
  const Json frame = page(Json{{"do", "frame"}, {"changes", fit["apply"][0]["changes"]}});
  ASSERT_EQ(frame["ok"], true) << frame.dump();
  for (const Json& point : frame["points"]) {
    if (point.contains("column")) {
      EXPECT_EQ(point["verdict"], "reachable");
    }
  }
}

// What says nothing of edges is told that it does, as the command tells it.
TEST(PageSession, AGridAtTheVeryEdgeIsToldWithItsCard) {
  Page page;
  page(R"({"do":"form","fields":{"bed":"310x305","travel":"0..318,-4..306","offset":"27.5,-18",)"
       R"("grid":"6x6","margins":"15"}})");
  const Json fit = page(R"({"do":"fit","format":"text"})");
  const std::string says = fit["apply"][0]["says"];
  EXPECT_NE(says.find("very edge of the bed"), std::string::npos) << says;
  EXPECT_NE(fit["text"].get<std::string>().find("very edge of the bed"), std::string::npos);
}

// Own numbers are given where `check` passes them, and they are those of the setup.
TEST(PageSession, OwnNumbersAreGivenOnlyWhereAllIsReachable) {
  Page page;
  read_example(page, "godwit-side-bracket");
  const Json none = page(R"({"do":"numbers"})");
  EXPECT_EQ(none["safe"], false);
  EXPECT_EQ(none["numbers"].size(), 0U);
  EXPECT_NE(none["says"].get<std::string>().find("cannot be relied on"), std::string::npos);
  read_example(page, "godwit-all-well");
  const Json own = page(R"({"do":"numbers"})");
  ASSERT_EQ(own["safe"], true);
  const Json saved = Json::parse(page(R"({"do":"save"})")["text"].get<std::string>());
  const double left = saved["request"]["grid"]["x"][0];
  ASSERT_EQ(own["numbers"][0]["what"], "bounds, where the probe goes");
  EXPECT_EQ(own["numbers"][0]["left"], fmt::format("x = {}", left));
}

TEST(PageSession, ApplyingALikelyMistakeMendsWhatItSays) {
  Page page;
  const Json form = page(
      R"({"do":"form","fields":{"bed":"233x207","travel":"-5..239,-2..211","offset":"38.5,12",)"
      R"("grid":"5x5","margins":"left=5,right=35,front=10,back=5"}})");
  ASSERT_EQ(form["ok"], true) << form.dump();
  const Json explained = page(R"({"do":"explain"})");
  ASSERT_FALSE(explained["apply"].empty());
  const Json& first = explained["apply"][0];
  ASSERT_EQ(first["kind"], "mistake");
  const Json before = page(R"({"do":"frame"})")["counts"];
  const Json after = page(Json{{"do", "frame"}, {"changes", first["changes"]}})["counts"];
  const auto failing = [](const Json& counts) {
    return counts["unreachable"].get<int>() + counts["marginal"].get<int>();
  };
  EXPECT_EQ(failing(before) - failing(after), first["fixes"].get<int>());
}

TEST(PageSession, EveryFaultOfAFormHasItsField) {
  Page page;
  const Json answer =
      page(R"({"do":"form","fields":{"bed":"230","travel":"","offset":"1","grid":"0x5"}})");
  expect_faults(answer);
  std::vector<std::string> fields;
  for (const Json& fault : answer["faults"]) fields.push_back(fault["field"]);
  std::sort(fields.begin(), fields.end());
  EXPECT_EQ(fields, (std::vector<std::string>{"bed", "margins", "offset", "travel"}));
}

TEST(PageSession, BoxesOfAFormTakeInchesAndDecimalCommas) {
  Page page;
  const Json answer = page(Json{{"do", "form"},
                                {"fields",
                                 {{"bed", {"9.5 in", "207"}},
                                  {"travel", {"-5", "239", "\u22122", "211"}},
                                  {"offset", {"-38,5", "0.5\""}},
                                  {"grid", {"5", "4"}},
                                  {"margins", {"20", "12,5", "12", "15"}},
                                  {"spot", "0.25 in"},
                                  {"obstacle", {{"clip", "0", "1 in", "0", "8", "6", ""}}},
                                  {"part", {{"duct", "-9", "9", "-30", "-8", "3"}}}}}});
  ASSERT_EQ(answer["ok"], true) << answer.dump();
  EXPECT_EQ(answer["read"], (Json{{"bed", {"241.3 mm", ""}},
                                  {"travel", {"", "", "-2 mm", ""}},
                                  {"offset", {"-38.5 mm", "12.7 mm"}},
                                  {"spot", "6.35 mm"},
                                  {"margins", {"", "12.5 mm", "", ""}}}))
      << answer["read"];
  const Json& setup = answer["setup"];
  EXPECT_EQ(setup["probe"]["offset"], Json({-38.5, 12.7}));
  EXPECT_EQ(setup["probe"]["spot"]["disc"]["radius"], 6.35);
  EXPECT_EQ(setup["machine"]["bed"]["rectangle"]["x"], Json({0, 241.3}));
  EXPECT_EQ(setup["machine"]["travel"]["rectangle"]["y"], Json({-2, 211}));
  EXPECT_EQ(setup["machine"]["obstacles"][0]["shape"]["rectangle"]["x"], Json({0, 25.4}));
  EXPECT_EQ(setup["request"]["grid"]["margins"]["right"], 12.5);
}

TEST(PageSession, AFaultOfAFormNamesItsBox) {
  Page page;
  const Json answer = page(Json{{"do", "form"},
                                {"fields",
                                 {{"bed", {"233", "2,0,7"}},
                                  {"travel", {"-5", "", "-2", "211"}},
                                  {"offset", {"-38.5", "12"}},
                                  {"grid", {"5", "1 in"}},
                                  {"margins", "20"},
                                  {"obstacle", {{"clip", "0", "9", "0", "8", "", "1"}}}}}});
  expect_faults(answer);
  std::vector<std::string> found;
  for (const Json& fault : answer["faults"]) {
    found.push_back(fault["field"].get<std::string>() + std::to_string(fault["box"].get<int>()));
  }
  EXPECT_EQ(found, (std::vector<std::string>{"bed1", "travel1", "grid1", "obstacle5"}));
  EXPECT_EQ(answer["faults"][3]["item"], 0);
  expect_faults(page(R"({"do":"form","fields":{"offset":["1","2","3"]}})"));
}

TEST(PageSession, ALengthIsReadWithItsUnit) {
  Page page;
  const auto read = [&](const char* text) {
    return page(Json{{"do", "length"}, {"text", text}}).value("read", "none");
  };
  EXPECT_EQ(read("1.5 in"), "38.1 mm");
  EXPECT_EQ(read(" 1,5 IN "), "38.1 mm");
  EXPECT_EQ(read("1/2 in"), "none");
  EXPECT_EQ(read("-12 mm"), "-12 mm");
  EXPECT_EQ(read("2.54 cm"), "25.4 mm");
  EXPECT_EQ(read("1,234.5"), "none");
  EXPECT_EQ(read("1,2,3"), "none");
  EXPECT_EQ(read(""), "none");
  EXPECT_EQ(read("in"), "none");
}

TEST(PageSession, GridsSideBySideCanBeApplied) {
  Page page;
  read_example(page, "curlew-clips");
  const Json answer = page(R"({"do":"fit","columns":"3..5","rows":"4"})");
  ASSERT_EQ(answer["ok"], true) << answer.dump();
  ASSERT_EQ(answer["grids"].size(), 3u);
  EXPECT_EQ(answer["heads"].size(), 6u);
  for (const Json& grid : answer["grids"]) {
    ASSERT_FALSE(grid["changes"].is_null());
    EXPECT_EQ(grid["cells"].size(), 6u);
    Page other;
    read_example(other, "curlew-clips");
    const Json frame = other(Json{{"do", "frame"}, {"changes", grid["changes"]}});
    ASSERT_EQ(frame["ok"], true) << frame.dump();
    for (const Json& point : frame["points"]) {
      if (point.contains("column")) {
        EXPECT_EQ(point["verdict"], "reachable");
      }
    }
  }
  expect_faults(page(R"({"do":"fit","columns":"3..x"})"));
}

TEST(PageSession, WhatDiffersIsToldInWords) {
  Page page;
  read_example(page, "curlew-clips");
  const Json same = page(R"({"do":"save"})")["text"];
  EXPECT_EQ(page(Json{{"do", "differs"}, {"other", same}})["differs"], Json::array());
  page(R"({"do":"change","changes":{"/probe/offset":[-30.5,19],"/machine/obstacles/0/height":9}})");
  const Json told = page(Json{{"do", "differs"}, {"other", same}});
  ASSERT_EQ(told["differs"].size(), 2u) << told.dump();
  EXPECT_EQ(told["differs"][1]["what"], "probe, offset");
  EXPECT_EQ(told["differs"][1]["this"], "-30.5, 19");
  EXPECT_EQ(told["says"], "2 things differ.");
  ASSERT_EQ(page(Json{{"do", "change"}, {"changes", told["changes"]}})["ok"], true);
  EXPECT_EQ(page(R"({"do":"save"})")["text"], same);
  expect_faults(page(R"({"do":"differs","other":"{}"})"));
}

TEST(PageSession, AFrameLeavesOutWhatIsNotAskedFor) {
  Page page;
  read_example(page, "godwit-all-well");
  const Json whole = page(R"({"do":"frame"})");
  const Json less = page(R"({"do":"frame","points":false,"plan":{"titles":false}})");
  EXPECT_TRUE(whole.contains("points"));
  EXPECT_FALSE(less.contains("points"));
  EXPECT_EQ(whole["counts"], less["counts"]);
  EXPECT_LT(less["plan"].get<std::string>().size(), whole["plan"].get<std::string>().size());
}

TEST(PageSession, RequestsThatAreNoneAreFaults) {
  Page page;
  for (const char* request :
       {"", "{", "[]", "null", "7", "\"do\"", "{\"do\":7}", "{\"do\":\"chekc\"}",
        "{\"do\":\"frame\"}", "{\"do\":\"read\"}", "{\"do\":\"read\",\"text\":7}",
        "{\"do\":\"read\",\"text\":\"\"}", "{\"do\":\"read\",\"text\":\"{}\",\"wibble\":1}",
        "\xFF\xFE", "{\"do\":\"form\"}", "{\"do\":\"read\",\"example\":\"../../etc/passwd\"}",
        "{\"do\":\"head\"}"}) {
    SCOPED_TRACE(request);
    expect_faults(page(std::string(request)));
  }
  EXPECT_EQ(page(R"({"do":"chek"})")["faults"][0]["message"],
            "There is no request \"chek\"; is it \"check\"?");
}

TEST(PageSession, RequestsOfTheWrongKindAreFaultsInEveryMember) {
  Page page;
  read_example(page, "godwit-all-well");
  for (const char* request : {R"({"do":"frame","plan":{"width":0}})",
                              R"({"do":"frame","plan":{"width":1e300}})",
                              R"({"do":"frame","plan":{"extent":[1,0,0,1]}})",
                              R"({"do":"frame","plan":[]})",
                              R"({"do":"head","at":[1]})",
                              R"({"do":"head","at":[1e300,0]})",
                              R"({"do":"head","at":["1","2"]})",
                              R"({"do":"fit","step":"0"})",
                              R"({"do":"fit","step":-1})",
                              R"({"do":"fit","columns":"many"})",
                              R"({"do":"fit","sides":"up=3"})",
                              R"({"do":"check","format":"pdf"})",
                              R"({"do":"explain","point":[0]})",
                              R"({"do":"explain","frame":"bed"})",
                              R"({"do":"bracket","map":{"x":[0,1,1e9],"y":[0,1,1e9]}})",
                              R"({"do":"bracket","map":{"x":[1,0,5],"y":[0,1,5]}})",
                              R"({"do":"bracket","candidates":"name,x\n1,2"})",
                              R"({"do":"bracket","setups":["{"]})",
                              R"({"do":"bracket","format":"csv"})",
                              R"({"do":"true-size","paper":"A9"})",
                              R"({"do":"fill","template":"{{wibble}}"})",
                              R"({"do":"fill","decimals":2.5})",
                              R"({"do":"measure","readings":"a,b"})",
                              R"({"do":"window","steps":1e9})",
                              R"({"do":"change","changes":{"":{}}})",
                              R"({"do":"change","changes":{"/machine/obstacles/x":1}})",
                              R"({"do":"change","changes":{"/request/points/-/~2":1}})",
                              R"({"do":"change","changes":{"/machine":null}})"}) {
    SCOPED_TRACE(request);
    expect_faults(page(std::string(request)));
    EXPECT_EQ(page(R"({"do":"frame"})")["ok"], true);
  }
}

TEST(PageSession, VastInputIsRefusedAndThePageLives) {
  Page page;
  read_example(page, "godwit-all-well");
  expect_faults(page(Json{{"do", "read"}, {"text", std::string(kLargestFile + 1, ' ')}}));
  const std::string deep = std::string(100'000, '[') + std::string(100'000, ']');
  expect_faults(page(Json{{"do", "read"}, {"text", deep}}));
  expect_faults(page("{\"do\":" + deep + "}"));
  expect_faults(page("{\"do\":\"change\",\"changes\":{\"/name\":" + deep + "}}"));
  expect_faults(page(
      R"({"do":"change","changes":{"/request/grid/columns":1000,"/request/grid/rows":1000}})"));
  expect_faults(page(
      R"({"do":"change","changes":{"/request/grid/columns":100000,"/request/grid/rows":100000}})"));
  EXPECT_EQ(page(R"({"do":"frame"})")["ok"], true);
}

// Whatever its name: a form has boxes, and no text that a name could break.
TEST(PageSession, AFaultOfAClipNamesItsNumber) {
  Page page;
  const Json fields{{"bed", {"233", "207"}},
                    {"travel", {"-5", "239", "-2", "211"}},
                    {"offset", {"-38.5", "12"}},
                    {"obstacle",
                     {{"a=b@c", "0", "9", "0", "8", "-1", "1"},
                      {"b", "9", "0", "0", "8", "6", "-1"},
                      {" ", "0", "9", "0", "8", "6", ""}}},
                    {"part", {{"duct", "-9", "9", "-8", "-8", "1e300"}}}};
  const Json answer = page(Json{{"do", "form"}, {"fields", fields}});
  expect_faults(answer);
  std::vector<std::string> found;
  for (const Json& fault : answer["faults"]) {
    found.push_back(fmt::format("{} {} {}", fault["field"].get<std::string>(),
                                fault["item"].get<int>(), fault["box"].get<int>()));
    EXPECT_EQ(fault["message"].get<std::string>().find("SHAPE"), std::string::npos) << fault;
  }
  EXPECT_EQ(found, (std::vector<std::string>{"obstacle 0 5", "obstacle 1 2", "obstacle 1 6",
                                             "obstacle 2 0", "part 0 4", "part 0 5"}))
      << answer["faults"];
  EXPECT_EQ(answer["faults"][0]["message"],
            "\"a=b@c\", height: found the number -1; allowed: a number of mm from 0 to at most 1e6 "
            "mm.");
}

// What was seen and done weighs in, and is not asked again.
TEST(PageSession, EvidenceChangesWhatIsLikely) {
  Page page;
  read_example(page, "godwit-nozzle-margins");
  const Json before = page(R"({"do":"explain"})");
  ASSERT_TRUE(before.contains("question")) << before.dump();
  const Json& question = before["question"];
  ASSERT_EQ(question["answers"].size(), 2u);
  const std::string asked = question["asks"];
  std::vector<Json> after;
  for (const Json& one : question["answers"]) {
    const Json answer = page(Json{{"do", "explain"}, {"answers", {one["answer"]}}});
    ASSERT_EQ(answer["ok"], true) << answer.dump();
    if (answer.contains("question")) {
      EXPECT_NE(answer["question"]["asks"], asked);
    }
    after.push_back(answer["apply"]);
  }
  EXPECT_NE(after[0], after[1]);
  const Json frame = page(R"({"do":"frame"})");
  const Json point = frame["points"][0]["name"];
  const auto told = [&](bool accepted) {
    return page(Json{{"do", "explain"},
                     {"observed", Json::array({{{"point", point}, {"accepted", accepted}}})}});
  };
  const Json refused = told(false);
  ASSERT_EQ(refused["ok"], true) << refused.dump();
  EXPECT_NE(refused["apply"], told(true)["apply"]);
  expect_faults(page(R"({"do":"explain","answers":["probe-lef"]})"));
  expect_faults(page(R"({"do":"explain","observed":[{"point":"grid 77,1"}]})"));
  expect_faults(page(R"({"do":"explain","observed":[5]})"));
  expect_faults(page(R"({"do":"explain","observed":{}})"));
}

TEST(PageSession, AProfileThatIsNotThereIsNamed) {
  Page page;
  const std::string setup = R"({"machine":"m.json","probe":{"offset":[1,2]}})";
  const Json answer = page(Json{{"do", "read"}, {"text", setup}});
  expect_faults(answer);
  EXPECT_EQ(answer["faults"][0]["pointer"], "/machine");
  const std::string machine =
      R"({"format":"leeway-machine-1","bed":{"rectangle":{"x":[0,9],"y":[0,9]}},)"
      R"("travel":{"rectangle":{"x":[0,9],"y":[0,9]}}})";
  const Json files{{"somewhere/m.json", machine}};
  EXPECT_EQ(page(Json{{"do", "read"}, {"text", setup}, {"files", files}})["ok"], true);
}

TEST(PageSession, TheMostPointsStillFrame) {
  Page page;
  read_example(page, "godwit-all-well");
  const Json frame =
      page(R"({"do":"frame","changes":{"/request/grid/columns":500,"/request/grid/rows":500}})");
  expect_faults(frame);  // home is one more
  const Json fewer =
      page(R"({"do":"frame","changes":{"/request/grid/columns":499,"/request/grid/rows":500}})");
  ASSERT_EQ(fewer["ok"], true) << fewer.dump().substr(0, 300);
  EXPECT_LT(fewer["points"].size(), 200u);
}

TEST(SetupJson, GivesTheSameSetupAgain) {
  for (std::uint64_t seed = 0; seed < 300; ++seed) {
    const leeway::Setup setup = judges::random_setup(seed);
    SourceFile source;
    source.text = setup_json(setup);
    const ReadSetup read = read_setup(source, {});
    ASSERT_TRUE(read.setup) << seed << message(read.faults.front());
    EXPECT_TRUE(*read.setup == setup) << seed << source.text << setup_json(*read.setup);
  }
}

}  // namespace
}  // namespace leeway
