#pragma once
// A template that was found to be without faults, with its values put in.

#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "formats/template/fill_values.h"
#include "formats/template/template_tags.h"

namespace leeway {

struct RenderedTemplate {
  std::string text;
  std::set<std::string> missing;  // names that were asked for and have no value here
};

// `entries` is what each tag names, in their order; null for one that names nothing. A value is put
// in as it is: nothing is escaped. REQUIRES: each section has its end, and lists are not nested.
RenderedTemplate render_template(std::string_view text, const std::vector<TemplateTag>& tags,
                                 const std::vector<const FillEntry*>& entries,
                                 const FillFacts& facts);

}  // namespace leeway
