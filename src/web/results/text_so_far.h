#pragma once
// A result being written in one of several formats.

#include <fmt/format.h>

#include <array>
#include <string>
#include <string_view>
#include <utility>

#include "formats/text/names.h"
#include "leeway/write_check.h"
#include "web/request.h"

namespace leeway {

template <typename Writer>
struct WebFormat {
  std::string_view name;
  Writer write;
};

// The format that is asked for; the first where none is.
template <typename Writer, std::size_t Count>
const WebFormat<Writer>& format_asked(WebRequest& asked,
                                      const std::array<WebFormat<Writer>, Count>& formats) {
  const std::string name = asked.text("format", std::string(formats[0].name).c_str());
  WordList names;
  for (const WebFormat<Writer>& format : formats) {
    if (format.name == name) return format;
    names.push_back(format.name);
  }
  throw Refused(fmt::format("There is no format {} (the formats are {}).", in_quotes(name),
                            fmt::join(names, ", ")),
                "/format");
}

// Text is as the command writes it where the terminal is not known: without marks of direction.
class TextSoFar {
 public:
  explicit TextSoFar(std::string_view format) : format_(format) {}

  TextSink sink() {
    return [this](std::string_view piece) {
      text_ += format_ == "text" ? without_isolates(piece) : std::string(piece);
    };
  }

  // The answer, with the exit status that the command would have.
  Json answer(bool well) {
    return {{"format", format_}, {"status", well ? 0 : 1}, {"text", std::move(text_)}};
  }

 private:
  std::string format_;
  std::string text_;
};

}  // namespace leeway
