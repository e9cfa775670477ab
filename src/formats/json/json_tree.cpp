#include "formats/json/json_tree.h"

#include <nlohmann/json.hpp>
#include <utility>

#include "formats/text/utf8.h"
#include "geometry/plane/assert.h"
#include "leeway/read_setup.h"

namespace leeway {
namespace {

// Takes the parser's events. Nothing recurses, so that no nesting can exhaust the stack.
class TreeBuilder : public nlohmann::json_sax<nlohmann::json> {
 public:
  TreeBuilder(JsonTree& tree, std::size_t& stopped_at) : tree_(tree), stopped_at_(stopped_at) {}

  bool null() override { return leaf(JsonKind::null, 0); }
  bool boolean(bool value) override { return leaf(JsonKind::boolean, value ? 1 : 0); }
  bool number_integer(number_integer_t value) override {
    return leaf(JsonKind::number, static_cast<double>(value));
  }
  bool number_unsigned(number_unsigned_t value) override {
    return leaf(JsonKind::number, static_cast<double>(value));
  }
  bool number_float(number_float_t value, const string_t&) override {
    return leaf(JsonKind::number, value);
  }
  bool string(string_t& value) override {
    add(JsonKind::string).text = keep(value);
    return true;
  }
  bool binary(binary_t&) override { return false; }  // a text holds none
  bool key(string_t& value) override {
    key_ = keep(value);
    return true;
  }
  bool start_object(std::size_t) override { return open(JsonKind::object); }
  bool start_array(std::size_t) override { return open(JsonKind::array); }
  bool end_object() override { return close(); }
  bool end_array() override { return close(); }
  bool parse_error(std::size_t position, const std::string&,
                   const nlohmann::detail::exception&) override {
    stopped_at_ = position > 0 ? position - 1 : 0;
    return false;
  }

 private:
  struct Open {
    std::uint32_t node = 0;
    std::uint32_t items = 0;
  };

  std::uint32_t keep(string_t& text) {
    tree_.texts.push_back(std::move(text));
    return static_cast<std::uint32_t>(tree_.texts.size() - 1);
  }

  JsonNode& add(JsonKind kind) {
    JsonNode node;
    node.number = 0;
    node.kind = kind;
    const auto id = static_cast<std::uint32_t>(tree_.nodes.size());
    if (!open_.empty()) {
      node.parent = open_.back().node;
      const bool item = tree_.nodes[node.parent].kind == JsonKind::array;
      node.key = item ? open_.back().items : key_;
      ++open_.back().items;
    }
    node.end = id + 1;
    tree_.nodes.push_back(node);
    return tree_.nodes.back();
  }

  bool leaf(JsonKind kind, double number) {
    add(kind).number = number + 0.0;  // so that -0 is 0
    return true;
  }

  bool open(JsonKind kind) {
    if (open_.size() >= kDeepestNesting) return false;
    add(kind);
    open_.push_back({static_cast<std::uint32_t>(tree_.nodes.size() - 1), 0});
    return true;
  }

  bool close() {
    tree_.nodes[open_.back().node].end = static_cast<std::uint32_t>(tree_.nodes.size());
    open_.pop_back();
    return true;
  }

  JsonTree& tree_;
  std::size_t& stopped_at_;
  std::vector<Open> open_;
  std::uint32_t key_ = 0;
};

}  // namespace

bool parse_json(std::string_view text, JsonTree& tree, std::size_t& stopped_at) {
  LEEWAY_ASSERT(first_not_utf8(text) == std::string_view::npos);
  tree = {};
  TreeBuilder builder(tree, stopped_at);
  constexpr bool kStrict = true;
  constexpr bool kIgnoreComments = true;
  return nlohmann::json::sax_parse(text.data(), text.data() + text.size(), &builder,
                                   nlohmann::json::input_format_t::json, kStrict, kIgnoreComments);
}

}  // namespace leeway
