#include "formats/drawing/legend.h"

#include <algorithm>

#include "formats/drawing/drawing_style.h"
#include "formats/drawing/label_layout.h"

namespace leeway {
namespace {

constexpr double kRow = 19;
constexpr double kNoteRow = 16;
constexpr double kSample = 34;   // from the left end of a sample to its text
constexpr double kEntryGap = 8;  // between entries and notes

struct Columns {
  std::size_t count = 1;
  std::size_t rows = 0;
  double width = 0;
};

Columns legend_columns(const Legend& legend, double width) {
  double widest = 0;
  for (const LegendEntry& entry : legend.entries) {
    widest = std::max(widest, text_width(entry.text, kFontSize));
  }
  const double wanted = kSample + widest + 8;
  Columns columns;
  columns.count = static_cast<std::size_t>(std::max(1.0, width / wanted));
  columns.count = std::min(columns.count, std::max<std::size_t>(legend.entries.size(), 1));
  columns.rows = (legend.entries.size() + columns.count - 1) / columns.count;
  columns.width = width / static_cast<double>(columns.count);
  return columns;
}

}  // namespace

std::vector<std::string> broken_lines(const std::string& text, double size, double width) {
  std::vector<std::string> lines;
  std::string line;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find(' ', at), text.size());
    const std::string word = cut_to_width(text.substr(at, end - at), size, width);
    if (!line.empty() && text_width(line + " " + word, size) > width) {
      lines.push_back(line);
      line.clear();
    }
    line += line.empty() ? word : " " + word;
    at = end + 1;
  }
  if (!line.empty()) lines.push_back(line);
  return lines;
}

double legend_height(const Legend& legend, double width) {
  double height = kRow * static_cast<double>(legend_columns(legend, width).rows);
  if (!legend.notes.empty()) height += kEntryGap;
  for (const std::string& note : legend.notes) {
    height += kNoteRow * static_cast<double>(broken_lines(note, kFontSize, width).size());
  }
  return height;
}

void write_legend(SvgWriter& svg, const Legend& legend, Point at, double width) {
  const Columns columns = legend_columns(legend, width);
  svg.group("legend");
  for (std::size_t i = 0; i < legend.entries.size(); ++i) {
    const LegendEntry& entry = legend.entries[i];
    const double x = at.x + columns.width * static_cast<double>(i / columns.rows);
    const double y = at.y + kRow * (static_cast<double>(i % columns.rows) + 0.5);
    if (entry.sample) entry.sample(svg, {x + 13, y});
    svg.text("", {x + kSample, y + 4}, Anchor::start,
             cut_to_width(entry.text, kFontSize, columns.width - kSample));
  }
  double y = at.y + kRow * static_cast<double>(columns.rows) + kEntryGap;
  for (const std::string& note : legend.notes) {
    for (const std::string& line : broken_lines(note, kFontSize, width)) {
      y += kNoteRow;
      svg.text("", {at.x, y - 4}, Anchor::start, line);
    }
  }
  svg.close();
}

}  // namespace leeway
