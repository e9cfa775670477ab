#pragma once
// What labels name, and how far a text is from it.

#include <vector>

#include "formats/drawing/label_layout.h"

namespace leeway {

// Between the nearest points of two boxes; 0 where they meet.
double box_distance(const Box& a, const Box& b);

// The marks of labels, by the label's index, and those that no label names.
class LabelMarks {
 public:
  // REQUIRES: the labels outlive it.
  LabelMarks(const std::vector<Label>& labels, const std::vector<Box>& unnamed);

  double own_distance(std::size_t label, const Box& text) const;
  // Whether a text that is `own` from its mark is farther from every other one. A mark in the very
  // place of its own is none other.
  bool own_is_nearest(std::size_t label, const Box& text, double own) const;
  // Whether a text stands on what is solid; of another label, or of any.
  bool on_solid(const Box& text) const;
  bool on_other_solid(std::size_t label, const Box& text) const;
  // Whether a text lies within another label's mark.
  bool in_another(std::size_t label, const Box& text) const;
  bool contains(std::size_t label, const Box& text) const;  // within its own
  // The point of the mark that is nearest to a place.
  Point nearest_point(std::size_t label, Point from) const;

 private:
  struct Mark {
    Box box;
    const std::vector<Box>* pieces;  // null: the box
    bool solid;
    bool named;
  };

  static double distance_of(const Mark& mark, const Box& text);
  static bool is_small(const Box& box);
  static bool same_place(const Box& a, const Box& b);

  std::vector<Mark> marks_;  // of the labels, then the others
  std::size_t labels_;
};

}  // namespace leeway
