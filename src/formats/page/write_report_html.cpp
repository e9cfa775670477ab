#include "leeway/rig.h"
#include "leeway/write_report.h"

#include <fmt/format.h>

#include <algorithm>

#include "formats/bracket/bracket_map.h"
#include "formats/explain/confirm_view.h"
#include "formats/explain/explain_view.h"
#include "formats/explain/mistake_view.h"
#include "formats/page/report_mount.h"
#include "formats/page/report_points.h"
#include "formats/page/report_style.h"
#include "formats/text/html.h"
#include "formats/text/numbers.h"
#include "formats/text/summary.h"
#include "formats/write/check_view.h"
#include "formats/write/fit_view.h"
#include "geometry/plane/assert.h"
#include "leeway/version.h"

namespace leeway {
namespace {

// What all sections need. Sentences are plain, with marked names (html_name); html_text escapes
// them on their way out.
struct ReportPage {
  const ExplainResult& explained;
  const CheckResult& checked;
  const FitOrWhyNot& fitted;
  const NumbersToEnter& own;
  const Rig& rig;
  const DrawOptions& options;
  const TextSink& sink;
  Words words;
};

using Sentences = std::vector<std::string>;

std::string capital(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 32);
  return text;
}

void html_paragraph(const ReportPage& page, const std::string& text, const char* attributes = "") {
  page.sink(html_element("p", text, attributes));
}

void html_paragraphs(const ReportPage& page, const Sentences& sentences) {
  for (const std::string& sentence : sentences) html_paragraph(page, sentence);
}

void html_heading(const ReportPage& page, const char* text) { page.sink(html_element("h2", text)); }

void html_list(const ReportPage& page, const Sentences& sentences) {
  if (sentences.empty()) return;
  page.sink("<ul>\n");
  for (const std::string& sentence : sentences) page.sink(html_element("li", sentence));
  page.sink("</ul>\n");
}

void write_head(const ReportPage& page) {
  page.sink(
      fmt::format("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
                  "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; "
                  "style-src 'sha256-{}' 'sha256-{}' 'sha256-{}'; script-src 'sha256-{}'; img-src "
                  "data:; base-uri 'none'; "
                  "form-action 'none'\">\n"
                  "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
                  "<meta name=\"color-scheme\" content=\"light dark\">\n"
                  "<meta name=\"referrer\" content=\"no-referrer\">\n",
                  kPlanStyleHash, kMapStyleHash, kReportStyleHash, kReportScriptHash));
  // Without an icon of its own, a page on a server makes browsers ask for one.
  page.sink("<link rel=\"icon\" href=\"data:,\">\n");
  page.sink(fmt::format("<title>{}: leeway report</title>\n",
                        html_attribute(setup_name(page.checked, page.words))));
  page.sink(
      fmt::format("<style>{}</style>\n<style>{}</style>\n<style>{}</style>\n</head>\n<body>\n",
                  plan_css(), bracket_map_css(), kReportStyle));
}

void write_top(const ReportPage& page) {
  page.sink("<header>\n");
  html_paragraph(page, "Levelling probe: where it can go", "class=\"kind\"");
  page.sink(html_element("h1", setup_name(page.checked, page.words)));
  html_paragraph(page, capital(summary(page.checked, page.rig.setup(), page.words)) + ".",
                 "class=\"gist\"");
  if (!page.rig.setup().machine.name.empty()) {
    html_paragraph(page, fmt::format("Machine: {}. The probe is {}.",
                                     page.words.name(page.rig.setup().machine.name),
                                     offset_words(page.rig.setup().probe.offset)));
  } else {
    html_paragraph(page,
                   fmt::format("The probe is {}.", offset_words(page.rig.setup().probe.offset)));
  }
  html_paragraph(page, units_sentence(), "class=\"small\"");
  page.sink("<div class=\"caution\" role=\"note\">");
  page.sink(html_element("p", std::string(caution()) +
                                  " A nozzle that is sent down where the probe finds no bed is "
                                  "driven into it."));
  page.sink("</div>\n</header>\n");
}

void write_moves_html(const ReportPage& page) {
  html_paragraph(page, moves_sentence(page.checked, page.rig.setup(), page.words));
  const std::size_t shown = std::min(kMostMovesShown, page.checked.moves.blocked.size());
  Sentences moves;
  for (std::size_t i = 0; i < shown; ++i) {
    const BlockedMove& move = page.checked.moves.blocked[i];
    moves.push_back(fmt::format("{} to {}: {}", page.words.point(page.checked.points[move.from]),
                                page.words.point(page.checked.points[move.to]),
                                page.words.stop(move.stop)));
  }
  const std::string more = more_moves_sentence(page.checked.moves.blocked.size(), shown);
  if (!more.empty()) moves.push_back(more);
  html_list(page, moves);
}

void write_plan_html(const ReportPage& page, std::vector<std::size_t> listed) {
  const bool points = !listed.empty();
  page.sink("<figure class=\"plan\" aria-labelledby=\"plan\">\n<h2 id=\"plan\">Plan</h2>\n");
  if (points) page.sink("<p class=\"skip\"><a href=\"#points\">Skip the plan</a></p>\n");
  html_paragraph(page, "It scrolls sideways.", "class=\"small narrow\"");
  page.sink("<div class=\"picture\">\n");
  DrawOptions options = page.options;
  options.date.reset();
  EmbedOptions embed;
  embed.title = false;
  embed.caution = false;
  // So that its type is no smaller than 12 px in half a page, and 9 px on a phone.
  constexpr double kReportPlanWidth = 560;
  embed.width = kReportPlanWidth;
  std::sort(listed.begin(), listed.end());
  embed.linked = std::move(listed);
  write_plan_element(page.checked, page.rig, options, embed, page.sink);
  page.sink("</div>\n");
  if (points) {
    page.sink(
        "<p id=\"shown\" role=\"status\">Point at, tab to or tap a point of the plan: its row in "
        "the table says why it is what it is.</p>\n");
  }
  page.sink("</figure>\n");
}

void write_points(const ReportPage& page, const std::vector<std::size_t>& listed) {
  page.sink("<section class=\"list\" aria-labelledby=\"points\">\n");
  page.sink("<h2 id=\"points\">Points</h2>\n");
  html_paragraph(page, listed_sentence(page.checked), "class=\"small\"");
  page.sink("<div class=\"rows\">\n");
  write_points_table(page.checked, listed, page.words, page.sink);
  page.sink("</div>\n</section>\n");
}

void write_rest_of_check(const ReportPage& page) {
  const Sentences empty = empty_region_sentences(page.checked);
  const std::string coverage = coverage_sentence(page.checked, page.rig.setup());
  const std::string home = home_sentence(page.checked, page.words);
  if (empty.empty() && coverage.empty() && home.empty() && page.checked.moves.count == 0) return;
  html_heading(page, "Coverage, homing and moves");
  html_paragraphs(page, empty);
  html_paragraph(page, coverage);
  html_paragraph(page, home);
  write_moves_html(page);
}

void write_explanation(const ReportPage& page) {
  const ExplainResult& result = page.explained;
  if (!result.tightest.empty()) {
    html_heading(page, "Where it is tightest");
    html_paragraph(page, tightest_lead(result, page.rig.setup()) + ":");
    html_list(page, tightest_sentences(result, page.words));
    html_paragraph(page, compare_lead() + ":");
    html_list(page, compare_sentences(page.rig.setup()));
    return;
  }
  if (result.groups.empty()) return;
  html_heading(page, "Why points fail");
  html_paragraph(page, asked_sentence(result, page.rig.setup(), page.words));
  Sentences groups;
  for (const FailingGroup& group : result.groups) {
    groups.push_back(group_sentence(group, result, page.words) + " For example " +
                     arithmetic_sentence(group, result, page.rig, page.words));
  }
  html_list(page, groups);
  const std::string too_much = too_much_sentence(result);
  if (!too_much.empty() && too_much_first(result)) html_paragraph(page, too_much);
  if (result.mistakes.empty()) {
    html_paragraph(page, no_mistake_sentence(result));
  } else {
    html_paragraph(page, mistakes_lead(result) + ":");
    Sentences mistakes;
    for (const MistakeFound& mistake : result.mistakes) {
      mistakes.push_back(mistake_sentence(mistake, page.rig.setup()) + " " +
                         confirm_sentence(mistake, page.rig.setup()));
    }
    html_list(page, mistakes);
  }
  if (!too_much.empty() && !too_much_first(result)) html_paragraph(page, too_much);
  if (result.remedies.empty()) return;
  html_paragraph(page, remedies_lead() + ":");
  Sentences remedies;
  for (const Remedy& remedy : result.remedies)
    remedies.push_back(remedy_sentence(remedy, page.rig.setup()));
  html_list(page, remedies);
}

void write_rows(const ReportPage& page, const MeshNumbers& numbers) {
  page.sink("<table role=\"table\" class=\"enter\">\n<thead role=\"rowgroup\"><tr role=\"row\">");
  for (const char* head : {"what", "left", "right", "front", "back"}) {
    page.sink(fmt::format("<th role=\"columnheader\" scope=\"col\">{}</th>", head));
  }
  page.sink("</tr></thead>\n<tbody role=\"rowgroup\">\n");
  for (const FitRow& row : mesh_rows(numbers)) {
    page.sink("<tr role=\"row\">" +
              html_element("th", row.what, "role=\"rowheader\" scope=\"row\""));
    const auto cell = [&page](const char* side, const std::string& value) {
      page.sink(
          html_element("td", value, fmt::format("role=\"cell\" data-label=\"{}\"", side).c_str()));
    };
    cell("left", row.left);
    cell("right", row.right);
    cell("front", row.front);
    cell("back", row.back);
    page.sink("</tr>\n");
  }
  page.sink("</tbody>\n</table>\n");
}

// A grid that covers more than the setup's own, by at least a point of percent.
std::string larger_grid_sentence(const ReportPage& page) {
  const auto* fitted = std::get_if<FitResult>(&page.fitted);
  if (fitted == nullptr || !fitted->mesh) return "";
  const std::optional<double> larger = fitted->mesh->coverage.fraction;
  const std::optional<double> own =
      page.checked.coverage ? page.checked.coverage->fraction : std::nullopt;
  constexpr double kWorthSaying = 0.01;
  if (!larger || !own || *larger < *own + kWorthSaying) return "";
  return "A larger one is possible: " + fit_summary(*fitted, page.words) + " (leeway fit).";
}

void write_own_numbers(const ReportPage& page) {
  const MeshNumbers& mesh = *page.own.mesh;
  html_paragraph(page, fmt::format("They are of your own grid of {} x {} points, which is "
                                   "reachable at every point. {}:",
                                   mesh.columns, mesh.rows, fit_rows_lead()));
  write_rows(page, mesh);
  html_paragraph(page, missing_sentence(mesh));
  html_paragraph(page, spacing_sentence(mesh));
  html_paragraph(page, offset_sentence(page.rig.setup().probe.offset));
  if (page.own.home) html_paragraph(page, homing_sentence(*page.own.home, page.words));
  html_paragraph(page, larger_grid_sentence(page));
}

void write_numbers(const ReportPage& page) {
  html_heading(page, "The numbers to enter");
  if (page.own.mesh_is_safe) return write_own_numbers(page);
  if (const auto* why_not = std::get_if<std::string>(&page.fitted)) {
    html_paragraph(page, capital(*why_not) + " (leeway fit --columns N --rows N).");
    return;
  }
  const FitResult& fitted = std::get<FitResult>(page.fitted);
  if (page.own.mesh && fitted.mesh) {
    html_paragraph(page, "They are not of your own grid, which may not be probed as it stands.");
  }
  html_paragraph(page, capital(fit_summary(fitted, page.words)) + ".");
  if (fitted.mesh) {
    Sentences sentences = mesh_sentences(fitted, page.rig.setup(), page.words);
    if (!fitted.checked.moves.blocked.empty()) {
      // The first one: moves between these points would run into something.
      page.sink("<div class=\"caution\" role=\"note\">" + html_element("p", sentences.front()) +
                "</div>\n");
      sentences.erase(sentences.begin());
    }
    html_paragraph(page, fit_rows_lead() + ":");
    write_rows(page, fitted.numbers);
    html_paragraphs(page, sentences);
  } else {
    html_paragraph(page, limiting_sentence(fitted, page.words));
    const Sentences remedies = remedy_sentences(fitted);
    html_paragraph(page, remedies.empty() ? no_remedy_sentence() : fit_remedies_lead() + ":");
    html_list(page, remedies);
  }
  html_paragraphs(page, other_sentences(fitted, page.words));
}

void write_end(const ReportPage& page) {
  page.sink("</main>\n");
  const std::string date = page.options.date ? ", " + html_name(*page.options.date) : "";
  page.sink(html_element("footer", fmt::format("leeway {}{}.", LEEWAY_VERSION, date)));
  page.sink(fmt::format("<script>{}</script>\n</body>\n</html>\n", kReportScript));
}

}  // namespace

void write_report_html(const ExplainResult& explained, const FitOrWhyNot& fitted,
                       const NumbersToEnter& own, const BracketReport& mount, const Rig& rig,
                       const DrawOptions& options, const TextSink& sink) {
  LEEWAY_ASSERT(explained.check.setup == rig.setup().name);
  const ReportPage page{explained, explained.check, fitted, own,
                        rig,       options,         sink,   Words(rig, html_name)};
  write_head(page);
  write_top(page);
  sink("<main>\n");
  const std::vector<std::size_t> listed = listed_points(page.checked);
  // On a wide screen two columns; what is to be entered comes before the points.
  sink("<div class=\"column\">\n");
  write_plan_html(page, listed);
  sink("<section class=\"why\">\n");
  write_explanation(page);
  write_rest_of_check(page);
  sink("</section>\n");
  if (mount.map) write_mount_section(mount, sink);
  sink("</div>\n<div class=\"column side\">\n<section class=\"numbers\">\n");
  write_numbers(page);
  sink("</section>\n");
  if (!listed.empty()) write_points(page, listed);
  sink("</div>\n");
  write_end(page);
}

}  // namespace leeway
