#pragma once
// Something that a page can apply to the setup.

#include <string>

#include "leeway/setup.h"
#include "web/request.h"

namespace leeway {

// What it is, what it does, and how.
Json card(const char* kind, const std::string& title, const std::string& says, const Setup& from,
          const Setup& to);

std::string first_capital(std::string text);

}  // namespace leeway
