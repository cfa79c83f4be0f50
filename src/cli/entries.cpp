#include "cli/entries.hpp"

#include "cli/desk/at_desk.hpp"
#include "cli/student/timetable_on_file.hpp"
#include "exchange/json/sitting.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"
#include "inkturn/retry/latest.hpp"
#include "view/text/history.hpp"
#include "view/text/marking.hpp"
#include "view/text/retries.hpp"
#include "view/text/sittings.hpp"
#include "view/text/steering.hpp"
#include "view/text/text.hpp"
#include "view/text/timetable.hpp"

#include <algorithm>
#include <ostream>
#include <sstream>

namespace inkturn {
namespace {

std::vector<Retry> retries_of(const KeptTimetable& kept, SittingId id) {
    std::vector<Retry> retries;
    for (const Retry& retry : kept.retries)
        if (retry.id.sitting == id)
            retries.push_back(retry);
    return retries;
}

/// The sitting's retries and their days.
std::string retries_of_text(const Candidate& candidate, const SittingRecord& record,
                            const KeptTimetable& kept, Day today) {
    const std::vector<Retry> retries = retries_of(kept, record.id);
    const std::vector<Question>& questions = record.paper->questions();
    const bool is_replaced = std::any_of(questions.begin(), questions.end(), [&](const Question& question) {
        return missed_marks(*record.paper, question, record.sitting.parts) > Marks(0) &&
               !is_latest(candidate, record, question);
    });
    if (retries.empty())
        return is_replaced ? text_line("Nothing to retry of this sitting: " + record.paper->id() +
                                       " was sat again later, and that sitting's retries count.")
                           : "Nothing to retry.\n";
    Seconds planned{0};
    for (const Retry& retry : retries)
        planned += retry.allowance;
    std::ostringstream text;
    text << counted_retries(retries.size()) << ", " << length_text(planned) << " in all:\n\n"
         << retries_by_day(retries, today);
    return text.str();
}

/// What was moved of the plan beside the sitting's own retries.
std::string other_changes_text(const KeptTimetable& kept, SittingId id) {
    std::vector<PlanChange> others;
    const std::string own = std::to_string(static_cast<std::int64_t>(id)) + "q";
    for (const PlanChange& moved : kept.moved)
        if (moved.kind != WorkKind::retry || moved.what.rfind(own, 0) != 0)
            others.push_back(moved);
    return changes_text(others);
}

void print_sitting_for_people(const Context& context, const Candidate& candidate, const SittingRecord& record,
                              const KeptTimetable& kept, bool with_parts) {
    const Paper& paper = *record.paper;
    context.out << context.heading("Sitting " + std::to_string(static_cast<std::int64_t>(record.id)) + ": " +
                                   paper.id() + " on " + day_text(record.sitting.day))
                << ", candidate " << visible(candidate.code) << "\n\n";
    context.out << retries_of_text(candidate, record, kept, context.date_today()) << '\n';
    context.out << totals_table(totals(paper, record.sitting.parts))
                << counted_text(paper, record.sitting.parts) << '\n'
                << cost_text(cost(paper, record.sitting.parts)) << '\n';
    if (with_parts)
        context.out << marks_table(paper, record.sitting.parts) << '\n';
    if (!record.sitting.notes.empty())
        context.out << notes_text(record.sitting.notes) << '\n';
    if (const auto clock = with_parts ? clock_of(paper, record.sitting) : std::nullopt)
        print_clock(context, *clock);
    else
        context.out << time_text(paper, record.sitting);
    if (with_parts)
        context.out << reattempts_text(record);

    if (const std::string let_go = let_go_text(candidate, record); !let_go.empty())
        context.out << let_go;
    context.out << extra_time_text(record.sitting.extra_time) << rule_text(candidate.wishes.retries)
                << other_changes_text(kept, record.id) << "\nNext: inkturn "
                << (retries_of(kept, record.id).empty() ? "today" : "plan") << '\n';
}

} // namespace

std::string marks_help() {
    return "MARKS: in time, 3; with overtime, 2+1; with what was corrected, 2+1+3; - if it\n"
           "was not attempted, not-set if it was not set.\n"
           "REASON, or its beginning (:s), says why marks went, and so what is planned:\n"
           "  method      didn't know how: a topic with two such parts is relearned first\n"
           "  recall      knew how, forgot a fact: a retry; put the fact on a sheet of facts\n"
           "  slip        wrote 7 for 1, lost a sign: a retry (none with plan --slips off)\n"
           "  misread     answered another question: a retry (none with plan --slips off)\n"
           "  unfinished  ran out of time: a retry; many of them point at the pace";
}

NotedEntries parse_entries(const std::vector<std::string>& words, const std::vector<std::string>& notes) {
    NotedEntries typed = parse_noted_entries(words);
    for (const std::string& note : notes)
        add_note(typed.notes, note);
    return typed;
}

void add_note_option(Command& command, std::vector<std::string>& notes) {
    command.option("--note", notes, "PART=TEXT", "A note on a part, shown after its next attempt");
}

std::optional<Rest> parse_rest(const std::string& text) {
    if (text.empty())
        return std::nullopt;
    if (text == "full")
        return Rest::full;
    if (text == "none")
        return Rest::none;
    throw Error("--rest '" + text + "': use full (all earned in time) or none (not attempted)");
}

ExtraTime extra_time_of(const Candidate& candidate) {
    return candidate.extra_time.value_or(ExtraTime());
}

ExtraTime extra_time_of(const Context& context, const std::string& typed, const Candidate& candidate) {
    if (!typed.empty())
        return ExtraTime(parse_whole_number(typed, 0, ExtraTime::max_percent, "--extra-time"));
    if (candidate.extra_time || !context.defaults->may_be_for(candidate.code))
        return extra_time_of(candidate);
    const auto stated = context.defaults->find(Default::extra_time);
    if (!stated || candidate.code != context.defaults->find(Default::candidate).value_or("me"))
        return {};
    const ExtraTime extra(parse_whole_number(*stated, 0, ExtraTime::max_percent, "percent"));
    if (extra.percent() > 0)
        context.tell_default(Default::extra_time,
                             std::to_string(extra.percent()) + "% extra time for " + candidate.code +
                                 ", which only the centre and the awarding body can grant");
    return extra;
}

std::optional<std::vector<std::size_t>> parse_only(const Paper& paper, const std::string& text) {
    if (text.empty())
        return std::nullopt;
    try {
        return parts_set(paper, text);
    } catch (const Error& error) {
        throw error.within("--only ");
    }
}

void print_sitting(const Context& context, const Candidate& candidate, SittingId id,
                   const KeptTimetable& kept, bool with_parts) {
    const SittingRecord& record = get_sitting(candidate, id);
    context.answer([&] { return json_of(record, candidate, kept.retries); },
                   [&] { print_sitting_for_people(context, candidate, record, kept, with_parts); });
}

} // namespace inkturn
