#include "leeway/rig.h"

namespace leeway {

Rig::Rig(const Setup& setup) : Rig(setup, Limits(setup)) {}

Rig::Rig(const Setup& setup, const Limits& limits)
    : setup_(setup), limits_(limits), regions_(setup, limits) {}

Rig Rig::at(Point offset) const {
  // Limits and regions share what the offset does not change: this costs little more than a copy of
  // the setup.
  Rig moved = *this;
  moved.setup_.probe.offset = offset;
  moved.limits_ = limits_.at(offset);
  moved.regions_ = regions_.at(offset);
  return moved;
}

Rig Rig::asking(const Request& request) const {
  Rig other = *this;
  other.setup_.request = request;
  return other;
}

Rig Rig::with(const Setup& changed) const { return {changed, limits_.with(changed)}; }

}  // namespace leeway
