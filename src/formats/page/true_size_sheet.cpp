#include "formats/page/true_size_sheet.h"

#include <fmt/format.h>

#include "formats/drawing/svg.h"
#include "formats/drawing/text_width.h"
#include "formats/text/numbers.h"

namespace leeway {
namespace {

constexpr double kCheckLine = 100;

std::string text_at(double x, double y, const std::string& text, const char* kind) {
  return fmt::format("<text x=\"{}\" y=\"{}\" class=\"{}\">{}</text>\n", svg_number(x),
                     svg_number(y), kind, xml_text(text));
}

// A line with a tick at both ends, whose middles are 100 mm apart.
std::string check_lines(const SheetPlan& plan) {
  const double x = kPaperMargin + 0.5;
  const double y = plan.height - kPaperMargin - 5;
  const double side = plan.width - kPaperMargin - 3;
  const double top = kPaperMargin + 4;
  std::string out = fmt::format(
      "<path class=\"measure\" d=\"M{0} {1}h{2}M{0} {3}v5M{4} {3}v5\"/>\n", svg_number(x),
      svg_number(y), svg_number(kCheckLine), svg_number(y - 2.5), svg_number(x + kCheckLine));
  out += text_at(x, y + 5, "0", "small");
  out += text_at(x + kCheckLine - 9, y + 5, "100 mm", "small");
  out += fmt::format("<path class=\"measure\" d=\"M{0} {1}v{2}M{3} {1}h5M{3} {4}h5\"/>\n",
                     svg_number(side), svg_number(top), svg_number(kCheckLine),
                     svg_number(side - 2.5), svg_number(top + kCheckLine));
  out += text_at(side - 2.5, top - 1, "0", "small");
  out += text_at(side - 5, top + kCheckLine + 3.5, "100", "small");
  return out;
}

// Where the neighbours begin, and where crosses shall meet.
std::string seams(const SheetPlan& plan, const Sheet& sheet) {
  const Box& w = plan.window;
  std::string lines;
  const auto across = [&](double y) {
    lines += fmt::format("M{} {}H{}", svg_number(w.x0), svg_number(y), svg_number(w.x1));
  };
  const auto along = [&](double x) {
    lines += fmt::format("M{} {}V{}", svg_number(x), svg_number(w.y0), svg_number(w.y1));
  };
  if (sheet.column > 1) along(w.x0 + kPaperOverlap);
  if (sheet.column < plan.columns) along(w.x1 - kPaperOverlap);
  if (sheet.row > 1) across(w.y0 + kPaperOverlap);
  if (sheet.row < plan.rows) across(w.y1 - kPaperOverlap);
  std::string out;
  if (!lines.empty()) out = fmt::format("<path class=\"seam\" d=\"{}\"/>\n", lines);
  for (const Point p : registration_points(plan)) {
    const double x = w.x0 + p.x - sheet.shows.x0;
    const double y = w.y0 + sheet.shows.y1 - p.y;
    if (x < w.x0 || x > w.x1 || y < w.y0 || y > w.y1) continue;
    out += fmt::format("<path class=\"cross\" d=\"M{0} {1}h10m-5 -5v10m-2.5 -7.5h5v5h-5z\"/>\n",
                       svg_number(x - 5), svg_number(y));
  }
  return out;
}

// How the sheets lie, this one filled; its right upper corner is given. Nothing of a single one.
std::string key_plan(const SheetPlan& plan, const Sheet& here, Point corner) {
  if (plan.sheets.size() == 1) return "";
  constexpr double kWidest = 17;
  constexpr double kHighest = 15;
  const Box& w = plan.window;
  const double scale =
      std::min(kWidest / (plan.columns * w.width()), kHighest / (plan.rows * w.depth()));
  const double width = scale * w.width();
  const double height = scale * w.depth();
  std::string out;
  for (const Sheet& sheet : plan.sheets) {
    const bool filled = sheet.row == here.row && sheet.column == here.column;
    out += fmt::format("<rect class=\"{}\" x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"/>\n",
                       filled ? "key here" : "key",
                       svg_number(corner.x - (plan.columns - sheet.column + 1) * width),
                       svg_number(corner.y + (sheet.row - 1) * height), svg_number(width),
                       svg_number(height));
  }
  return out;
}

std::string foot(const SheetPlan& plan, const Sheet& sheet, const SheetTexts& texts) {
  const double top = plan.height - kPaperMargin - kPaperFoot;
  constexpr double kLine = 3.5;
  double y = top + 4;
  std::string out;
  for (const char* line : {"Print at 100 %, not fitted to the page. Then measure: both lines that",
                           "run from 0 to 100 must be 100 mm long. If not, do not use this sheet.",
                           "Lay it on the machine only when that is cold and switched off;",
                           "the machine's manual comes first."}) {
    out += text_at(kPaperMargin, y, line, "small");
    y += kLine;
  }
  const double x = kPaperMargin + 108;
  y = top + 4.5;
  out +=
      text_at(x, y, cut_to_width(texts.title, 3.8 * kBold, plan.width - kPaperMargin - x), "title");
  out += key_plan(plan, sheet, {plan.width - kPaperMargin, top + 6.5});
  const std::string name = sheet_name(plan, sheet);
  const std::size_t colon = name.find(": ");
  y += 0.5;
  const std::string date = texts.date.empty() ? "" : "   " + texts.date;
  out += text_at(x, y += kLine, name.substr(0, colon) + date, "small");
  if (colon != std::string::npos) out += text_at(x, y += kLine, name.substr(colon + 2), "small");
  if (plan.sheets.size() > 1) {
    out += text_at(x, y += kLine, "Join sheets where the crosses meet (10 mm overlap).", "small");
  }
  y += kLine + 1.2;
  double sample = x;
  for (const Verdict verdict : {Verdict::reachable, Verdict::marginal, Verdict::unreachable}) {
    out += fmt::format("<use href=\"#mark-{}\" x=\"{}\" y=\"{}\"/>\n", word(verdict),
                       svg_number(sample + 2.7), svg_number(y - 0.9));
    out += text_at(sample + 6.5, y, word(verdict), "small");
    sample += 21;
  }
  y += kLine + 1.2;
  out += fmt::format(
      "<path class=\"sure\" d=\"M{0} {1}h5.4\"/>\n<path class=\"mesh-bounds\" d=\"M{2} {1}h6\"/>\n",
      svg_number(x), svg_number(y - 0.9), svg_number(x + 32));
  out += text_at(x + 6.5, y, "reachable area", "small");
  out += text_at(x + 39, y, "mesh bounds as asked for", "small");
  for (std::size_t i = 0; i < texts.notes.size() && i < kMostSheetNotes; ++i) {
    out += text_at(x, y += kLine, texts.notes[i], "small");
  }
  return out;
}

}  // namespace

std::string sheet_name(const SheetPlan& plan, const Sheet& sheet) {
  if (plan.sheets.size() == 1) return "The only sheet";
  const int number = (sheet.row - 1) * plan.columns + sheet.column;
  return fmt::format("Sheet {} of {}: row {} from the back, column {} from the left", number,
                     plan.sheets.size(), sheet.row, sheet.column);
}

std::string sheets_words(const SheetPlan& plan, Paper paper) {
  if (paper == Paper::bed) {
    return fmt::format("One sheet of {} by {} mm.", decimal(plan.width), decimal(plan.height));
  }
  return fmt::format("{} of {}, {}.", counted(plan.sheets.size(), "sheet"), word(paper),
                     plan.width < plan.height ? "upright" : "on its side");
}

std::vector<std::string> sheet_advice(const SheetPlan& plan) {
  std::vector<std::string> out = {
      "Print at 100 %, with no fitting or shrinking to the page, and with the margins that the "
      "file asks for.",
      "Then measure on each sheet the two lines that run from 0 to 100: both must be 100 mm long, "
      "for paper printers often stretch one direction more than the other. If not, do not use the "
      "sheet."};
  if (plan.sheets.size() > 1) {
    out.push_back(
        "The sheets come row by row from the back, each row from the left. Lay each over its "
        "neighbours so that the crosses meet, and tape them; they overlap by 10 mm.");
  }
  return out;
}

std::string sheet_svg(const SheetPlan& plan, const Sheet& sheet, const SheetTexts& texts,
                      const Box& content, const std::string& defs, bool alone) {
  const Box& w = plan.window;
  // Alone it has its origin where the machine has its own; drawing programs count from there.
  const Point zero = alone ? Point{w.x0 - sheet.shows.x0, w.y0 + sheet.shows.y1} : Point{};
  std::string out = fmt::format(
      "<svg{0} class=\"sheet\" width=\"{1}mm\" height=\"{2}mm\" viewBox=\"{4} {5} {1} {2}\" "
      "role=\"img\" aria-label=\"{3}\">\n",
      alone ? " xmlns=\"http://www.w3.org/2000/svg\"" : "", svg_number(plan.width),
      svg_number(plan.height), xml_text(texts.title + ". " + sheet_name(plan, sheet)),
      svg_number(-zero.x), svg_number(-zero.y));
  out += defs;
  if (alone) {
    out += fmt::format("<g transform=\"translate({} {})\">\n", svg_number(-zero.x),
                       svg_number(-zero.y));
  }
  out += "<rect class=\"paper\" width=\"100%\" height=\"100%\"/>\n";
  out += fmt::format("<g clip-path=\"url(#window)\"><use href=\"#plan\" x=\"{}\" y=\"{}\"/></g>\n",
                     svg_number(w.x0 + content.x0 - sheet.shows.x0),
                     svg_number(w.y0 + sheet.shows.y1 - content.y1));
  out +=
      fmt::format("<rect class=\"seam\" x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"/>\n",
                  svg_number(w.x0), svg_number(w.y0), svg_number(w.width()), svg_number(w.depth()));
  return out + seams(plan, sheet) + check_lines(plan) + foot(plan, sheet, texts) +
         (alone ? "</g>\n</svg>\n" : "</svg>\n");
}

}  // namespace leeway
