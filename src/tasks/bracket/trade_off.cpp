#include "tasks/bracket/trade_off.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <tuple>

#include "model/limits/ticks.h"
#include "tasks/go_on.h"

namespace leeway {
namespace {

constexpr double kDemandStep_mm = 0.1;
constexpr double kFinestSquare_mm = 0.15;
// What is less than this better is not looked for any more: half of what is printed of a share.
constexpr double kShareStep = 0.0005;
// Where the curve is a whole area of equals, some of it will do.
constexpr std::size_t kMostSquares = 6000;

// For each leeway demanded the best offset so far with at least that.
class BestSoFar {
 public:
  explicit BestSoFar(double most_leeway)
      : most_leeway_(most_leeway),
        best_(static_cast<std::size_t>(std::floor(most_leeway / kDemandStep_mm + 1e-9)) + 1) {}

  std::size_t size() const { return best_.size(); }
  const BracketTrade& at(std::size_t demand) const { return best_[demand]; }

  void take(const BracketTrade& trade) {
    for (std::size_t i = index(trade.leeway) + 1; i-- > 0;) {
      if (best_[i].coverage >= trade.coverage) return;
      best_[i] = trade;
    }
  }

  // The best known at the greatest whole demand below; it may have less leeway than that.
  const BracketTrade& with(double leeway) const { return best_[index(leeway)]; }

  // How much an offset of that leeway and share would be better by, at the least demand it meets
  // alone.
  double gain(double leeway, double share) const { return share - best_[index(leeway)].coverage; }

 private:
  std::size_t index(double leeway) const {
    const double most = std::clamp(leeway, 0.0, most_leeway_);
    return std::min(best_.size() - 1,
                    static_cast<std::size_t>(std::floor(most / kDemandStep_mm + 1e-9)));
  }

  double most_leeway_;
  std::vector<BracketTrade> best_;
};

// A square of offsets: column and row of its centre on the lattice of its size.
struct Square {
  long row = 0;
  long column = 0;
  double most_leeway = 0;
  double most_share = 1;

  friend bool operator<(const Square& a, const Square& b) {
    return std::tuple(a.row, a.column) < std::tuple(b.row, b.column);
  }
};

class TradeSearch {
 public:
  TradeSearch(const BracketProblem& problem, const std::vector<OffsetCover>& covers,
              const Box& bounds, Point middle, const Progress& progress)
      : problem_(problem),
        covers_(covers),
        corner_{bounds.x0, bounds.y0},
        width_(bounds.width()),
        depth_(bounds.depth()),
        middle_(trade(middle)),
        progress_(progress),
        best_(middle_.leeway) {
    for (const OffsetCover& cover : covers_) {
      change_ = std::max(change_, cover.most_change().x + cover.most_change().y);
    }
    best_.take(middle_);
    look_for_places();
  }

  std::vector<BracketTrade> curve() const {
    std::vector<BracketTrade> curve{tidy(middle_.leeway, middle_, middle_)};
    for (std::size_t demand = best_.size(); demand-- > 0;) {
      go_on(progress_);
      const double wanted = rounded_to_ticks(static_cast<double>(demand) * kDemandStep_mm);
      const BracketTrade next = tidy(wanted, best_.at(demand), curve.back());
      // What covers no more than an offset with more leeway is no choice.
      if (next.coverage <= curve.back().coverage + 1e-9) continue;
      while (!curve.empty() && curve.back().leeway <= next.leeway) curve.pop_back();
      curve.push_back(next);
    }
    std::reverse(curve.begin(), curve.end());
    return curve;
  }

  // With at least that leeway; nothing where no offset has it.
  std::optional<BracketTrade> best(double wanted, const std::vector<BracketTrade>& curve) const {
    const std::optional<BracketTrade> sure = first_with(wanted, curve);
    return sure ? tidy(wanted, best_.with(wanted), *sure) : sure;
  }

  static std::optional<BracketTrade> first_with(double wanted,
                                                const std::vector<BracketTrade>& curve) {
    const auto found = std::find_if(curve.begin(), curve.end(),
                                    [&](const BracketTrade& t) { return t.leeway >= wanted; });
    if (found == curve.end()) return std::nullopt;
    return *found;
  }

 private:
  BracketTrade trade(Point offset) const {
    return {offset, problem_.leeway(offset), common_share(covers_, offset)};
  }

  void row(const Steps& xs, double y, std::vector<double>& shares) const {
    shares.assign(static_cast<std::size_t>(xs.count), 1.0);
    std::vector<double> one(shares.size());
    for (const OffsetCover& cover : covers_) {
      cover.row(xs, y, one);
      for (std::size_t i = 0; i < one.size(); ++i) shares[i] = std::min(shares[i], one[i]);
    }
  }

  // Squares that could hold something better, by what leeway and share change at most in one
  // (branch and bound): whatever is left out is better by less than kShareStep.
  void look_for_places() {
    double size = std::max({width_, depth_, kFinestSquare_mm}) / 40;
    std::vector<Square> squares;
    for (long row = 0; static_cast<double>(row) * size < depth_ || row == 0; ++row) {
      for (long column = 0; static_cast<double>(column) * size < width_ || column == 0; ++column) {
        squares.push_back({row, column, middle_.leeway});
      }
    }
    for (; !squares.empty(); size /= 2) {
      squares = worth_halving(std::move(squares), size);
      if (size <= kFinestSquare_mm) return;
      std::vector<Square> quarters;
      for (const Square& s : squares) {
        for (const auto& [up, right] : {std::array{0L, 0L}, {0L, 1L}, {1L, 0L}, {1L, 1L}}) {
          quarters.push_back({2 * s.row + up, 2 * s.column + right, s.most_leeway, s.most_share});
        }
      }
      squares = std::move(quarters);
    }
  }

  std::vector<Square> worth_halving(std::vector<Square> squares, double size) {
    std::sort(squares.begin(), squares.end());
    std::vector<Square> left;
    std::vector<double> shares;
    for (std::size_t from = 0; from < squares.size();) {
      go_on(progress_);
      std::size_t to = from;
      while (to < squares.size() && squares[to].row == squares[from].row) ++to;
      const long first = squares[from].column;
      const long last = squares[to - 1].column;
      const auto x_of = [&](long column) {
        return corner_.x + (static_cast<double>(column) + 0.5) * size;
      };
      const double y = corner_.y + (static_cast<double>(squares[from].row) + 0.5) * size;
      row({x_of(first), x_of(last), static_cast<int>(last - first) + 1}, y, shares);
      for (; from < to; ++from) {
        Square& square = squares[from];
        const double share = shares[static_cast<std::size_t>(square.column - first)];
        square.most_share = std::min(square.most_share, share + change_ * size / 2);
        if (best_.gain(square.most_leeway, square.most_share) < kShareStep) continue;
        const Point centre{x_of(square.column), y};
        const double leeway = problem_.leeway(centre);
        if (leeway >= 0) best_.take({centre, leeway, share});
        square.most_leeway = std::min(square.most_leeway, leeway + size * std::sqrt(0.5));
        if (square.most_leeway >= 0) left.push_back(square);
      }
    }
    return most_promising(std::move(left));
  }

  std::vector<Square> most_promising(std::vector<Square> squares) const {
    const auto gain = [this](const Square& s) { return best_.gain(s.most_leeway, s.most_share); };
    const auto end = std::remove_if(squares.begin(), squares.end(),
                                    [&](const Square& s) { return gain(s) < kShareStep; });
    squares.erase(end, squares.end());
    if (squares.size() > kMostSquares) {
      std::sort(squares.begin(), squares.end(), [&](const Square& a, const Square& b) {
        return std::tuple(-gain(a), a.row, a.column) < std::tuple(-gain(b), b.row, b.column);
      });
      squares.resize(kMostSquares);
    }
    return squares;
  }

  // The best in hundredths of a millimetre around a place, with at least that leeway and verified;
  // `sure` where there is none better.
  BracketTrade tidy(double wanted, const BracketTrade& place, const BracketTrade& sure) const {
    BracketTrade best = sure;
    Point centre = place.coverage > sure.coverage ? place.offset : sure.offset;
    // The middle may lie far along a ridge of equals; other places are near already.
    const bool far = wanted == middle_.leeway;
    for (const double step : {1.0, 0.2, 0.05, 0.02, 0.01}) {
      if (step > 0.1 && !far) continue;
      constexpr int kMostMoves = 12;
      for (int move = 0; move < kMostMoves && better_around(centre, step, wanted, best); ++move) {
        centre = best.offset;
      }
    }
    return best;
  }

  bool better_around(Point centre, double step, double wanted, BracketTrade& best) const {
    const auto hundredths = [](double mm) { return std::round(mm * 100) / 100; };
    const Point middle{hundredths(centre.x), hundredths(centre.y)};
    std::vector<BracketTrade> around;
    std::vector<double> shares;
    for (const int up : {-1, 0, 1}) {
      const double y = rounded_to_ticks(middle.y + up * step);
      row({middle.x - step, middle.x + step, 3}, y, shares);
      for (const int right : {-1, 0, 1}) {
        const double share = shares[static_cast<std::size_t>(right + 1)];
        if (share <= best.coverage + 1e-9) continue;
        around.push_back({{rounded_to_ticks(middle.x + right * step), y}, 0, share});
      }
    }
    std::stable_sort(
        around.begin(), around.end(),
        [](const BracketTrade& a, const BracketTrade& b) { return a.coverage > b.coverage; });
    for (BracketTrade& one : around) {
      one.leeway = problem_.leeway(one.offset);
      if (one.leeway < wanted || !problem_.works(one.offset)) continue;
      best = one;
      return true;
    }
    return false;
  }

  const BracketProblem& problem_;
  const std::vector<OffsetCover>& covers_;
  Point corner_;
  double width_;
  double depth_;
  BracketTrade middle_;
  const Progress& progress_;
  BestSoFar best_;
  double change_ = 0;  // of the share, for a millimetre in x and one in y
};

}  // namespace

double common_share(const std::vector<OffsetCover>& covers, Point offset) {
  double least = 1;
  for (const OffsetCover& cover : covers) {
    double share = 0;
    cover.row({offset.x, offset.x, 1}, offset.y, {&share, 1});
    least = std::min(least, share);
  }
  return least;
}

Trades trade_off(const BracketProblem& problem, const std::vector<OffsetCover>& covers,
                 const Box& bounds, Point middle, const BracketOptions& options) {
  const TradeSearch search(problem, covers, bounds, middle, options.progress);
  Trades trades{search.curve(), std::nullopt};
  if (options.leeway) trades.wanted = search.best(*options.leeway, trades.curve);
  return trades;
}

Trades trade_off_along(const BracketProblem& problem, const std::vector<OffsetCover>& covers,
                       const std::vector<Point>& offsets, const BracketOptions& options) {
  std::vector<BracketTrade> all;
  for (const Point offset : offsets) {
    all.push_back({offset, problem.leeway(offset), common_share(covers, offset)});
  }
  std::stable_sort(all.begin(), all.end(), [](const BracketTrade& a, const BracketTrade& b) {
    return std::tuple(-a.leeway, -a.coverage) < std::tuple(-b.leeway, -b.coverage);
  });
  Trades trades;
  for (const BracketTrade& one : all) {
    const bool better = trades.curve.empty() || one.coverage > trades.curve.back().coverage + 1e-9;
    if (better) trades.curve.push_back(one);
  }
  std::reverse(trades.curve.begin(), trades.curve.end());
  if (options.leeway) trades.wanted = TradeSearch::first_with(*options.leeway, trades.curve);
  return trades;
}

std::size_t knee_of(const std::vector<BracketTrade>& curve) {
  std::size_t knee = 0;
  if (curve.size() < 3) return knee;
  const BracketTrade& first = curve.front();
  const BracketTrade& last = curve.back();
  // Less than this is a straight line to the eye.
  double most = 0.05;
  for (std::size_t i = 1; i + 1 < curve.size(); ++i) {
    const double gained = (curve[i].leeway - first.leeway) / (last.leeway - first.leeway);
    const double paid = (first.coverage - curve[i].coverage) / (first.coverage - last.coverage);
    if (gained - paid <= most) continue;
    most = gained - paid;
    knee = i;
  }
  return knee;
}

}  // namespace leeway
