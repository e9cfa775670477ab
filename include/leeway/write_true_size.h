#pragma once
// The plan at true size: a millimetre on the bed is a millimetre on paper.

#include <optional>
#include <string>

#include "leeway/check.h"
#include "leeway/error.h"
#include "leeway/regions.h"
#include "leeway/rig.h"
#include "leeway/write_check.h"

namespace leeway {

// What is printed on: a paper, or one sheet as large as the bed needs.
enum class Paper { a4, a3, letter, bed };

// "A4", "A3", "letter", "bed".
const char* word(Paper paper);

inline constexpr int kMostSheets = 100;        // of one plan
inline constexpr double kLongestSheet = 5000;  // mm, a side of a sheet of the bed's size

// The bed is too large for that paper; the message is a sentence for the user.
class PaperRefused : public Error {
 public:
  using Error::Error;
};

struct TrueSizeOptions {
  Paper paper = Paper::a4;          // of the HTML file
  std::optional<std::string> date;  // to stand beside the title, as it is
};

// An HTML file to print: a page for each sheet, with registration crosses where two sheets overlap
// (by 10 mm), lines of 100 mm to measure along both edges, and how the sheets go together. Needs
// nothing else, and holds no script. Throws PaperRefused, and what Regions throws.
void write_true_size_html(const CheckResult& result, const Rig& rig, const TrueSizeOptions& options,
                          const TextSink& sink);

// The same as a single sheet of the bed's size in SVG. Throws as above.
void write_true_size_svg(const CheckResult& result, const Rig& rig, const TrueSizeOptions& options,
                         const TextSink& sink);

}  // namespace leeway
