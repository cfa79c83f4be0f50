#pragma once

#include "inkturn/base/day.hpp"
#include "inkturn/base/time.hpp"
#include "inkturn/retry/retry_rule.hpp"

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

/// Work that a day is chosen for, other than retries, which have placements.
enum class WorkPurpose : std::uint8_t {
    sit,
    relearn,
    check, ///< unseen questions on a topic that was relearned
    recall,
    reservation ///< time kept for the retries that a paper will bring
};

std::string_view name(WorkPurpose what) noexcept;
std::optional<WorkPurpose> work_purpose_named(std::string_view text) noexcept;

/// A piece of work on the day that was chosen for it.
struct PlannedWork {
    WorkPurpose what;
    std::string subject;
    std::string
        name;       ///< the paper's id, the topic, the fact's number; empty: a paper that is not on file yet
    int number = 0; ///< from 1 for papers not on file and for pieces; else 0
    Day day;
    Seconds duration;
};

/// Throws Error unless the duration is above 0, the number isn't below 0, the day is an accepted one, and the
/// texts have at most 200 printable characters.
void check_planned(const PlannedWork& work);

/// The day on file of a piece of work; nothing where it has none.
std::optional<Day> planned_day(const std::vector<PlannedWork>& planned, WorkPurpose what,
                               const std::string& subject, const std::string& name, int number);

/// A topic that was not understood, worked through again in full or by half.
struct Relearned {
    std::string subject;
    std::string topic;
    Day day;
    bool half = false; ///< half of the time it takes

    static constexpr Seconds time_of_half{1800};
};

/// How many papers of a subject are to be sat from a day on.
struct PaperWish {
    int count; ///< 0 to PlanWishes::max_papers, including those sat since
    Day since;
};

/// What a candidate wants of the plan; what isn't stated has its default.
struct PlanWishes {
    int marking_percent = 50; ///< time to mark a paper, of its allowance, 0 to max_marking_percent
    std::map<std::string, PaperWish> papers; ///< by subject
    RetryRule retries{};

    static constexpr int max_marking_percent = 300;
    static constexpr int max_papers = 365;

    bool is_default() const {
        return papers.empty() && marking_percent == PlanWishes().marking_percent && retries.is_default();
    }
};

/// The time that a paper takes with its marking, from its allowance.
Seconds time_with_marking(Seconds allowance, const PlanWishes& wishes);

/// Throws Error unless the topic is stated, its texts have at most 200 printable characters, and the day is
/// an accepted one.
void check_relearned(const Relearned& relearned);

/// Throws Error unless numbers and days lie within their ranges, and subjects have at most 200 printable
/// characters.
void check_wishes(const PlanWishes& wishes);

} // namespace inkturn
