#include "formats/drawing/svg.h"

#include <fmt/format.h>

#include <cmath>
#include <cstdlib>

#include "formats/text/utf8.h"
#include "geometry/plane/by_kind.h"

namespace leeway {
namespace {

constexpr std::string_view kReplacement = "\xEF\xBF\xBD";

// Beyond this no viewer draws anything of use, and a number in fixed digits gets long.
constexpr double kFarthest = 1e9;

// Of a character that utf8_length has found to be one.
char32_t decoded(std::string_view character) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(character[i]); };
  const std::size_t length = character.size();
  char32_t c = length == 1 ? byte(0) : byte(0) & (0x7Fu >> length);
  for (std::size_t i = 1; i < length; ++i) c = (c << 6) | (byte(i) & 0x3Fu);
  return c;
}

// Not in XML 1.0, or not to be let through: controls, and Unicode's bidirectional controls, but for
// the two that keep a name's direction of reading within it (names.h puts them there).
bool harmful(char32_t c) {
  constexpr char32_t kIsolateBegins = 0x2068;
  constexpr char32_t kIsolateEnds = 0x2069;
  if (c == kIsolateBegins || c == kIsolateEnds) return false;
  if (c < 0x20 || (c >= 0x7F && c <= 0x9F)) return true;
  if (c == 0x61C || c == 0x200E || c == 0x200F) return true;
  if ((c >= 0x202A && c <= 0x202E) || (c >= 0x2066 && c <= 0x2069)) return true;
  return (c >= 0xD800 && c <= 0xDFFF) || (c & 0xFFFE) == 0xFFFE;
}

// Goes out as it is.
bool plain(char c) {
  return c >= ' ' && c <= '~' && c != '&' && c != '<' && c != '>' && c != '"' && c != '\'';
}

// Every name of a user goes through here, into text and into attributes alike.
void append(char32_t c, std::string_view character, std::string& out) {
  switch (c) {
    case '&':
      out += "&amp;";
      break;
    case '<':
      out += "&lt;";
      break;
    case '>':
      out += "&gt;";
      break;
    case '"':
      out += "&quot;";
      break;
    case '\'':
      out += "&#39;";
      break;
    case '\t':
    case '\n':
    case '\r':
    case 0x2028:
    case 0x2029:
      out += ' ';
      break;
    default:
      out += harmful(c) ? kReplacement : character;
  }
}

// Two decimals are a hundredth of a picture's unit, finer than any screen. Written by hand: printf
// follows the locale, and this is called for every vertex.
void append_number(double value, std::string& out) {
  // In hundredths, as a whole number.
  const double clamped = std::min(std::max(value, -kFarthest), kFarthest);
  long long hundredths = std::isnan(value) ? 0 : std::llround(clamped * 100);
  if (hundredths < 0) {
    out += '-';
    hundredths = -hundredths;
  }
  const fmt::format_int whole(hundredths / 100);
  out.append(whole.data(), whole.size());
  const int rest = static_cast<int>(hundredths % 100);
  if (rest == 0) return;
  out += '.';
  out += static_cast<char>('0' + rest / 10);
  if (rest % 10 != 0) out += static_cast<char>('0' + rest % 10);
}

void append_point(Point p, std::string& out) {
  append_number(p.x, out);
  out += ' ';
  append_number(p.y, out);
}

// Vertices that fall on one hundredth become one, or heavy outlines make heavy pictures.
void append_ring(const Ring& ring, const View& view, std::string& out) {
  std::string last;
  std::string here;
  bool first = true;
  for (const Point& vertex : ring) {
    here.clear();
    append_point(view(vertex), here);
    if (!first && here == last) continue;
    out += first ? 'M' : 'L';
    out += here;
    std::swap(last, here);
    first = false;
  }
  if (!first) out += 'Z';
}

// Two half turns: an arc with equal ends draws nothing.
std::string disc_path(const Disc& disc, const View& view) {
  const std::string radius = svg_number(disc.radius * view.scale);
  const std::string width = svg_number(2 * disc.radius * view.scale);
  std::string out = "M";
  append_point(view(disc.center) - Point{disc.radius * view.scale, 0}, out);
  return out + fmt::format("a{0} {0} 0 1 0 {1} 0a{0} {0} 0 1 0 -{1} 0Z", radius, width);
}

// From the front left corner round by way of the front right one.
std::string rounded_path(const RoundedBox& rounded, const View& view) {
  const Box& b = rounded.box;
  const double r = rounded.radius;
  const Point ends[] = {{b.x0 + r, b.y0}, {b.x1 - r, b.y0}, {b.x1, b.y0 + r}, {b.x1, b.y1 - r},
                        {b.x1 - r, b.y1}, {b.x0 + r, b.y1}, {b.x0, b.y1 - r}, {b.x0, b.y0 + r}};
  const std::string arc = fmt::format("A{0} {0} 0 0 0 ", svg_number(r * view.scale));
  std::string out = "M";
  for (int i = 0; i < 8; ++i) {
    if (i > 0) out += i % 2 == 1 ? "L" : arc;
    append_point(view(ends[i]), out);
  }
  out += arc;
  append_point(view(ends[0]), out);
  return out + "Z";
}

}  // namespace

std::string xml_text(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  for (std::size_t at = 0; at < text.size();) {
    std::size_t end = at;
    while (end < text.size() && plain(text[end])) ++end;
    out.append(text.data() + at, end - at);
    at = end;
    // Runs of plain characters go out at once; what needs a look is rare.
    if (at == text.size()) break;
    const std::size_t length = utf8_length(text, at);
    if (length == 0) {
      out += kReplacement;
      ++at;
      continue;
    }
    const std::string_view character = text.substr(at, length);
    append(decoded(character), character, out);
    at += length;
  }
  return out;
}

std::string svg_number(double value) {
  std::string out;
  append_number(value, out);
  return out;
}

Box View::operator()(const Box& mm) const {
  const Point left_back = (*this)(Point{mm.x0, mm.y1});
  const Point right_front = (*this)(Point{mm.x1, mm.y0});
  return {left_back.x, right_front.x, left_back.y, right_front.y};
}

std::string path_data(const Ring& ring, const View& view) {
  std::string out;
  append_ring(ring, view, out);
  return out;
}

std::string path_data(const MultiPolygon& polygons, const View& view) {
  std::string out;
  for (const Polygon& polygon : polygons) {
    append_ring(polygon.outer, view, out);
    for (const Ring& hole : polygon.holes) append_ring(hole, view, out);
  }
  return out;
}

std::string path_data(const Box& picture) {
  if (picture.empty()) return "";
  return path_data(Ring{{picture.x0, -picture.y0},
                        {picture.x1, -picture.y0},
                        {picture.x1, -picture.y1},
                        {picture.x0, -picture.y1}},
                   View{});
}

std::string line_data(const std::vector<Point>& picture) {
  std::string out;
  for (const Point p : picture) {
    out += out.empty() ? 'M' : 'L';
    append_point(p, out);
  }
  return out;
}

std::string path_data(const Shape& shape, const View& view) {
  return by_kind(
      shape, [](Point) { return std::string(); },
      [&](const Box& box) { return path_data(view(box)); },
      [&](const Disc& disc) { return disc_path(disc, view); },
      [&](const RoundedBox& rounded) { return rounded_path(rounded, view); },
      [&](const MultiPolygon& polygons) { return path_data(polygons, view); });
}

void SvgWriter::begin(std::string_view element, const SvgAttributes& attributes) {
  std::string out = "<";
  out += element;
  for (const SvgAttribute& attribute : attributes) {
    out += ' ';
    out += attribute.name;
    out += "=\"";
    out += xml_text(attribute.value);
    out += '"';
  }
  sink_(out);
}

void SvgWriter::open(std::string_view element, const SvgAttributes& attributes) {
  begin(element, attributes);
  sink_(">\n");
  open_.emplace_back(element);
}

// The writer keeps what is open, so that no caller can close the wrong element.
void SvgWriter::close() {
  sink_("</" + open_.back() + ">\n");
  open_.pop_back();
}

void SvgWriter::empty(std::string_view element, const SvgAttributes& attributes) {
  begin(element, attributes);
  sink_("/>\n");
}

void SvgWriter::text_element(std::string_view element, const SvgAttributes& attributes,
                             std::string_view text) {
  begin(element, attributes);
  sink_(">" + xml_text(text) + "</" + std::string(element) + ">\n");
}

void SvgWriter::group(std::string_view classes) {
  open("g", classes.empty() ? SvgAttributes{} : SvgAttributes{{"class", std::string(classes)}});
}

// A set that is empty draws nothing, rather than an element without data.
void SvgWriter::path(std::string_view classes, const std::string& data) {
  if (data.empty()) return;
  empty("path", {{"class", std::string(classes)}, {"d", data}});
}

void SvgWriter::line(std::string_view classes, Point from, Point to) {
  path(classes, line_data({from, to}));
}

void SvgWriter::circle(std::string_view classes, Point center, double radius) {
  empty("circle",
        {{"class", std::string(classes)}, {"cx", center.x}, {"cy", center.y}, {"r", radius}});
}

void SvgWriter::rect(std::string_view classes, const Box& picture) {
  empty("rect", {{"class", std::string(classes)},
                 {"x", picture.x0},
                 {"y", picture.y0},
                 {"width", picture.width()},
                 {"height", picture.depth()}});
}

void SvgWriter::text(std::string_view classes, Point at, Anchor anchor, std::string_view text) {
  SvgAttributes attributes{{"class", std::string(classes)}, {"x", at.x}, {"y", at.y}};
  if (anchor != Anchor::start) {
    attributes.emplace_back("text-anchor", anchor == Anchor::middle ? "middle" : "end");
  }
  text_element("text", attributes, text);
}

void open_picture(SvgWriter& svg, const PictureHead& head) {
  SvgAttributes attributes;
  if (head.standalone) {
    svg.raw("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n");
    attributes.emplace_back("xmlns", "http://www.w3.org/2000/svg");
  }
  attributes.emplace_back("class", head.classes);
  attributes.emplace_back("role", head.image ? "img" : "group");
  attributes.emplace_back("aria-labelledby", fmt::format("{0}title {0}about", head.prefix));
  if (head.standalone) {
    attributes.emplace_back("width", head.width);
    attributes.emplace_back("height", head.height);
  }
  attributes.emplace_back(
      "viewBox", fmt::format("0 0 {} {}", svg_number(head.width), svg_number(head.height)));
  svg.open("svg", attributes);
  svg.text_element("title", {{"id", head.prefix + "title"}}, head.title);
  svg.text_element("desc", {{"id", head.prefix + "about"}}, head.about);
  if (head.standalone) svg.raw("<style>\n" + head.css + "</style>\n");
  svg.rect("paper", {0, head.width, 0, head.height});
}

}  // namespace leeway
