#include "formats/page/report_mount.h"

#include <fmt/format.h>

#include "formats/bracket/bracket_map.h"
#include "formats/bracket/bracket_view.h"
#include "formats/text/html.h"

namespace leeway {
namespace {

void write_sentences(const std::vector<std::string>& sentences, const TextSink& sink) {
  if (sentences.empty()) return;
  sink("<ul>\n");
  for (const std::string& sentence : sentences) sink(html_element("li", sentence));
  sink("</ul>\n");
}

std::string offset_cell(const char* label, const std::string& text) {
  return html_element("td", text, fmt::format("role=\"cell\" data-label=\"{}\"", label).c_str());
}

void write_offsets(const std::vector<OffsetRow>& rows, const TextSink& sink) {
  sink(
      "<table class=\"enter\" role=\"table\"><thead role=\"rowgroup\"><tr role=\"row\">"
      "<th role=\"columnheader\" scope=\"col\">offset</th>"
      "<th role=\"columnheader\" scope=\"col\">x, y</th>"
      "<th role=\"columnheader\" scope=\"col\">leeway</th>"
      "<th role=\"columnheader\" scope=\"col\">reaches</th></tr></thead>\n"
      "<tbody role=\"rowgroup\">\n");
  for (const OffsetRow& row : rows) {
    sink(fmt::format("<tr role=\"row\"><th role=\"rowheader\" scope=\"row\">{}</th>\n",
                     html_text(row.what)) +
         offset_cell("x, y", row.offset) + offset_cell("leeway", row.leeway) +
         offset_cell("reaches", row.reaches) + "</tr>\n");
  }
  sink("</tbody></table>\n");
}

}  // namespace

void write_mount_section(const BracketReport& report, const TextSink& sink) {
  const BracketView view(report, html_name);
  sink("<section class=\"mount\">\n<h2>Where the probe may sit</h2>\n");
  if (report.window) {
    sink(html_element("p", view.summary()));
    sink(html_element("p", view.conventions(), "class=\"small\""));
    const BracketResult& r = *report.window;
    if (r.window.empty) {
      write_sentences(view.conflict(), sink);
    } else {
      write_offsets(view.offsets(), sink);
      write_sentences(view.advice(), sink);
      write_sentences(view.moves(), sink);
      write_sentences(view.sides(), sink);
    }
  }
  sink("<div class=\"picture\">\n");
  MapEmbed embed;
  embed.width = 560;  // so that its type is no smaller than 12 px in half a page
  embed.standalone = false;
  write_bracket_map(report, embed, sink);
  sink("</div>\n</section>\n");
}

}  // namespace leeway
