#pragma once
// What a function REQUIRES, looked at in Debug builds and in those of the tests.

#if defined(LEEWAY_ASSERTIONS)

#include <cstdio>
#include <cstdlib>

// A promise that was broken is a fault of the program: it ends at once, where a debugger sees it.
#define LEEWAY_ASSERT(...)                                                                    \
  ((__VA_ARGS__) ? static_cast<void>(0)                                                       \
                 : (static_cast<void>(std::fprintf(stderr, "%s:%d: required: %s\n", __FILE__, \
                                                   __LINE__, #__VA_ARGS__)),                  \
                    std::abort()))

#else

// Compiled, not run: what it names stays in use.
#define LEEWAY_ASSERT(...) static_cast<void>(sizeof((__VA_ARGS__) ? 1 : 0))

#endif
