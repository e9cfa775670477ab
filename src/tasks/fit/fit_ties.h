#pragma once
// Of all meshes of the largest area, the best.

#include "tasks/fit/search_ground.h"

namespace leeway {

// Left and right sides taken together: indices into the choices, ends included.
struct SideBlock {
  std::size_t left0 = 0, left1 = 0, right0 = 0, right1 = 0;
  double area = 0;  // the largest of any of its meshes, or more

  bool single() const { return left0 == left1 && right0 == right1; }
  std::size_t size() const { return left1 - left0 + right1 - right0; }

  // Of equal areas the smaller block goes first: it is nearer to an answer.
  bool operator<(const SideBlock& other) const {
    if (area != other.area) return area < other.area;
    if (size() != other.size()) return size() > other.size();
    return left0 != other.left0 ? left0 > other.left0 : right0 > other.right0;
  }
};

// Areas that sums of parts give may differ by so much from the same areas in one piece, in mm2.
inline constexpr double kSameArea = 1.5e-6;

// The mesh of the largest least leeway, of equal ones the more centred, among those of `best`'s
// area: branch and bound over all four sides. What is equal in all of these is decided by the order
// of the search, which is always the same. So it is where the search would take too long
// (FitProblem::most_for_ties). REQUIRES: `ties` hold all meshes of that area.
FoundMesh best_of_ties(SearchGround& ground, const std::vector<SideBlock>& ties,
                       const FoundMesh& best);

}  // namespace leeway
