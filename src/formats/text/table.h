#pragma once
// Text in lines of at most kTextWidth columns.

#include <string>
#include <string_view>
#include <vector>

#include "leeway/write_check.h"

namespace leeway {

inline constexpr std::size_t kTextWidth = 100;

// Breaks a text at its blanks; lines after the first begin with `indent` blanks. A word that is
// wider than a line stands alone in one.
std::vector<std::string> wrapped(std::string_view text, std::size_t width, std::size_t indent = 0);

// The same as lines ended by a newline, the first one too behind `indent` blanks.
std::string paragraph(std::string_view text, std::size_t indent = 0);

// Names in tables: cut in the middle where they are long, and then listed in full below.
class TableNames {
 public:
  // `name` is as for sentences.
  std::string cell(const std::string& name);
  // A line for each name that was cut, behind a blank line; empty when none was.
  std::string in_full() const;

 private:
  std::vector<std::string> cut_;
};

// Columns side by side; the last one is wrapped into the width that the others leave.
class Table {
 public:
  explicit Table(std::vector<std::string> heads) : heads_(std::move(heads)) {}

  // `mark` is one column wide as shown, and may carry colour. REQUIRES: as many cells as heads.
  void add(std::string mark, std::vector<std::string> cells);
  void write(const TextSink& sink) const;

 private:
  struct Row {
    std::string mark;
    std::vector<std::string> cells;
  };

  void write_row(const Row& row, const std::vector<std::size_t>& widths,
                 const TextSink& sink) const;

  std::vector<std::string> heads_;
  std::vector<Row> rows_;
};

}  // namespace leeway
