#include "formats/drawing/drawing_style.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace leeway {
namespace {

double channel(std::string_view hex, std::size_t index) {
  const std::string digits(hex.substr(1 + 2 * index, 2));
  const double c = static_cast<double>(std::strtol(digits.c_str(), nullptr, 16)) / 255;
  return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
}

double luminance(std::string_view hex) {
  return 0.2126 * channel(hex, 0) + 0.7152 * channel(hex, 1) + 0.0722 * channel(hex, 2);
}

// A rule for each class, whatever the scheme. Text stands on a rim of paper, which parts it from
// lines that pass behind.
constexpr const char* kShapeRules = R"({0}{{fill:none;stroke:none;stroke-width:1px}}
{0} text{{font:12px sans-serif}}
{0} .title{{font-size:16px;font-weight:bold}}
{0} .strong{{font-weight:bold}}
{0} .label{{paint-order:stroke;stroke-width:3px;stroke-linejoin:round}}
{0} .bed{{fill-rule:evenodd;stroke-width:1.6px}}
{0} .nowhere{{stroke-width:1px;stroke-dasharray:2 2}}
{0} .printable,{0} .sure{{fill-rule:evenodd;stroke:none}}
{0} .printable-edge{{stroke-width:.8px;stroke-dasharray:1.5 2.5}}
{0} .reach{{stroke-width:1.2px}}
{0} .travel{{stroke-width:1.2px;stroke-dasharray:8 4}}
{0} .thing{{fill-rule:evenodd}}
{0} .uncovered-line{{stroke-width:.7px;stroke-opacity:.45}}
{0} .mesh-bounds{{stroke-width:1.5px}}
{0} .blocked{{stroke-width:2px;stroke-dasharray:5 3}}
{0} .mark{{stroke-width:.9px;stroke-linejoin:round}}
{0} .mark.tiny{{stroke-width:0}}
{0} .half{{stroke:none}}
{0} .ring{{stroke-width:1.4px}}
{0} .part{{stroke-width:1.2px}}
{0} .spot{{stroke-width:1.4px}}
{0} .arrow{{stroke-width:2px}}
{0} .leg{{stroke-width:1px;stroke-dasharray:3 2}}
{0} .lead{{stroke-width:.7px}}
{0} .short,{0} .leeway{{stroke-width:1.8px}}
{0} .rim{{stroke-width:5px}}
)";

constexpr const char* kColours = R"({0}{{background:{1}}}
{0} text{{fill:{2}}}
{0} .faint{{fill:{3}}}
{0} text.label{{stroke:{1}}}
{0} .paper{{fill:{1}}}
{0} .bed{{fill:{4};stroke:{2}}}
{0} .bed-edge,{0} .nowhere{{stroke:{2}}}
{0} .printable{{fill:{5}}}
{0} .printable-edge{{stroke:{3}}}
{0} .sure{{fill:{6}}}
{0} .reach{{stroke:{12}}}
{0} .travel,{0} .tick,{0} .lead{{stroke:{3}}}
{0} .thing{{fill:{7};stroke:{2}}}
{0} .uncovered-line,{0} .mesh-bounds,{0} .arrow,{0} .leg,{0} .spot{{stroke:{11}}}
{0} .arrow-head,{0} .probe{{fill:{11};stroke:{11}}}
{0} .bar,{0} .nozzle{{fill:{2};stroke:{2}}}
{0} .part,{0} .ring{{stroke:{2}}}
{0} .mark{{fill:{1};stroke:{2}}}
{0} .mark.reachable{{fill:{8}}}
{0} .half{{fill:{9}}}
{0} .mark.unreachable{{fill:{10}}}
{0} .blocked,{0} .short{{stroke:{10}}}
{0} .short-head{{fill:{10};stroke:{10}}}
{0} .leeway{{stroke:{2}}}
{0} .leeway-head{{fill:{2};stroke:{2}}}
{0} .rim{{stroke:{1}}}
)";

std::string colours(std::string_view scope, const Palette& p) {
  return fmt::format(kColours, scope, p.paper, p.ink, p.faint, p.bed, p.printable, p.sure, p.thing,
                     p.reachable, p.marginal, p.unreachable, p.mesh, p.edge);
}

}  // namespace

const Palette kLight{"#FFFFFF", "#E2E2E2", "#F8F8F8", "#D6EEE3", "#C8C8C8", "#1A1A1A",
                     "#595959", "#009E73", "#E69F00", "#D55E00", "#0072B2", "#007A58"};
const Palette kDark{"#15191D", "#2C3238", "#1C2126", "#123A2E", "#4A525A", "#EEEEEE",
                    "#B0B7BE", "#009E73", "#E69F00", "#D55E00", "#56B4E9", "#2BCB9B"};

double contrast(std::string_view hex_a, std::string_view hex_b) {
  const double a = luminance(hex_a) + 0.05;
  const double b = luminance(hex_b) + 0.05;
  return std::max(a, b) / std::min(a, b);
}

std::vector<ColourPair> colour_pairs(const Palette& p) {
  struct Named {
    const char* name;
    Hex hex;
  };
  const Named grounds[] = {{"paper", p.paper},
                           {"bed", p.bed},
                           {"printable", p.printable},
                           {"sure", p.sure},
                           {"thing", p.thing}};
  std::vector<ColourPair> pairs;
  const auto add = [&](const Named& front, const Named& back, double least) {
    pairs.push_back({std::string(front.name) + " on " + back.name, front.hex, back.hex, least});
  };
  constexpr double kText = 4.5;
  constexpr double kGraphics = 3;
  for (const Named& ground : grounds) {
    add({"ink", p.ink}, ground, kText);
    add({"mesh-bounds", p.mesh}, ground, kGraphics);
    add({"faint", p.faint}, ground, kGraphics);
    add({"edge of what can be reached", p.edge}, ground, kGraphics);
  }
  add({"faint", p.faint}, grounds[0], kText);
  // Marks are edged with ink (the marginal one is too pale without), and lines that tell of a
  // shortfall have a rim of paper.
  for (const Named& mark : {Named{"reachable", p.reachable}, Named{"unreachable", p.unreachable}}) {
    add(mark, grounds[0], kGraphics);
  }
  return pairs;
}

std::string drawing_css(std::string_view scope) {
  return fmt::format(kShapeRules, scope) + colours(scope, kLight) +
         "@media screen and (prefers-color-scheme:dark){\n" + colours(scope, kDark) + "}\n";
}

}  // namespace leeway
