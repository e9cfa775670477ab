#pragma once
// The tags of a Mustache template (the manual mustache(5), version 1.4 of the specification),
// found before anything is rendered so that faults can be told with their place.

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace leeway {

struct TemplateTag {
  enum class Kind { value, section, inverted, end, comment, partial, delimiters };
  Kind kind = Kind::value;
  std::string name;
  std::size_t at = 0;   // byte offset of its opening braces
  std::size_t end = 0;  // one past its closing ones
};

struct TemplateStop {
  std::size_t at = 0;
  std::string found;
  std::string allowed;
};

struct TemplateTags {
  std::vector<TemplateTag> tags;
  std::vector<TemplateStop> stops;  // an unfinished tag ends the list
};

TemplateTags template_tags(std::string_view text);

// The bytes that a tag takes with it: its own, or its whole line where a tag that prints nothing
// stands on a line alone ("standalone lines" of the specification).
struct TagSpan {
  std::size_t from = 0;
  std::size_t to = 0;
};

// Of each tag, in their order.
std::vector<TagSpan> tag_spans(std::string_view text, const std::vector<TemplateTag>& tags);

}  // namespace leeway
