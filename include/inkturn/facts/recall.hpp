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

/// A fact that a candidate is to be asked. Below, facts due always belong to the list of facts given with
/// them.
struct DueFact {
    FactId fact;
    std::optional<Window> window;         ///< nothing: never asked, or the exam leaves none
    std::optional<DaySpan> possible_days; ///< the days on which it may still be asked
    bool late = false;                    ///< its window closed before today
    std::optional<Day> exam{};            ///< the first ahead that leaves a day
};

/// A fact never asked on a logged sheet is due from today on, before the exam, with a week for every three
/// sheets of such facts in the subject. One missed on its last sheet is due in the window that a retry missed
/// on that day would have. One recalled on its last sheet, or whose subject's exams have all passed, isn't
/// due. In the order of `facts`; exams of the fact's subject and of all subjects count.
std::vector<DueFact> facts_due(const std::vector<Fact>& facts, const std::vector<Sheet>& of_candidate,
                               const std::vector<Exam>& exams, Day today);

/// The days chosen for facts that are due.
using FactDays = std::map<FactId, Day>;

/// What today's sheet asks, at most Sheet::max_rows facts: those due whose possible days include today and
/// for which no later day was chosen. If there are more, those whose days end first; then by subject, topic
/// and number.
std::vector<FactId> facts_for_sheet(const std::vector<Fact>& facts, const std::vector<DueFact>& due,
                                    Day today, const FactDays& fact_days = {});

/// How many such facts there are, including those that don't fit on the sheet.
std::size_t count_due(const std::vector<DueFact>& due, Day today, const FactDays& fact_days = {});

/// The topic to write a sheet of where none is due: of the facts with one, that of the fact which comes round
/// first, else of the one not asked for longest, then by number. Empty where no fact has a topic.
std::string topic_to_recall(const std::vector<Fact>& facts, const std::vector<DueFact>& due,
                            const std::vector<Sheet>& of_candidate);

/// What a sheet of a topic asks, due or not, at most Sheet::max_rows facts: first those due today, then those
/// not asked for longest, then by number. Throws Error where no fact has the topic.
std::vector<FactId> facts_of_topic(const std::vector<Fact>& facts, const std::vector<DueFact>& due,
                                   const std::vector<Sheet>& of_candidate, const std::string& topic,
                                   Day today);

/// Facts that are asked together: due, with the same subject and possible days, by topic; at most
/// Sheet::max_rows.
struct RecallGroup {
    std::vector<FactId> facts;
    std::string subject;
    DaySpan possible_days;
    Seconds duration{0};
    bool late = false;              ///< one of them is
    std::optional<Window> window{}; ///< of the first of them that is late
    std::optional<Day> exam{};      ///< the first ahead that leaves a day
};

/// By possible days, subject and topic. Facts without a possible day are in no group.
std::vector<RecallGroup> recall_groups(const std::vector<Fact>& facts, const std::vector<DueFact>& due);

} // namespace inkturn
