#include "formats/template/template_tags.h"

#include <fmt/format.h>

#include <algorithm>

namespace leeway {
namespace {

std::string_view trimmed_tag(std::string_view text) {
  const char* blank = " \t\r\n";
  const std::size_t from = text.find_first_not_of(blank);
  if (from == std::string_view::npos) return {};
  return text.substr(from, text.find_last_not_of(blank) - from + 1);
}

TemplateTag::Kind kind_of(char sign) {
  using Kind = TemplateTag::Kind;
  switch (sign) {
    case '#':
      return Kind::section;
    case '^':
      return Kind::inverted;
    case '/':
      return Kind::end;
    case '!':
      return Kind::comment;
    case '>':
    case '<':
    case '$':
      return Kind::partial;
    case '=':
      return Kind::delimiters;
    default:
      return Kind::value;
  }
}

bool is_blank_text(std::string_view text, std::size_t from, std::size_t to) {
  return trimmed_tag(text.substr(from, to - from)).empty();
}

// From the front of the line on which a tag begins to behind the end of that on which it ends.
TagSpan whole_line(std::string_view text, const TemplateTag& tag) {
  const std::size_t before = text.substr(0, tag.at).find_last_of("\r\n");
  TagSpan line{before == std::string_view::npos ? 0 : before + 1,
               std::min(text.find_first_of("\r\n", tag.end), text.size())};
  if (text.substr(line.to, 2) == "\r\n") {
    line.to += 2;
  } else if (line.to < text.size()) {
    ++line.to;
  }
  return line;
}

}  // namespace

TemplateTags template_tags(std::string_view text) {
  using Kind = TemplateTag::Kind;
  TemplateTags out;
  std::string open = "{{";
  std::string close = "}}";
  for (std::size_t at = text.find(open); at != std::string_view::npos; at = text.find(open, at)) {
    const std::size_t inside = at + open.size();
    const std::size_t first = std::min(text.find_first_not_of(" \t\r\n", inside), text.size());
    const char sign = first < text.size() ? text[first] : ' ';
    const bool triple = first == inside && sign == '{' && open == "{{";
    const std::string ending = triple ? "}}}" : sign == '=' ? "=" + close : close;
    const std::size_t end = text.find(ending, sign == '=' ? first + 1 : inside);
    if (end == std::string_view::npos) {
      out.stops.push_back({at, fmt::format("a tag that begins with {} and does not end", open),
                           ending + " at its end"});
      return out;
    }
    TemplateTag tag;
    tag.at = at;
    tag.kind = kind_of(sign);
    const bool has_sign = triple || sign == '&' || tag.kind != Kind::value;
    const std::string_view body = trimmed_tag(text.substr(inside, end - inside));
    tag.name = std::string(trimmed_tag(body.substr(has_sign ? 1 : 0)));
    tag.end = end + ending.size();
    if (tag.kind == Kind::delimiters) {
      const std::size_t gap = tag.name.find_first_of(" \t");
      const std::string new_open = tag.name.substr(0, gap);
      const std::string new_close(gap == std::string::npos ? ""
                                                           : trimmed_tag(tag.name.substr(gap)));
      if (new_close.empty() || new_close.find_first_of(" \t=") != std::string::npos ||
          new_open.find('=') != std::string::npos) {
        out.stops.push_back({at, "a change of braces without two new ones",
                             "two new braces with a blank between, such as {{=<% %>=}}"});
        return out;
      }
      open = new_open;
      close = new_close;
    } else if (tag.kind != Kind::comment && tag.name.empty()) {
      out.stops.push_back({at, "a tag without a name", "a name between the braces"});
    }
    at = tag.end;
    out.tags.push_back(std::move(tag));
  }
  return out;
}

std::vector<TagSpan> tag_spans(std::string_view text, const std::vector<TemplateTag>& tags) {
  std::vector<TagSpan> spans;
  for (const TemplateTag& tag : tags) {
    const TagSpan line = whole_line(text, tag);
    const bool prints = tag.kind == TemplateTag::Kind::value;
    const bool alone =
        !prints && is_blank_text(text, line.from, tag.at) && is_blank_text(text, tag.end, line.to);
    spans.push_back(alone ? line : TagSpan{tag.at, tag.end});
  }
  return spans;
}

}  // namespace leeway
