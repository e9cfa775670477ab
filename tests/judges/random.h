#pragma once
// Random numbers that are the same with every standard library, so that a seed names a case.

#include <cstddef>
#include <cstdint>
#include <initializer_list>
#include <random>

namespace leeway::judges {

class Random {
 public:
  explicit Random(std::uint64_t seed) : engine_(seed) {}

  std::uint64_t bits() { return engine_(); }

  // A whole number from `low` to `high`, both included.
  int whole(int low, int high) {
    const auto span = static_cast<std::uint64_t>(high - low) + 1;
    return low + static_cast<int>(bits() % span);
  }

  // Evenly from `low` to `high`.
  double real(double low, double high) {
    const double part = static_cast<double>(bits() >> 11) / 9007199254740992.0;  // of 2^53
    return low + part * (high - low);
  }

  bool one_in(int n) { return whole(1, n) == 1; }

  template <class T>
  T pick(std::initializer_list<T> of) {
    return of.begin()[whole(0, static_cast<int>(of.size()) - 1)];
  }

  template <class Container>
  const auto& pick_from(const Container& of) {
    return of[static_cast<std::size_t>(whole(0, static_cast<int>(of.size()) - 1))];
  }

 private:
  std::mt19937_64 engine_;
};

// The seed of case `index` of a run (splitmix64, Steele, Lea and Flood 2014, from memory):
// neighbouring cases have nothing in common.
inline std::uint64_t seed_of_case(std::uint64_t run, std::uint64_t index) {
  std::uint64_t z = run + (index + 1) * 0x9E3779B97F4A7C15u;
  z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9u;
  z = (z ^ (z >> 27)) * 0x94D049BB133111EBu;
  return z ^ (z >> 31);
}

}  // namespace leeway::judges
