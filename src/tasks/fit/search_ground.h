#pragma once
// What both parts of the search for bounds look at: areas, rows, points, single meshes.

#include <optional>
#include <unordered_map>
#include <vector>

#include "geometry/areas/area_sums.h"
#include "tasks/fit/fit_mesh.h"
#include "tasks/fit/row_ranges.h"

namespace leeway {

class SearchGround {
  // What is known of the points of one column at each of ys_.
  struct Column {
    enum : char { unknown, good, bad };
    std::vector<char> at;
    bool looked = false;
    bool some_good = false;
  };

 public:
  struct KnownColumn {
    double x = 0;
    Column* column = nullptr;
  };

  // REQUIRES: no side of the problem is without choices.
  explicit SearchGround(const FitProblem& problem);

  const FitProblem& problem() const { return problem_; }
  RowRanges& rows() { return rows_; }

  // Of fronts and backs together, in increasing order. Fronts and backs are indices into them.
  const std::vector<double>& ys() const { return ys_; }
  const std::vector<std::size_t>& fronts() const { return fronts_; }
  const std::vector<std::size_t>& backs() const { return backs_; }
  std::size_t index_of(double y) const;

  // Printable areas between two sides. Good until trim().
  class Strip {
   public:
    Strip(const std::vector<double>& to_left, const std::vector<double>& to_right)
        : to_left_(&to_left), to_right_(&to_right) {}

    // From a front to a back, rounded as areas are before they are compared.
    double area(std::size_t front, std::size_t back) const {
      return to_millionths((*to_right_)[back] - (*to_left_)[back] - (*to_right_)[front] +
                           (*to_left_)[front]);
    }

   private:
    const std::vector<double>* to_left_;
    const std::vector<double>* to_right_;
  };
  Strip strip(double left, double right) { return {sums_at(left), sums_at(right)}; }

  // The columns of a mesh, outer ones first, and of very many only some. Empty when one of them has
  // no good point at all. Good until trim().
  std::vector<KnownColumn> columns_of(double left, double right);

  // Whether the ends of these columns are good: most of what the polygons let pass by mistake fails
  // here, and many meshes share these points.
  bool ends_hold(const std::vector<KnownColumn>& columns, std::size_t front, std::size_t back);

  // The mesh, its area left at 0, when all its points are reachable.
  std::optional<FoundMesh> verified(const Box& mesh);

  // Places of points that failed last, the latest first.
  const std::vector<LatticePlace>& failed() const { return failed_; }

  // Forgets what takes much memory and can be had again.
  void trim();

 private:
  const std::vector<double>& sums_at(double x);
  bool is_good(Column& column, double x, std::size_t y);
  bool has_good(Column& column, double x);
  bool fails_again(const Box& mesh);

  const FitProblem& problem_;
  std::vector<double> ys_;
  std::vector<std::size_t> fronts_;
  std::vector<std::size_t> backs_;
  AreaSums sums_;
  RowRanges rows_;
  std::unordered_map<double, std::vector<double>> sums_at_;
  std::unordered_map<double, Column> columns_;
  std::vector<LatticePlace> failed_;
};

}  // namespace leeway
