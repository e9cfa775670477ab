#include "leeway/fault.h"

#include <gtest/gtest.h>

#include "formats/json/json_file.h"

namespace leeway {
namespace {

Fault sample() {
  return {"unknown-key",  "godwit.json", "/probe/ofset", 12, 15, "the unknown key \"ofset\"",
          "offset, spot", "offset"};
}

TEST(Message, SaysEverythingOnOneLine) {
  EXPECT_EQ(message(sample()),
            "godwit.json:12:15: /probe/ofset: found the unknown key \"ofset\"; allowed: offset, "
            "spot; did you mean \"offset\"?");
}

TEST(Message, LeavesOutWhatThereIsNot) {
  Fault fault;
  fault.file = "godwit.json";
  fault.found = "nothing";
  EXPECT_EQ(message(fault), "godwit.json: found nothing");
  fault.allowed = "something";
  fault.line = 1;
  fault.column = 2;
  EXPECT_EQ(message(fault), "godwit.json:1:2: found nothing; allowed: something");
}

TEST(Message, MovesNoCursorAndTurnsNoText) {
  Fault fault = sample();
  fault.file = "a\nb\x1B[31m.json";
  fault.pointer =
      "/\xE2\x80\xAE"
      "x";  // U+202E, which turns the direction of reading
  fault.found = "a\tb\r\x7F\xC2\x9B\xFF";
  const std::string line = message(fault);
  for (const char c : line) EXPECT_FALSE(static_cast<unsigned char>(c) < 0x20 || c == 0x7F);
  EXPECT_EQ(line.find("\xE2\x80\xAE"), std::string::npos);
  EXPECT_EQ(line.find('\xFF'), std::string::npos);
  EXPECT_EQ(line.find("\xC2\x9B"), std::string::npos);
}

std::string pointer_of(JsonValue value) {
  value.fault("test", "x", "y");
  return value.file().faults().back().pointer;
}

// RFC 6901, section 5.
TEST(Pointer, IsWrittenAsTheStandardWritesIt) {
  const std::string text =
      R"({"foo":["bar","baz"],"":0,"a/b":1,"c%d":2,"e^f":3,"g|h":4,"i\\j":5,"k\"l":6," ":7,"m~n":8})";
  const std::vector<std::string> expected = {"/foo", "/",     "/a~1b", "/c%d", "/e^f",
                                             "/g|h", "/i\\j", "/k\"l", "/ ",   "/m~0n"};
  JsonFile whole({"f", "f", text, {}});
  EXPECT_EQ(pointer_of(*whole.root()), "");
  for (std::size_t i = 0; i < expected.size(); ++i) {
    JsonFile file({"f", "f", text, {}});
    EXPECT_EQ(pointer_of(file.root()->children().at(i)), expected[i]);
  }
  JsonFile file({"f", "f", text, {}});
  EXPECT_EQ(pointer_of(file.root()->children().at(0).children().at(0)), "/foo/0");
}

// RFC 6901, section 3: "~01" stands for "~1".
TEST(Pointer, EscapesTildeBeforeSlash) {
  JsonFile file({"f", "f", R"({"~1/": {"~0": 1}})", {}});
  EXPECT_EQ(pointer_of(file.root()->children().at(0).children().at(0)), "/~01~1/~00");
}

}  // namespace
}  // namespace leeway
