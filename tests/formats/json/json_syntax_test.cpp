// What is JSON and what is not: RFC 8259, typed by hand after the kinds of cases of the open
// JSONTestSuite (nst, 1ef36fa). Comments are allowed here, and byte order marks ignored.

#include <gtest/gtest.h>

#include <random>
#include <string>
#include <vector>

#include "formats/json/json_file.h"
#include "formats/json/json_tree.h"
#include "formats/json/json_walk.h"
#include "leeway/read_setup.h"

namespace leeway {
namespace {

bool parses(const std::string& text) {
  JsonTree tree;
  std::size_t stopped_at = 0;
  return parse_json(text, tree, stopped_at);
}

bool walks(const std::string& text) {
  const JsonWalk walk = walk_json(text);
  return !walk.stop && walk.not_finite.empty();
}

class IsJson : public testing::TestWithParam<std::string> {};
TEST_P(IsJson, AndIsTaken) {
  EXPECT_TRUE(parses(GetParam())) << GetParam();
  EXPECT_TRUE(walks(GetParam())) << GetParam();
}

INSTANTIATE_TEST_SUITE_P(
    Rfc8259, IsJson,
    testing::Values("[]", "{}", "[[]   ]", "[\"\"]", "[null, 1, \"1\", {}]", "[1\n]", " [1]",
                    "[ 4]", "[1,null,null,null,2]", "[2] ", "[123e65]", "[0e+1]", "[0e1]", "[-0]",
                    "[-1]", "[-0.5]", "[1E22]", "[1E-2]", "[1E+2]", "[1e-2]", "[123.456e78]",
                    "[0.000000000000000000000000000000000000000000000000000001]", "{\"a\":\"b\"}",
                    "{\"\":0}", "{\"a\":[]}", "{\"a\":1,\"a\":2}", "{\"foo\\u0000bar\": 42}",
                    "[\"\\u0060\\u012a\\u12AB\"]", "[\"\\uD801\\udc37\"]",
                    "[\"\\\"\\\\\\/\\b\\f\\n\\r\\t\"]", "[\"\\\\u0000\"]", "[\"a/*b*/c/*d//e\"]",
                    "[\"new\\u00A0line\"]", "[\"\xE2\x82\xAC\xF0\x9D\x84\x9E\"]", "[\"\x7F\"]",
                    "\"alone\"", "null", "true", "false", "42", "-0.1", "\t[]\r\n",
                    "\xEF\xBB\xBF[]", "[1, // to be measured\n2]", "/* both */[/**/]//", "//\n{}",
                    "[1/***/]", "[1]/* a * b / c **/"));

class IsNotJson : public testing::TestWithParam<std::string> {};
TEST_P(IsNotJson, AndTheReasonIsToldWithItsPlace) {
  EXPECT_FALSE(parses(GetParam())) << GetParam();
  const JsonWalk walk = walk_json(GetParam());
  ASSERT_TRUE(walk.stop || !walk.not_finite.empty()) << GetParam();
  if (!walk.stop) return;
  EXPECT_LE(walk.stop->at, GetParam().size());
  EXPECT_NE(walk.stop->found, "");
  EXPECT_NE(walk.stop->allowed, "");
}

INSTANTIATE_TEST_SUITE_P(
    Rfc8259, IsNotJson,
    testing::Values("", " ", "[1 true]", "[a]", "[\"\": 1]", "[\"\"],", "[,1]", "[1,,2]",
                    "[\"x\",,]", "[\"x\"]]", "[\"\",]", "[\"x\"", "[x", "[3[4]]", "[1,]", "[,]",
                    "[-]", "[   , \"\"]", "[\"a\",\n4\n,1,", "[\"\va\"\\f]", "[*]", "[1,\n1\n,1",
                    "[{}", "[nul]", "[tru]", "[True]", "[nulll]", "[++1234]", "[+1]", "[-01]",
                    "[-1.0.]", "[-2.]", "[.-1]", "[.2e-3]", "[0.1.2]", "[0.3e+]", "[0.3e]",
                    "[0.e1]", "[0E+]", "[0E]", "[0e]", "[1.0e+]", "[1.0e-]", "[1.0e]", "[1 000.0]",
                    "[1eE2]", "[2.e+3]", "[2.e3]", "[9.e+]", "[1+2]", "[0x1]", "[0x42]", "[012]",
                    "[1.]", "[1e]", "[- 1]", "[-012]", "[NaN]", "[-NaN]", "[Infinity]", "[+Inf]",
                    "[-Infinity]", "[1e999]", "[-1e400]", "[\"x\", truth]", "{[: \"x\"}",
                    "{\"x\", null}", "{\"x\"::\"b\"}", "{\"a\":\"a\" 123}", "{key: 'value'}",
                    "{\"a\" b}", "{:\"b\"}", "{\"a\"", "{\"a\":", "{\"a\" \"b\"}", "{1:1}",
                    "{9999E9999:1}", "{null:null}", "{\"id\":0,,,,,}", "{'a':0}", "{\"id\":0,}",
                    "{\"a\":\"b\",,\"c\":\"d\"}", "{true: false}", "{\"a\":1", "{\"a\":1}}",
                    "[\"\\uD800\\\"]", "[\"\\uD800\\u\"]", "[\"\\uD800\\u1\"]",
                    "[\"\\uD800\\u1x\"]", "[\"\\uD800\"]", "[\"\\uDC00\"]", "[\"\\uD800\\uD800\"]",
                    "[\"\\u00A\"]", "[\"\\u\"]", "[\"\\x00\"]", "[\"\\a\"]", "[\"\\", "[\"\\{[\"\\",
                    "[\"\t\"]", "[\"\x1F\"]", "[\"new\nline\"]", "['single']", "\"\\", "\"", "'",
                    "\\u0020\"asd\"", "[\\n]", "[1]x", "[1]]", "{}}", "[][]", "{}{}", "1]", "<.>",
                    "<null>", "[", "{", "[\"a", "[{", "[{\"\":", "{]", "{,", "{[", "{\"a", "]", "}",
                    "[/", "[/*", "{}/*", "[1]/", "[1]/x", "#", "{\"a\":/*comment*/", "*", "@",
                    "abc", "aNull", "2@", "\xE2\x81\xA0[]", "[\xC2\xA0]", "[1,\f2]", "; []"));

// Zero bytes end the text for the parser, so that the file's check has to find them.
TEST(JsonFile, RefusesZeroBytes) {
  for (const std::string& text : {std::string("{}\0{}", 5), std::string("\0{}", 3),
                                  std::string("{}\0", 3), std::string("{\"a\":\"\0\"}", 9)}) {
    JsonFile file({"f", "f", text, {}});
    EXPECT_FALSE(file.root());
    ASSERT_EQ(file.faults().size(), 1u);
    EXPECT_EQ(file.faults()[0].code, "not-utf8");
  }
}

std::string nested(int depth) {
  return std::string(static_cast<std::size_t>(depth), '[') +
         std::string(static_cast<std::size_t>(depth), ']');
}

TEST(JsonFile, TakesNestingUpToItsLimit) {
  JsonFile most({"f", "f", nested(kDeepestNesting), {}});
  EXPECT_TRUE(most.root());
  JsonFile deeper({"f", "f", nested(kDeepestNesting + 1), {}});
  ASSERT_EQ(deeper.faults().size(), 1u);
  EXPECT_EQ(deeper.faults()[0].code, "nested-too-deep");
  EXPECT_EQ(deeper.faults()[0].column, kDeepestNesting + 1);
}

// JSONTestSuite: n_structure_100000_opening_arrays, n_structure_open_array_object.
TEST(JsonFile, SurvivesAHundredThousandOpeningBrackets) {
  std::string objects;
  for (int i = 0; i < 50000; ++i) objects += "[{\"\":";
  for (const std::string& text : {std::string(100000, '['), objects, std::string(100000, '{')}) {
    JsonFile file({"f", "f", text, {}});
    EXPECT_FALSE(file.root());
    EXPECT_EQ(file.faults().size(), 1u);
  }
}

TEST(JsonFile, TellsTheFirstThousandOfVeryManyFaultsAndCountsTheRest) {
  std::string text = "[NaN";
  for (int i = 1; i < 1500; ++i) text += ",NaN";
  JsonFile file({"f", "f", text + "]", {}});
  EXPECT_TRUE(file.root());
  const std::vector<Fault> faults = file.faults();
  ASSERT_EQ(faults.size(), FaultNotes::kMost + 1);
  EXPECT_EQ(faults[999].pointer, "/999");
  EXPECT_EQ(faults.back().code, "more-faults");
  EXPECT_EQ(faults.back().found, "500 further faults");
}

// The parser decides, the walk explains: they have to agree on every text.
TEST(JsonWalk, AgreesWithTheParserOnRandomTexts) {
  const std::vector<std::string> pieces = {
      "{",       "}",       "[",   "]", ",",        ":",     "\"a\"", "\"",  "\\",
      "\\u00e9", "\\ud800", "1",   "-", "0",        ".5",    "e",     "E+",  "1.5e3",
      "true",    "null",    "nul", " ", "\n",       "//",    "/*",    "*/",  "/",
      "x",       "'",       "\t",  "+", "\xC3\xA4", "1e999", "NaN",   "\x01"};
  std::mt19937 random(8259);
  int taken = 0;
  for (int round = 0; round < 200000; ++round) {
    std::string text;
    for (std::size_t n = 1 + random() % 9; n > 0; --n) text += pieces[random() % pieces.size()];
    const bool json = parses(text);
    ASSERT_EQ(walks(text), json) << text;
    taken += json ? 1 : 0;
  }
  EXPECT_GT(taken, 1000);
}

}  // namespace
}  // namespace leeway
