#include "tasks/walk/short_order.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

namespace leeway {
namespace {

double length(const std::vector<Point>& places, const std::vector<std::size_t>& order,
              const std::optional<Point>& start) {
  double sum = 0;
  std::optional<Point> at = start;
  for (const std::size_t i : order) {
    if (at) sum += std::hypot(places[i].x - at->x, places[i].y - at->y);
    at = places[i];
  }
  return sum;
}

bool holds_each_once(std::vector<std::size_t> order, std::size_t count) {
  std::sort(order.begin(), order.end());
  for (std::size_t i = 0; i < order.size(); ++i) {
    if (order[i] != i) return false;
  }
  return order.size() == count;
}

TEST(ShortOrder, OfNothingAndOfOne) {
  EXPECT_TRUE(short_order({}, std::nullopt).empty());
  EXPECT_TRUE(short_order({}, Point{1, 2}).empty());
  EXPECT_EQ(short_order({{3, 4}}, std::nullopt), std::vector<std::size_t>{0});
}

TEST(ShortOrder, OfARowIsAlongIt) {
  const std::vector<Point> places{{30, 0}, {0, 0}, {20, 0}, {10, 0}};
  EXPECT_DOUBLE_EQ(length(places, short_order(places, std::nullopt), std::nullopt), 30);
  EXPECT_EQ(short_order(places, Point{-5, 0}), (std::vector<std::size_t>{1, 3, 2, 0}));
}

// n places on a grid of step s cannot be gone over in less than (n - 1) s.
TEST(ShortOrder, OfAShuffledGridIsNearTheLeast) {
  std::vector<Point> places;
  for (int i = 0; i < 25; ++i) places.push_back({10.0 * (i % 5), 10.0 * (i / 5)});
  std::mt19937 random(7);
  for (int run = 0; run < 50; ++run) {
    std::shuffle(places.begin(), places.end(), random);
    const std::vector<std::size_t> order = short_order(places, std::nullopt);
    ASSERT_TRUE(holds_each_once(order, places.size()));
    EXPECT_LE(length(places, order, std::nullopt), 1.25 * 240);
  }
}

TEST(ShortOrder, IsNeverLongerThanAsGivenNorMuchLongerThanTheShortest) {
  std::mt19937 random(11);
  std::uniform_real_distribution<double> anywhere(0, 200);
  double worst = 1;
  for (int run = 0; run < 300; ++run) {
    std::vector<Point> places(static_cast<std::size_t>(1 + run % 7));
    for (Point& p : places) p = {anywhere(random), anywhere(random)};
    const std::optional<Point> start =
        run % 2 == 0 ? std::nullopt : std::optional(Point{anywhere(random), anywhere(random)});
    const std::vector<std::size_t> order = short_order(places, start);
    ASSERT_TRUE(holds_each_once(order, places.size()));
    std::vector<std::size_t> each(places.size());
    for (std::size_t i = 0; i < each.size(); ++i) each[i] = i;
    const double found = length(places, order, start);
    EXPECT_LE(found, length(places, each, start) + 1e-9);
    double least = found;
    do {
      least = std::min(least, length(places, each, start));
    } while (std::next_permutation(each.begin(), each.end()));
    if (least > 0) worst = std::max(worst, found / least);
  }
  EXPECT_LT(worst, 1.35);
}

}  // namespace
}  // namespace leeway
