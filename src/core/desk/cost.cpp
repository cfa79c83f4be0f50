#include "inkturn/desk/cost.hpp"

#include "inkturn/desk/script.hpp"
#include "inkturn/sitting/sitting.hpp"

#include <algorithm>

namespace inkturn {
namespace {

constexpr Seconds least_excess{60};
constexpr std::size_t max_slow_parts = 5;

Marks& lost_in(Cost& cost, const PartMarks& marks) {
    const auto reason = marks.reason();
    if (!reason)
        return marks.attempted() ? cost.unstated : cost.not_attempted;
    switch (*reason) {
    case Reason::method:
        return cost.method;
    case Reason::recall:
        return cost.recall;
    case Reason::slip:
        return cost.slip;
    case Reason::misread:
        return cost.misread;
    case Reason::unfinished:
        break;
    }
    return cost.unfinished;
}

bool is_slow(Seconds worked, Seconds allowance) {
    return 2 * worked >= 3 * allowance && worked - allowance >= least_excess;
}

} // namespace

Cost cost(const Paper& paper, const std::vector<PartMarks>& parts) {
    check_covers(paper, parts);
    Cost sum;
    sum.not_attempted = marks_left_open(paper, parts);
    for (std::size_t i = 0; i < parts.size(); ++i) {
        if (!parts[i].counts())
            continue;
        sum.overtime += parts[i].overtime();
        lost_in(sum, parts[i]) += marks_lost(paper.parts()[i], parts[i]);
    }
    return sum;
}

std::vector<SlowPart> slow_parts(const Clock& clock) {
    const std::vector<PartTime> times = record_of(clock).parts;
    std::vector<SlowPart> slow;
    for (std::size_t i = 0; i < times.size(); ++i) {
        const Seconds worked = times[i].in_time + times[i].overtime;
        if (is_slow(worked, clock.parts()[i].allowance))
            slow.push_back({i, worked});
    }
    const auto excess = [&](const SlowPart& slow_part) {
        return slow_part.worked - clock.parts()[slow_part.part].allowance;
    };
    std::stable_sort(slow.begin(), slow.end(),
                     [&](const SlowPart& a, const SlowPart& b) { return excess(a) > excess(b); });
    slow.resize(std::min(slow.size(), max_slow_parts));
    return slow;
}

} // namespace inkturn
