#include "inkturn/clock/allowance.hpp"

#include "inkturn/base/error.hpp"

#include <algorithm>
#include <cstdint>

namespace inkturn {
namespace {

/// numerator / denominator to the nearest whole number, a half up. Both positive.
std::int64_t rounded(std::int64_t numerator, std::int64_t denominator) {
    return (2 * numerator + denominator) / (2 * denominator);
}

/// The working time that the first `reached` of the paper's marks buy, rounded once.
Seconds time_for(const Paper& paper, Marks reached, ExtraTime extra) {
    const std::int64_t percent = 100 + extra.percent();
    if (!paper.duration())
        return Seconds(rounded(reached.count() * time_per_mark.count() * percent, 100));
    return Seconds(rounded(paper.duration()->count() * reached.count() * percent,
                           std::int64_t{100} * paper.marks().count()));
}

/// Whether a stated duration is shared out as the papers that the parts were drawn from would have it.
bool has_own_allowances(const Paper& paper) {
    return paper.duration() && std::all_of(paper.parts().begin(), paper.parts().end(),
                                           [](const Part& part) { return part.allowance.has_value(); });
}

/// What the first parts' own allowances make of the duration, rounded once.
std::vector<Seconds> own_checkpoints(const Paper& paper, const std::vector<bool>& is_set, ExtraTime extra) {
    Seconds all{0};
    for (const Part& part : paper.parts())
        all += *part.allowance;
    std::vector<Seconds> times;
    Seconds reached{0};
    for (std::size_t i = 0; i < is_set.size(); ++i) {
        if (is_set[i])
            reached += *paper.parts()[i].allowance;
        times.emplace_back(rounded(paper.duration()->count() * reached.count() * (100 + extra.percent()),
                                   std::int64_t{100} * all.count()));
    }
    return times;
}

} // namespace

bool is_usual_time(Seconds time, Marks marks) {
    constexpr Seconds shortest{30}; // for a mark
    constexpr Seconds longest{180}; // likewise
    return time >= marks.count() * shortest && time <= marks.count() * longest;
}

ExtraTime::ExtraTime(int percent) : percent_(percent) {
    if (percent < 0 || percent > max_percent)
        throw Error("extra time is 0 to " + std::to_string(max_percent) + " percent, not " +
                    std::to_string(percent));
}

Seconds allowance(const Paper& paper, ExtraTime extra) {
    return time_for(paper, paper.marks(), extra);
}

Seconds allowance(const Paper& paper, Marks counted, ExtraTime extra) {
    return time_for(paper, counted, extra);
}

std::vector<Seconds> checkpoints(const Paper& paper, ExtraTime extra) {
    return checkpoints(paper, std::vector<bool>(paper.parts().size(), true), extra);
}

std::vector<Seconds> checkpoints(const Paper& paper, const std::vector<bool>& is_set, ExtraTime extra) {
    if (is_set.size() != paper.parts().size())
        throw Error("paper " + paper.id() + " has " + std::to_string(paper.parts().size()) + " parts, not " +
                        std::to_string(is_set.size()),
                    Error::Kind::misused);
    if (has_own_allowances(paper))
        return own_checkpoints(paper, is_set, extra);
    std::vector<Seconds> times;
    times.reserve(is_set.size());
    Marks reached;
    for (std::size_t i = 0; i < is_set.size(); ++i) {
        if (is_set[i])
            reached += paper.parts()[i].max;
        times.push_back(time_for(paper, reached, extra));
    }
    return times;
}

std::vector<Seconds> part_allowances(const Paper& paper, ExtraTime extra) {
    return part_allowances(paper, std::vector<bool>(paper.parts().size(), true), extra);
}

std::vector<Seconds> part_allowances(const Paper& paper, const std::vector<bool>& is_set, ExtraTime extra) {
    std::vector<Seconds> times = checkpoints(paper, is_set, extra);
    for (std::size_t i = times.size() - 1; i > 0; --i)
        times[i] -= times[i - 1];
    return times;
}

Seconds question_allowance(const Question& question, const std::vector<Seconds>& part_allowances) {
    Seconds sum{0};
    for (const std::size_t part : question.parts) {
        if (part >= part_allowances.size())
            throw Error("question " + question.label + " is not in the paper that these allowances are for",
                        Error::Kind::misused);
        sum += part_allowances[part];
    }
    return sum;
}

} // namespace inkturn
