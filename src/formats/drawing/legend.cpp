#include "formats/drawing/legend.h"

#include <algorithm>

#include "formats/drawing/drawing_style.h"
#include "formats/drawing/label_layout.h"
#include "formats/text/names.h"
#include "geometry/plane/assert.h"

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
  const auto end_line = [&] {
    if (!line.empty()) lines.push_back(line);
    line.clear();
  };
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find(' ', at), text.size());
    std::string_view word = std::string_view(text).substr(at, end - at);
    if (!line.empty() && text_width(line + " " + std::string(word), size) > width) end_line();
    // A word that is wider than a line goes on in the next.
    while (text_width(word, size) > width) {
      const std::size_t part = fitting_length(word, size, width);
      lines.emplace_back(word.substr(0, part));
      word.remove_prefix(part);
    }
    if (!line.empty()) line += ' ';
    line += word;
    at = end + 1;
  }
  end_line();
  return lines;
}

LegendEntry swatch(const std::string& text, const std::string& classes) {
  return {text, [classes](SvgWriter& svg, Point at) {
            svg.path(classes, path_data(Box{at.x - 12, at.x + 12, at.y - 6, at.y + 6}));
          }};
}

LegendEntry stroke(const std::string& text, const std::string& classes) {
  return {text, [classes](SvgWriter& svg, Point at) {
            svg.line(classes, at - Point{12, 0}, at + Point{12, 0});
          }};
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
  LEEWAY_ASSERT(width >= 200);
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

void add_full_names(const std::vector<std::string_view>& names, Legend& legend) {
  std::vector<std::string> listed;
  for (const std::string_view name : names) {
    std::string full = text_name(name);
    if (full == picture_name(name)) continue;
    if (std::find(listed.begin(), listed.end(), full) != listed.end()) continue;
    legend.notes.push_back("In full: " + full);
    listed.push_back(std::move(full));
  }
}

}  // namespace leeway
