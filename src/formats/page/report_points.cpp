#include "formats/page/report_points.h"

#include <fmt/format.h>

#include <algorithm>

#include "formats/text/html.h"
#include "formats/text/numbers.h"
#include "formats/write/check_view.h"
#include "leeway/write_report.h"

namespace leeway {
namespace {

std::string cell(const char* label, const std::string& text) {
  return html_element("td", text, fmt::format("role=\"cell\" data-label=\"{}\"", label).c_str());
}

std::string why(const CheckedPoint& point, const Words& words) {
  if (point.finding.verdict == Verdict::reachable) return room_sentence(point, words);
  return words.reason(point) + "; " + words.nearest(point);
}

std::string row(std::size_t index, const CheckedPoint& point, const Words& words) {
  const char* verdict = word(point.finding.verdict);
  return fmt::format(
             "<tr role=\"row\" id=\"row-{0}\" data-point=\"{0}\" class=\"{1}\">"
             "<th role=\"rowheader\" scope=\"row\"><a href=\"#p-{0}\">{2}</a> "
             "<span class=\"verdict\">{1}</span></th>\n",
             index, verdict, html_text(words.point(point))) +
         cell("probe at", pair(point.probe)) + cell("nozzle at", pair(words.nozzle(point.probe))) +
         cell("why", why(point, words)) + "</tr>\n";
}

}  // namespace

std::vector<std::size_t> listed_points(const CheckResult& result) {
  std::vector<std::size_t> listed = failing_points(result, kMostPointsListed);
  if (result.points.size() > kMostPointsListed) return named_points(result, std::move(listed));
  for (std::size_t i = 0; i < result.points.size(); ++i) {
    if (result.points[i].finding.verdict == Verdict::reachable) listed.push_back(i);
  }
  return listed;
}

std::string listed_sentence(const CheckResult& result) {
  if (result.points.size() <= kMostPointsListed) return "";
  const std::size_t failing = result.counts.unreachable + result.counts.marginal;
  std::vector<std::string> kinds;
  if (failing > kMostPointsListed) {
    kinds.push_back(fmt::format("the worst {} of the {} that fail", kMostPointsListed, failing));
  } else if (failing > 0) {
    kinds.push_back(fmt::format("the {} that {}", failing, failing == 1 ? "fails" : "fail"));
  }
  if (tightest_point(result)) kinds.push_back("the tightest that passes");
  if (home_point(result)) kinds.push_back("home");
  return fmt::format(
      "Of {} points these are {}; up to {} are listed all. leeway check --format csv lists every "
      "point.",
      result.points.size(), joined(kinds), kMostPointsListed);
}

void write_points_table(const CheckResult& result, const std::vector<std::size_t>& listed,
                        const Words& words, const TextSink& sink) {
  sink(
      "<table role=\"table\" class=\"points\">\n<thead role=\"rowgroup\"><tr role=\"row\">"
      "<th role=\"columnheader\" scope=\"col\">point</th>"
      "<th role=\"columnheader\" scope=\"col\">probe at</th>"
      "<th role=\"columnheader\" scope=\"col\">nozzle at</th>"
      "<th role=\"columnheader\" scope=\"col\">why</th></tr></thead>\n"
      "<tbody role=\"rowgroup\">\n");
  for (const std::size_t i : listed) sink(row(i, result.points[i], words));
  sink("</tbody>\n</table>\n");
}

}  // namespace leeway
