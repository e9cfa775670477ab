#include "formats/json/json_file.h"

#include <fmt/format.h>

#include <algorithm>

#include "formats/text/names.h"
#include "formats/text/spelling.h"
#include "formats/text/utf8.h"
#include "geometry/plane/assert.h"

namespace leeway {
namespace {

// A key as a token of a JSON Pointer (RFC 6901, section 3).
std::string pointer_token(std::string_view key) {
  std::string token;
  for (const char c : key) {
    if (c == '~') {
      token += "~0";
    } else if (c == '/') {
      token += "~1";
    } else {
      token += c;
    }
  }
  return token;
}

}  // namespace

const JsonNode& JsonValue::node() const { return file_->tree().nodes[id_]; }
const std::string& JsonValue::text() const {
  LEEWAY_ASSERT(is(JsonKind::string));
  return file_->tree().texts[node().text];
}
const std::string& JsonValue::key() const {
  LEEWAY_ASSERT(id_ > 0 && file_->tree().nodes[node().parent].kind == JsonKind::object);
  return file_->tree().texts[node().key];
}

std::vector<JsonValue> JsonValue::children() const {
  std::vector<JsonValue> result;
  const std::vector<JsonNode>& nodes = file_->tree().nodes;
  for (std::uint32_t id = id_ + 1; id < nodes[id_].end; id = nodes[id].end) {
    result.emplace_back(file_, id);
  }
  return result;
}

void JsonValue::fault(std::string code, std::string found, std::string allowed,
                      std::string nearest) const {
  file_->note(id_, false,
              fault_of(std::move(code), std::move(found), std::move(allowed), std::move(nearest)));
}

void JsonValue::key_fault(std::string code, std::string found, std::string allowed,
                          std::string nearest) const {
  file_->note(id_, true,
              fault_of(std::move(code), std::move(found), std::move(allowed), std::move(nearest)));
}

std::string describe(JsonValue value) {
  switch (value.kind()) {
    case JsonKind::null:
      return "null";
    case JsonKind::boolean:
      return value.number() != 0 ? "true" : "false";
    case JsonKind::number:
      return fmt::format("the number {}", value.number());
    case JsonKind::string:
      return "the text " + in_quotes(value.text());
    case JsonKind::array: {
      const std::size_t count = value.children().size();
      return count == 0   ? "an empty array"
             : count == 1 ? "an array of 1 value"
                          : fmt::format("an array of {} values", count);
    }
    case JsonKind::object:
      return "an object";
    case JsonKind::not_finite:
      break;
  }
  return "a number that is not finite";
}

JsonFile::JsonFile(SourceFile source) : source_(std::move(source)) { parse(); }

std::optional<JsonValue> JsonFile::root() {
  return parsed_ ? std::optional<JsonValue>(JsonValue(this, 0)) : std::nullopt;
}

// The text is walked for places at the first fault only: most files have none.
void JsonFile::note(std::uint32_t node, bool at_key, Fault fault) {
  if (!walk_) walk_ = walk_json(source_.text);
  if (!notes_.full()) fault.pointer = pointer(node);
  if (fault.code == "wrong-length" && !notes_.full()) fault.hint = array_hint(node);
  const JsonPlace place = walk_->places.empty() ? JsonPlace{} : walk_->places[node];
  notes_.add(at_key ? place.key : place.value, std::move(fault));
}

void JsonFile::note_file(std::string code, std::string found, std::string allowed) {
  notes_.add(FaultNotes::kWholeFile,
             fault_of(std::move(code), std::move(found), std::move(allowed)));
}

void JsonFile::parse() {
  if (!source_.problem.empty()) {
    return note_file("cannot-read", "a file that cannot be read: " + source_.problem, {});
  }
  if (source_.text.size() > kLargestFile) {
    return note_file("file-too-large", fmt::format("a file of {} bytes", source_.text.size()),
                     fmt::format("at most {} bytes (16 MiB)", kLargestFile));
  }
  if (source_.text.find_first_not_of(" \t\r\n") == std::string::npos) {
    return note_file("empty-file", "nothing: the file is empty", "a JSON object { ... }");
  }
  if (!check_encoding()) return;
  std::size_t stopped_at = 0;
  parsed_ = parse_json(source_.text, tree_, stopped_at);
  if (!parsed_) explain(stopped_at);
}

// Bytes that are no UTF-8 are told once and read as '?', so that the other faults are found too.
bool JsonFile::check_encoding() {
  const std::size_t first = first_not_utf8(source_.text);
  if (first == std::string::npos) return true;
  std::size_t count = 0;
  const auto byte = static_cast<unsigned char>(source_.text[first]);
  // Every second byte of UTF-16 is a NUL: one fault, not one for each.
  const bool wide = source_.text.find('\0') != std::string::npos;
  if (wide) {
    notes_.add(first, fault_of("not-utf8",
                               fmt::format("the byte 0x{:02X}: the file is no UTF-8 text", byte),
                               "a file saved as UTF-8 (not as UTF-16)"));
    return false;
  }
  for (std::size_t at = first; at != std::string::npos; at = first_not_utf8(source_.text, at + 1)) {
    source_.text[at] = '?';
    ++count;
  }
  notes_.add(first,
             fault_of("not-utf8",
                      count == 1 ? fmt::format("the byte 0x{:02X}, which is not UTF-8", byte)
                                 : fmt::format("the byte 0x{:02X}, which is not UTF-8, as are "
                                               "{} bytes in all",
                                               byte, count),
                      "a file saved as UTF-8"));
  return true;
}

// Says why the text did not parse. Where numbers that are not finite are all that is wrong, the
// text is parsed again with zeros in their place: what they are values of is then known.
void JsonFile::explain(std::size_t stopped_at) {
  walk_ = walk_json(source_.text);
  std::vector<Fault> blots;
  for (const NotFinite& blot : walk_->not_finite) {
    blots.push_back(fault_of("not-finite", cut(source_.text.substr(blot.at, blot.length), 40),
                             "a finite number"));
    source_.text.replace(blot.at, blot.length, blot.length, ' ');
    source_.text[blot.at] = '0';
  }
  parsed_ = !walk_->stop && parse_json(source_.text, tree_, stopped_at);
  note_not_finite(std::move(blots));
  if (const auto& stop = walk_->stop) {
    notes_.add(stop->at, fault_of(stop->code, stop->found, stop->allowed, stop->nearest));
  } else if (!parsed_) {
    notes_.add(stopped_at, fault_of("not-json", "something that is not JSON", "JSON"));
  }
}

void JsonFile::note_not_finite(std::vector<Fault> blots) {
  std::size_t node = 0;
  for (std::size_t i = 0; i < blots.size(); ++i) {
    const std::size_t at = walk_->not_finite[i].at;
    if (!parsed_) {
      notes_.add(at, std::move(blots[i]));
      continue;
    }
    while (walk_->places[node].value != at) ++node;
    tree_.nodes[node].kind = JsonKind::not_finite;
    note(static_cast<std::uint32_t>(node), false, std::move(blots[i]));
  }
}

// Of numbers that are too many: a decimal comma makes two of one.
std::string JsonFile::array_hint(std::uint32_t node) const {
  if (walk_->places.empty() || tree_.nodes[node].kind != JsonKind::array) return "";
  constexpr std::size_t kLongest = 200;
  const std::size_t from = walk_->places[node].value;
  const std::size_t to = std::min(source_.text.find(']', from), from + kLongest);
  return comma_hint(std::string_view(source_.text).substr(from, to - from));
}

// Made only for faults: the tree keeps parents, not pointers.
std::string JsonFile::pointer(std::uint32_t node) const {
  if (node == 0) return {};
  const JsonNode& here = tree_.nodes[node];
  const bool item = tree_.nodes[here.parent].kind == JsonKind::array;
  return pointer(here.parent) + "/" +
         (item ? std::to_string(here.key) : pointer_token(tree_.texts[here.key]));
}

}  // namespace leeway
