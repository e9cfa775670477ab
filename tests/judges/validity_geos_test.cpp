// The reader against GEOS on well-known text: both read the same random texts, and what one takes
// for a valid area the other must too.
//
// GEOS gets whole numbers, which are exact; ours reads them too, and tenths of them, which are not:
// what touches in decimals has to touch in binary.
//
// One difference is meant: GEOS, as the standard has it (OGC 06-103r4), refuses a polygon whose
// inside its holes cut in two by touching at points. To us that is an area like any other. GEOS
// gives that reason for some crossings as well, so that such texts cannot be compared.

#include <geos_c.h>
#include <gtest/gtest.h>

#include <iostream>
#include <map>
#include <random>
#include <regex>
#include <string>

#include "judges/geos.h"
#include "leeway/read_setup.h"

namespace leeway {
namespace {

constexpr unsigned kSeed = 161803;
constexpr int kTexts = 20000;

using Random = std::mt19937;

int below(Random& random, int limit) {
  return static_cast<int>(random() % static_cast<unsigned>(limit));
}

// Few places, so that touching, crossing and coinciding are common.
std::string place(Random& random, int from, int size) {
  return std::to_string(from + below(random, size));
}

// The text with every number, none above 99, divided by ten.
std::string in_tenths(const std::string& wkt) {
  return std::regex_replace(std::regex_replace(wkt, std::regex("([0-9]+)"), "0$1"),
                            std::regex("0*([0-9]+)([0-9])"), "$1.$2");
}

std::string ring(Random& random, int x, int y, int size) {
  const int kind = below(random, 3);
  if (kind == 0) {  // an upright rectangle
    const int w = 1 + below(random, size);
    const int h = 1 + below(random, size);
    const auto at = [](int u, int v) { return std::to_string(u) + " " + std::to_string(v); };
    return "(" + at(x, y) + ", " + at(x + w, y) + ", " + at(x + w, y + h) + ", " + at(x, y + h) +
           ", " + at(x, y) + ")";
  }
  const int vertices = kind == 1 ? 3 : 4 + below(random, 2);
  std::string text = "(";
  std::string first;
  for (int i = 0; i < vertices; ++i) {
    const std::string point = place(random, x, size) + " " + place(random, y, size);
    if (i == 0) first = point;
    text += point + ", ";
  }
  return text + first + ")";
}

std::string polygon(Random& random, int x, int y) {
  const bool large = below(random, 2) == 0;
  std::string text = "(";
  if (large) {
    const auto at = [&](int u, int v) {
      return std::to_string(x + u) + " " + std::to_string(y + v);
    };
    text += "(" + at(0, 0) + ", " + at(12, 0) + ", " + at(12, 12) + ", " + at(0, 12) + ", " +
            at(0, 0) + ")";
  } else {
    text += ring(random, x, y, 12);
  }
  for (int holes = below(random, 3); holes > 0; --holes) {
    text += ", " + ring(random, x + below(random, 9), y + below(random, 9), 4);
  }
  return text + ")";
}

std::string random_text(Random& random) {
  if (below(random, 2) == 0) return "POLYGON " + polygon(random, 0, 0);
  std::string text = "MULTIPOLYGON (" + polygon(random, 0, 0);
  for (int more = 1 + below(random, 2); more > 0; --more) {
    text += ", " + (below(random, 3) == 0
                        ? "(" + ring(random, below(random, 12), below(random, 12), 4) + ")"
                        : polygon(random, below(random, 16), below(random, 16)));
  }
  return text + ")";
}

bool valid_to_us(const std::string& wkt) {
  const std::string setup = "{\"machine\": {\"bed\": {\"wkt\": \"" + wkt +
                            "\"}, \"travel\": {\"rectangle\": {\"x\": [0, 1], \"y\": [0, 1]}}}, "
                            "\"probe\": {\"offset\": [0, 0]}}";
  const FileFinder none = [](std::string_view, std::string_view) { return SourceFile{}; };
  return read_setup({"setup", "setup", setup, {}}, none).setup.has_value();
}

// "Valid Geometry", or why not.
std::string reason_of_geos(const std::string& wkt) {
  const geos::Geometry geometry = geos::checked(GEOSGeomFromWKT_r(geos::context(), wkt.c_str()));
  char* reason = GEOSisValidReason_r(geos::context(), geometry.get());
  std::string text = reason;
  GEOSFree_r(geos::context(), reason);
  return text.substr(0, text.find('['));
}

TEST(Validity, OfRandomTextsIsWhatGeosSays) {
  Random random(kSeed);
  std::map<std::string, int> counts;
  for (int i = 0; i < kTexts; ++i) {
    const std::string wkt = random_text(random);
    const std::string reason = reason_of_geos(wkt);
    ++counts[reason];
    if (reason == "Interior is disconnected") continue;
    const bool valid = reason == "Valid Geometry";
    for (const std::string& text : {wkt, in_tenths(wkt)}) {
      ASSERT_EQ(valid_to_us(text), valid) << "text " << i << ": " << text << "\nGEOS: " << reason;
    }
  }
  // Every kind of fault has to occur often, or agreement on it means nothing.
  for (const auto& [reason, count] : counts) std::cout << reason << ": " << count << "\n";
  EXPECT_GT(counts["Valid Geometry"], kTexts / 20);
  EXPECT_GT(counts["Self-intersection"], kTexts / 20);
  EXPECT_GT(counts["Hole lies outside shell"], kTexts / 200);
  EXPECT_GT(counts["Nested shells"], kTexts / 200);
}

}  // namespace
}  // namespace leeway
