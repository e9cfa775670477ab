#include "formats/drawing/label_layout.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <iterator>

#include "formats/text/names.h"
#include "formats/text/utf8.h"

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

  // How many cells of a box are taken.
  int count(const Box& box) const {
    int cells = 0;
    visit(box, [&](std::size_t word, std::uint64_t mask) {
      for (std::uint64_t left = bits_[word] & mask; left != 0; left &= left - 1) ++cells;
    });
    return cells;
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
constexpr Side kLabelSides[] = {{1, 0},  {-1, 0}, {0, -1},  {0, 1},
                                {1, -1}, {1, 1},  {-1, -1}, {-1, 1}};
constexpr double kFurther[] = {0, 6, 14, 24, 38, 56, 80};
constexpr double kFar = 14;   // from here on a line is wanted
constexpr double kNear = 38;  // up to here lines are avoided

double low_end(double place, double extent, int side, double distance) {
  if (side > 0) return place + distance;
  if (side < 0) return place - distance - extent;
  return place - extent / 2;
}

class Placing {
 public:
  Placing(const std::vector<Box>& taken, const std::vector<Box>& avoided, const Box& within)
      : taken_(within), avoided_(within) {
    for (const Box& box : taken) taken_.take(box);
    for (const Box& box : avoided) avoided_.take(box);
  }

  void place(const Label& label, std::size_t index) {
    label_ = &label;
    index_ = index;
    width_ = text_width(label.text, label.size) * (label.bold ? kBold : 1) + 2 * kAround;
    height_ = label.size * 1.25 + 2;
    if (on_places() || !label.around) return;
    // Over what is to be avoided rather than far away.
    if (around(true, kNear)) return;
    around(false, kFurther[std::size(kFurther) - 1]);
  }

  const std::vector<PlacedLabel>& result() const { return placed_; }

 private:
  static constexpr double kAround = 2;  // of free room beside a text

  struct Place {
    Box box;
    double further;
    int over;  // cells of what is to be avoided
  };

  bool on_places() {
    for (const Point& place : label_->places) {
      const std::optional<Place> found = look(place - Point{width_ / 2, height_ / 2}, 0);
      if (!found || found->over > 0) continue;
      settle(*found);
      return true;
    }
    return false;
  }

  // The nearest that will do; of equally near ones the first that covers least.
  bool around(bool avoid, double furthest) {
    for (const double further : kFurther) {
      if (further > furthest) return false;
      std::optional<Place> best;
      for (const Side& side : kLabelSides) {
        const bool slanted = side.x != 0 && side.y != 0;
        const double distance = (label_->distance + further) * (slanted ? 0.75 : 1);
        const Point corner{low_end(label_->at.x, width_, side.x, label_->half.x + distance),
                           low_end(label_->at.y, height_, side.y, label_->half.y + distance)};
        const std::optional<Place> found = look(corner, further);
        if (found && (!best || found->over < best->over)) best = found;
      }
      if (!best || (avoid && best->over > 0)) continue;
      settle(*best);
      return true;
    }
    return false;
  }

  std::optional<Place> look(Point corner, double further) const {
    const Box box{corner.x, corner.x + width_, corner.y, corner.y + height_};
    if (!taken_.inside(box) || !taken_.free(box)) return std::nullopt;
    return Place{box, further, avoided_.count(box)};
  }

  void settle(const Place& place) {
    taken_.take(place.box);
    // Below the base line there is a quarter of the size for descenders.
    const Point base{place.box.x0 + kAround, place.box.y1 - 1 - 0.25 * label_->size};
    placed_.push_back({index_, place.box, base, place.further >= kFar});
  }

  Raster taken_;
  Raster avoided_;
  const Label* label_ = nullptr;
  std::size_t index_ = 0;
  double width_ = 0;
  double height_ = 0;
  std::vector<PlacedLabel> placed_;
};

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

std::size_t fitting_length(std::string_view text, double size, double width) {
  std::size_t at = 0;
  for (double seen = 0; at < text.size();) {
    const std::string_view character = character_at(text, at);
    seen += advance(character) * size;
    if (at > 0 && seen > width) break;
    at += character.size();
  }
  return at;
}

// As much from the front as from the end.
std::string cut_to_width(std::string_view text, double size, double width) {
  const double all = text_width(text, size);
  if (all <= width) return std::string(text);
  constexpr std::string_view kMore = "...";
  const double half = (width - text_width(kMore, size)) / 2;
  std::size_t head = 0;
  std::size_t tail = text.size();
  double seen = 0;
  for (std::size_t at = 0; at < text.size();) {
    const std::string_view character = character_at(text, at);
    seen += advance(character) * size;
    at += character.size();
    if (seen <= half) head = at;
    if (tail == text.size() && all - seen <= half) tail = at;
  }
  return std::string(text.substr(0, head)).append(kMore).append(text.substr(tail));
}

std::vector<PlacedLabel> place_labels(const std::vector<Label>& labels,
                                      const std::vector<Box>& taken,
                                      const std::vector<Box>& avoided, const Box& within) {
  if (labels.empty() || within.empty()) return {};
  Placing placing(taken, avoided, within);
  for (std::size_t i = 0; i < labels.size(); ++i) placing.place(labels[i], i);
  return placing.result();
}

}  // namespace leeway
