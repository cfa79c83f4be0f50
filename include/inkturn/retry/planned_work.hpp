#pragma once

#include "inkturn/base/day.hpp"
#include "inkturn/base/time.hpp"

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

/// What a day was chosen for, beside the retries, which have their placements.
enum class WorkPurpose : std::uint8_t {
    sit,
    relearn,
    recall,
    reservation ///< room kept for the retries that a paper will bring
};

std::string_view name(WorkPurpose what) noexcept;
std::optional<WorkPurpose> work_purpose_named(std::string_view name) noexcept;

/// A piece of work on the day that was chosen for it.
struct PlannedWork {
    WorkPurpose what;
    std::string subject;
    std::string
        name;       ///< the paper's id, the topic, the fact's number; empty: a paper that is not on file yet
    int number = 0; ///< of papers that are not on file, of pieces: from 1; else 0
    Day day;
    Seconds duration;
};

/// Throws Error unless the work asks for more than no time, its number is not below 0, its day an accepted
/// one and its texts of 200 printable characters at most.
void check_planned(const PlannedWork& work);

/// The day on file of a piece of work; nothing where it has none.
std::optional<Day> planned_day(const std::vector<PlannedWork>& planned, WorkPurpose what,
                               const std::string& subject, const std::string& name, int number);

/// A topic that was not understood was worked through again, or half of it.
struct Relearned {
    std::string subject;
    std::string topic;
    Day day;
    bool half = false; ///< of the time it takes

    static constexpr Seconds time_of_half{1800};
};

/// How many papers of a subject are to be sat from a day on.
struct PaperWish {
    int count; ///< 0 to PlanWishes::max_papers, those sat since among them
    Day since;
};

/// What a candidate says of the plan; what is not said has its default.
struct PlanWishes {
    int marking_percent = 50; ///< time to mark a paper, of its allowance, 0 to max_marking_percent
    std::map<std::string, PaperWish> papers; ///< by subject

    static constexpr int max_marking_percent = 300;
    static constexpr int max_papers = 365;

    bool is_default() const { return papers.empty() && marking_percent == PlanWishes().marking_percent; }
};

/// The time that a paper takes with its marking, of its allowance.
Seconds time_with_marking(Seconds allowance, const PlanWishes& wishes);

/// Throws Error unless the topic is stated, its texts have 200 printable characters at most, and the day is
/// an accepted one.
void check_relearned(const Relearned& relearned);

/// Throws Error unless numbers and days lie within their ranges, and subjects have 200 printable characters
/// at most.
void check_wishes(const PlanWishes& wishes);

} // namespace inkturn
