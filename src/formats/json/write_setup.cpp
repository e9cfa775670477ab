#include "leeway/write_setup.h"

#include "formats/json/setup_value.h"

namespace leeway {
namespace {

using Json = nlohmann::ordered_json;

std::string in_a_line(const Json& value) {
  if (!value.is_structured()) {
    return value.dump(-1, ' ', false, Json::error_handler_t::replace);
  }
  std::string out = value.is_object() ? "{" : "[";
  for (const auto& [key, member] : value.items()) {
    if (out.size() > 1) out += ", ";
    if (value.is_object()) out += in_a_line(Json(key)) + ": ";
    out += in_a_line(member);
  }
  return out + (value.is_object() ? '}' : ']');
}

struct KeyComment {
  std::string_view path;
  std::string_view says;
};

constexpr KeyComment kKeyComments[] = {
    {"machine.bed", "what prints stand on"},
    {"machine.travel", "where the nozzle may be sent: as far as the machine really goes"},
    {"machine.obstacles", "what stands on the bed: its height, the clearance wanted around it"},
    {"machine.head", "parts of the head: outlines around the nozzle, undersides above its tip"},
    {"probe.offset", "from nozzle to probe: to the left and to the front are negative"},
    {"probe.offset_uncertainty", "standard uncertainty of x and of y; leeway measure tells it"},
    {"probe.spot", "the sensing area: what must have bed under it"},
    {"probe.edge_distance", "how far the sensing area shall stay from the edge of the bed"},
    {"probe.trigger_height", "height of the nozzle above the bed when the probe triggers"},
    {"probe.travel_height", "height of the nozzle above the bed between points"},
    {"request.grid", "the points that are wanted"},
    {"request.home", "where the head homes"}};

std::string_view comment_of(const std::string& path) {
  for (const KeyComment& comment : kKeyComments) {
    if (comment.path == path) return comment.says;
  }
  return {};
}

class TidyWriter {
 public:
  explicit TidyWriter(bool comments) : comments_(comments) {}

  // In a line where that is short enough and holds no comment, else a member a line.
  void write(const Json& value, const std::string& path, std::size_t indent, std::size_t before) {
    constexpr std::size_t kTextWidth = 96;
    const std::string line = in_a_line(value);
    if (!value.is_structured() ||
        (indent > 0 && indent + before + line.size() < kTextWidth && !holds_comment(value, path))) {
      out_ += line;
      return;
    }
    const std::string air(indent + 2, ' ');
    out_ += value.is_object() ? '{' : '[';
    bool first = true;
    for (const auto& [key, member] : value.items()) {
      out_ += (first ? "\n" : ",\n") + air;
      first = false;
      const std::string to = value.is_object() ? joined_path(path, key) : "";
      if (comments_ && !comment_of(to).empty()) {
        out_ += "// " + std::string(comment_of(to)) + "\n" + air;
      }
      const std::string name = value.is_object() ? in_a_line(Json(key)) + ": " : "";
      out_ += name;
      write(member, to, indent + 2, name.size());
    }
    out_ += "\n" + std::string(indent, ' ') + (value.is_object() ? '}' : ']');
  }

  const std::string& text() const { return out_; }

 private:
  static std::string joined_path(const std::string& path, const std::string& key) {
    return path.empty() ? key : path + "." + key;
  }

  bool holds_comment(const Json& value, const std::string& path) const {
    if (!comments_ || !value.is_object()) return false;
    for (const auto& [key, member] : value.items()) {
      if (!comment_of(joined_path(path, key)).empty()) return true;
    }
    return false;
  }

  bool comments_;
  std::string out_;
};

std::string tidy_text(const Setup& setup, bool comments) {
  TidyWriter writer(comments);
  writer.write(setup_value(setup), "", 0, 0);
  return writer.text() + "\n";
}

}  // namespace

std::string setup_json(const Setup& setup) { return tidy_text(setup, false); }

std::string commented_setup(const Setup& setup) {
  std::string about =
      "// Lengths are in mm, in the coordinates that the controller shows for the nozzle: x to "
      "the\n"
      "// right, y to the back. Every key is described in profiles/README.md.\n";
  std::string missing;
  const auto look = [&missing](bool stated, const char* what) {
    if (!stated) missing += (missing.empty() ? "" : ", ") + std::string(what);
  };
  look(!setup.machine.obstacles.empty(), "obstacles on the bed");
  look(!setup.machine.head.empty(), "parts of the head");
  look(setup.probe.offset_uncertainty != Point{}, "the offset's uncertainty");
  look(setup.probe.travel_height.has_value(), "the height of moves");
  if (!missing.empty()) about += "// Not stated yet:\n//   " + missing + ".\n";
  return about + tidy_text(setup, true);
}

}  // namespace leeway
