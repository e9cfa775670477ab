#pragma once
// SVG as text: valid XML whatever the names, numbers without a locale, and the way from the
// machine's millimetres to a picture.

#include <initializer_list>
#include <string>
#include <string_view>
#include <vector>

#include "leeway/geometry.h"
#include "leeway/write_check.h"

namespace leeway {

// Text for an element or for an attribute in double quotes: markup escaped; what XML 1.0 (5th
// edition, 2.2) does not let a document hold, bytes that are not UTF-8, control characters and
// characters that turn the direction of reading (but for isolates) become U+FFFD. Line breaks and
// tabs become blanks.
std::string xml_text(std::string_view text);

// At most 2 decimals, in the fewest digits; never -0, never an exponent.
std::string svg_number(double value);

// The picture of a part of the machine: x to the right, y up, the same scale in both.
struct View {
  double scale = 1;  // units of the picture a mm
  Point corner;      // where mm 0, 0 lies in the picture

  Point operator()(Point mm) const { return {corner.x + scale * mm.x, corner.y - scale * mm.y}; }
  // The same for a box; y0 is the upper edge then.
  Box operator()(const Box& mm) const;
};

// Data of a path. Rings are closed; consecutive vertices that the picture cannot tell apart are
// written once.
std::string path_data(const Ring& ring, const View& view);
std::string path_data(const MultiPolygon& polygons, const View& view);
std::string path_data(const Box& picture);                    // already in the picture
std::string path_data(const Shape& shape, const View& view);  // a Point gives nothing
// A line through points that are already in the picture.
std::string line_data(const std::vector<Point>& picture);

struct SvgAttribute {
  std::string_view name;
  std::string value;  // escaped when it is written

  SvgAttribute(std::string_view n, std::string v) : name(n), value(std::move(v)) {}
  SvgAttribute(std::string_view n, const char* v) : name(n), value(v) {}
  SvgAttribute(std::string_view n, double v) : name(n), value(svg_number(v)) {}
};
using SvgAttributes = std::vector<SvgAttribute>;

// Where a text stands: its left end, middle or right end at the position; y is the base line.
enum class Anchor { start, middle, end };

// Writes elements; what is opened must be closed.
class SvgWriter {
 public:
  explicit SvgWriter(const TextSink& sink) : sink_(sink) {}

  void open(std::string_view element, const SvgAttributes& attributes);
  void close();
  void empty(std::string_view element, const SvgAttributes& attributes);
  // An element that holds text alone.
  void text_element(std::string_view element, const SvgAttributes& attributes,
                    std::string_view text);
  void raw(std::string_view markup) { sink_(markup); }

  // The usual ones. `classes` may be empty.
  void group(std::string_view classes);
  void path(std::string_view classes, const std::string& data);  // none for empty data
  void line(std::string_view classes, Point from, Point to);
  void circle(std::string_view classes, Point center, double radius);
  void rect(std::string_view classes, const Box& picture);
  void text(std::string_view classes, Point at, Anchor anchor, std::string_view text);

 private:
  void begin(std::string_view element, const SvgAttributes& attributes);

  TextSink sink_;
  std::vector<std::string> open_;
};

// What a picture says of itself.
struct PictureHead {
  std::string classes;  // the scope of its styles
  std::string prefix;   // of ids
  double width = 0;
  double height = 0;
  std::string title = "", about = "", css = "";
  bool standalone = true;  // a file of its own, with styles and size; else a part of a page
  bool image = true;       // what is an image as a whole hides the links in it
};

// Opens its svg element and lays the paper; close() ends it.
void open_picture(SvgWriter& svg, const PictureHead& head);

}  // namespace leeway
