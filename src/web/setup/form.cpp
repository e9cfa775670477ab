// Numbers typed into a form: a field is a text as behind an option of the command, or its boxes one
// by one, each as typed.

#include "web/answers.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <type_traits>

#include "formats/text/names.h"
#include "formats/text/numbers.h"
#include "formats/typed/typed_length.h"
#include "formats/typed/typed_setup.h"
#include "leeway/read_setup.h"
#include "web/setup/field_faults.h"

namespace leeway {
namespace {

// How the boxes of a field make the text of its option: each # is one.
struct Boxes {
  std::string_view field;
  std::string_view pattern;
};
constexpr std::string_view kBoundsBoxes = "#..#,#..#";
constexpr Boxes kBoxes[] = {
    {"bed", "round:#"},       {"bed", "#x#"},         {"bed", kBoundsBoxes},
    {"travel", "round:#"},    {"travel", "#x#"},      {"travel", kBoundsBoxes},
    {"offset", "#,#"},        {"uncertainty", "#,#"}, {"home", "#,#"},
    {"grid", "#x#"},          {"margins", "#"},       {"margins", "left=#,right=#,front=#,back=#"},
    {"bounds", kBoundsBoxes}, {"spot", "#"},          {"edge-distance", "#"},
    {"trigger-height", "#"},  {"travel-height", "#"}};

std::size_t boxes_in(std::string_view pattern) {
  return static_cast<std::size_t>(std::count(pattern.begin(), pattern.end(), '#'));
}

std::string filled_pattern(std::string_view pattern, const std::vector<std::string>& boxes) {
  std::string out;
  std::size_t next = 0;
  for (const char c : pattern) {
    if (c == '#') {
      out += boxes[next++];
    } else {
      out += c;
    }
  }
  return out;
}

std::string shown_length(const TypedLength& length) { return shortest(length.mm) + " mm"; }

class FormReader {
 public:
  explicit FormReader(WebRequest& form) : form_(form) {}

  std::string field(const char* name) {
    const Json* value = form_.any(name);
    if (value == nullptr) return "";
    if (value->is_array()) return of_boxes(name, *value);
    std::string typed = form_.typed(name);
    // One length alone may have its unit and its comma.
    if (find(name, 1) != "#" || typed.find('=') != std::string::npos) return typed;
    const auto length = typed_length(typed);
    if (!length || !length->converted) return typed;
    read_[name] = shown_length(*length);
    return shortest(length->mm);
  }

  // Obstacles or parts: each a text, or its name and its boxes: bounds, a height, perhaps a
  // clearance.
  template <typename One>
  void list(const char* name, std::vector<std::string>& typed, std::vector<One>& read) {
    const Json* value = form_.any(name);
    if (value == nullptr) return;
    if (!value->is_array()) form_.complain(name, "an array");
    for (const Json& one : value->is_array() ? *value : Json::array()) {
      if (one.is_string()) {
        typed.push_back(one.get<std::string>());
      } else {
        item_ = static_cast<int>(read.size());
        read.push_back(placed<One>(name, one));
      }
    }
    item_ = -1;
  }

  const std::vector<WebFault>& faults() const { return faults_; }
  // What was converted, by field.
  const Json& read() const { return read_; }

 private:
  static std::string_view find(std::string_view field, std::size_t count) {
    for (const Boxes& one : kBoxes) {
      if (one.field == field && boxes_in(one.pattern) == count) return one.pattern;
    }
    return "";
  }

  std::string of_boxes(const char* name, const Json& value) {
    const std::vector<std::string> typed = form_.texts(name).value_or(std::vector<std::string>{});
    if (std::all_of(typed.begin(), typed.end(), [](const auto& box) { return box.empty(); })) {
      return "";
    }
    const std::string_view pattern = find(name, value.size());
    if (pattern.empty()) {
      form_.complain(name, "a text, or as many texts as the field has boxes");
      return "";
    }
    std::vector<std::string> boxes;
    Json told = Json::array();
    for (std::size_t i = 0; i < typed.size(); ++i) boxes.push_back(box(name, i, typed[i], told));
    const bool any =
        std::any_of(told.begin(), told.end(), [](const Json& one) { return one != ""; });
    if (any) read_[name] = told;
    return filled_pattern(pattern, boxes);
  }

  template <typename One>
  One placed(const char* name, const Json& one) {
    const bool texts = one.is_array() && std::all_of(one.begin(), one.end(), [](const Json& box) {
                         return box.is_string();
                       });
    if (!texts || one.size() < 6 || one.size() > 7) {
      form_.complain(name, "texts, or for each its name, four bounds, a height and a clearance");
      return {};
    }
    std::array<double, 7> numbers{};
    Json told = Json::array();
    for (std::size_t i = 1; i < one.size(); ++i) {
      const std::string typed = one[i].get<std::string>();
      if (i < 6 || !typed.empty()) numbers[i] = typed_length(box(name, i, typed, told))->mm;
    }
    One out;
    out.name = one[0].get<std::string>();
    const Box bounds{numbers[1], numbers[2], numbers[3], numbers[4]};
    if constexpr (std::is_same_v<One, Obstacle>) {
      out.shape = bounds;
      out.height = numbers[5];
      out.clearance = numbers[6];
    } else {
      out.outline = bounds;
      out.underside = numbers[5];
    }
    return out;
  }

  std::string box(const char* name, std::size_t index, const std::string& typed, Json& told) {
    told.push_back("");
    const bool counts = std::string_view(name) == "grid";
    const auto length = typed_length(typed);
    if (length && !(counts && length->converted)) {
      if (!length->converted) return typed;
      told.back() = shown_length(*length);
      return shortest(length->mm);
    }
    WebFault fault;
    fault.message = typed.find_first_not_of(' ') == std::string::npos ? "A number is missing here."
                    : counts ? fmt::format("This takes a whole number, not {}.", in_quotes(typed))
                             : fmt::format("This takes a length, such as 12.5 or 0.5 in, not {}{}.",
                                           in_quotes(typed), number_hint(typed));
    fault.field = name;
    fault.box = static_cast<int>(index);
    fault.item = item_;
    faults_.push_back(std::move(fault));
    return "0";
  }

  WebRequest& form_;
  int item_ = -1;
  std::vector<WebFault> faults_;
  Json read_ = Json::object();
};

}  // namespace

Json answer_form(Session& session, WebRequest& asked) {
  const Json* fields = asked.object("fields");
  asked.done();
  if (fields == nullptr) throw Refused("The request has no \"fields\".");
  WebRequest form(*fields, "/fields");
  FormReader reader(form);
  TypedNumbers numbers;
  for (const TypedField& field : kTypedFields) numbers.*field.number = reader.field(field.name);
  reader.list("obstacle", numbers.obstacles, numbers.read_obstacles);
  reader.list("part", numbers.parts, numbers.read_parts);
  numbers.skip_outside = form.flag("skip-outside");
  form.done();
  std::vector<WebFault> faults = reader.faults();
  TypedSetup typed = typed_setup(numbers);
  for (const TypedFault& fault : typed.faults) {
    // A box that could not be read has been told; its field then holds what nobody typed.
    const WebFault made = field_fault(fault);
    const bool told = std::any_of(
        reader.faults().begin(), reader.faults().end(),
        [&](const WebFault& one) { return one.field == made.field && one.item == made.item; });
    if (!told) faults.push_back(made);
  }
  if (!faults.empty()) throw Refused(faults);
  SourceFile source;
  source.name = "the form";
  source.text = std::move(typed.text);
  const ReadSetup read = read_setup(source, {});
  if (!read.setup) throw Refused(read.faults);
  session.take(*read.setup, "");
  Json out{{"name", session.name()}, {"setup", session.whole()}};
  if (!reader.read().empty()) out["read"] = reader.read();
  return out;
}

Json answer_length(Session&, WebRequest& asked) {
  const std::string typed = asked.typed("text");
  asked.done();
  const auto length = typed_length(typed);
  if (!length) {
    throw Refused(fmt::format("This takes a length, such as 12.5 or 0.5 in, not {}{}.",
                              in_quotes(typed), number_hint(typed)),
                  "/text");
  }
  return {{"value", length->mm}, {"read", shown_length(*length)}};
}

}  // namespace leeway
