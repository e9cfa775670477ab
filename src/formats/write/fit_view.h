#pragma once
// What text and Markdown show of a fit.

#include <string>
#include <vector>

#include "formats/text/words.h"
#include "leeway/fit.h"

namespace leeway {

// One way to enter the mesh, and its numbers for each side.
struct FitRow {
  std::string what;
  std::string left, right, front, back;
};

// A sentence without capital and full stop, to go after the setup's name.
std::string fit_summary(const FitResult& result, const Words& words);

// What nothing stated keeps the mesh from: the very edge of the bed, the very end of the travel.
// For the second line; empty where there is nothing to say.
std::string unguarded_mesh_sentence(const FitResult& result, const Rig& rig);

// A mesh in the numbers that controllers ask for.
std::vector<FitRow> mesh_rows(const MeshNumbers& numbers);
std::string missing_sentence(const MeshNumbers& numbers);
std::string spacing_sentence(const MeshNumbers& numbers);

// Each with capital and full stop. What there is to say about the mesh, then about the rest.
std::vector<std::string> mesh_sentences(const FitResult& result, const Setup& setup,
                                        const Words& words);
std::vector<std::string> other_sentences(const FitResult& result, const Words& words);
std::string offset_sentence(Point offset);
std::string homing_sentence(const FitHome& home, const Words& words);

// Why nothing fits, and what would help. Empty when something fits.
std::string limiting_sentence(const FitResult& result, const Words& words);
std::vector<std::string> remedy_sentences(const FitResult& result);
std::string no_remedy_sentence();

// What stands before the table and before the remedies: a colon is to follow.
std::string fit_rows_lead();
std::string fit_remedies_lead();

}  // namespace leeway
