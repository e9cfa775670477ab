#include "formats/drawing/label_marks.h"

#include <algorithm>
#include <cmath>

namespace leeway {
namespace {

bool boxes_meet(const Box& a, const Box& b) {
  return a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1;
}

bool box_holds(const Box& outer, const Box& inner) {
  return inner.x0 >= outer.x0 && inner.x1 <= outer.x1 && inner.y0 >= outer.y0 &&
         inner.y1 <= outer.y1;
}

Point nearest_in(const Box& box, Point p) {
  return {std::min(std::max(p.x, box.x0), box.x1), std::min(std::max(p.y, box.y0), box.y1)};
}

Box box_of(const Label& label) {
  return {label.at.x - label.half.x, label.at.x + label.half.x, label.at.y - label.half.y,
          label.at.y + label.half.y};
}

double nearest_piece(const std::vector<Box>& pieces, const Box& text) {
  double nearest = box_distance(pieces.front(), text);
  for (const Box& piece : pieces) nearest = std::min(nearest, box_distance(piece, text));
  return nearest;
}

}  // namespace

double box_distance(const Box& a, const Box& b) {
  const double x = std::max({0.0, b.x0 - a.x1, a.x0 - b.x1});
  const double y = std::max({0.0, b.y0 - a.y1, a.y0 - b.y1});
  return std::hypot(x, y);
}

LabelMarks::LabelMarks(const std::vector<Label>& labels, const std::vector<Box>& unnamed)
    : labels_(labels.size()) {
  for (const Label& label : labels) {
    marks_.push_back(
        {box_of(label), label.mark.empty() ? nullptr : &label.mark, label.solid, label.around});
  }
  for (const Box& box : unnamed) marks_.push_back({box, nullptr, false, true});
}

double LabelMarks::own_distance(std::size_t label, const Box& text) const {
  const Mark& mark = marks_[label];
  if (mark.pieces == nullptr) return box_distance(mark.box, text);
  // Pieces are a little wider than the lines that they cover.
  return box_holds(mark.box, text) ? 0 : nearest_piece(*mark.pieces, text) + 1;
}

// What is large counts by its lines: much else may stand within it.
bool LabelMarks::is_small(const Box& box) {
  constexpr double kSmallMark = 80;
  return std::min(box.width(), box.depth()) < kSmallMark;
}

double LabelMarks::distance_of(const Mark& mark, const Box& text) {
  const double distance = box_distance(mark.box, text);
  if (mark.pieces == nullptr || is_small(mark.box)) return distance;
  return std::max(distance, nearest_piece(*mark.pieces, text));
}

bool LabelMarks::same_place(const Box& a, const Box& b) {
  constexpr double kNoMore = 24;
  constexpr double kSame = 2;
  if (std::max({a.width(), a.depth(), b.width(), b.depth()}) > kNoMore) return false;
  return std::abs(a.x0 + a.x1 - b.x0 - b.x1) < 2 * kSame &&
         std::abs(a.y0 + a.y1 - b.y0 - b.y1) < 2 * kSame;
}

bool LabelMarks::own_is_nearest(std::size_t label, const Box& text, double own) const {
  constexpr double kClearly = 1;
  for (std::size_t i = 0; i < marks_.size(); ++i) {
    const Mark& mark = marks_[i];
    if (i == label || !mark.named) continue;
    if (box_distance(mark.box, text) >= own + kClearly) continue;
    if (same_place(mark.box, marks_[label].box)) continue;
    if (distance_of(mark, text) < own + kClearly) return false;
  }
  return true;
}

bool LabelMarks::on_solid(const Box& text) const {
  return std::any_of(marks_.begin(), marks_.end(),
                     [&](const Mark& mark) { return mark.solid && boxes_meet(mark.box, text); });
}

bool LabelMarks::on_other_solid(std::size_t label, const Box& text) const {
  for (std::size_t i = 0; i < labels_; ++i) {
    if (i != label && marks_[i].solid && boxes_meet(marks_[i].box, text)) return true;
  }
  return false;
}

bool LabelMarks::in_another(std::size_t label, const Box& text) const {
  for (std::size_t i = 0; i < labels_; ++i) {
    if (i == label || !marks_[i].named || !is_small(marks_[i].box)) continue;
    if (boxes_meet(marks_[i].box, text)) return true;
  }
  return false;
}

bool LabelMarks::contains(std::size_t label, const Box& text) const {
  return box_holds(marks_[label].box, text);
}

Point LabelMarks::nearest_point(std::size_t label, Point from) const {
  const Mark& mark = marks_[label];
  if (mark.pieces == nullptr) return nearest_in(mark.box, from);
  Point nearest = nearest_in(mark.pieces->front(), from);
  const auto far = [&](Point p) { return std::hypot(p.x - from.x, p.y - from.y); };
  for (const Box& piece : *mark.pieces) {
    const Point here = nearest_in(piece, from);
    if (far(here) < far(nearest)) nearest = here;
  }
  return nearest;
}

}  // namespace leeway
