#pragma once
// How many random setups a test looks at. Under a sanitizer each takes ten times as long, and the
// release build has looked at all of them: a fifth.

namespace leeway {

template <class Count>
constexpr Count fewer(Count count) {
#if defined(__SANITIZE_ADDRESS__)
  return count / 5;
#else
  return count;
#endif
}

}  // namespace leeway
