#include "formats/text/spelling.h"

#include <gtest/gtest.h>

namespace leeway {
namespace {

// The first three are the textbook example of Levenshtein's distance (from memory); the last the
// one that tells the restricted distance from the full one of Damerau (3 and 2; from memory).
TEST(EditDistance, AgreesWithTheUsualExamples) {
  EXPECT_EQ(edit_distance("kitten", "sitting"), 3u);
  EXPECT_EQ(edit_distance("flaw", "lawn"), 2u);
  EXPECT_EQ(edit_distance("", "abc"), 3u);
  EXPECT_EQ(edit_distance("ca", "abc"), 3u);
}

TEST(EditDistance, CountsAnExchangeOfNeighboursOnce) {
  EXPECT_EQ(edit_distance("hieght", "height"), 1u);
  EXPECT_EQ(edit_distance("nmae", "name"), 1u);
}

TEST(EditDistance, IsTheSameBothWaysAndZeroForEqualWords) {
  EXPECT_EQ(edit_distance("margins", "margin"), edit_distance("margin", "margins"));
  EXPECT_EQ(edit_distance("margins", "margins"), 0u);
}

const WordList kWords = {"offset", "offset_uncertainty", "spot", "edge_distance", "body", "x"};

TEST(NearestWord, FindsMisspeltWords) {
  EXPECT_EQ(nearest_word("ofset", kWords), "offset");
  EXPECT_EQ(nearest_word("spt", kWords), "spot");
  EXPECT_EQ(nearest_word("offset_uncertanity", kWords), "offset_uncertainty");
}

TEST(NearestWord, TakesCapitalsHyphensAndBlanksForWhatTheyMean) {
  EXPECT_EQ(nearest_word("Offset", kWords), "offset");
  EXPECT_EQ(nearest_word("edge-distance", kWords), "edge_distance");
  EXPECT_EQ(nearest_word("EDGE DISTANCE", kWords), "edge_distance");
}

TEST(NearestWord, FindsAWordByAPartThatOnlyItHas) {
  EXPECT_EQ(nearest_word("uncertainty", kWords), "offset_uncertainty");
  EXPECT_EQ(nearest_word("sensing_spot", kWords), "spot");
  EXPECT_EQ(nearest_word("height", {"trigger_height", "travel_height"}), "");
}

TEST(NearestWord, OffersNothingFarFetched) {
  EXPECT_EQ(nearest_word("colour", kWords), "");
  EXPECT_EQ(nearest_word("y", kWords), "");
  EXPECT_EQ(nearest_word("", kWords), "");
  EXPECT_EQ(nearest_word(std::string(100000, 'o'), kWords), "");
}

TEST(NearestWord, KnowsOurWordForOneThatWasGivenUp) {
  EXPECT_EQ(nearest_word("plate", {"name", "bed", "travel"}), "bed");
  EXPECT_EQ(nearest_word("--field", {"--format", "--map"}), "--map");
  EXPECT_EQ(nearest_word("fit.blind.left", {"fit.uncovered.left", "fit.uncovered.right"}),
            "fit.uncovered.left");
  EXPECT_EQ(nearest_word("plate", {"travel"}), "") << "ours must be among those allowed";
}

TEST(Spelling, KnowsDecimalCommas) {
  EXPECT_EQ(comma_hint("[-30,5, 0"), "a decimal comma? write -30.5");
  EXPECT_EQ(comma_hint("[0, -30,5"), "a decimal comma? write -30.5");
  EXPECT_EQ(comma_hint("-30,5,0"), "a decimal comma? write -30.5");
  EXPECT_EQ(comma_hint("233,5x207"), "a decimal comma? write 233.5");
  EXPECT_EQ(comma_hint("-38.5,12,0"), "") << "a third number, not a comma";
  EXPECT_EQ(comma_hint("[-38.5, 12, 0"), "");
  EXPECT_EQ(comma_hint(","), "");
  EXPECT_EQ(comma_hint(""), "");
}

TEST(Spelling, NamesOddDashesAndQuotes) {
  EXPECT_EQ(character_hint("\xE2\x88\x92"
                           "5"),
            "a dash that is not the minus sign");
  EXPECT_EQ(character_hint("\xE2\x80\x93"
                           "5"),
            "a dash that is not the minus sign");
  EXPECT_EQ(character_hint("\xE2\x80\x9Cx"), "a curly quote instead of a straight one");
  EXPECT_EQ(character_hint("-5 \"x\" h\xC3\xB6her"), "");
}

TEST(Spelling, AnswersNearWordsWithOurs) {
  EXPECT_EQ(nearest_word("plate", {"machine", "bed"}), "bed");
  EXPECT_EQ(nearest_word("Width", {"x", "y"}), "x");
  EXPECT_EQ(nearest_word("depth", {"x", "y"}), "y");
  EXPECT_EQ(nearest_word("dx", {"offset", "spot"}), "offset");
  EXPECT_EQ(nearest_word("dx", {"x", "y", "name"}), "x");
  EXPECT_EQ(nearest_word("--plate", {"--bed", "--travel"}), "--bed");
  EXPECT_EQ(nearest_word("--width", {"--bed", "--travel"}), "--bed");
  EXPECT_EQ(nearest_word("px", {"nozzle_x", "probe_x"}), "probe_x");
}

}  // namespace
}  // namespace leeway
