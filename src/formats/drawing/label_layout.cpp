#include "formats/drawing/label_layout.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <iterator>
#include <tuple>

#include "formats/drawing/label_marks.h"

namespace leeway {
namespace {

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

// Where a box of a size may stand beside a place: -1, 0, 1 for left of, about and right of it, and
// what lies between.
struct Side {
  double x;
  double y;
};
constexpr Side kLabelSides[] = {{1, 0},   {-1, 0}, {0, -1},   {0, 1},  {1, -1},   {1, 1},
                                {-1, -1}, {-1, 1}, {.5, -1},  {.5, 1}, {-.5, -1}, {-.5, 1},
                                {1, -.5}, {1, .5}, {-1, -.5}, {-1, .5}};
constexpr double kFurther[] = {0, 6, 14, 24, 38, 56, 80, 110};
constexpr double kFar = 14;   // from here on a line is wanted
constexpr double kNear = 38;  // up to here lines are avoided

double low_end(double place, double extent, double side, double distance) {
  return place - extent / 2 + side * (extent / 2 + distance);
}

class Placing {
 public:
  Placing(const std::vector<Label>& labels, const std::vector<Box>& taken,
          const std::vector<Box>& avoided, const Box& within, const std::vector<Box>& marks)
      : marks_(labels, marks), taken_(within), avoided_(within) {
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

  struct Line {
    Point from;
    Point to;
  };
  struct Place {
    Box box;
    int over;     // cells of what is to be avoided
    bool at_tip;  // at the end of what is long
    std::optional<Line> lead;
  };

  Box box_at(Point corner) const {
    return {corner.x, corner.x + width_, corner.y, corner.y + height_};
  }

  bool free(const Box& box) const { return taken_.inside(box) && taken_.free(box); }

  // On its own mark, or where no mark is to be named.
  bool on_places() {
    for (const Point& place : label_->places) {
      const Box box = box_at(place - Point{width_ / 2, height_ / 2});
      if (!free(box) || avoided_.count(box) > 0) continue;
      if (label_->around) {
        if (!marks_.contains(index_, box)) continue;
        if (marks_.on_other_solid(index_, box)) continue;
        if (!marks_.own_is_nearest(index_, box, marks_.own_distance(index_, box))) continue;
      } else if (marks_.on_solid(box)) {
        continue;
      }
      settle({box, 0, false, std::nullopt});
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
        const bool slanted = std::abs(side.x * side.y) == 1;
        const double distance = (label_->distance + further) * (slanted ? 0.75 : 1);
        const Point corner{low_end(label_->at.x, width_, side.x, label_->half.x + distance),
                           low_end(label_->at.y, height_, side.y, label_->half.y + distance)};
        std::optional<Place> found = look(box_at(corner), further);
        if (!found) continue;
        found->at_tip = at_tip(side);
        if (!best || std::tie(found->over, found->at_tip) < std::tie(best->over, best->at_tip)) {
          best = found;
        }
      }
      if (!best || (avoid && best->over > 0)) continue;
      settle(*best);
      return true;
    }
    return false;
  }

  bool at_tip(const Side& side) const {
    constexpr double kLong = 3;
    if (label_->half.x > kLong * label_->half.y) return side.y == 0;
    return label_->half.y > kLong * label_->half.x && side.x == 0;
  }

  std::optional<Place> look(const Box& box, double further) const {
    if (!free(box) || marks_.on_solid(box)) return std::nullopt;
    constexpr int kInAnother = 400;  // as bad as so many cells
    Place place{box, avoided_.count(box), false, std::nullopt};
    const double own = marks_.own_distance(index_, box);
    if (further >= kFar || !marks_.own_is_nearest(index_, box, own)) {
      place.lead = lead(box);
      if (!place.lead) return std::nullopt;
      if (marks_.in_another(index_, box)) place.over += kInAnother;
    }
    return place;
  }

  // From the box to the mark, where nothing is in the way.
  std::optional<Line> lead(const Box& box) const {
    constexpr double kShortest = 7;  // else it is no line that one sees
    constexpr double kEnd = 5;       // so near to the mark its own are in the way
    const Point middle{(box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2};
    Point to = marks_.nearest_point(index_, middle);
    const Point from{std::min(std::max(to.x, box.x0), box.x1),
                     std::min(std::max(to.y, box.y0), box.y1)};
    to = marks_.nearest_point(index_, from);
    const double length = std::hypot(to.x - from.x, to.y - from.y);
    if (length < kShortest || crosses_label({from, to})) return std::nullopt;
    for (double along = 1; along < length - kEnd; along += 1) {
      const Box here = around_line(from + (along / length) * (to - from));
      if (!taken_.free(here) || marks_.on_other_solid(index_, here)) return std::nullopt;
    }
    return Line{from, to};
  }

  bool crosses_label(const Line& line) const {
    constexpr int kSteps = 64;
    return std::any_of(placed_.begin(), placed_.end(), [&](const PlacedLabel& other) {
      for (int i = 0; i <= kSteps; ++i) {
        const Point p = line.from + (static_cast<double>(i) / kSteps) * (line.to - line.from);
        if (box_distance(other.box, {p.x, p.x, p.y, p.y}) == 0) return true;
      }
      return false;
    });
  }

  static Box around_line(Point p) {
    constexpr double kHalf = 1;
    return {p.x - kHalf, p.x + kHalf, p.y - kHalf, p.y + kHalf};
  }

  void settle(const Place& place) {
    taken_.take(place.box);
    // Below the base line there is a quarter of the size for descenders.
    const Point base{place.box.x0 + kAround, place.box.y1 - 1 - 0.25 * label_->size};
    PlacedLabel placed{index_, place.box, base, place.lead.has_value(), {}, {}};
    if (place.lead) {
      placed.lead_from = place.lead->from;
      placed.lead_to = place.lead->to;
      take_line(*place.lead);
    }
    placed_.push_back(placed);
  }

  // So that no later label stands on it, and no later line crosses it.
  void take_line(const Line& line) {
    const double length = std::hypot(line.to.x - line.from.x, line.to.y - line.from.y);
    for (double along = 0; along <= length; along += 1) {
      taken_.take(around_line(line.from + (along / length) * (line.to - line.from)));
    }
  }

  LabelMarks marks_;
  Raster taken_;
  Raster avoided_;
  const Label* label_ = nullptr;
  std::size_t index_ = 0;
  double width_ = 0;
  double height_ = 0;
  std::vector<PlacedLabel> placed_;
};

}  // namespace

std::vector<PlacedLabel> place_labels(const std::vector<Label>& labels,
                                      const std::vector<Box>& taken,
                                      const std::vector<Box>& avoided, const Box& within,
                                      const std::vector<Box>& marks) {
  if (labels.empty() || within.empty()) return {};
  Placing placing(labels, taken, avoided, within, marks);
  for (std::size_t i = 0; i < labels.size(); ++i) placing.place(labels[i], i);
  return placing.result();
}

}  // namespace leeway
