#include "inkturn/retry/latest.hpp"

#include <algorithm>
#include <tuple>

namespace inkturn {
namespace {

/// Whether one sitting is of the same paper as another, and later.
bool is_later(const SittingRecord& later, const SittingRecord& record) {
    return std::tie(later.sitting.day, later.id) > std::tie(record.sitting.day, record.id) &&
           later.paper->id() == record.paper->id();
}

} // namespace

bool was_sat(const Candidate& candidate, std::string_view paper) {
    return std::any_of(candidate.sittings.begin(), candidate.sittings.end(),
                       [&](const SittingRecord& record) { return record.paper->id() == paper; });
}

bool counted_later(const Candidate& candidate, const SittingRecord& record, std::size_t part) {
    return std::any_of(candidate.sittings.begin(), candidate.sittings.end(), [&](const SittingRecord& other) {
        return is_later(other, record) && other.sitting.parts[part].counts();
    });
}

bool is_latest(const Candidate& candidate, const SittingRecord& record, const Question& question) {
    if (std::none_of(candidate.sittings.begin(), candidate.sittings.end(),
                     [&](const SittingRecord& other) { return is_later(other, record); }))
        return true; // as mostly
    bool is_replaced = false;
    for (const std::size_t part : question.parts) {
        const bool later = counted_later(candidate, record, part);
        if (!later && is_missed(*record.paper, record.paper->part(part), record.sitting.parts[part]))
            return true;
        is_replaced = is_replaced || later;
    }
    return !is_replaced;
}

bool is_latest_whole(const Candidate& candidate, const SittingRecord& record) {
    return is_whole(*record.paper, record.sitting.parts) &&
           std::none_of(candidate.sittings.begin(), candidate.sittings.end(),
                        [&](const SittingRecord& other) {
                            return is_later(other, record) && is_whole(*other.paper, other.sitting.parts);
                        });
}

} // namespace inkturn
