#pragma once
// The exceptions of the library.

#include <stdexcept>

namespace leeway {

//   catch (const leeway::Error& error) { std::cerr << error.what() << '\n'; }
//
// Every exception that the library throws of its own is one of these. What the language throws
// (std::bad_alloc) is not.
class Error : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

}  // namespace leeway
