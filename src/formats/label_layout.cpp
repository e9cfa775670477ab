#include "formats/label_layout.h"

#include <algorithm>
#include <cmath>
#include <cstdint>

#include "formats/names.h"
#include "formats/utf8.h"

namespace leeway {
namespace {

// Advance widths, in parts of the font's size.
double advance(std::string_view character) {
  constexpr std::string_view kNarrow = "iljI.,:;'|!";
  constexpr std::string_view kSlim = " ftr()[]{}-/\\\"`*";
  constexpr std::string_view kBroad = "mwMW@%";
  if (character.size() > 1) {
    const std::size_t columns = columns_of(character);
    if (character.size() == 4) return 1.4;
    return columns == 0 ? 0.2 : columns == 2 ? 1.05 : 0.9;
  }
  const char c = character.front();
  if (kNarrow.find(c) != std::string_view::npos) return c == 'I' ? 0.42 : 0.37;
  if (kSlim.find(c) != std::string_view::npos) return c == '*' ? 0.64 : 0.46;
  if (kBroad.find(c) != std::string_view::npos) return 1.08;
  const bool small = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
  return small ? 0.64 : 0.82;
}

std::string_view character_at(std::string_view text, std::size_t at) {
  const std::size_t length = utf8_length(text, at);
  return text.substr(at, length == 0 ? 1 : length);
}

// Which cells of the picture are taken. Boxes are rounded outward.
class Raster {
 public:
  explicit Raster(const Box& within) : within_(within) {
    cell_ = std::max(1.0, std::max(within.width(), within.depth()) / kMostCells);
    columns_ = static_cast<int>(std::ceil(within.width() / cell_));
    rows_ = static_cast<int>(std::ceil(within.depth() / cell_));
    words_ = (columns_ + 63) / 64;
    bits_.assign(static_cast<std::size_t>(words_) * static_cast<std::size_t>(rows_), 0);
  }

  bool inside(const Box& box) const {
    return box.x0 >= within_.x0 && box.x1 <= within_.x1 && box.y0 >= within_.y0 &&
           box.y1 <= within_.y1;
  }

  bool free(const Box& box) const {
    bool taken = false;
    visit(box, [&](std::size_t word, std::uint64_t mask) { taken |= (bits_[word] & mask) != 0; });
    return !taken;
  }

  void take(const Box& box) {
    visit(box, [&](std::size_t word, std::uint64_t mask) { bits_[word] |= mask; });
  }

 private:
  static constexpr int kMostCells = 2048;

  static int clamped(double value, int most) {
    return static_cast<int>(std::min(std::max(value, 0.0), static_cast<double>(most)));
  }

  template <typename Visitor>
  void visit(const Box& box, Visitor visitor) const {
    const int x0 = clamped(std::floor((box.x0 - within_.x0) / cell_), columns_);
    const int x1 = clamped(std::ceil((box.x1 - within_.x0) / cell_), columns_);
    const int y0 = clamped(std::floor((box.y0 - within_.y0) / cell_), rows_);
    const int y1 = clamped(std::ceil((box.y1 - within_.y0) / cell_), rows_);
    for (int y = y0; y < y1; ++y) {
      for (int x = x0; x < x1; x = (x / 64 + 1) * 64) {
        const int end = std::min(x1, (x / 64 + 1) * 64);
        const std::uint64_t below = end % 64 == 0 ? ~0ull : (1ull << (end % 64)) - 1;
        const std::uint64_t mask = below & (~0ull << (x % 64));
        visitor(static_cast<std::size_t>(y) * static_cast<std::size_t>(words_) +
                    static_cast<std::size_t>(x / 64),
                mask);
      }
    }
  }

  Box within_;
  double cell_ = 1;
  int columns_ = 0;
  int rows_ = 0;
  int words_ = 0;
  std::vector<std::uint64_t> bits_;
};

// Where a box of a size may stand beside a place: -1, 0, 1 for left of, about and right of it.
struct Side {
  int x;
  int y;
};
constexpr Side kSides[] = {{1, 0}, {-1, 0}, {0, -1}, {0, 1}, {1, -1}, {1, 1}, {-1, -1}, {-1, 1}};
constexpr double kFurther[] = {0, 6, 14, 24, 38, 56, 80};
constexpr double kFar = 14;  // further than this, a line is wanted

double low_end(double place, double extent, int side, double distance) {
  if (side > 0) return place + distance;
  if (side < 0) return place - distance - extent;
  return place - extent / 2;
}

Box box_at(Point corner, double width, double height) {
  return {corner.x, corner.x + width, corner.y, corner.y + height};
}

}  // namespace

double text_width(std::string_view text, double size) {
  double width = 0;
  for (std::size_t at = 0; at < text.size();) {
    const std::string_view character = character_at(text, at);
    width += advance(character);
    at += character.size();
  }
  return width * size;
}

std::string cut_to_width(std::string_view text, double size, double width) {
  if (text_width(text, size) <= width) return std::string(text);
  constexpr std::string_view kMore = "...";
  double left = width - text_width(kMore, size);
  std::size_t at = 0;
  while (at < text.size()) {
    const std::string_view character = character_at(text, at);
    left -= advance(character) * size;
    if (left < 0) break;
    at += character.size();
  }
  return std::string(text.substr(0, at)).append(kMore);
}

std::vector<PlacedLabel> place_labels(const std::vector<Label>& labels,
                                      const std::vector<Box>& taken, const Box& within) {
  std::vector<PlacedLabel> placed;
  if (labels.empty() || within.empty()) return placed;
  Raster raster(within);
  for (const Box& box : taken) raster.take(box);

  constexpr double kAround = 2;  // of free room beside a text
  for (std::size_t i = 0; i < labels.size(); ++i) {
    const Label& label = labels[i];
    const double width = text_width(label.text, label.size) + 2 * kAround;
    const double height = label.size * 1.25 + 2;
    const auto settle = [&](Point corner, double further) {
      const Box box = box_at(corner, width, height);
      if (!raster.inside(box) || !raster.free(box)) return false;
      raster.take(box);
      // The base line leaves a fifth of the size for descenders.
      placed.push_back(
          {i, box, {box.x0 + kAround, box.y1 - 1 - 0.25 * label.size}, further >= kFar});
      return true;
    };
    if (label.centered && settle(label.at - Point{width / 2, height / 2}, 0)) continue;
    bool done = false;
    for (const double further : kFurther) {
      for (const Side& side : kSides) {
        const bool slanted = side.x != 0 && side.y != 0;
        const double distance = (label.distance + further) * (slanted ? 0.75 : 1);
        done = settle({low_end(label.at.x, width, side.x, distance),
                       low_end(label.at.y, height, side.y, distance)},
                      further);
        if (done) break;
      }
      if (done) break;
    }
  }
  return placed;
}

}  // namespace leeway
