#pragma once
// How long work tells how far it is, and how it is stopped.

#include <functional>

#include "leeway/error.h"

namespace leeway {

// Called by long work for each piece of it, in the thread of the work. `done` is the share done,
// from 0 to 1, or 0 as long as that is not known. When it returns false, the work throws Stopped.
// What it throws itself passes through.
//
//   options.progress = [&](double done) { show(done); return !cancelled; };
using Progress = std::function<bool(double done)>;

// The caller asked for it: no result, and nothing to mend.
class Stopped : public Error {
 public:
  Stopped() : Error("stopped") {}
};

}  // namespace leeway
