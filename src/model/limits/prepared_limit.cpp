#include "model/limits/prepared_limit.h"

namespace leeway {

PreparedLimit prepare(Limit limit) {
  PreparedLimit prepared{std::move(limit)};
  const Spread& spread = prepared.limit.spread;
  const LimitSide side = prepared.limit.info.side;
  // A straight side has one normal. Its guard is the same everywhere, also where the spread differs
  // by direction, and may be asked at any position.
  const bool straight = side == LimitSide::left || side == LimitSide::right ||
                        side == LimitSide::front || side == LimitSide::back;
  prepared.constant_guard = straight || spread.same_all_round();
  prepared.most_guard =
      to_ticks(straight ? prepared.limit.field->guarded_distance({}, spread).guard : spread.most());
  prepared.most_guard_mm = to_millimetres(prepared.most_guard);
  return prepared;
}

}  // namespace leeway
