#include "formats/text/table.h"

#include <algorithm>

#include "formats/text/names.h"
#include "geometry/plane/assert.h"

namespace leeway {
namespace {

constexpr std::size_t kColumnGap = 2;
constexpr std::size_t kNarrowest = 24;  // of the last column

void pad(std::string& line, std::string_view cell, std::size_t width) {
  line += cell;
  line.append(width + kColumnGap - std::min(width, columns_of(cell)), ' ');
}

}  // namespace

std::vector<std::string> wrapped(std::string_view text, std::size_t width, std::size_t indent) {
  std::vector<std::string> lines(1);
  std::size_t used = 0;
  std::size_t start = 0;  // columns that the line began with
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t from = text.find_first_not_of(' ', at);
    if (from == std::string_view::npos) break;
    at = std::min(text.find(' ', from), text.size());
    const std::string_view word = text.substr(from, at - from);
    const std::size_t columns = columns_of(word);
    if (used > start && used + 1 + columns > width) {
      lines.emplace_back(indent, ' ');
      used = start = indent;
    }
    if (used > start) {
      lines.back() += ' ';
      ++used;
    }
    lines.back() += word;
    used += columns;
  }
  return lines;
}

std::string paragraph(std::string_view text, std::size_t indent) {
  std::string out;
  for (const std::string& line : wrapped(text, kTextWidth - indent)) {
    out.append(indent, ' ');
    out += line;
    out += '\n';
  }
  return out;
}

std::string TableNames::cell(const std::string& name) {
  constexpr std::size_t kWidest = 24;
  if (columns_of(name) <= kWidest) return name;
  if (std::find(cut_.begin(), cut_.end(), name) == cut_.end()) cut_.push_back(name);
  return cut_middle(name, kWidest);
}

std::string TableNames::in_full() const {
  std::string out;
  for (const std::string& name : cut_) {
    out += (out.empty() ? "\n" : "") + paragraph("In full: " + name, 2);
  }
  return out;
}

void Table::add(std::string mark, std::vector<std::string> cells) {
  LEEWAY_ASSERT(cells.size() == heads_.size());
  rows_.push_back({std::move(mark), std::move(cells)});
}

void Table::write_row(const Row& row, const std::vector<std::size_t>& widths,
                      const TextSink& sink) const {
  std::string line = "  " + row.mark + " ";
  std::size_t indent = 2 + 1 + 1;
  for (std::size_t i = 0; i + 1 < row.cells.size(); ++i) {
    pad(line, row.cells[i], widths[i]);
    indent += widths[i] + kColumnGap;
  }
  const std::size_t width = std::max(kNarrowest, kTextWidth - std::min(kTextWidth, indent));
  const std::vector<std::string> last = wrapped(row.cells.back(), width);
  for (std::size_t i = 0; i < last.size(); ++i) {
    if (i > 0) line.assign(indent, ' ');
    line += last[i];
    line += '\n';
    sink(line);
  }
}

void Table::write(const TextSink& sink) const {
  std::vector<std::size_t> widths(heads_.size(), 0);
  for (std::size_t i = 0; i < heads_.size(); ++i) widths[i] = columns_of(heads_[i]);
  for (const Row& row : rows_) {
    for (std::size_t i = 0; i < row.cells.size(); ++i) {
      widths[i] = std::max(widths[i], columns_of(row.cells[i]));
    }
  }
  write_row({" ", heads_}, widths, sink);
  for (const Row& row : rows_) write_row(row, widths, sink);
}

}  // namespace leeway
