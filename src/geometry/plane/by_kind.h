#pragma once
// Opening a shape, or whatever else is one of several kinds.

#include <utility>
#include <variant>

namespace leeway {

template <typename... Case>
struct Cases : Case... {
  using Case::operator()...;
};
template <typename... Case>
Cases(Case...) -> Cases<Case...>;

// The case of the kind that a value is: one function a kind, all with the same result. A kind that
// has none does not compile, and that is what this is for: a case must name its kind.
//
//   by_kind(shape, [](const Box& box) { ... }, [](const Disc& disc) { ... }, ...);
template <typename Variant, typename... Case>
decltype(auto) by_kind(Variant&& value, Case&&... cases) {
  return std::visit(Cases{std::forward<Case>(cases)...}, std::forward<Variant>(value));
}

}  // namespace leeway
