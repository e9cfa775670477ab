#pragma once
// Stories: a true machine and a request for it, one mistake in what was written down, and the setup
// that came of it. Seeds below kJudgingSeeds are for tuning `explain`; those from there on are for
// judging it, and nothing is ever tuned on them.

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "leeway/setup.h"

namespace leeway {

inline constexpr std::uint64_t kJudgingSeeds = 2'000'000;

// The kind of stories without a mistake in the numbers: more is asked for than the probe reaches.
inline constexpr const char* kTooMuch = "asked too much";

struct Story {
  Setup truth;
  Setup stated;
};

// Every kind by the word of its mistake, kTooMuch last.
std::vector<std::string> story_kinds();

// Nothing where the mistake does not apply to the machine of that seed, or does not show: something
// must fail as stated, and in a mistake's story nothing may fail in truth.
std::optional<Story> story_of(const std::string& kind, std::uint64_t seed);

// The first `count` stories of a kind from a seed on; fewer where `seeds` seeds make no more.
std::vector<Story> stories_of(const std::string& kind, std::uint64_t from, std::size_t count,
                              std::uint64_t seeds = 4000);

// Whether a setup could have been written, and something it asks for is not reachable, or a grid
// leaves out more than its bed explains.
bool fails(const Setup& setup);

}  // namespace leeway
