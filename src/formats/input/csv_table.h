#pragma once
// Tables in text that a person wrote, with every fault at once: a header, then a row a line;
// separated by commas, semicolons or tabs; lines that begin with # are comments; text may stand in
// double quotes (RFC 4180, within one line). A decimal comma will do where semicolons or tabs
// separate.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "formats/fault/fault_notes.h"
#include "leeway/fault.h"
#include "leeway/read_setup.h"

namespace leeway {

// What is looked for, and how faults speak of it.
struct CsvKind {
  std::vector<std::string_view> columns;
  std::size_t required = 0;  // so many of them, from the first, must be there
  std::string_view things;   // "readings"
  std::string_view code;     // of the fault that there are none: "no-readings"
  std::string_view header;   // what the first line holds, in words
  std::string_view row;      // "a pair a line"
  std::size_t most = 0;      // rows
};

struct CsvCell {
  std::string text;
  std::size_t at = 0;  // byte offset in the file
};

class CsvTable {
 public:
  CsvTable(const SourceFile& source, CsvKind kind);

  // Each with a cell for every column; nothing where the table does not have it.
  const std::vector<std::vector<std::optional<CsvCell>>>& rows() const { return rows_; }

  // A number of mm, at most 1e6 either way. Nothing, with a fault noted, for anything else.
  // REQUIRES: a column that is required.
  std::optional<double> number(std::size_t row, std::size_t column);

  void note(std::size_t at, std::string code, std::string found, std::string allowed,
            std::string nearest = {}, std::string hint = {});

  // In the order of the file.
  std::vector<Fault> faults() const { return notes_.told(name_, text_); }

 private:
  struct Line {
    std::vector<CsvCell> cells;
    std::size_t at = 0;
  };

  void note_file(std::string code, std::string found, std::string allowed);
  bool next_line(std::string_view& line, std::size_t& at);
  Line split(std::string_view line, std::size_t at);
  void choose_separator(std::string_view line, std::size_t at);
  bool read_header(const Line& line);
  void read_row(Line line, std::string_view text);
  void read_lines();

  std::string name_;
  std::string text_;
  CsvKind kind_;
  std::size_t at_ = 0;
  char separator_ = ',';
  std::vector<std::size_t> place_;  // of each cell: which column
  std::vector<std::vector<std::optional<CsvCell>>> rows_;
  FaultNotes notes_;
};

}  // namespace leeway
