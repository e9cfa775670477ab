#include "formats/write/failures.h"

#include <fmt/format.h>

#include <algorithm>

#include "formats/text/numbers.h"
#include "formats/write/check_view.h"

namespace leeway {
namespace {

// A column or a row of the grid, or several beside each other.
struct FailingLine {
  int first = 0;  // from 1
  int last = 0;
  std::size_t judged = 0;
  std::size_t fail = 0;
  std::uint32_t limit = 0;  // at which most of them fail
  std::size_t votes = 0;    // for it, while they are counted
  std::size_t worst = 0;    // of those that fail at it
  bool found = false;       // whether there is a worst one yet
  bool alike = true;

  bool whole() const { return judged > 1 && fail == judged; }
};

bool fails(const CheckedPoint& point) { return point.finding.verdict != Verdict::reachable; }

bool same_failure(const CheckedPoint& a, const CheckedPoint& b) {
  return a.finding.limit == b.finding.limit && a.finding.leeway == b.finding.leeway &&
         a.finding.guard == b.finding.guard;
}

class Gatherer {
 public:
  Gatherer(const CheckResult& result, const Setup& setup, const Words& words)
      : result_(result), grid_(setup.request.grid), words_(words) {}

  std::vector<FailureGroup> gather() {
    if (grid_) count();
    if (all_.whole()) {
      add({fmt::format("all {} points of the grid", all_.judged), all_.worst, all_.alike});
    } else {
      add_lines(columns_, "column", "row", grid_ ? grid_->rows : 0);
      drop_covered_rows();
      add_lines(rows_, "row", "column", grid_ ? grid_->columns : 0);
    }
    sort_from(0);
    const std::size_t lines = groups_.size();
    add_single();
    sort_from(lines);
    return std::move(groups_);
  }

 private:
  void count() {
    columns_.resize(static_cast<std::size_t>(grid_->columns));
    rows_.resize(static_cast<std::size_t>(grid_->rows));
    const auto each = [&](auto take) {
      for (std::size_t i = 0; i < result_.points.size(); ++i) {
        const CheckedPoint& point = result_.points[i];
        if (point.column <= 0) continue;
        take(columns_[static_cast<std::size_t>(point.column - 1)], point.column, i);
        take(rows_[static_cast<std::size_t>(point.row - 1)], point.row, i);
        take(all_, 1, i);
      }
    };
    each([&](FailingLine& line, int number, std::size_t i) { vote(line, number, i); });
    each([&](FailingLine& line, int, std::size_t i) { find_worst(line, i); });
  }

  // Counts, and leaves the limit that most fail at, where more than half do (Boyer and Moore).
  void vote(FailingLine& line, int number, std::size_t i) const {
    line.first = line.last = number;
    ++line.judged;
    const CheckedPoint& point = result_.points[i];
    if (!fails(point)) return;
    ++line.fail;
    if (line.votes == 0) line.limit = point.finding.limit;
    if (line.limit == point.finding.limit) {
      ++line.votes;
    } else {
      --line.votes;
    }
  }

  void find_worst(FailingLine& line, std::size_t i) const {
    const CheckedPoint& point = result_.points[i];
    if (!fails(point)) return;
    if (point.finding.limit != line.limit) {
      line.alike = false;
      return;
    }
    if (line.found) line.alike = line.alike && same_failure(point, result_.points[line.worst]);
    if (!line.found || worse_failure(result_, i, line.worst)) line.worst = i;
    line.found = true;
  }

  // Lines beside each other that fail at the same limit are told together.
  void add_lines(const std::vector<FailingLine>& lines, const char* kind, const char* across,
                 int most) {
    for (std::size_t i = 0; i < lines.size();) {
      FailingLine run = lines[i++];
      if (!run.whole()) continue;
      const std::size_t one = run.judged;
      while (i < lines.size() && lines[i].whole() && lines[i].limit == run.limit) {
        run = joined_lines(run, lines[i++]);
      }
      add({line_words(run, one, kind, across, most), run.worst, run.alike});
    }
  }

  FailingLine joined_lines(FailingLine a, const FailingLine& b) const {
    a.alike = a.alike && b.alike && same_failure(result_.points[a.worst], result_.points[b.worst]);
    if (worse_failure(result_, b.worst, a.worst)) a.worst = b.worst;
    a.last = b.last;
    a.judged += b.judged;
    return a;
  }

  // "column 5, all 5 rows", "columns 4 to 6, all 15 points". Where points were left out, the
  // points count, not the rows.
  static std::string line_words(const FailingLine& run, std::size_t one, const char* kind,
                                const char* across, int most) {
    if (run.first != run.last) {
      return fmt::format("{}s {} to {}, all {} points", kind, run.first, run.last, run.judged);
    }
    const bool full = one == static_cast<std::size_t>(most);
    return fmt::format("{} {}, all {} {}", kind, run.first, one,
                       full ? across + std::string("s") : std::string("points"));
  }

  bool covered(const CheckedPoint& point, const std::vector<FailingLine>& columns,
               const std::vector<FailingLine>& rows) const {
    if (point.column <= 0) return false;
    if (all_.whole()) return true;
    return columns[static_cast<std::size_t>(point.column - 1)].whole() ||
           (!rows.empty() && rows[static_cast<std::size_t>(point.row - 1)].whole());
  }

  // Of a row only what the columns have not said is told; nothing, where they have said it all.
  void drop_covered_rows() {
    std::vector<FailingLine> left(rows_.size());
    const auto each = [&](auto take) {
      for (std::size_t i = 0; i < result_.points.size(); ++i) {
        const CheckedPoint& point = result_.points[i];
        if (point.column <= 0 || covered(point, columns_, {})) continue;
        take(left[static_cast<std::size_t>(point.row - 1)], point.row, i);
      }
    };
    each([&](FailingLine& line, int number, std::size_t i) { vote(line, number, i); });
    each([&](FailingLine& line, int, std::size_t i) { find_worst(line, i); });
    for (std::size_t i = 0; i < rows_.size(); ++i) {
      if (left[i].judged == 0 || !rows_[i].whole()) {
        rows_[i] = {};
        continue;
      }
      rows_[i].limit = left[i].limit;
      rows_[i].worst = left[i].worst;
      rows_[i].alike = left[i].alike;
    }
  }

  void add_single() {
    for (std::size_t i = 0; i < result_.points.size(); ++i) {
      const CheckedPoint& point = result_.points[i];
      if (!fails(point) || covered(point, columns_, rows_)) continue;
      const std::string name = words_.point(point);
      add({point.column > 0 ? name : fmt::format("{}, at {}", name, pair(point.probe)), i, true});
    }
  }

  void add(FailureGroup group) { groups_.push_back(std::move(group)); }

  void sort_from(std::size_t first) {
    std::stable_sort(groups_.begin() + static_cast<std::ptrdiff_t>(first), groups_.end(),
                     [&](const FailureGroup& a, const FailureGroup& b) {
                       return worse_failure(result_, a.worst, b.worst);
                     });
  }

  const CheckResult& result_;
  const std::optional<Grid>& grid_;
  const Words& words_;
  std::vector<FailingLine> columns_;
  std::vector<FailingLine> rows_;
  FailingLine all_;
  std::vector<FailureGroup> groups_;
};

}  // namespace

std::vector<FailureGroup> failure_groups(const CheckResult& result, const Setup& setup,
                                         const Words& words) {
  return Gatherer(result, setup, words).gather();
}

}  // namespace leeway
