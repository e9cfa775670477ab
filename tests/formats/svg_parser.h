#pragma once
// SVG read by a real parser (expat), for tests to look at.

#include <expat.h>

#include <map>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "formats/drawing/drawing_style.h"
#include "formats/drawing/label_layout.h"
#include "leeway/geometry.h"

namespace leeway {

struct SvgElement {
  std::string name;
  std::map<std::string, std::string> attributes;
  std::string text;                // of its own
  std::vector<std::string> above;  // what it stands in, the root first

  std::string get(const std::string& attribute) const {
    const auto found = attributes.find(attribute);
    return found == attributes.end() ? "" : found->second;
  }
  bool has_class(const std::string& wanted) const {
    return (" " + get("class") + " ").find(" " + wanted + " ") != std::string::npos;
  }
};

// In the order in which they begin. Throws std::runtime_error where it is no XML.
inline std::vector<SvgElement> parse_svg(const std::string& text) {
  struct State {
    std::vector<SvgElement> all;
    std::vector<std::size_t> open;
  } state;
  XML_Parser parser = XML_ParserCreate("UTF-8");
  XML_SetUserData(parser, &state);
  XML_SetElementHandler(
      parser,
      [](void* data, const XML_Char* name, const XML_Char** attributes) {
        State& s = *static_cast<State*>(data);
        SvgElement element;
        element.name = name;
        for (; *attributes != nullptr; attributes += 2) {
          element.attributes[attributes[0]] = attributes[1];
        }
        for (const std::size_t i : s.open) element.above.push_back(s.all[i].name);
        s.open.push_back(s.all.size());
        s.all.push_back(element);
      },
      [](void* data, const XML_Char*) { static_cast<State*>(data)->open.pop_back(); });
  XML_SetCharacterDataHandler(parser, [](void* data, const XML_Char* piece, int length) {
    State& s = *static_cast<State*>(data);
    if (!s.open.empty()) s.all[s.open.back()].text.append(piece, static_cast<std::size_t>(length));
  });
  const bool good =
      XML_Parse(parser, text.data(), static_cast<int>(text.size()), 1) == XML_STATUS_OK;
  const std::string problem = good ? "" : XML_ErrorString(XML_GetErrorCode(parser));
  const auto line = XML_GetCurrentLineNumber(parser);
  XML_ParserFree(parser);
  if (!good) throw std::runtime_error("line " + std::to_string(line) + ": " + problem);
  return state.all;
}

// The box that a <text> keeps to, by the size of its class.
inline Box text_box(const SvgElement& element) {
  const double size = element.has_class("title") ? 16 : 12;
  const bool bold = element.has_class("title") || element.has_class("strong");
  const double width = text_width(element.text, size) * (bold ? kBold : 1);
  const double x = std::stod(element.get("x"));
  const double y = std::stod(element.get("y"));
  const std::string anchor = element.get("text-anchor");
  const double before = anchor == "middle" ? width / 2 : anchor == "end" ? width : 0;
  const double up = size;
  const double down = 0.25 * size;
  if (element.get("transform").rfind("rotate(-90", 0) == 0) {
    return {x - up, x + down, y - width + before, y + before};
  }
  return {x - before, x - before + width, y - up, y + down};
}

inline bool overlap(const Box& a, const Box& b) {
  constexpr double kRounding = 0.02;  // coordinates have two decimals
  return a.x0 < b.x1 - kRounding && b.x0 < a.x1 - kRounding && a.y0 < b.y1 - kRounding &&
         b.y0 < a.y1 - kRounding;
}

// What is wrong with where texts stand: on one another, or over the edge. Empty when nothing is.
inline std::vector<std::string> text_faults(const std::vector<SvgElement>& elements) {
  std::vector<std::string> faults;
  double width = 0;
  double height = 0;
  if (std::sscanf(elements.front().get("viewBox").c_str(), "0 0 %lf %lf", &width, &height) != 2) {
    return {"no viewBox"};
  }
  std::vector<std::pair<Box, std::string>> boxes;
  for (const SvgElement& element : elements) {
    if (element.name == "text") boxes.emplace_back(text_box(element), element.text);
  }
  if (boxes.size() < 10) faults.push_back("hardly any text");
  for (std::size_t i = 0; i < boxes.size(); ++i) {
    const Box& box = boxes[i].first;
    if (box.x0 < 0 || box.x1 > width || box.y0 < 0 || box.y1 > height) {
      faults.push_back("over the edge: " + boxes[i].second);
    }
    for (std::size_t j = i + 1; j < boxes.size(); ++j) {
      if (overlap(box, boxes[j].first)) {
        faults.push_back("\"" + boxes[i].second + "\" on \"" + boxes[j].second + "\"");
      }
    }
  }
  return faults;
}

}  // namespace leeway
