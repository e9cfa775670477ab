#include "formats/text/html.h"

#include "formats/drawing/svg.h"
#include "formats/text/names.h"

namespace leeway {
namespace {

// No name holds these: one_line replaces control characters.
constexpr char kNameBegins = '\x02';
constexpr char kNameEnds = '\x03';

std::string escaped(std::string_view text, const char* begins, const char* ends) {
  std::string out;
  out.reserve(text.size());
  bool open = false;
  while (!text.empty()) {
    const char wanted = open ? kNameEnds : kNameBegins;
    const std::size_t mark = text.find(wanted);
    out += xml_text(one_line(text.substr(0, mark)));
    if (mark == std::string_view::npos) break;
    out += open ? ends : begins;
    open = !open;
    text.remove_prefix(mark + 1);
  }
  if (open) out += ends;
  return out;
}

}  // namespace

std::string html_text(std::string_view text) { return escaped(text, "<bdi>", "</bdi>"); }

std::string html_attribute(std::string_view text) { return escaped(text, "", ""); }

std::string html_name(std::string_view name) { return kNameBegins + one_line(name) + kNameEnds; }

std::string html_element(const char* tag, std::string_view text, const char* attributes) {
  if (text.empty()) return "";
  std::string out = std::string("<") + tag;
  if (*attributes != '\0') out += std::string(" ") + attributes;
  return out + ">" + html_text(text) + "</" + tag + ">\n";
}

}  // namespace leeway
