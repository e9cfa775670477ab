#include "formats/input/sources.h"
#include "formats/text/names.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

namespace leeway {
namespace {

constexpr FileKind kKinds[] = {FileKind::setup, FileKind::machine, FileKind::probe};

std::string format_name(FileKind kind) { return fmt::format("leeway-{}-1", word(kind)); }

}  // namespace

std::string_view word(FileKind kind) {
  switch (kind) {
    case FileKind::setup:
      return "setup";
    case FileKind::machine:
      return "machine";
    case FileKind::probe:
      break;
  }
  return "probe";
}

Sources::Sources(const SourceFile& setup, const FileFinder& finder) : finder_(finder) {
  files_.push_back(std::make_unique<JsonFile>(setup));
  reached_from_.push_back(0);
}

JsonFile* Sources::open(JsonValue path, FileKind kind) {
  const std::string allowed =
      fmt::format("the path of a {} file, from the folder of this file, or the {} itself",
                  word(kind), word(kind));
  if (path.text().empty()) {
    path.fault("empty-path", "an empty path", allowed);
    return nullptr;
  }
  std::size_t from = 0;
  while (files_[from].get() != &path.file()) ++from;
  SourceFile source = finder_(path.text(), files_[from]->source().name);
  if (!source.problem.empty()) {
    path.fault("cannot-read",
               fmt::format("the path {}, which cannot be read: {}", in_quotes(path.text()),
                           source.problem),
               allowed);
    return nullptr;
  }
  std::size_t steps = 1;
  for (std::size_t i = from;; i = reached_from_[i], ++steps) {
    const std::string& identity = files_[i]->source().identity;
    if (!identity.empty() && identity == source.identity) {
      path.fault("refers-to-itself",
                 fmt::format("the path {}, which leads back to a file that refers to itself",
                             in_quotes(path.text())),
                 "a file that does not lead back to this one");
      return nullptr;
    }
    if (i == 0) break;
  }
  if (steps > kLongestChain) {
    path.fault("chain-too-long", fmt::format("a chain of {} files", steps + 1),
               fmt::format("at most {} files, each naming the next", kLongestChain + 1));
    return nullptr;
  }
  files_.push_back(std::make_unique<JsonFile>(std::move(source)));
  reached_from_.push_back(from);
  return files_.back().get();
}

bool Sources::has_faults() const {
  return std::any_of(files_.begin(), files_.end(),
                     [](const auto& file) { return file->has_faults(); });
}

std::vector<Fault> Sources::faults() const {
  std::vector<Fault> all;
  std::set<std::string> not_json;
  for (const auto& file : files_) {
    // A file that is not JSON, and that two paths lead to, is told once.
    const std::string& identity = file->source().identity;
    if (!file->root() && !identity.empty() && !not_json.insert(identity).second) continue;
    for (Fault& fault : file->faults()) all.push_back(std::move(fault));
  }
  return all;
}

bool is_other_kind(JsonValue object, FileKind kind) {
  if (!object.is(JsonKind::object)) return false;
  for (const JsonValue member : object.children()) {
    if (member.key() != "format" || !member.is(JsonKind::string)) continue;
    for (const FileKind other : kKinds) {
      if (other == kind || member.text() != format_name(other)) continue;
      member.fault("wrong-kind",
                   fmt::format("\"{}\": this seems to be a {}, and a {} is wanted here",
                               member.text(), word(other), word(kind)),
                   "\"" + format_name(kind) + "\"");
      return true;
    }
  }
  return false;
}

void check_format(const Fields& fields, FileKind kind, bool is_file) {
  const std::string wanted = format_name(kind);
  const std::string allowed = "\"" + wanted + "\"";
  const bool needed = is_file && kind != FileKind::setup;
  const auto value = needed ? fields.need("format", allowed) : fields.find("format");
  if (!value || value->is(JsonKind::not_finite)) return;
  if (!value->is(JsonKind::string)) return value->fault("wrong-type", describe(*value), allowed);
  if (value->text() == wanted) return;
  value->fault("wrong-format", "the unknown format " + in_quotes(value->text()), allowed,
               std::string(nearest_word(value->text(), {wanted})));
}

}  // namespace leeway
