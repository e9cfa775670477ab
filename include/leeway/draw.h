#pragma once
// `draw`: the plan of a setup as SVG. True to scale, the back of the bed at the top.

#include <optional>
#include <string>
#include <vector>

#include "leeway/check.h"
#include "leeway/error.h"
#include "leeway/head_place.h"
#include "leeway/limits.h"
#include "leeway/regions.h"
#include "leeway/rig.h"
#include "leeway/write_check.h"

namespace leeway {

struct DrawOptions {
  std::optional<HeadPlace> head;    // draw it there
  std::optional<std::string> date;  // to stand beside the title, as it is
};

// DrawOptions::head stands where nothing can be drawn; what() says so.
class InvalidPlace : public Error {
 public:
  using Error::Error;
};

// A whole SVG file. The points are those of `result`, whatever `options.head` is. The same input
// gives the same bytes. Colours follow the reader's light or dark scheme. `result` needs no
// regions of its own. Throws what Regions throws, and InvalidPlace where the head's position is not
// finite or farther out than 1e6.
void write_plan_svg(const CheckResult& result, const Rig& rig, const DrawOptions& options,
                    const TextSink& sink);

// How a plan sits in a page that holds other things too.
struct EmbedOptions {
  std::string prefix = "plan-";  // of every id, but for those of points
  bool title = true;             // false: the page says it
  bool legend = true;            // false: the page says it; notes go too
  bool caution = true;           // false: the page says it
  bool point_titles = true;      // false: the page says it; points have no <title> then
  // Points, as indices into result.points and rising, that are links to "#row-i" of the page, to
  // be pointed at and tabbed to. Each holds a circle of the class "halo" around its mark.
  std::vector<std::size_t> linked;
  double width = 800;         // of the picture, in its units; at least kLeastPlanWidth
  std::optional<Box> extent;  // what of the machine is seen, in mm; nothing: all there is
  // With a head: what is seen is about it (whatever `extent` is), with a small plan of the whole
  // beside it, and details where a distance is too short to be seen.
  bool frame_head = false;
};
inline constexpr double kLeastPlanWidth = 280;

// Where the machine lies in a picture, whose units are those of its viewBox: a position in mm is
// at corner.x + scale * x, corner.y - scale * y.
struct PlanView {
  double scale = 1;
  Point corner;
  double width = 0;  // of the whole picture
  double height = 0;
  Box drawing;  // within its axes, in the picture; y0 is the upper edge
};

// The same as one <svg> element for an HTML page: no prolog, no styles of its own (the page takes
// plan_css() into its style sheet), no scripts. Point i of result.points has the id "p-i", the
// classes "point" and its verdict, and a <title> of name, verdict and reason, as long as there are
// no more than kMostPlanElements of them; linked ones in any case. Tells where everything lies.
PlanView write_plan_element(const CheckResult& result, const Rig& rig, const DrawOptions& options,
                            const EmbedOptions& embed, const TextSink& sink);

// With more points, those of a verdict are one path together.
inline constexpr std::size_t kMostPlanElements = 2000;

// The styles of a plan, for a page's style sheet. Every rule begins with ".leeway-plan".
std::string plan_css();

}  // namespace leeway
