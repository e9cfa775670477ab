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

// The template without comments, and without the lines that hold nothing but one.
std::string without_comments(std::string_view text, const std::vector<TemplateTag>& tags);

}  // namespace leeway
