#pragma once

#include "inkturn/base/day_span.hpp"
#include "inkturn/facts/fact.hpp"
#include "inkturn/facts/sheet.hpp"
#include "inkturn/retry/exam.hpp"
#include "inkturn/retry/retry.hpp"

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace inkturn {

/// A fact that a candidate is to be asked. In what follows facts due are facts of the list beside them.
struct DueFact {
    FactId fact;
    std::optional<Window> window;         ///< nothing: never asked, or the exam leaves none
    std::optional<DaySpan> possible_days; ///< the days on which it may still be asked
    bool late = false;                    ///< its window closed before today
    std::optional<Day> exam{};            ///< the first ahead that leaves a day
};

/// Never asked on a logged sheet: from today on, before the exam, a week for every three sheets of such facts
/// of the subject. Missed on the last one: in the window of a retry that was missed on that day. Recalled on
/// the last one, or all exams of the subject have passed: not asked. In the order of `facts`; the exams that
/// count are those of the fact's subject and of all subjects.
std::vector<DueFact> facts_due(const std::vector<Fact>& facts, const std::vector<Sheet>& of_candidate,
                               const std::vector<Exam>& exams, Day today);

/// The days chosen for facts that are due.
using FactDays = std::map<FactId, Day>;

/// What the sheet of today asks, Sheet::max_rows at most: facts due whose days left hold today and for which
/// no later day was chosen. Where there are more, those whose days end first; then by subject, topic and
/// number.
std::vector<FactId> facts_for_sheet(const std::vector<Fact>& facts, const std::vector<DueFact>& due,
                                    Day today, const FactDays& fact_days = {});

/// How many of them there are, those beyond a sheet's last row too.
std::size_t count_due(const std::vector<DueFact>& due, Day today, const FactDays& fact_days = {});

/// What a sheet of a topic asks, due or not, Sheet::max_rows at most: first what is due today, then what was
/// not asked for longest; by number where that is the same. Throws Error where no fact has the topic.
std::vector<FactId> facts_of_topic(const std::vector<Fact>& facts, const std::vector<DueFact>& due,
                                   const std::vector<Sheet>& of_candidate, const std::string& topic,
                                   Day today);

/// What is asked together: facts due with the same subject and days left, by topic, Sheet::max_rows at most.
struct RecallGroup {
    std::vector<FactId> facts;
    std::string subject;
    DaySpan possible_days;
    Seconds duration{0};
    bool late = false;              ///< that of one of them
    std::optional<Window> window{}; ///< of the first of them that is late
    std::optional<Day> exam{};      ///< the first ahead that leaves a day
};

/// By days left, subject and topic. Facts that no day is left for are in none.
std::vector<RecallGroup> recall_groups(const std::vector<Fact>& facts, const std::vector<DueFact>& due);

} // namespace inkturn
