#include "geometry/areas/contour.h"

#include <array>
#include <unordered_map>

#include "geometry/plane/assert.h"

namespace leeway {
namespace {

// Crossings, each on a side of cells, named by the side; each joined to at most two others.
// (A side belongs to two cells, and each of them joins its crossing once.)
class Joints {
 public:
  struct Crossing {
    Point at;
    std::array<std::size_t, 2> next{};
    int count = 0;
    bool used = false;
  };

  void join(std::size_t a, Point at_a, std::size_t b, Point at_b) {
    add(a, at_a, b);
    add(b, at_b, a);
  }

  std::vector<std::vector<Point>> lines() {
    std::vector<std::vector<Point>> all;
    // Open lines from their ends, then what is closed; in the order of the lattice.
    for (const bool open : {true, false}) {
      for (const std::size_t side : order_) {
        Crossing& first = crossings_.at(side);
        if (first.used || (open && first.count == 2)) continue;
        all.push_back(follow(side));
      }
    }
    return all;
  }

 private:
  void add(std::size_t side, Point at, std::size_t other) {
    const auto [found, is_new] = crossings_.try_emplace(side);
    if (is_new) order_.push_back(side);
    Crossing& crossing = found->second;
    crossing.at = at;
    if (crossing.count < 2) crossing.next[static_cast<std::size_t>(crossing.count++)] = other;
  }

  std::vector<Point> follow(std::size_t side) {
    std::vector<Point> line;
    const std::size_t start = side;
    for (bool more = true; more;) {
      Crossing& crossing = crossings_.at(side);
      crossing.used = true;
      line.push_back(crossing.at);
      more = false;
      for (int i = 0; i < crossing.count; ++i) {
        const std::size_t next = crossing.next[static_cast<std::size_t>(i)];
        if (crossings_.at(next).used) continue;
        side = next;
        more = true;
        break;
      }
    }
    const Crossing& last = crossings_.at(side);
    const bool closes =
        line.size() > 2 && last.count == 2 && (last.next[0] == start || last.next[1] == start);
    if (closes) line.push_back(line.front());
    return line;
  }

  std::unordered_map<std::size_t, Crossing> crossings_;
  std::vector<std::size_t> order_;
};

}  // namespace

std::vector<std::vector<Point>> contour_lines(const Steps& x, const Steps& y,
                                              std::span<const double> values, double level) {
  LEEWAY_ASSERT(x.count >= 1 && y.count >= 1 &&
                values.size() ==
                    static_cast<std::size_t>(x.count) * static_cast<std::size_t>(y.count));
  const auto columns = static_cast<std::size_t>(x.count);
  const auto value = [&](int i, int k) {
    return values[static_cast<std::size_t>(k) * columns + static_cast<std::size_t>(i)];
  };
  // The side from lattice point (i, k) to the right (0) or upward (1).
  const auto side = [&](int i, int k, std::size_t upward) {
    return 2 * (static_cast<std::size_t>(k) * columns + static_cast<std::size_t>(i)) + upward;
  };
  const auto crossing = [&](int i, int k, int i2, int k2) {
    const double a = value(i, k);
    const double b = value(i2, k2);
    const double t = (level - a) / (b - a);
    return Point{x.at(i) + t * (x.at(i2) - x.at(i)), y.at(k) + t * (y.at(k2) - y.at(k))};
  };
  Joints joints;
  for (int k = 0; k + 1 < y.count; ++k) {
    for (int i = 0; i + 1 < x.count; ++i) {
      // Corners counter-clockwise from the lower left, and the sides between them.
      const bool above[] = {value(i, k) >= level, value(i + 1, k) >= level,
                            value(i + 1, k + 1) >= level, value(i, k + 1) >= level};
      struct Met {
        std::size_t side;
        Point at;
      };
      std::vector<Met> met;
      if (above[0] != above[1]) met.push_back({side(i, k, 0), crossing(i, k, i + 1, k)});
      if (above[1] != above[2]) {
        met.push_back({side(i + 1, k, 1), crossing(i + 1, k, i + 1, k + 1)});
      }
      if (above[2] != above[3]) {
        met.push_back({side(i, k + 1, 0), crossing(i, k + 1, i + 1, k + 1)});
      }
      if (above[3] != above[0]) met.push_back({side(i, k, 1), crossing(i, k, i, k + 1)});
      if (met.size() == 2) {
        joints.join(met[0].side, met[0].at, met[1].side, met[1].at);
      } else if (met.size() == 4) {
        const double mean =
            (value(i, k) + value(i + 1, k) + value(i + 1, k + 1) + value(i, k + 1)) / 4;
        // Around the first corner and the third, or around the other two.
        const bool around_first = above[0] != (mean >= level);
        const std::size_t shift = around_first ? 3 : 0;
        for (const std::size_t n : {std::size_t{0}, std::size_t{2}}) {
          const Met& a = met[(n + shift) % 4];
          const Met& b = met[(n + shift + 1) % 4];
          joints.join(a.side, a.at, b.side, b.at);
        }
      }
    }
  }
  return joints.lines();
}

}  // namespace leeway
