#pragma once
// Text on its way into HTML or XML: nothing that a setup holds can act on the page.

#include <string>
#include <string_view>

namespace leeway {

// A text as it stands between tags: markup characters and quotes are escaped, control characters,
// invisible ones, those that turn the direction of reading, and bytes that are not UTF-8 become
// '?'. What html_name has marked becomes a <bdi> element, which keeps the direction of a name's
// letters from spreading into the sentence around it.
std::string html_text(std::string_view text);

// The same for the value of an attribute, to stand between double quotes; marks are left out.
std::string html_attribute(std::string_view text);

// A user's name for Words (NameStyle): harmless as one_line makes it, and marked for
// html_text. Not yet escaped.
std::string html_name(std::string_view name);

// "<p>...</p>" of a text that html_text escapes; `attributes` are as they stand in the tag. Empty
// for an empty text.
std::string html_element(const char* tag, std::string_view text, const char* attributes = "");

}  // namespace leeway
