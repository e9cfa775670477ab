#pragma once
// Common mistakes, undone one at a time: the hypotheses that are weighed. Each family of mistakes
// has a file of its own here and rows in mistake_table.cpp.

#include <optional>
#include <vector>

#include "leeway/explain.h"

namespace leeway {

// What of a changed setup is a guess within a range, not a number that somebody wrote.
enum class Unknown { nothing, offset, travel, bed };

// A setup with one mistake undone. A mistake may have several trials: the number that is off may
// stand in several places.
struct MistakeTrial {
  Mistake mistake = Mistake::sign_of_x;
  Changes changes;
  Setup changed;
  double weight = 1;  // among the trials of a mistake; of an unknown number, how much it stands for
  Unknown unknown = Unknown::nothing;
};

// Collects the trials for one setup.
class Trials {
 public:
  explicit Trials(const Setup& setup) : setup_(setup) {}

  const Setup& setup() const { return setup_; }
  Box bed() const { return bounding_box(setup_.machine.bed); }
  Box travel() const { return bounding_box(setup_.machine.travel); }
  // What the grid was asked by; nullptr where it was not.
  const Margins* margins() const;
  const Box* bounds() const;

  // Does nothing without changes.
  void add(Mistake mistake, Changes changes, double weight = 1, Unknown unknown = Unknown::nothing);
  void add_offset(Mistake mistake, Point offset, double weight = 1,
                  Unknown unknown = Unknown::nothing);

  std::vector<MistakeTrial> take() { return std::move(trials_); }

 private:
  const Setup& setup_;
  std::vector<MistakeTrial> trials_;
};

// Every shape of a machine mapped in the same way.
Shape shifted(const Shape& shape, Point by);
Shape scaled(const Shape& shape, double by);
Shape turned(const Shape& shape);  // x and y exchanged

Changes together(Changes changes, const Changes& further);

// Along both axes.
Changes bounds_changes(const Box& bounds);

// Sides of a box, in the order left, right, front, back.
inline constexpr double Box::*kBoxSides[] = {&Box::x0, &Box::x1, &Box::y0, &Box::y1};

}  // namespace leeway
