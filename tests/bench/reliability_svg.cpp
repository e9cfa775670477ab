#include "reliability_svg.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

namespace leeway {
namespace {

constexpr double kSide = 400;  // of the square from 0, 0 to 1, 1, in pixels
constexpr double kLeft = 70;
constexpr double kTop = 20;
constexpr double kBars = 90;  // height of the counts below

double at_x(double p) { return kLeft + kSide * p; }
double at_y(double p) { return kTop + kSide * (1 - p); }

template <typename... Values>
std::string filled(const char* format, Values... values) {
  char text[300];
  std::snprintf(text, sizeof text, format, values...);
  return text;
}

std::string line(double x0, double y0, double x1, double y1, const char* more) {
  return filled("<line x1=\"%.1f\" y1=\"%.1f\" x2=\"%.1f\" y2=\"%.1f\" %s/>\n", x0, y0, x1, y1,
                more);
}

std::string label(double x, double y, const char* anchor, const std::string& says) {
  return filled("<text x=\"%.1f\" y=\"%.1f\" text-anchor=\"%s\">%s</text>\n", x, y, anchor,
                says.c_str());
}

std::string frame_and_ticks() {
  std::string out = filled(
      "<rect x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" height=\"%.1f\" fill=\"none\" "
      "stroke=\"#555\"/>\n",
      kLeft, kTop, kSide, kSide);
  for (int tenth = 0; tenth <= 10; tenth += 2) {
    const double p = tenth / 10.0;
    out += line(at_x(p), at_y(0), at_x(p), at_y(1), "stroke=\"#ddd\"");
    out += line(at_x(0), at_y(p), at_x(1), at_y(p), "stroke=\"#ddd\"");
    out += label(at_x(p), at_y(0) + 16, "middle", filled("%.1f", p));
    out += label(kLeft - 8, at_y(p) + 4, "end", filled("%.1f", p));
  }
  out += line(at_x(0), at_y(0), at_x(1), at_y(1), "stroke=\"#555\" stroke-dasharray=\"4 4\"");
  return out + label(at_x(0.5), at_y(0) + 36, "middle", "probability as stated") +
         label(at_x(0.02), at_y(1) + 16, "start", "share that was right, and two standard errors");
}

std::string mark(const Reliability& r) {
  const double stated = r.stated / r.weight;
  const double right = r.right / r.weight;
  const double twice = 2 * std::sqrt(right * (1 - right) / r.statements);
  return line(at_x(stated), at_y(std::max(0.0, right - twice)), at_x(stated),
              at_y(std::min(1.0, right + twice)), "stroke=\"#1b6ca8\" stroke-width=\"2\"") +
         filled("<circle cx=\"%.1f\" cy=\"%.1f\" r=\"4.5\" fill=\"#1b6ca8\"/>\n", at_x(stated),
                at_y(right));
}

std::string bar(std::size_t tenth, const Reliability& r, int most) {
  const double foot = at_y(0) + 50 + kBars;
  const double height = kBars * std::sqrt(static_cast<double>(r.statements) / most);
  const double x = at_x(0.1 * static_cast<double>(tenth)) + 4;
  return filled("<rect x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" height=\"%.1f\" fill=\"#9bbbd4\"/>\n",
                x, foot - height, kSide / 10 - 8, height) +
         label(x + kSide / 20 - 4, foot + 14, "middle", std::to_string(r.statements));
}

}  // namespace

std::string reliability_svg(const Scores& scores) {
  std::string out = filled(
      "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"%.0f\" height=\"%.0f\" "
      "font-family=\"sans-serif\" font-size=\"12\">\n"
      "<rect width=\"100%%\" height=\"100%%\" fill=\"#fff\"/>\n",
      kLeft + kSide + 30, kTop + kSide + kBars + 100);
  out += frame_and_ticks();
  int most = 1;
  int all = 0;
  double weight = 0;
  for (const Reliability& r : scores.tenths) {
    most = std::max(most, r.statements);
    all += r.statements;
    weight += r.weight;
  }
  for (std::size_t i = 0; i < scores.tenths.size(); ++i) {
    if (scores.tenths[i].statements == 0) continue;
    out += mark(scores.tenths[i]) + bar(i, scores.tenths[i], most);
  }
  out += label(at_x(0.5), at_y(0) + kBars + 90, "middle",
               filled("%d statements (bars: square roots); Brier's score %.4f", all,
                      weight > 0 ? scores.squares / weight : 0));
  return out + "</svg>\n";
}

}  // namespace leeway
