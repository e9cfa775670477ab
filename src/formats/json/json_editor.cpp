#include "formats/json/json_editor.h"

#include "formats/json/json_token.h"
#include "geometry/plane/assert.h"

namespace leeway {

JsonEditor::JsonEditor(std::string_view text) : text_(text), walk_(walk_json(text)) {
  std::size_t stopped_at = 0;
  [[maybe_unused]] const bool parses = parse_json(text, tree_, stopped_at);
  LEEWAY_ASSERT(parses);
}

std::uint32_t JsonEditor::find(std::uint32_t object, std::string_view key) const {
  if (tree_.nodes[object].kind != JsonKind::object) return kNone;
  for (std::uint32_t i = object + 1; i < tree_.nodes[object].end; i = tree_.nodes[i].end) {
    if (tree_.texts[tree_.nodes[i].key] == key) return i;
  }
  return kNone;
}

std::uint32_t JsonEditor::member(std::uint32_t object, std::string_view key) const {
  return object == kNone ? kNone : find(object, key);
}

std::uint32_t JsonEditor::top(std::string_view key) const { return find(kRoot, key); }

const std::string* JsonEditor::string(std::uint32_t node) const {
  const JsonNode& n = tree_.nodes[node];
  return n.kind == JsonKind::string ? &tree_.texts[n.text] : nullptr;
}

void JsonEditor::replace(std::uint32_t node, const std::string& json) {
  const std::size_t from = walk_.places[node].value;
  bool comments = false;
  const std::size_t to = end_of(from, &comments);
  comments_lost_ = comments_lost_ || comments;
  edits_.push_back({from, to, json});
}

void JsonEditor::add_first(std::uint32_t object, const std::string& member) {
  const std::size_t at = walk_.places[object].value + 1;
  edits_.push_back({at, at, member + (is_empty(object) ? "" : ", ")});
}

void JsonEditor::add_after(std::uint32_t node, const std::string& member) {
  const std::size_t at = end_of(walk_.places[node].value);
  edits_.push_back({at, at, ",\n  " + member});
}

void JsonEditor::add_last(const std::string& member) {
  std::size_t at = walk_.places[kRoot].value + 1;
  for (std::uint32_t i = 1; i < tree_.nodes[kRoot].end; i = tree_.nodes[i].end) {
    at = end_of(walk_.places[i].value);
  }
  edits_.push_back({at, at, (is_empty(kRoot) ? "\n  " : ",\n  ") + member});
}

Rewritten JsonEditor::result() {
  std::sort(edits_.begin(), edits_.end(),
            [](const Edit& a, const Edit& b) { return a.from < b.from; });
  Rewritten out;
  out.comments_lost = comments_lost_;
  std::size_t at = 0;
  for (const Edit& edit : edits_) {
    out.text += text_.substr(at, edit.from - at);
    out.text += edit.json;
    at = edit.to;
  }
  out.text += text_.substr(at);
  if (out.text.empty() || out.text.back() != '\n') out.text += '\n';
  return out;
}

std::size_t JsonEditor::end_of(std::size_t at, bool* holds_comment) const {
  int depth = 0;
  do {
    const std::size_t blank = at;
    at = skip_blank(text_, at);
    const bool comment = text_.substr(blank, at - blank).find('/') != std::string_view::npos;
    if (comment && holds_comment != nullptr) *holds_comment = true;
    const char c = text_[at];
    if (c == '"') {
      SyntaxFault fault;
      scan_string(text_, at, fault);
    } else if (const std::string_view word = word_at(text_, at); !word.empty()) {
      at += word.size();
    } else {
      depth += c == '{' || c == '[' ? 1 : c == '}' || c == ']' ? -1 : 0;
      ++at;
    }
  } while (depth > 0);
  return at;
}

}  // namespace leeway
