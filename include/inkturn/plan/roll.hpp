#pragma once

#include "inkturn/base/day.hpp"

#include <utility>

namespace inkturn {

/// What was planned, and the day for which that was done.
template <typename Kept>
struct KeptOn {
    Day made_for;
    Kept kept;
};

/// What a later day finds: each day after the one for which it was made plans from what the day before had
/// planned, and nobody needs to look. On that day itself, and earlier, it is what was kept. `plan` takes what
/// was kept and a day, and returns what that day keeps.
template <typename Kept, typename Plan>
KeptOn<Kept> rolled(KeptOn<Kept> from, Day today, Plan plan) {
    while (from.made_for < today) {
        from.made_for += Days{1};
        from.kept = plan(std::as_const(from.kept), from.made_for);
    }
    return from;
}

} // namespace inkturn
