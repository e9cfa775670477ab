#pragma once
// Long work asks now and then whether to go on.

#include "leeway/progress.h"

namespace leeway {

inline void go_on(const Progress& progress, double done = 0) {
  if (progress && !progress(done)) throw Stopped();
}

}  // namespace leeway
