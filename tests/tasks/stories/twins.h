#pragma once
// Stories whose numbers two mistakes account for alike.

#include "tasks/stories/stories.h"

namespace leeway {

// Whether another mistake than the story's own, undone, makes every point reachable as well and
// leaves a request at least as close to what the probe reaches: from the numbers nobody can tell
// which of the two was made. Looks at exchanges, signs and frames, which have no size to choose.
bool has_twin(const std::string& kind, const Story& story);

}  // namespace leeway
