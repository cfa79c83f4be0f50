#include "cli/student/retried_recorded.hpp"

#include "cli/class/doubts_listed.hpp"
#include "cli/csv_options.hpp"
#include "cli/student/retry_outcome.hpp"
#include "cli/student/timetable_on_file.hpp"

#include "inkturn/base/error.hpp"
#include "view/text/retries.hpp"
#include "view/text/text.hpp"

#include <istream>
#include <iterator>

namespace inkturn {
namespace {

/// Of one candidate, from `first` up to the next candidate's.
std::size_t record_candidate(Store::Change& change, const std::vector<RetriedOnce>& added, std::size_t first,
                             Day today, NextTurns& turns) {
    const std::string& code = added[first].candidate;
    keep_days_passed(change, code, today);
    std::size_t next = first;
    for (; next < added.size() && added[next].candidate == code; ++next)
        change.add_reattempt(added[next].id.sitting, added[next].reattempt);
    const KeptTimetable kept = keep_timetable(change, change.store().candidate(code), today);
    for (std::size_t i = first; i < next; ++i)
        turns.push_back(open_retry(kept.retries, added[i].id));
    return next;
}

std::string came_to(const RetriedOnce& one) {
    return one.got ? "secured" : marks_number(one.missed) + " missed";
}

std::string comes_round(const RetriedOnce& one, const std::optional<Retry>& next) {
    if (one.got && !next)
        return "";
    if (!next)
        return "by your wishes, no";
    return next->day ? day_text(*next->day) : "no day is left";
}

} // namespace

std::string whole_text(const InputFile& file) {
    return {std::istreambuf_iterator<char>(file.stream()), {}};
}

NextTurns record_retried(Store::Change& change, const ClassRetried& retried, Day today) {
    NextTurns turns;
    for (std::size_t next = 0; next < retried.added.size();)
        next = record_candidate(change, retried.added, next, today, turns);
    return turns;
}

Table recorded_table(const ClassRetried& retried, const NextTurns& next) {
    Table table({{"candidate", Table::Align::left_may_be_cut},
                 {"retry"},
                 {"question"},
                 {"done on"},
                 {"came to"},
                 {"comes round", Table::Align::left, true}});
    for (std::size_t i = 0; i < retried.added.size(); ++i) {
        const RetriedOnce& one = retried.added[i];
        table.add_row({one.candidate, to_text(one.id), one.id.question, short_day_text(one.reattempt.day),
                       came_to(one), i < next.size() ? comes_round(one, next[i]) : std::string()});
    }
    return table;
}

std::string repeated_line(const ClassRetried& retried) {
    if (retried.repeated == 0)
        return "";
    return count_text(retried.repeated, "line") + (retried.repeated == 1
                                                       ? " repeats one above: it counts once.\n"
                                                       : " repeat lines above: each counts once.\n");
}

void refuse_retried(const Context& context, const std::string& file, const ClassRetried& retried) {
    const std::size_t doubts = retried.doubts.empty() ? 0 : list_doubts(context, file, retried.doubts);
    refuse_problems(context, file, retried.problems);
    if (doubts > 0)
        throw Error(count_text(doubts, "doubt") + " about " + file + "; nothing was stored");
}

} // namespace inkturn
