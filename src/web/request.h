#pragma once
// One request, and what of it will not do.

#include <array>
#include <nlohmann/json.hpp>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "formats/text/spelling.h"
#include "leeway/fault.h"
#include "leeway/geometry.h"

namespace leeway {

using Json = nlohmann::ordered_json;

// What is told of one fault; `message` is a whole sentence.
struct WebFault {
  std::string message;
  std::string pointer = {};  // RFC 6901, into the setup or, with "/", into the request
  std::string field = {};    // of a form
  int line = 0;              // 0 where there is none
  int column = 0;
  std::string file = {};
  int box = -1;   // of a field that has several, from 0
  int item = -1;  // of obstacles or parts, from 0
};
WebFault web_fault(const Fault& fault);

// The request is not carried out; nothing has changed.
class Refused : public std::exception {
 public:
  explicit Refused(std::vector<WebFault> faults) : faults_(std::move(faults)) {}
  explicit Refused(std::string message, std::string pointer = "") {
    faults_.push_back({std::move(message), std::move(pointer)});
  }
  explicit Refused(const std::vector<Fault>& faults);

  const char* what() const noexcept override { return "refused"; }
  const std::vector<WebFault>& faults() const { return faults_; }

 private:
  std::vector<WebFault> faults_;
};

// The members of an object in a request. What is of the wrong kind, and what nobody asked for, is
// told by done().
class WebRequest {
 public:
  // REQUIRES: an object that outlives this.
  explicit WebRequest(const Json& object, std::string pointer = "");

  std::optional<std::string> text(const char* key);
  std::string text(const char* key, const char* otherwise) { return text(key).value_or(otherwise); }
  // A text, or a number or a truth value as one: what would stand behind an option.
  std::string typed(const char* key);
  bool flag(const char* key, bool otherwise = false);
  std::optional<double> number(const char* key);
  std::optional<Point> pair(const char* key);
  std::optional<Box> box(const char* key);  // [x0, x1, y0, y1]
  std::optional<std::array<double, 3>> triple(const char* key);
  std::optional<std::vector<double>> numbers(const char* key);  // any number of them
  std::optional<std::vector<std::string>> texts(const char* key);
  // Null where there is none; an object that holds anything.
  const Json* object(const char* key);
  // Whatever it is.
  const Json* any(const char* key) { return find(key); }
  void complain(const char* key, const char* wanted);

  // Throws Refused.
  void done();

 private:
  const Json* find(const char* key);
  // So many of them.
  std::optional<std::vector<double>> numbers(const char* key, std::optional<std::size_t> count,
                                             const char* wanted);

  const Json& object_;
  std::string pointer_;
  WordList asked_;
  std::vector<WebFault> faults_;
};

// The JSON of a text. Throws Refused where it is none, or nests too deep.
Json parsed_request(std::string_view text);

}  // namespace leeway
