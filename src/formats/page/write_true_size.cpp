#include "leeway/write_true_size.h"
#include "leeway/rig.h"

#include <fmt/format.h>

#include "formats/drawing/svg.h"
#include "formats/page/paper.h"
#include "formats/page/true_size_drawing.h"
#include "formats/page/true_size_sheet.h"
#include "formats/text/html.h"
#include "formats/text/names.h"
#include "formats/text/numbers.h"
#include "formats/text/summary.h"
#include "formats/write/check_view.h"

namespace leeway {
namespace {

struct Drawn {
  std::string heading;  // with a marked name (html_name)
  SheetPlan plan;
  Box content;
  SheetTexts texts;
  std::string defs;
  std::string off;       // points that are not on the paper; empty for none
  std::string left_out;  // names that are not
};

constexpr std::size_t kMostOffNames = 12;

std::string names_sentence(const char* lead, const std::vector<std::string>& names) {
  if (names.empty()) return "";
  std::vector<std::string> shown(
      names.begin(),
      names.begin() + static_cast<std::ptrdiff_t>(std::min(kMostOffNames, names.size())));
  if (names.size() > kMostOffNames) {
    shown.push_back(fmt::format("{} more", names.size() - kMostOffNames));
  }
  return fmt::format("{}: {}.", lead, joined(shown));
}

Drawn drawn(const CheckResult& result, const Rig& rig, Paper paper,
            const std::optional<std::string>& date) {
  Drawn out;
  out.content = true_size_content(rig.setup());
  out.plan = sheet_plan(out.content, paper);
  const Words words(rig, picture_name);
  const TrueSizeDrawing drawing =
      true_size_drawing(result, rig.setup(), rig.regions(), words, out.plan);
  out.texts.title = setup_name(result, words);
  out.heading = setup_name(result, Words(rig, html_name));
  if (date) out.texts.date = picture_name(*date);
  out.off = names_sentence("Off this drawing", drawing.off);
  out.left_out = names_sentence("No place on the paper for the names", drawing.left_out);
  if (!drawing.off.empty()) {
    out.texts.notes.push_back(fmt::format("{} point{} off this drawing.", drawing.off.size(),
                                          drawing.off.size() == 1 ? " lies" : "s lie"));
  } else if (!drawing.left_out.empty()) {
    out.texts.notes.push_back("Names that would run into others are left out.");
  }
  const Box& w = out.plan.window;
  out.defs = fmt::format(
      "<defs>\n<clipPath id=\"window\"><rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"/>"
      "</clipPath>\n{}</defs>\n",
      svg_number(w.x0), svg_number(w.y0), svg_number(w.width()), svg_number(w.depth()),
      drawing.svg);
  return out;
}

std::string page_style(const SheetPlan& plan) {
  const std::string width = svg_number(plan.width);
  const std::string height = svg_number(plan.height);
  return fmt::format(
      "@page {{ size: {0}mm {1}mm; margin: 0; }}\n"
      ":root {{ color-scheme: light dark; }}\n"
      "body {{ margin: 0; font: 1rem/1.5 \"Liberation Sans\", Arial, sans-serif; }}\n"
      ".sheet {{ display: block; }}\n"
      "@media print {{\n"
      "  .screen {{ display: none; }}\n"
      "  .page {{ width: {0}mm; height: {1}mm; overflow: hidden; break-after: page; }}\n"
      "  .page:last-child {{ break-after: auto; }}\n"
      "}}\n"
      "@media screen {{\n"
      "  .screen, .page {{ max-width: 60rem; margin: 1rem auto; padding: 0 1rem; }}\n"
      "  .screen {{ overflow-wrap: anywhere; }}\n"
      "  .page > svg {{ max-width: 100%; height: auto; outline: 1px solid #777; }}\n"
      "}}\n",
      width, height);
}

}  // namespace

void write_true_size_html(const CheckResult& result, const Rig& rig, const TrueSizeOptions& options,
                          const TextSink& sink) {
  const Drawn page = drawn(result, rig, options.paper, options.date);
  const std::string title = xml_text(page.texts.title);
  // The size of the paper stands in the style, so that no hash of it can be kept; there is no
  // script, and none is allowed.
  sink(fmt::format(
      "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
      "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; "
      "style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'\">\n"
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
      "<link rel=\"icon\" href=\"data:,\">\n<title>{}: at true size "
      "(1:1)</title>\n<style>{}{}</style>\n"
      "</head>\n<body>\n<div class=\"screen\">\n",
      title, page_style(page.plan), kSheetStyle));
  sink(html_element("h1", page.heading));
  sink(html_element("p", sheets_words(page.plan, options.paper)));
  sink("<ul>\n");
  for (const std::string& advice : sheet_advice(page.plan)) sink(html_element("li", advice));
  sink("</ul>\n");
  sink(html_element("p", page.off));
  sink(html_element("p", page.left_out));
  sink(html_element("p", caution()));
  sink("</div>\n");
  for (std::size_t i = 0; i < page.plan.sheets.size(); ++i) {
    sink("<div class=\"page\">");
    sink(sheet_svg(page.plan, page.plan.sheets[i], page.texts, page.content,
                   i == 0 ? page.defs : "", false));
    sink("</div>\n");
  }
  sink("</body>\n</html>\n");
}

void write_true_size_svg(const CheckResult& result, const Rig& rig, const TrueSizeOptions& options,
                         const TextSink& sink) {
  const Drawn page = drawn(result, rig, Paper::bed, options.date);
  sink("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n");
  sink(sheet_svg(page.plan, page.plan.sheets[0], page.texts, page.content,
                 fmt::format("<style>{}</style>\n", kSheetStyle) + page.defs, true));
}

}  // namespace leeway
