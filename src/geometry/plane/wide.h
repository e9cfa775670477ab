#pragma once
// Loops worth compiling more than once: for every processor, and for those with wider vectors.
//
// LEEWAY_WIDE before a function makes the choice when the program starts. All versions compute
// the same bits: floating point is never contracted or reordered. Left out where the compiler has
// no such thing, and under sanitizers, which cannot be there before the choice is made.

#if defined(__GNUC__) && !defined(__clang__) && defined(__x86_64__) && defined(__linux__) && \
    !defined(__SANITIZE_ADDRESS__) && !defined(__SANITIZE_THREAD__) && !defined(LEEWAY_NO_WIDE)
#if __GNUC__ >= 12
#define LEEWAY_WIDE __attribute__((target_clones("arch=x86-64-v4", "avx2", "default")))
#else
#define LEEWAY_WIDE __attribute__((target_clones("avx2", "default")))
#endif
#else
#define LEEWAY_WIDE
#endif
