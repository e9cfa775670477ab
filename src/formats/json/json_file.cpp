#include "formats/json/json_file.h"

#include <fmt/format.h>

#include <algorithm>

#include "formats/json/json_walk.h"
#include "formats/text/names.h"
#include "formats/text/utf8.h"

namespace leeway {
namespace {

Fault fault_of(std::string code, std::string found, std::string allowed, std::string nearest = {}) {
  Fault fault;
  fault.code = std::move(code);
  fault.found = std::move(found);
  fault.allowed = std::move(allowed);
  fault.nearest = std::move(nearest);
  return fault;
}

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
const std::string& JsonValue::text() const { return file_->tree().texts[node().text]; }
const std::string& JsonValue::key() const { return file_->tree().texts[node().key]; }

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

void JsonFile::note(std::uint32_t node, bool at_key, Fault fault) {
  add({node, at_key, std::nullopt, std::move(fault)});
}

void JsonFile::note_at(std::size_t offset, Fault fault) {
  add({0, false, offset, std::move(fault)});
}

void JsonFile::add(Noted noted) {
  if (noted_.size() < kMostFaults) {
    noted_.push_back(std::move(noted));
  } else {
    ++untold_;
  }
}

void JsonFile::note_file(std::string code, std::string found, std::string allowed) {
  note_at(std::string::npos, fault_of(std::move(code), std::move(found), std::move(allowed)));
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
  const bool wide = source_.text.find('\0') != std::string::npos;
  if (wide) {
    note_at(first,
            fault_of("not-utf8", fmt::format("the byte 0x{:02X}: the file is no UTF-8 text", byte),
                     "a file saved as UTF-8 (not as UTF-16)"));
    return false;
  }
  for (std::size_t at = first; at != std::string::npos; at = first_not_utf8(source_.text, at + 1)) {
    source_.text[at] = '?';
    ++count;
  }
  note_at(first, fault_of("not-utf8",
                          count == 1 ? fmt::format("the byte 0x{:02X}, which is not UTF-8", byte)
                                     : fmt::format("the byte 0x{:02X}, which is not UTF-8, as are "
                                                   "{} bytes in all",
                                                   byte, count),
                          "a file saved as UTF-8"));
  return true;
}

// Says why the text did not parse. Where numbers that are not finite are all that is wrong, the
// text is parsed again with zeros in their place.
void JsonFile::explain(std::size_t stopped_at) {
  const JsonWalk walk = walk_json(source_.text);
  const std::size_t first_noted = noted_.size();
  for (const NotFinite& blot : walk.not_finite) {
    note_at(blot.at, fault_of("not-finite", cut(source_.text.substr(blot.at, blot.length), 40),
                              "a finite number"));
    source_.text.replace(blot.at, blot.length, blot.length, ' ');
    source_.text[blot.at] = '0';
  }
  if (walk.stop) {
    return note_at(walk.stop->at, fault_of(walk.stop->code, walk.stop->found, walk.stop->allowed,
                                           walk.stop->nearest));
  }
  parsed_ = parse_json(source_.text, tree_, stopped_at);
  if (!parsed_) {
    return note_at(stopped_at, fault_of("not-json", "something that is not JSON", "JSON"));
  }
  std::size_t node = 0;
  for (std::size_t i = 0; i < walk.not_finite.size(); ++i) {
    while (walk.places[node].value != walk.not_finite[i].at) ++node;
    tree_.nodes[node].kind = JsonKind::not_finite;
    if (first_noted + i >= noted_.size()) continue;
    // Now that the value is known, so is its pointer.
    noted_[first_noted + i].node = static_cast<std::uint32_t>(node);
    noted_[first_noted + i].offset.reset();
  }
}

std::string JsonFile::pointer(std::uint32_t node) const {
  if (node == 0) return {};
  const JsonNode& here = tree_.nodes[node];
  const bool item = tree_.nodes[here.parent].kind == JsonKind::array;
  return pointer(here.parent) + "/" +
         (item ? std::to_string(here.key) : pointer_token(tree_.texts[here.key]));
}

std::vector<Fault> JsonFile::faults() const {
  const JsonWalk walk = parsed_ && !noted_.empty() ? walk_json(source_.text) : JsonWalk{};
  std::vector<std::pair<std::size_t, const Noted*>> order;
  for (const Noted& noted : noted_) {
    const JsonPlace place = noted.offset          ? JsonPlace{*noted.offset, *noted.offset}
                            : walk.places.empty() ? JsonPlace{}
                                                  : walk.places[noted.node];
    order.emplace_back(noted.at_key ? place.key : place.value, &noted);
  }
  std::stable_sort(order.begin(), order.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  LineCounter lines(source_.text);
  std::vector<Fault> result;
  for (const auto& [offset, noted] : order) {
    Fault fault = noted->fault;
    fault.file = source_.name;
    if (offset != std::string::npos) {
      const LineColumn place = lines.at(offset);
      fault.line = place.line;
      fault.column = place.column;
    }
    if (parsed_ && !noted->offset) fault.pointer = pointer(noted->node);
    result.push_back(std::move(fault));
  }
  if (untold_ > 0) {
    result.push_back(fault_of("more-faults", fmt::format("{} further faults", untold_), {}));
    result.back().file = source_.name;
  }
  return result;
}

}  // namespace leeway
