#include "formats/input/csv_table.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "formats/input/fields.h"
#include "formats/json/json_file.h"
#include "formats/text/names.h"
#include "formats/text/numbers.h"
#include "formats/text/spelling.h"
#include "formats/text/utf8.h"
#include "geometry/plane/assert.h"

namespace leeway {
namespace {

bool is_blank(char c) { return c == ' ' || c == '\t'; }

std::string trimmed_field(std::string text) {
  while (!text.empty() && is_blank(text.back())) text.pop_back();
  const auto first = std::find_if_not(text.begin(), text.end(), is_blank);
  text.erase(text.begin(), first);
  return text;
}

}  // namespace

CsvTable::CsvTable(const SourceFile& source, CsvKind kind)
    : name_(source.name), text_(source.text), kind_(std::move(kind)) {
  if (std::string_view(text_).substr(0, kByteOrderMark.size()) == kByteOrderMark) {
    at_ = kByteOrderMark.size();
  }
  if (!source.problem.empty()) {
    note_file("cannot-read", "a file that cannot be read: " + source.problem, {});
  } else if (const std::size_t bad = first_not_utf8(text_); bad != std::string_view::npos) {
    note(bad, "not-utf8", "a byte that is no UTF-8", "text in UTF-8");
  } else {
    read_lines();
  }
}

void CsvTable::note(std::size_t at, std::string code, std::string found, std::string allowed,
                    std::string nearest, std::string hint) {
  Fault fault = fault_of(std::move(code), std::move(found), std::move(allowed), std::move(nearest));
  fault.hint = std::move(hint);
  notes_.add(at, std::move(fault));
}

void CsvTable::note_file(std::string code, std::string found, std::string allowed) {
  note(FaultNotes::kWholeFile, std::move(code), std::move(found), std::move(allowed));
}

// The next line that holds something, as one piece of text; false at the end.
bool CsvTable::next_line(std::string_view& line, std::size_t& at) {
  while (at_ < text_.size()) {
    at = at_;
    const std::size_t end = std::min(text_.find_first_of("\r\n", at_), text_.size());
    line = std::string_view(text_).substr(at_, end - at_);
    at_ = end;
    if (at_ < text_.size() && text_[at_] == '\r') ++at_;
    if (at_ < text_.size() && text_[at_] == '\n') ++at_;
    const std::size_t first = line.find_first_not_of(" \t");
    if (first != std::string_view::npos && line[first] != '#') return true;
  }
  return false;
}

// Splits a line at the separators outside quotes.
CsvTable::Line CsvTable::split(std::string_view line, std::size_t at) {
  Line out;
  out.at = at;
  CsvCell field;
  field.at = at;
  bool quoted = false;
  bool was_quoted = false;
  const auto take = [&](std::size_t next) {
    if (!was_quoted) field.text = trimmed_field(field.text);
    out.cells.push_back(field);
    field = {"", next};
    was_quoted = false;
  };
  for (std::size_t i = 0; i < line.size(); ++i) {
    const char c = line[i];
    if (quoted) {
      if (c != '"') {
        field.text += c;
      } else if (i + 1 < line.size() && line[i + 1] == '"') {
        field.text += line[++i];
      } else {
        quoted = false;
      }
    } else if (c == '"' && trimmed_field(field.text).empty() && !was_quoted) {
      field.text.clear();
      quoted = was_quoted = true;
    } else if (c == separator_) {
      take(at + i + 1);
    } else if (!was_quoted || !is_blank(c)) {
      field.text += c;
    }
  }
  if (quoted) {
    note(field.at, "open-quote", "a text in quotes that does not end in its line",
         "a closing \" in the same line");
  }
  take(at + line.size());
  return out;
}

// The separator that gives the header the most columns that we know.
void CsvTable::choose_separator(std::string_view line, std::size_t at) {
  std::size_t most = 0;
  char best = ',';
  for (const char candidate : {',', ';', '\t'}) {
    separator_ = candidate;
    const FaultNotes noted = notes_;
    std::size_t known = 0;
    for (const CsvCell& cell : split(line, at).cells) {
      known += static_cast<std::size_t>(
          std::count(kind_.columns.begin(), kind_.columns.end(), std::string_view(cell.text)));
    }
    notes_ = noted;
    if (known > most) {
      most = known;
      best = candidate;
    }
  }
  separator_ = best;
  // Nothing known: whatever stands there most often.
  if (most == 0) {
    for (const char candidate : {';', '\t'}) {
      if (std::count(line.begin(), line.end(), candidate) >
          std::count(line.begin(), line.end(), separator_)) {
        separator_ = candidate;
      }
    }
  }
}

bool CsvTable::read_header(const Line& line) {
  const std::size_t before = notes_.size();
  place_.assign(line.cells.size(), kind_.columns.size());
  std::vector<bool> seen(kind_.columns.size(), false);
  for (std::size_t i = 0; i < line.cells.size(); ++i) {
    const CsvCell& field = line.cells[i];
    const auto at = std::find(kind_.columns.begin(), kind_.columns.end(), field.text);
    if (at == kind_.columns.end()) {
      const WordList known{kind_.columns.begin(), kind_.columns.end()};
      const std::string_view nearest = nearest_word(field.text, known);
      note(field.at, "unknown-column", fmt::format("the unknown column {}", in_quotes(field.text)),
           listed(known), std::string(nearest));
      // What was meant is not told to be missing besides.
      const auto meant = std::find(known.begin(), known.end(), nearest);
      if (meant != known.end()) seen[static_cast<std::size_t>(meant - known.begin())] = true;
      continue;
    }
    const auto column = static_cast<std::size_t>(at - kind_.columns.begin());
    if (seen[column]) {
      note(field.at, "column-twice", fmt::format("the column {} a second time", field.text),
           "each column once");
    }
    seen[column] = true;
    place_[i] = column;
  }
  for (std::size_t column = 0; column < kind_.required; ++column) {
    if (seen[column]) continue;
    note(line.at, "missing-column", fmt::format("a header without {}", kind_.columns[column]),
         std::string(kind_.header));
  }
  return notes_.size() == before;
}

std::optional<double> CsvTable::number(std::size_t row, std::size_t column) {
  LEEWAY_ASSERT(column < kind_.required && rows_[row][column].has_value());
  const CsvCell& cell = *rows_[row][column];
  std::string text = cell.text;
  const bool comma = separator_ != ',' && text.find(',') != std::string::npos;
  if (comma && text.find('.') == std::string::npos) {
    std::replace(text.begin(), text.end(), ',', '.');
  }
  const std::optional<double> value = number_in(text);
  if (value && std::abs(*value) <= kLargestLength) return value;
  note(cell.at, "not-a-number",
       cell.text.empty() ? fmt::format("nothing for {}", kind_.columns[column])
                         : fmt::format("{} for {}", in_quotes(cell.text), kind_.columns[column]),
       separator_ == ',' ? "a number of mm with a decimal point, at most 1e6"
                         : "a number of mm with a decimal point or a decimal comma, at most 1e6",
       {}, character_hint(cell.text));
  return std::nullopt;
}

void CsvTable::read_row(Line line, std::string_view text) {
  if (line.cells.size() != place_.size()) {
    note(line.at, "wrong-fields", counted(line.cells.size(), "field"),
         fmt::format("{}, as in the header", place_.size()), {},
         separator_ == ',' && line.cells.size() > place_.size() ? comma_hint(text) : "");
    return;
  }
  std::vector<std::optional<CsvCell>> row(kind_.columns.size());
  for (std::size_t i = 0; i < place_.size(); ++i) row[place_[i]] = std::move(line.cells[i]);
  rows_.push_back(std::move(row));
}

void CsvTable::read_lines() {
  std::string_view line;
  std::size_t at = 0;
  if (!next_line(line, at)) {
    note_file(std::string(kind_.code), fmt::format("no header and no {}", kind_.things),
              fmt::format("{}, then {}", kind_.header, kind_.row));
    return;
  }
  choose_separator(line, at);
  if (!read_header(split(line, at))) return;
  std::size_t rows = 0;
  while (next_line(line, at)) {
    if (++rows > kind_.most) {
      note(at, fmt::format("too-many-{}", kind_.things),
           fmt::format("more than {} {}", kind_.most, kind_.things), "no more than that");
      return;
    }
    read_row(split(line, at), line);
  }
  if (rows == 0) {
    note_file(std::string(kind_.code), fmt::format("a header without {}", kind_.things),
              std::string(kind_.row));
  }
}

}  // namespace leeway
