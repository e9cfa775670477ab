#pragma once
// Named brackets side by side.

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "leeway/check.h"
#include "leeway/fit.h"
#include "leeway/setup.h"
#include "leeway/tolerance.h"

namespace leeway {

inline constexpr std::size_t kMostCandidates = 1000;

struct Candidate {
  std::string name;
  Point offset;
  // A kind of probe of its own, else each setup's. What the offset of it is off by is each setup's
  // where the probe states nothing; its own offset is not looked at.
  std::optional<Probe> probe = std::nullopt;
};

// What a candidate is worth with one setup. The requested probe positions are held.
struct CandidateCover {
  std::optional<double> share;  // of the printable area that the probe can reach
  UncoveredStrips uncovered;    // how far the printable region sticks out of what it reaches
  std::optional<FitMesh> mesh;  // the greatest with the request's columns and rows; without a
                                // grid the greatest rectangle wholly within reach
  std::size_t points = 0;       // asked for
  std::size_t failing = 0;      // of them, not reachable
  CheckResult checked;          // of them, without regions
  // How far it may move in any direction before a point within reach of some offset is not
  // reachable any more, or the mount does not allow it (bracket.h); nothing without such a point.
  std::optional<double> leeway;
  std::string mount;  // what of the mount is in the way: "beside fan duct"; or empty
};

struct RankedCandidate {
  Candidate candidate;
  std::size_t rank = 0;                // from 1; the same for a tie
  std::vector<CandidateCover> covers;  // one a setup
  // Of all setups: how many points some offset reaches that the mount allows. No offset reaches
  // more than `at_most`.
  std::size_t most = 0;
  std::size_t at_most = 0;
};

struct CandidateOptions {
  Tolerance tolerance;  // taken off each leeway
  Progress progress;
};

// Best first: those that the mount allows, then by the fewest points that are not reachable, then
// by the greatest share (to 0.1 %), then by the greatest leeway (to 0.01 mm), each the worst
// of all setups. What is equal in all of these has the same rank, in the order given.
//
// Throws InvalidSetup (validate.h), also where a candidate's offset or probe will not do, and what
// Limits and Regions throw.
std::vector<RankedCandidate> rank_candidates(std::span<const Setup> setups,
                                             const std::vector<Candidate>& candidates,
                                             const CandidateOptions& options = {});

// Each candidate without a probe of its own once with each of the probes.
//
// Without candidates each of the probes stands for itself at the best offset that it has with all
// of the setups: the one of most leeway, else the one that reaches most, else the first setup's.
// Throws as `bracket` does.
std::vector<Candidate> with_probes(std::span<const Setup> setups,
                                   const std::vector<Candidate>& candidates,
                                   const std::vector<Probe>& probes,
                                   const CandidateOptions& options = {});

}  // namespace leeway
