#include "web/request.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "formats/text/names.h"
#include "leeway/read_setup.h"

namespace leeway {
namespace {

constexpr std::size_t kLargestRequest = 8 * kLargestFile;  // a file as text in JSON, and more

std::string capital(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 32);
  return text;
}

}  // namespace

WebFault web_fault(const Fault& fault) {
  return {capital(sentence(fault)), fault.pointer, "", fault.line, fault.column, fault.file};
}

Refused::Refused(const std::vector<Fault>& faults) {
  for (const Fault& fault : faults) faults_.push_back(web_fault(fault));
}

WebRequest::WebRequest(const Json& object, std::string pointer)
    : object_(object), pointer_(std::move(pointer)) {}

const Json* WebRequest::find(const char* key) {
  asked_.emplace_back(key);
  const auto at = object_.find(key);
  return at == object_.end() || at->is_null() ? nullptr : &*at;
}

void WebRequest::complain(const char* key, const char* wanted) {
  faults_.push_back(
      {fmt::format("The request's \"{}\" must be {}.", key, wanted), pointer_ + "/" + key});
}

std::optional<std::string> WebRequest::text(const char* key) {
  const Json* value = find(key);
  if (value == nullptr) return std::nullopt;
  if (value->is_string()) return value->get<std::string>();
  complain(key, "a text");
  return std::nullopt;
}

std::string WebRequest::typed(const char* key) {
  const Json* value = find(key);
  if (value == nullptr) return "";
  if (value->is_string()) return value->get<std::string>();
  if (value->is_number()) return value->dump();
  complain(key, "a text or a number");
  return "";
}

bool WebRequest::flag(const char* key, bool otherwise) {
  const Json* value = find(key);
  if (value == nullptr) return otherwise;
  if (value->is_boolean()) return value->get<bool>();
  complain(key, "true or false");
  return otherwise;
}

std::optional<std::vector<double>> WebRequest::numbers(const char* key,
                                                       std::optional<std::size_t> count,
                                                       const char* wanted) {
  const Json* value = find(key);
  if (value == nullptr) return std::nullopt;
  std::vector<double> out;
  if (value->is_array() && (!count || value->size() == *count)) {
    for (const Json& item : *value) {
      if (item.is_number()) out.push_back(item.get<double>());
    }
  }
  const auto bad = [](double number) { return !(std::abs(number) <= kLargestLength); };
  if (value->is_array() && out.size() == count.value_or(value->size()) &&
      std::none_of(out.begin(), out.end(), bad))
    return out;
  complain(key, wanted);
  return std::nullopt;
}

std::optional<double> WebRequest::number(const char* key) {
  const Json* value = find(key);
  if (value == nullptr) return std::nullopt;
  if (value->is_number() && std::abs(value->get<double>()) <= kLargestLength) {
    return value->get<double>();
  }
  complain(key, "a number");
  return std::nullopt;
}

std::optional<Point> WebRequest::pair(const char* key) {
  const auto two = numbers(key, 2, "two numbers [x, y] in mm");
  if (!two) return std::nullopt;
  return Point{(*two)[0], (*two)[1]};
}

std::optional<Box> WebRequest::box(const char* key) {
  const auto four = numbers(key, 4, "four numbers [left, right, front, back] in mm");
  if (!four) return std::nullopt;
  const Box box{(*four)[0], (*four)[1], (*four)[2], (*four)[3]};
  if (box.width() > 0 && box.depth() > 0) return box;
  complain(key, "[left, right, front, back] in mm, in this order");
  return std::nullopt;
}

std::optional<std::array<double, 3>> WebRequest::triple(const char* key) {
  const auto three = numbers(key, 3, "three numbers");
  if (!three) return std::nullopt;
  return std::array<double, 3>{(*three)[0], (*three)[1], (*three)[2]};
}

std::optional<std::vector<double>> WebRequest::numbers(const char* key) {
  return numbers(key, std::nullopt, "an array of numbers");
}

std::optional<std::vector<std::string>> WebRequest::texts(const char* key) {
  const Json* value = find(key);
  if (value == nullptr) return std::nullopt;
  std::vector<std::string> out;
  if (value->is_array()) {
    for (const Json& item : *value) {
      if (item.is_string()) out.push_back(item.get<std::string>());
    }
    if (out.size() == value->size()) return out;
  }
  complain(key, "an array of texts");
  return std::nullopt;
}

const Json* WebRequest::object(const char* key) {
  const Json* value = find(key);
  if (value == nullptr || value->is_object()) return value;
  complain(key, "an object");
  return nullptr;
}

void WebRequest::done() {
  for (const auto& [key, value] : object_.items()) {
    if (std::find(asked_.begin(), asked_.end(), key) != asked_.end()) continue;
    const std::string_view near = nearest_word(key, asked_);
    faults_.push_back({fmt::format("The request has an unknown member {}{}", in_quotes(key),
                                   near.empty() ? "." : fmt::format("; is it \"{}\"?", near)),
                       pointer_ + "/" + one_line(key)});
  }
  if (!faults_.empty()) throw Refused(faults_);
}

Json parsed_request(std::string_view text) {
  if (text.size() > kLargestRequest) throw Refused("The request is too large.");
  bool deep = false;
  // The library's own destructors and writers go down as deep as the text does.
  const auto shallow = [&deep](int depth, Json::parse_event_t, Json&) {
    deep = deep || depth > 2 * kDeepestNesting;
    return !deep;
  };
  const Json json = Json::parse(text, shallow, false);
  if (deep) throw Refused("The request nests too deep.");
  if (!json.is_object()) throw Refused("The request is not a JSON object.");
  return json;
}

}  // namespace leeway
