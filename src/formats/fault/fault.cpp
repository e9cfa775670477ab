#include "leeway/fault.h"

#include <fmt/format.h>

#include "formats/text/names.h"

namespace leeway {

std::string message(const Fault& fault) {
  std::string text = fault.file;
  if (fault.line > 0) text += fmt::format(":{}:{}", fault.line, fault.column);
  text += ": ";
  if (!fault.pointer.empty()) text += fault.pointer + ": ";
  return one_line(text) + sentence(fault);
}

std::string sentence(const Fault& fault) {
  std::string text = "found " + fault.found;
  if (!fault.allowed.empty()) text += "; allowed: " + fault.allowed;
  if (!fault.nearest.empty()) text += "; did you mean \"" + fault.nearest + "\"?";
  if (!fault.hint.empty()) text += "; " + fault.hint;
  return one_line(text);
}

}  // namespace leeway
