#include "web/results/cards.h"

#include "web/setup/differences.h"

namespace leeway {

Json card(const char* kind, const std::string& title, const std::string& says, const Setup& from,
          const Setup& to) {
  return {{"kind", kind}, {"title", title}, {"says", says}, {"changes", changes_between(from, to)}};
}

std::string first_capital(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 32);
  return text;
}

}  // namespace leeway
