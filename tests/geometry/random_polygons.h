#pragma once
// Seeded random polygons whose coordinates are whole micrometres, rich in coincidences.

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <iterator>
#include <map>
#include <random>
#include <string>
#include <utility>
#include <vector>

#include "geometry/plane/orientation.h"
#include "leeway/geometry.h"

namespace leeway::testing {

// From the environment variable LEEWAY_SEED where it is set.
inline std::uint32_t seed_or(std::uint32_t usual) {
  const char* text = std::getenv("LEEWAY_SEED");
  return text != nullptr ? static_cast<std::uint32_t>(std::stoul(text)) : usual;
}

class Random {
 public:
  explicit Random(std::uint32_t seed) : engine_(seed) {}
  // A whole number from low to high, both included.
  int whole(int low, int high) {
    return low + static_cast<int>(engine_() % static_cast<std::uint32_t>(high - low + 1));
  }
  bool chance(int percent) { return whole(1, 100) <= percent; }

 private:
  std::mt19937 engine_;  // the same numbers on every machine
};

// A lattice point in whole numbers of some unit.
struct Cell {
  int x;
  int y;
  friend bool operator<(Cell a, Cell b) { return std::pair{a.x, a.y} < std::pair{b.x, b.y}; }
  friend bool operator==(Cell a, Cell b) { return a.x == b.x && a.y == b.y; }
};

// Where the lattice goes: x e + y f + o, in micrometres.
struct Placing {
  Cell e{1000, 0};
  Cell f{0, 1000};
  Cell o{0, 0};

  Point operator()(Cell c) const {
    return {(c.x * e.x + c.y * f.x + o.x) / 1000.0, (c.x * e.y + c.y * f.y + o.y) / 1000.0};
  }
  double cell_area() const { return std::abs(1.0 * e.x * f.y - 1.0 * e.y * f.x) / 1e6; }
};

inline Placing random_placing(Random& random) {
  const int step = random.chance(50) ? 1000 : random.whole(3, 2500);
  Placing placing{{step, 0}, {0, step}, {random.whole(-9999, 9999), random.whole(-9999, 9999)}};
  if (random.chance(50)) {  // slanted, perhaps mirrored
    placing.e = {random.whole(1, 2000), random.whole(-300, 300)};
    placing.f = {random.whole(-300, 300), random.chance(50) ? -random.whole(500, 2000) : 700};
  }
  return placing;
}

struct Mosaic {
  MultiPolygon polygons;
  double area = 0;
};

// The outlines of random cells of a board as polygons with holes: rings touch at vertices, holes
// touch the outer ring and one another, holes lie in holes. With `pinched` rings that touch
// themselves are left in one.
class MosaicMaker {
 public:
  MosaicMaker(Random& random, int width, int height, int percent, bool pinched)
      : width_(width), height_(height), pinched_(pinched), part_(width * height, -1) {
    for (int& part : part_) part = random.chance(percent) ? 0 : -1;
  }

  Mosaic make(const Placing& placing) {
    const int parts = label();
    Mosaic mosaic;
    for (int part = 1; part <= parts; ++part) {
      Polygon polygon;
      for (const std::vector<Cell>& loop : loops_of(part)) {
        Ring ring;
        for (const Cell c : loop) ring.push_back(placing(c));
        if (twice_area(loop) > 0) {
          polygon.outer = ring;
        } else {
          polygon.holes.push_back(ring);
        }
      }
      mosaic.polygons.push_back(polygon);
    }
    for (const int part : part_) mosaic.area += part >= 0 ? placing.cell_area() : 0;
    return mosaic;
  }

 private:
  int part_at(int x, int y) const {
    return x < 0 || y < 0 || x >= width_ || y >= height_ ? -1 : part_[y * width_ + x];
  }

  // Numbers the parts that hang together side by side, from 1.
  int label() {
    int parts = 0;
    for (int y = 0; y < height_; ++y) {
      for (int x = 0; x < width_; ++x) {
        if (part_at(x, y) != 0) continue;
        ++parts;
        std::vector<Cell> todo{{x, y}};
        while (!todo.empty()) {
          const Cell c = todo.back();
          todo.pop_back();
          if (part_at(c.x, c.y) != 0) continue;
          part_[c.y * width_ + c.x] = parts;
          todo.insert(todo.end(), {{c.x + 1, c.y}, {c.x - 1, c.y}, {c.x, c.y + 1}, {c.x, c.y - 1}});
        }
      }
    }
    return parts;
  }

  // The sides of the part's cells towards others, the part on the left, from start to end.
  std::multimap<Cell, Cell> sides_of(int part) const {
    std::multimap<Cell, Cell> sides;
    for (int y = 0; y < height_; ++y) {
      for (int x = 0; x < width_; ++x) {
        if (part_at(x, y) != part) continue;
        if (part_at(x, y - 1) != part) sides.insert({{x, y}, {x + 1, y}});
        if (part_at(x + 1, y) != part) sides.insert({{x + 1, y}, {x + 1, y + 1}});
        if (part_at(x, y + 1) != part) sides.insert({{x + 1, y + 1}, {x, y + 1}});
        if (part_at(x - 1, y) != part) sides.insert({{x, y + 1}, {x, y}});
      }
    }
    return sides;
  }

  std::vector<std::vector<Cell>> loops_of(int part) const {
    std::multimap<Cell, Cell> sides = sides_of(part);
    std::vector<std::vector<Cell>> loops;
    while (!sides.empty()) {
      std::vector<Cell> loop{sides.begin()->first};
      Cell to = sides.begin()->second;
      sides.erase(sides.begin());
      while (!(to == loop.front()) || sides.count(to) > 0) {
        const Cell from = loop.back();
        loop.push_back(to);
        auto way = sides.find(to);
        if (sides.count(to) > 1) {  // round the same cell: turn left
          const auto other = std::next(way);
          const Cell d{to.x - from.x, to.y - from.y};
          if (d.x * (other->second.y - to.y) - d.y * (other->second.x - to.x) > 0) way = other;
        }
        to = way->second;
        sides.erase(way);
      }
      if (pinched_) {
        loops.push_back(loop);
      } else {
        split(loop, loops);
      }
    }
    return loops;
  }

  // Cuts a loop where it comes by a place again.
  static void split(const std::vector<Cell>& loop, std::vector<std::vector<Cell>>& out) {
    std::vector<Cell> open;
    for (const Cell c : loop) {
      for (std::size_t i = 0; i < open.size(); ++i) {
        if (!(open[i] == c)) continue;
        out.emplace_back(open.begin() + static_cast<std::ptrdiff_t>(i), open.end());
        open.resize(i);
        break;
      }
      open.push_back(c);
    }
    out.push_back(open);
  }

  static int twice_area(const std::vector<Cell>& loop) {
    int sum = 0;
    for (std::size_t i = 0; i < loop.size(); ++i) {
      const Cell a = loop[i];
      const Cell b = loop[(i + 1) % loop.size()];
      sum += a.x * b.y - a.y * b.x;
    }
    return sum;
  }

  int width_;
  int height_;
  bool pinched_;
  std::vector<int> part_;
};

// A simple ring through random lattice points: crossings are undone one by one.
inline Ring random_ring(Random& random, int vertices, int extent, const Placing& placing) {
  const auto touch = [](Cell a, Cell b, Cell c, Cell d) {
    const auto turn = [](Cell p, Cell q, Cell r) {
      const int t = (q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x);
      return (t > 0) - (t < 0);
    };
    const auto within = [](int p, int q, int r, int s) {
      return std::min(p, q) <= std::max(r, s) && std::min(r, s) <= std::max(p, q);
    };
    return turn(a, b, c) * turn(a, b, d) <= 0 && turn(c, d, a) * turn(c, d, b) <= 0 &&
           within(a.x, b.x, c.x, d.x) && within(a.y, b.y, c.y, d.y);
  };
  for (;;) {
    std::vector<Cell> ring;
    for (int i = 0; i < vertices; ++i) {
      ring.push_back({random.whole(0, extent), random.whole(0, extent)});
    }
    const std::size_t n = ring.size();
    bool simple = false;
    for (int round = 0; round < 100 && !simple; ++round) {
      simple = true;
      for (std::size_t i = 0; i < n; ++i) {
        for (std::size_t j = i + 1; j < n; ++j) {
          const bool neighbours = j == i + 1 || (i == 0 && j == n - 1);
          const Cell a = ring[i], b = ring[(i + 1) % n], c = ring[j], d = ring[(j + 1) % n];
          if (neighbours) {  // may only share their vertex
            const bool folded = j == i + 1 ? touch(a, b, d, d) || touch(c, d, a, a)
                                           : touch(a, b, c, c) || touch(c, d, b, b);
            if (folded) simple = false;
          } else if (touch(a, b, c, d)) {
            simple = false;
            std::reverse(ring.begin() + static_cast<std::ptrdiff_t>(i + 1),
                         ring.begin() + static_cast<std::ptrdiff_t>(j + 1));
          }
        }
      }
    }
    if (!simple) continue;
    Ring result;
    for (const Cell c : ring) result.push_back(placing(c));
    return result;
  }
}

}  // namespace leeway::testing
