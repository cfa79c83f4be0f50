#pragma once

#include "inkturn/base/day.hpp"

#include <algorithm>
#include <utility>

namespace inkturn {

/// What was planned, and the day for which that was done.
template <typename Kept>
struct KeptOn {
    Day made_for;
    Kept kept;
};

/// More days than these are not gone through: by then every window on file has closed long ago.
constexpr Days longest_rolled{400};

/// What a later day finds: each day after the one for which it was made plans from what the day before had
/// planned, and nobody needs to look. On that day itself, and earlier, it is what was kept. `plan` takes what
/// was kept and a day, and returns what that day keeps. After more than longest_rolled, what was kept counts
/// as made that many days ago.
template <typename Kept, typename Plan>
KeptOn<Kept> rolled(KeptOn<Kept> from, Day today, Plan plan) {
    from.made_for = std::max(from.made_for, today - longest_rolled);
    while (from.made_for < today) {
        from.made_for += Days{1};
        from.kept = plan(std::as_const(from.kept), from.made_for);
    }
    return from;
}

} // namespace inkturn
