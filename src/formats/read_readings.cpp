#include "leeway/read_readings.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "formats/json_file.h"
#include "formats/numbers.h"
#include "formats/spelling.h"
#include "formats/utf8.h"

namespace leeway {
namespace {

constexpr std::array<std::string_view, 5> kColumns = {"nozzle_x", "nozzle_y", "probe_x", "probe_y",
                                                      "label"};
constexpr std::size_t kNumbers = 4;
constexpr std::size_t kLabel = 4;
constexpr double kFarthest = 1e6;  // mm, as everywhere in a setup

struct Field {
  std::string text;
  std::size_t at = 0;  // byte offset
};

struct Line {
  std::vector<Field> fields;
  std::size_t at = 0;
  int number = 0;  // from 1
};

bool is_blank(char c) { return c == ' ' || c == '\t'; }

std::string trimmed(std::string text) {
  while (!text.empty() && is_blank(text.back())) text.pop_back();
  const auto first = std::find_if_not(text.begin(), text.end(), is_blank);
  text.erase(text.begin(), first);
  return text;
}

class TableReader {
 public:
  explicit TableReader(const SourceFile& source) : source_(source), text_(source.text) {
    if (text_.substr(0, kByteOrderMark.size()) == kByteOrderMark) at_ = kByteOrderMark.size();
  }

  ReadReadings read() {
    if (!source_.problem.empty()) {
      note_file("cannot-read", "a file that cannot be read: " + source_.problem, {});
    } else if (const std::size_t bad = first_not_utf8(text_); bad != std::string_view::npos) {
      note(bad, "not-utf8", "a byte that is no UTF-8", "text in UTF-8");
    } else {
      read_lines();
    }
    finish();
    return std::move(out_);
  }

 private:
  struct Noted {
    std::size_t at = 0;
    Fault fault;
  };

  void note(std::size_t at, std::string code, std::string found, std::string allowed,
            std::string nearest = {}) {
    if (noted_.size() >= JsonFile::kMostFaults) return;
    Fault fault;
    fault.code = std::move(code);
    fault.file = source_.name;
    fault.found = std::move(found);
    fault.allowed = std::move(allowed);
    fault.nearest = std::move(nearest);
    noted_.push_back({at, std::move(fault)});
  }
  void note_file(std::string code, std::string found, std::string allowed) {
    whole_file_ = true;
    note(0, std::move(code), std::move(found), std::move(allowed));
  }

  void finish() {
    std::stable_sort(noted_.begin(), noted_.end(),
                     [](const Noted& a, const Noted& b) { return a.at < b.at; });
    LineCounter lines(text_);
    for (Noted& noted : noted_) {
      if (!whole_file_) {
        const LineColumn place = lines.at(noted.at);
        noted.fault.line = place.line;
        noted.fault.column = place.column;
      }
      out_.faults.push_back(std::move(noted.fault));
    }
    if (!out_.faults.empty()) out_.readings.clear();
  }

  // The next line that holds something, as one piece of text; false at the end.
  bool next_line(std::string_view& line, std::size_t& at) {
    while (at_ < text_.size()) {
      at = at_;
      const std::size_t end = std::min(text_.find_first_of("\r\n", at_), text_.size());
      line = text_.substr(at_, end - at_);
      at_ = end;
      if (at_ < text_.size() && text_[at_] == '\r') ++at_;
      if (at_ < text_.size() && text_[at_] == '\n') ++at_;
      const std::size_t first = line.find_first_not_of(" \t");
      if (first != std::string_view::npos && line[first] != '#') return true;
    }
    return false;
  }

  // Splits a line at the separators outside quotes.
  Line split(std::string_view line, std::size_t at) {
    Line out;
    out.at = at;
    Field field;
    field.at = at;
    bool quoted = false;
    bool was_quoted = false;
    const auto take = [&](std::size_t next) {
      if (!was_quoted) field.text = trimmed(field.text);
      out.fields.push_back(field);
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
      } else if (c == '"' && trimmed(field.text).empty() && !was_quoted) {
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
  void choose_separator(std::string_view line, std::size_t at) {
    std::size_t most = 0;
    char best = ',';
    for (const char candidate : {',', ';', '\t'}) {
      separator_ = candidate;
      const std::size_t noted = noted_.size();
      std::size_t known = 0;
      for (const Field& field : split(line, at).fields) {
        known += static_cast<std::size_t>(
            std::count(kColumns.begin(), kColumns.end(), std::string_view(field.text)));
      }
      noted_.resize(noted);
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

  bool read_header(const Line& line) {
    const std::size_t before = noted_.size();
    place_.assign(line.fields.size(), kColumns.size());
    std::array<bool, kColumns.size()> seen{};
    for (std::size_t i = 0; i < line.fields.size(); ++i) {
      const Field& field = line.fields[i];
      const auto at = std::find(kColumns.begin(), kColumns.end(), field.text);
      if (at == kColumns.end()) {
        note(field.at, "unknown-column", fmt::format("the unknown column {}", quoted(field.text)),
             listed({kColumns.begin(), kColumns.end()}),
             std::string(nearest_word(field.text, {kColumns.begin(), kColumns.end()})));
        continue;
      }
      const auto column = static_cast<std::size_t>(at - kColumns.begin());
      if (seen[column]) {
        note(field.at, "column-twice", fmt::format("the column {} a second time", field.text),
             "each column once");
      }
      seen[column] = true;
      place_[i] = column;
    }
    for (std::size_t column = 0; column < kNumbers; ++column) {
      if (seen[column]) continue;
      note(line.at, "missing-column", fmt::format("a header without {}", kColumns[column]),
           "nozzle_x, nozzle_y, probe_x and probe_y in the first line, and label if you like");
    }
    return noted_.size() == before;
  }

  std::optional<double> number(const Field& field, std::size_t column) {
    std::string text = field.text;
    const bool comma = separator_ != ',' && text.find(',') != std::string::npos;
    if (comma && text.find('.') == std::string::npos) {
      std::replace(text.begin(), text.end(), ',', '.');
    }
    const std::optional<double> value = number_in(text);
    if (value && std::abs(*value) <= kFarthest) return value;
    note(field.at, "not-a-number",
         field.text.empty() ? fmt::format("nothing for {}", kColumns[column])
                            : fmt::format("{} for {}", quoted(field.text), kColumns[column]),
         separator_ == ',' ? "a number of mm with a decimal point, at most 1e6"
                           : "a number of mm with a decimal point or a decimal comma, at most 1e6");
    return std::nullopt;
  }

  void read_row(const Line& line) {
    if (line.fields.size() != place_.size()) {
      note(line.at, "wrong-fields",
           fmt::format("{} field{}", line.fields.size(), line.fields.size() == 1 ? "" : "s"),
           fmt::format("{}, as in the header", place_.size()));
      return;
    }
    std::array<double, kNumbers> numbers{};
    Reading reading;
    bool sound = true;
    for (std::size_t i = 0; i < place_.size(); ++i) {
      if (place_[i] == kLabel) {
        reading.label = line.fields[i].text;
      } else if (const auto value = number(line.fields[i], place_[i])) {
        numbers[place_[i]] = *value;
      } else {
        sound = false;
      }
    }
    if (!sound) return;
    reading.nozzle_over = {numbers[0], numbers[1]};
    reading.probe_over = {numbers[2], numbers[3]};
    if (reading.label.empty()) {
      reading.label = fmt::format("row {}", rows_);
    }
    out_.readings.push_back(std::move(reading));
  }

  void read_lines() {
    std::string_view line;
    std::size_t at = 0;
    if (!next_line(line, at)) {
      note_file("no-readings", "no header and no readings",
                "nozzle_x, nozzle_y, probe_x and probe_y in the first line, then a pair a line");
      return;
    }
    choose_separator(line, at);
    if (!read_header(split(line, at))) return;
    while (next_line(line, at)) {
      ++rows_;
      if (rows_ > kMostReadings) {
        note(at, "too-many-readings", fmt::format("more than {} readings", kMostReadings),
             "no more than that");
        return;
      }
      read_row(split(line, at));
    }
    if (rows_ == 0) note_file("no-readings", "a header without readings", "a pair a line");
  }

  const SourceFile& source_;
  std::string_view text_;
  std::size_t at_ = 0;
  char separator_ = ',';
  std::vector<std::size_t> place_;  // of each field: which of kColumns
  std::size_t rows_ = 0;
  bool whole_file_ = false;
  std::vector<Noted> noted_;
  ReadReadings out_;
};

}  // namespace

ReadReadings read_readings(const SourceFile& source) { return TableReader(source).read(); }

}  // namespace leeway
