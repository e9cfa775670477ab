#include <fmt/format.h>

#include <algorithm>

#include "formats/json_text.h"
#include "formats/json_token.h"
#include "formats/json_tree.h"
#include "formats/json_walk.h"
#include "formats/numbers.h"
#include "leeway/write_fit.h"

namespace leeway {
namespace {

// A JSON text with the places of its values, to be changed piece by piece.
class Editor {
 public:
  explicit Editor(std::string_view text) : text_(text), walk_(walk_json(text)) {
    std::size_t stopped_at = 0;
    parse_json(text, tree_, stopped_at);
  }

  static constexpr std::uint32_t kRoot = 0;
  static constexpr std::uint32_t kNone = 0;

  // kNone, which is the root and so no member, when there is none.
  std::uint32_t member(std::uint32_t object, std::string_view key) const {
    if (tree_.nodes[object].kind != JsonKind::object) return kNone;
    for (std::uint32_t i = object + 1; i < tree_.nodes[object].end; i = tree_.nodes[i].end) {
      if (tree_.texts[tree_.nodes[i].key] == key) return i;
    }
    return kNone;
  }

  // Null when it is no text.
  const std::string* string(std::uint32_t node) const {
    const JsonNode& n = tree_.nodes[node];
    return n.kind == JsonKind::string ? &tree_.texts[n.text] : nullptr;
  }

  void replace(std::uint32_t node, const std::string& json) {
    const std::size_t from = walk_.places[node].value;
    const std::size_t to = end_of(from);
    comments_lost_ = comments_lost_ || holds_comment(from, to);
    edits_.push_back({from, to, json});
  }

  // `member` is "key": value. Goes before the first member, or into the empty object.
  void add_first(std::uint32_t object, const std::string& member) {
    const std::size_t at = walk_.places[object].value + 1;
    edits_.push_back({at, at, member + (is_empty(object) ? "" : ", ")});
  }

  // Goes after the last member, on a line of its own.
  void add_last(std::uint32_t object, const std::string& member) {
    std::size_t at = walk_.places[object].value + 1;
    for (std::uint32_t i = object + 1; i < tree_.nodes[object].end; i = tree_.nodes[i].end) {
      at = end_of(walk_.places[i].value);
    }
    edits_.push_back({at, at, (is_empty(object) ? "\n  " : ",\n  ") + member});
  }

  Rewritten result() {
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

 private:
  struct Edit {
    std::size_t from = 0;
    std::size_t to = 0;
    std::string json;
  };

  bool is_empty(std::uint32_t object) const { return tree_.nodes[object].end == object + 1; }

  // Calls `visit(at, end)` for each blank or comment between the tokens of the value at `at`, and
  // returns the end of the value.
  template <typename Visit>
  std::size_t scan(std::size_t at, const Visit& visit) const {
    int depth = 0;
    do {
      const std::size_t blank = at;
      at = skip_blank(text_, at);
      visit(blank, at);
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

  std::size_t end_of(std::size_t at) const {
    return scan(at, [](std::size_t, std::size_t) {});
  }

  bool holds_comment(std::size_t from, std::size_t) const {
    bool found = false;
    scan(from, [&](std::size_t a, std::size_t b) {
      found = found || text_.substr(a, b - a).find('/') != std::string_view::npos;
    });
    return found;
  }

  std::string_view text_;
  JsonWalk walk_;
  JsonTree tree_;
  std::vector<Edit> edits_;
  bool comments_lost_ = false;
};

std::string grid_text(const FitMesh& mesh, bool skip) {
  return fmt::format(
      R"({{"columns": {}, "rows": {}, "x": [{}, {}], "y": [{}, {}], "frame": "probe"{}}})",
      mesh.columns, mesh.rows, shortest(mesh.bounds.x0), shortest(mesh.bounds.x1),
      shortest(mesh.bounds.y0), shortest(mesh.bounds.y1), skip ? R"(, "outside_bed": "skip")" : "");
}

}  // namespace

Rewritten rewrite_setup(std::string_view text, const FitMesh& mesh,
                        const std::function<std::string(const std::string&)>& new_path) {
  Editor editor(text);
  const auto move_path = [&](std::uint32_t node) {
    const std::string* path = editor.string(node);
    if (path == nullptr) return;
    const std::string now = new_path(*path);
    if (now != *path) editor.replace(node, json_text(now));
  };
  const auto inner = [&](std::uint32_t object, std::string_view key) {
    return object == Editor::kNone ? Editor::kNone : editor.member(object, key);
  };
  move_path(editor.member(Editor::kRoot, "machine"));
  const std::uint32_t probe = editor.member(Editor::kRoot, "probe");
  move_path(probe);
  move_path(inner(probe, "profile"));
  const std::uint32_t request = editor.member(Editor::kRoot, "request");
  const std::uint32_t grid = inner(request, "grid");
  const std::string* outside = editor.string(inner(grid, "outside_bed"));
  const std::string now = grid_text(mesh, outside != nullptr && *outside == "skip");
  if (grid != Editor::kNone) {
    editor.replace(grid, now);
  } else if (request != Editor::kNone) {
    editor.add_first(request, "\"grid\": " + now);
  } else {
    editor.add_last(Editor::kRoot, "\"request\": {\"grid\": " + now + "}");
  }
  return editor.result();
}

}  // namespace leeway
