#include "tasks/bracket/most_reached.h"

#include <algorithm>
#include <cmath>

#include "geometry/areas/pole.h"
#include "geometry/plane/polygons.h"
#include "geometry/plane/vector.h"
#include "tasks/bracket/tidy_offset.h"
#include "tasks/go_on.h"

namespace leeway {
namespace {

// About a second: how often a point may be asked.
constexpr std::size_t kMostAsked = 4'000'000;
constexpr double kSmallestHalf_mm = 0.0005;
constexpr double kMostLeewayWithin_mm = 0.05;

using Indices = std::vector<std::uint32_t>;

// Offsets, and the points that some of them may reach.
struct OffsetSquare {
  Point middle;
  double half = 0;  // side
  Indices alive;
};

// What may reach most goes first, then what is small: so a place that does is soon found. The order
// is total, as two C++ libraries differ in what is equal.
struct GoesLater {
  bool operator()(const OffsetSquare& a, const OffsetSquare& b) const {
    if (a.alive.size() != b.alive.size()) return a.alive.size() < b.alive.size();
    if (a.half != b.half) return a.half > b.half;
    if (a.middle.x != b.middle.x) return a.middle.x > b.middle.x;
    return a.middle.y > b.middle.y;
  }
};

class DepthSearch {
 public:
  DepthSearch(const BracketProblem& problem, const Progress& progress)
      : problem_(problem), progress_(progress) {}

  void run() {
    const Box box = around();
    Indices all;
    for (std::uint32_t i = 0; i < problem_.within_reach().size(); ++i) all.push_back(i);
    look({(box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2}, std::max(box.width(), box.depth()) / 2,
         all);
    while (!squares_.empty() && squares_.front().alive.size() > reached_) {
      if (asked_ > kMostAsked) {
        at_most_ = std::max(at_most_, squares_.front().alive.size());
        break;
      }
      std::pop_heap(squares_.begin(), squares_.end(), GoesLater());
      const OffsetSquare square = std::move(squares_.back());
      squares_.pop_back();
      square.half < kSmallestHalf_mm ? finish(square) : quarter(square);
    }
    at_most_ = std::max(at_most_, reached_);
  }

  std::size_t reached() const { return reached_; }
  std::size_t at_most() const { return at_most_; }

  // Of the offsets that reach as many, the one with most leeway.
  Point roomiest() {
    Ring corners{place_};
    Indices points;
    for (const OffsetSquare& square : squares_) {
      if (square.alive.size() < reached_) continue;
      corners.push_back(square.middle - Point{square.half, square.half});
      corners.push_back(square.middle + Point{square.half, square.half});
      points.insert(points.end(), square.alive.begin(), square.alive.end());
    }
    std::sort(points.begin(), points.end());
    points.erase(std::unique(points.begin(), points.end()), points.end());
    if (points.size() < reached_) return place_;
    const auto leeway = [&](Point offset) { return leeway_of(points, offset); };
    const Pole pole = greatest_over(bounding_box(corners), leeway, kMostLeewayWithin_mm);
    return pole.distance > leeway(place_) ? pole.at : place_;
  }

 private:
  // No offset outside reaches any point.
  Box around() const {
    Ring corners;
    for (const BracketPoint& point : problem_.within_reach()) {
      const Box travel = bounding_box(problem_.setups()[point.setup].machine.travel);
      corners.push_back(point.probe - Point{travel.x0, travel.y0});
      corners.push_back(point.probe - Point{travel.x1, travel.y1});
    }
    return bounding_box(corners);
  }

  void look(Point middle, double half, const Indices& points) {
    go_on(progress_);
    // Leeways are rounded to 1e-6.
    const double reach = half > 0 ? half * std::sqrt(2.0) + 2e-6 : 0;
    const double mounts = problem_.slack_of_mounts(middle);
    if (mounts < -reach) return;
    Indices alive;
    std::size_t reached = 0;
    asked_ += points.size();
    for (const std::uint32_t point : points) {
      const double slack = problem_.slack_of(point, middle);
      if (slack >= -reach) alive.push_back(point);
      if (slack >= 0 && mounts >= 0) ++reached;
    }
    if (reached > reached_) {
      reached_ = reached;
      place_ = middle;
    }
    if (half == 0 || alive.size() < std::max<std::size_t>(reached_, 1)) return;
    squares_.push_back({middle, half, std::move(alive)});
    std::push_heap(squares_.begin(), squares_.end(), GoesLater());
  }

  void quarter(const OffsetSquare& square) {
    const double half = square.half / 2;
    for (const double dx : {-half, half}) {
      for (const double dy : {-half, half}) look(square.middle + Point{dx, dy}, half, square.alive);
    }
  }

  // Where windows only touch, they do so at the decimals that somebody entered.
  void finish(const OffsetSquare& square) {
    constexpr double kStep = 0.001;
    const auto first = [&](double at) { return std::ceil((at - square.half) / kStep); };
    const auto last = [&](double at) { return std::floor((at + square.half) / kStep); };
    for (double i = first(square.middle.x); i <= last(square.middle.x); ++i) {
      for (double k = first(square.middle.y); k <= last(square.middle.y); ++k) {
        look(rounded_to_ticks(Point{i * kStep, k * kStep}), 0, square.alive);
      }
    }
    if (square.alive.size() > reached_) at_most_ = std::max(at_most_, square.alive.size());
  }

  // How far the offset may move until it reaches fewer than `reached_`.
  double leeway_of(const Indices& points, Point offset) const {
    go_on(progress_);
    std::vector<double> slacks;
    for (const std::uint32_t point : points) slacks.push_back(problem_.slack_of(point, offset));
    const auto nth = slacks.begin() + static_cast<std::ptrdiff_t>(reached_ - 1);
    std::nth_element(slacks.begin(), nth, slacks.end(), std::greater<>());
    return std::min(*nth, problem_.slack_of_mounts(offset));
  }

  const BracketProblem& problem_;
  const Progress& progress_;
  std::vector<OffsetSquare> squares_;  // a heap
  std::size_t asked_ = 0;
  std::size_t reached_ = 0;
  std::size_t at_most_ = 0;
  Point place_;
};

// Of the points that it does not miss.
double leeway_with(const BracketProblem& problem, Point offset,
                   const std::vector<std::size_t>& missed) {
  double least = problem.slack_of_mounts(offset);
  for (std::size_t i = 0; i < problem.within_reach().size(); ++i) {
    if (std::binary_search(missed.begin(), missed.end(), i)) continue;
    least = std::min(least, problem.slack_of(i, offset));
  }
  return least;
}

}  // namespace

std::optional<MostReached> most_reached(const BracketProblem& problem, const Progress& progress) {
  DepthSearch search(problem, progress);
  search.run();
  if (search.reached() == 0) return std::nullopt;
  const std::size_t left = problem.within_reach().size() - search.reached();
  const Point place = search.roomiest();
  const auto nearer = [&](Point a, Point b) { return distance(a, place) < distance(b, place); };
  const auto will_do = [&](Point offset) {
    return problem.slack_of_mounts(offset) >= 0 && problem.missed(offset).size() <= left;
  };
  MostReached most;
  most.offset = tidy_offset(place, nearer, will_do).value_or(rounded_to_ticks(place));
  most.missed = problem.missed(most.offset);
  std::sort(most.missed.begin(), most.missed.end());
  most.at_most = search.at_most();
  most.leeway = leeway_with(problem, most.offset, most.missed);
  return most;
}

}  // namespace leeway
