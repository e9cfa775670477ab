#include "formats/text/plan.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdint>
#include <vector>

#include "formats/text/numbers.h"
#include "formats/text/table.h"

namespace leeway {
namespace {

constexpr std::size_t kLeft = 2;      // blanks before everything
constexpr std::size_t kLabelGap = 3;  // between row labels and the first mark

// What a cell shows: 0 for nothing, else the worst verdict of its points plus 1.
using Cell = std::uint8_t;

int groups(int count, int most) { return (count + most - 1) / most; }

// The grid in groups of `wide` x `deep` points.
class TextPlan {
 public:
  TextPlan(const CheckResult& result, const Setup& setup, const PlanOptions& options)
      : brief_(options.brief),
        grid_(*setup.request.grid),
        bounds_(grid_bounds_for_probe(setup, grid_)),
        wide_(groups(grid_.columns, kMostPlanColumns)),
        deep_(groups(grid_.rows, options.most_rows)),
        columns_(groups(grid_.columns, wide_)),
        rows_(groups(grid_.rows, deep_)),
        cells_(static_cast<std::size_t>(columns_) * static_cast<std::size_t>(rows_), 0) {
    for (const CheckedPoint& point : result.points) {
      if (point.column <= 0) continue;
      Cell& cell = cells_[index((point.column - 1) / wide_, (point.row - 1) / deep_)];
      cell = std::max(cell, static_cast<Cell>(static_cast<int>(point.finding.verdict) + 1));
    }
  }

  bool empty() const {
    return std::all_of(cells_.begin(), cells_.end(), [](Cell cell) { return cell == 0; });
  }

  void write(bool color, bool skipped, const TextSink& sink) const;

 private:
  std::size_t index(int column, int row) const {
    return static_cast<std::size_t>(row) * static_cast<std::size_t>(columns_) +
           static_cast<std::size_t>(column);
  }
  Point at(int column, int row) const {
    return grid_point(bounds_, grid_.columns, grid_.rows, column, row);
  }
  std::string title() const;
  std::vector<std::string> row_labels() const;
  std::string row_label(int row) const;
  std::vector<std::string> column_labels(bool coordinates) const;
  void write_column_labels(const char* what, const std::vector<std::string>& labels,
                           std::size_t label_width, std::size_t pitch, int every,
                           const TextSink& sink) const;

  bool brief_;
  const Grid& grid_;
  Box bounds_;
  int wide_;
  int deep_;
  int columns_;
  int rows_;
  std::vector<Cell> cells_;
};

std::string TextPlan::title() const {
  const bool all = wide_ == 1 && deep_ == 1;
  if (brief_) {
    const std::string marks =
        all ? "" : fmt::format("; each mark is the worst of up to {} x {} points", wide_, deep_);
    return fmt::format("The grid, its back at the top (x and y of the probe{}):", marks);
  }
  if (all) {
    return "The grid as you stand before the machine, its back at the top (x and y of the probe):";
  }
  return fmt::format(
      "The grid as you stand before the machine, its back at the top (x and y of the probe). It is "
      "too large to show every point: each mark stands for up to {} x {} points, and shows the "
      "worst of them; x and column are of the first.",
      wide_, deep_);
}

std::string TextPlan::row_label(int row) const {
  const int first = row * deep_;
  const int last = std::min(first + deep_, grid_.rows) - 1;
  if (first == last) return fmt::format("row {}  y {}", first + 1, decimal(at(0, first).y));
  return fmt::format("rows {} to {}  y {} to {}", first + 1, last + 1, decimal(at(0, first).y),
                     decimal(at(0, last).y));
}

std::vector<std::string> TextPlan::row_labels() const {
  std::vector<std::string> labels;
  labels.reserve(static_cast<std::size_t>(rows_));
  for (int row = 0; row < rows_; ++row) labels.push_back(row_label(row));
  return labels;
}

std::vector<std::string> TextPlan::column_labels(bool coordinates) const {
  std::vector<std::string> labels;
  for (int column = 0; column < columns_; ++column) {
    const int first = column * wide_;
    labels.push_back(coordinates ? decimal(at(first, 0).x) : std::to_string(first + 1));
  }
  return labels;
}

void TextPlan::write_column_labels(const char* what, const std::vector<std::string>& labels,
                                   std::size_t label_width, std::size_t pitch, int every,
                                   const TextSink& sink) const {
  std::string line(kLeft, ' ');
  line += fmt::format("{:>{}}", what, label_width);
  for (int column = 0; column < columns_; column += every) {
    const std::string& label = labels[static_cast<std::size_t>(column)];
    const std::size_t mark =
        kLeft + label_width + kLabelGap + static_cast<std::size_t>(column) * pitch;
    // Centred under its mark.
    const std::size_t start = mark - std::min(mark, (label.size() - 1) / 2);
    if (line.size() < start) line.append(start - line.size(), ' ');
    line += label;
  }
  sink(line + "\n");
}

std::size_t widest(const std::vector<std::string>& labels) {
  std::size_t width = 0;
  for (const std::string& label : labels) width = std::max(width, label.size());
  return width;
}

void TextPlan::write(bool color, bool skipped, const TextSink& sink) const {
  const std::vector<std::string> rows = row_labels();
  const std::vector<std::string> xs = column_labels(true);
  const std::size_t label_width = std::max(widest(rows), std::string_view("column").size());
  const std::size_t wanted = widest(xs) + 2;
  const std::size_t room =
      kTextWidth - std::min(kTextWidth, kLeft + label_width + kLabelGap + wanted / 2);
  // The marks stand as far apart as their labels want, or closer with only some labels.
  const std::size_t pitch =
      std::max<std::size_t>(1, std::min(wanted, room / static_cast<std::size_t>(columns_)));
  const int every = static_cast<int>((wanted + pitch - 1) / pitch);

  sink(paragraph(title()) + "\n");
  for (int row = rows_ - 1; row >= 0; --row) {
    std::string line(kLeft, ' ');
    line += fmt::format("{:<{}}", rows[static_cast<std::size_t>(row)], label_width);
    line.append(kLabelGap, ' ');
    for (int column = 0; column < columns_; ++column) {
      if (column > 0) line.append(pitch - 1, ' ');
      const Cell cell = cells_[index(column, row)];
      line += cell == 0 ? " " : verdict_mark(static_cast<Verdict>(cell - 1), color);
    }
    line.erase(line.find_last_not_of(' ') + 1);
    sink(line + "\n");
  }
  if (!brief_) sink("\n");
  write_column_labels("column", column_labels(false), label_width, pitch, every, sink);
  write_column_labels("x", xs, label_width, pitch, every, sink);
  sink(fmt::format("{}  {} reachable   {} marginal   {} unreachable{}\n", brief_ ? "" : "\n",
                   verdict_mark(Verdict::reachable, color), verdict_mark(Verdict::marginal, color),
                   verdict_mark(Verdict::unreachable, color),
                   skipped ? "   blank: left out (off the bed)" : ""));
}

}  // namespace

std::string verdict_mark(Verdict verdict, bool color) {
  switch (verdict) {
    case Verdict::reachable:
      return "o";
    case Verdict::marginal:
      return color ? "\x1b[33m~\x1b[0m" : "~";
    case Verdict::unreachable:
      break;
  }
  return color ? "\x1b[1;31mX\x1b[0m" : "X";
}

void write_plan(const CheckResult& result, const Setup& setup, const PlanOptions& options,
                const TextSink& sink) {
  if (!setup.request.grid) return;
  const TextPlan plan(result, setup, options);
  if (plan.empty()) return;
  plan.write(options.color, result.counts.skipped > 0, sink);
}

}  // namespace leeway
