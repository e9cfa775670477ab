// Requests about the setup itself: reading, changing, saving it.

#include "web/answers.h"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "formats/text/names.h"
#include "leeway/read_setup.h"
#include "leeway/write_setup.h"
#include "web/setup/shipped.h"

namespace leeway {
namespace {

std::string_view file_name(std::string_view path) { return path.substr(path.rfind('/') + 1); }

// "examples/../profiles/x.json" is "profiles/x.json".
std::string without_detours(std::string_view path) {
  std::vector<std::string_view> parts;
  for (std::size_t at = 0; at <= path.size();) {
    const std::size_t end = std::min(path.find('/', at), path.size());
    const std::string_view part = path.substr(at, end - at);
    at = end + 1;
    if (part.empty() || part == ".") continue;
    if (part == ".." && !parts.empty() && parts.back() != "..") {
      parts.pop_back();
    } else {
      parts.push_back(part);
    }
  }
  return (path.substr(0, 1) == "/" ? "/" : "") + fmt::format("{}", fmt::join(parts, "/"));
}

// `path` as the file `from` means it.
std::string tidy_path(std::string_view path, std::string_view from) {
  if (path.substr(0, 1) == "/") return without_detours(path);
  const std::string_view folder = from.substr(0, from.size() - file_name(from).size());
  return without_detours(std::string(folder) + std::string(path));
}

SourceFile shipped_source(const std::string& path) {
  SourceFile source;
  source.name = source.identity = path;
  if (const ShippedFile* file = shipped_file(path)) {
    source.text = file->text;
  } else {
    source.problem = "there is no such file among the examples";
  }
  return source;
}

// The files that came with a setup, by their paths, else by their names alone: a browser tells no
// folder of a file that is dropped.
SourceFile given_source(const Json* files, const std::string& path) {
  SourceFile source;
  source.name = source.identity = path;
  const std::string_view name = file_name(path);
  const Json* found = nullptr;
  if (files != nullptr) {
    for (const auto& [key, text] : files->items()) {
      const bool exact = without_detours(key) == path;
      const bool alike = file_name(key) == name;
      if (exact || (alike && found == nullptr)) found = &text;
      if (exact) break;
    }
  }
  if (found != nullptr && found->is_string()) {
    source.text = found->get<std::string>();
  } else {
    source.problem = "it was not given; open it together with the setup";
  }
  return source;
}

Json setup_answer(const Session& session) {
  return {{"name", session.name()}, {"setup", session.whole()}};
}

Json take_read(Session& session, ReadSetup read, const std::string& name) {
  if (!read.setup) throw Refused(read.faults);
  session.take(*read.setup, name);
  return setup_answer(session);
}

// The comment at the top of an example says what it shows.
std::string first_comment(std::string_view text) {
  std::string out;
  std::size_t at = text.find('\n') + 1;
  for (;;) {
    at = text.find_first_not_of(' ', at);
    if (at == std::string_view::npos || text.substr(at, 3) != "// ") return out;
    const std::size_t end = std::min(text.find('\n', at), text.size());
    out += (out.empty() ? "" : " ") + std::string(text.substr(at + 3, end - at - 3));
    at = end + 1;
  }
}

// Null removes; "-" at the end of an array adds to it (RFC 6901, RFC 6902).
void change_member(Json& whole, const std::string& pointer, const Json& value) {
  const Json::json_pointer at(pointer);
  if (at.empty()) throw Refused("The setup as a whole can't be changed; read another.");
  if (!value.is_null()) {
    whole[at] = value;
    return;
  }
  if (!whole.contains(at)) return;
  Json& parent = whole.at(at.parent_pointer());
  if (parent.is_object()) {
    parent.erase(at.back());
  } else {
    parent.erase(static_cast<std::size_t>(std::stoul(at.back())));
  }
}

}  // namespace

Json answer_examples(Session&, WebRequest& asked) {
  asked.done();
  Json examples = Json::array();
  for (const ShippedFile& file : shipped_files()) {
    if (file.path.substr(0, 9) != "examples/") continue;
    const std::string path(file.path);
    const ReadSetup read =
        read_setup(shipped_source(path), [](std::string_view name, std::string_view from) {
          return shipped_source(tidy_path(name, from));
        });
    if (!read.setup) continue;
    examples.push_back({{"name", path.substr(9, path.size() - 9 - 5)},
                        {"title", read.setup->name},
                        {"says", first_comment(file.text)}});
  }
  return {{"examples", examples}};
}

Json answer_read(Session& session, WebRequest& asked) {
  const std::optional<std::string> example = asked.text("example");
  const std::optional<std::string> text = asked.text("text");
  const std::string name = asked.text("name", "the setup");
  const Json* files = asked.object("files");
  asked.done();
  if (example.has_value() == text.has_value()) {
    throw Refused("Either \"text\" or \"example\" is to be read.");
  }
  if (example) {
    const std::string path = "examples/" + *example + ".json";
    const auto find = [](std::string_view profile, std::string_view from) {
      return shipped_source(tidy_path(profile, from));
    };
    return take_read(session, read_setup(shipped_source(path), find), path);
  }
  SourceFile source;
  source.name = source.identity = one_line(name);
  source.text = *text;
  const auto find = [files](std::string_view profile, std::string_view from) {
    return given_source(files, tidy_path(profile, from));
  };
  return take_read(session, read_setup(source, find), source.name);
}

void apply_changes(Session& session, const Json& changes) {
  session.rig();
  Json whole = session.whole();
  for (const auto& [pointer, value] : changes.items()) {
    try {
      change_member(whole, pointer, value);
    } catch (const Json::exception&) {
      throw Refused(fmt::format("There is no place {} in the setup.", in_quotes(pointer)),
                    one_line(pointer));
    }
  }
  SourceFile source;
  source.name = "the setup";
  source.text = whole.dump(-1, ' ', false, Json::error_handler_t::replace);
  const ReadSetup read = read_setup(source, {});
  if (read.setup) {
    session.take(*read.setup, session.name());
    return;
  }
  std::vector<WebFault> faults;
  for (const Fault& fault : read.faults) {
    faults.push_back(web_fault(fault));
    faults.back().line = faults.back().column = 0;  // of no file that anyone has
    faults.back().file.clear();
  }
  throw Refused(faults);
}

Json answer_change(Session& session, WebRequest& asked) {
  const Json* changes = asked.object("changes");
  asked.done();
  if (changes == nullptr) throw Refused("The request has no \"changes\".");
  apply_changes(session, *changes);
  return setup_answer(session);
}

Json answer_save(Session& session, WebRequest& asked) {
  asked.done();
  return {{"text", setup_json(session.rig().setup())}};
}

}  // namespace leeway
