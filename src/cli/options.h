#pragma once
// What a command declares of its options. The parser behind it stands in command_line.cpp alone.

#include <string>
#include <vector>

namespace leeway {

// Everything is read into what is given here, which must stay where it is.
class Options {
 public:
  virtual ~Options() = default;

  // `given`, where there is one, tells an empty word from none.
  virtual void argument(const char* name, std::string& into, bool& given) = 0;
  virtual void arguments(const char* name, std::vector<std::string>& into) = 0;  // any number
  virtual void value(const char* name, std::string& into, bool* given = nullptr) = 0;
  virtual void values(const char* name, std::vector<std::string>& into) = 0;  // may be repeated
  virtual void flag(const char* name, bool& into) = 0;
};

}  // namespace leeway
