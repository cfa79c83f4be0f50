#include "inkturn/retry/planned_work.hpp"

#include "inkturn/base/error.hpp"
#include "inkturn/base/text.hpp"

#include <array>

namespace inkturn {
namespace {

constexpr std::array<std::string_view, 5> names{"sit", "relearn", "check", "recall", "foreseen"};
constexpr std::size_t longest_of_plan = 200; ///< as a paper's subject and topics

} // namespace

std::string_view name(WorkPurpose what) noexcept {
    return names[static_cast<std::size_t>(what)];
}

std::optional<WorkPurpose> work_purpose_named(std::string_view text) noexcept {
    for (std::size_t i = 0; i < names.size(); ++i)
        if (names[i] == text)
            return static_cast<WorkPurpose>(i);
    return std::nullopt;
}

void check_planned(const PlannedWork& work) {
    check_printable(work.subject, longest_of_plan, "subject");
    check_printable(work.name, longest_of_plan, "planned work");
    check_day(work.day);
    if (work.number < 0 || work.duration <= Seconds(0))
        throw Error("planned work needs a duration above 0, and its number can't be below 0");
}

Seconds time_with_marking(Seconds allowance, const PlanWishes& wishes) {
    return allowance + (allowance * wishes.marking_percent + Seconds(99)) / 100;
}

void check_relearned(const Relearned& relearned) {
    check_printable(relearned.subject, longest_of_plan, "subject");
    check_printable(relearned.topic, longest_of_plan, "topic");
    if (relearned.topic.empty())
        throw Error("state the topic that was relearned");
    check_day(relearned.day);
}

void check_wishes(const PlanWishes& wishes) {
    if (wishes.marking_percent < 0 || wishes.marking_percent > PlanWishes::max_marking_percent)
        throw Error("marking a paper takes 0 to " + std::to_string(PlanWishes::max_marking_percent) +
                    "% of its allowance, not " + std::to_string(wishes.marking_percent) + "%");
    check_rule(wishes.retries);
    for (const auto& [subject, papers] : wishes.papers) {
        check_printable(subject, longest_of_plan, "subject");
        check_day(papers.since);
        if (papers.count < 0 || papers.count > PlanWishes::max_papers)
            throw Error("plan 0 to " + std::to_string(PlanWishes::max_papers) + " papers, not " +
                        std::to_string(papers.count));
    }
}

std::optional<Day> planned_day(const std::vector<PlannedWork>& planned, WorkPurpose what,
                               const std::string& subject, const std::string& name, int number) {
    for (const PlannedWork& work : planned)
        if (work.what == what && work.subject == subject && work.name == name && work.number == number)
            return work.day;
    return std::nullopt;
}

} // namespace inkturn
