#include "cli/commands.hpp"
#include "cli/context.hpp"
#include "cli/desk/at_desk.hpp"
#include "cli/local_time.hpp"
#include "cli/student/timetable_on_file.hpp"
#include "cli/student/topics_on_file.hpp"

#include "exchange/json/today.hpp"
#include "inkturn/plan/plan.hpp"
#include "inkturn/store/closed_classes.hpp"
#include "inkturn/store/facts.hpp"
#include "inkturn/store/reading.hpp"
#include "view/text/checks.hpp"
#include "view/text/lesson.hpp"
#include "view/text/retries.hpp"
#include "view/text/text.hpp"
#include "view/text/timetable.hpp"
#include "view/text/today.hpp"

#include <algorithm>
#include <iostream>

namespace inkturn {
namespace {

/// `3 retries and 1 other piece of work`; only the retries if there is nothing else.
std::string counted_for_today(const TodaysWork& work, std::size_t others) {
    std::string text = work.retries.empty() ? "" : counted_retries(work.retries.size());
    if (others > 0)
        text += (text.empty() ? count_text(others, "piece") : " and " + count_text(others, "other piece")) +
                " of work";
    return text;
}

/// Whether today has one of a topic's pieces and not the other.
bool is_one_piece(const TodaysWork& work, const PlannedWork& topic) {
    return std::count_if(work.other_work.begin(), work.other_work.end(), [&](const PlannedWork& other) {
               return other.what == topic.what && other.subject == topic.subject && other.name == topic.name;
           }) < TopicToRelearn::pieces;
}

/// `topics relearned integration`, with the subject where topics of the same name are planned in several.
std::string command_for_topic(const Candidate& candidate, const TodaysWork& work, const PlannedWork& topic) {
    const bool is_shared =
        std::any_of(candidate.planned.begin(), candidate.planned.end(), [&](const PlannedWork& other) {
            return other.what == topic.what && other.name == topic.name && other.subject != topic.subject;
        });
    const std::string subject =
        is_shared && !topic.subject.empty() ? "--subject=" + shell_word(topic.subject) + " " : "";
    const std::string half = is_one_piece(work, topic) ? "--half " : "";
    return "topics relearned " + half + subject + shell_argument(topic.name);
}

/// The command that starts a piece of planned work, or records it as done.
std::string command_for(const Candidate& candidate, const TodaysWork& work, const PlannedWork& planned,
                        const PapersForChecks& papers) {
    switch (planned.what) {
    case WorkPurpose::sit:
        return planned.name.empty() ? "paper add FILE --id ID" : "sit " + planned.name;
    case WorkPurpose::relearn:
        return command_for_topic(candidate, work, planned);
    case WorkPurpose::check:
        return command_for_check(candidate, planned, papers);
    case WorkPurpose::recall:
        return "facts sheet";
    case WorkPurpose::reservation:
        break;
    }
    return "plan";
}

/// What the opening names, with nothing on the desk.
void print_next(const Context& context, const Candidate& candidate, const TodaysWork& work,
                const PapersForChecks& papers, const std::string& first_command) {
    const auto to_do = first_to_do(work, {});
    if (to_do && (to_do->why == FirstToDo::Why::late || to_do->why == FirstToDo::Why::closes_first)) {
        const Retry& first = work.retries[to_do->which];
        const std::string id = to_text(first.id);
        context.out << "Next, once it is marked: inkturn retry " << id << " --full\n"
                    << "or part by part:         inkturn retry " << id << ' '
                    << first.paper->parts()[first.paper_question().parts.front()].label
                    << "=MARKS... --rest full\n";
    } else {
        const bool is_topic = to_do && to_do->why == FirstToDo::Why::before_retries;
        const std::string next = to_do ? command_for(candidate, work, work.other_work[to_do->which], papers)
                                 : work.facts_due > 0         ? "facts sheet"
                                 : work.next                  ? "plan"
                                 : candidate.sittings.empty() ? first_command
                                                              : "sitting list";
        context.out << wrapped((is_topic ? "Next, once done: inkturn " : "Next: inkturn ") + next +
                                   context.same_candidate(),
                               text_width(), 2)
                    << '\n';
    }
}

void print_exams_and_lessons(const Context& context, const Candidate& candidate, Day today) {
    for (const Day day : {today, today + Days{1}}) {
        for (const LessonPlace& lesson : candidate.lessons)
            if (lesson.day == day)
                context.out << text_line(std::string(day == today ? "Lesson today" : "Lesson tomorrow") +
                                         time_text(lesson) + ": " + visible(topics_text(lesson.topics)) +
                                         ". Its time is taken from that day's.");
        for (const Exam& exam : candidate.exams)
            if (exam.day == day)
                context.out << wrapped((exam.mock ? "Mock " : "Exam ") +
                                           std::string(day == today ? "today: " : "tomorrow: ") +
                                           exam_text(exam) + ".",
                                       text_width())
                            << '\n';
    }
}

/// The facts due beyond those planned for today.
void print_facts_due(const Context& context, const TodaysWork& work) {
    const std::size_t planned = work.facts_planned();
    if (work.facts_due <= planned)
        return;
    const std::size_t more = work.facts_due - planned;
    context.out << count_text(more, planned > 0 ? "more fact" : "fact") << (more == 1 ? " is" : " are")
                << " due for recall (inkturn facts sheet" << context.same_candidate() << ").\n";
}

/// By the clock, where the day is the clock's own.
bool is_late_evening(const Context& context) {
    return context.today.empty() && local_time_of_day(moment_now()) >= late_evening;
}

void print(const Context& context, const Candidate& candidate, const TodaysWork& work,
           const TimetableOnFile& on_file, const std::vector<Script>& scripts) {
    const std::vector<std::string> others = texts_of(work.other_work, candidate);
    const bool is_empty = work.retries.empty() && others.empty();
    const auto first = first_to_do(work, scripts);
    const std::string day = day_text(work.day);
    const std::string says =
        first ? opening_text(*first, work, scripts) : "nothing to retry for " + candidate.code + " today.";
    context.out
        << context.heading(day)
        << wrapped(std::string(day.size(), '\x01') + ": " + visible(says), text_width()).substr(day.size())
        << '\n';
    if (is_empty) {
        print_exams_and_lessons(context, candidate, work.day);
    } else {
        context.out << wrapped(counted_for_today(work, others.size()) + " for " + visible(candidate.code) +
                                   ", " + length_text(work.planned) + " planned, " +
                                   (work.done > Seconds(0) ? length_text(work.done) + " done, " : "") +
                                   length_text(work.available) + " available",
                               text_width())
                    << '\n';
        print_exams_and_lessons(context, candidate, work.day);
        if (is_late_evening(context))
            context.out << late_evening_text(open_tonight(on_file.made));
        context.out << '\n';
        if (!work.retries.empty())
            context.out << retries_of_day(work.retries, work.day);
        for (const std::string& other : others)
            context.out << wrapped("- " + visible(other), text_width(), 2) << '\n';
        context.out << '\n'
                    << met_before_text(on_file.made.items, {work.day, work.day})
                    << checks_text(work.other_work, candidate, on_file.papers, context.same_candidate());
    }
    print_facts_due(context, work);
    if (work.next)
        context.out << "After today: "
                    << (work.next->retries_alone ? counted_retries(work.next->count)
                                                 : count_text(work.next->count, "piece") + " of work")
                    << " on " << day_text(work.next->day) << ".\n";
    if (work.late_after > 0)
        context.out << wrapped((work.late_after == 1
                                    ? "1 retry that is late has"
                                    : std::to_string(work.late_after) + " retries that are late have") +
                                   std::string(" a later day: inkturn plan") + context.same_candidate() +
                                   " lists " + (work.late_after == 1 ? "it." : "them."),
                               text_width())
                    << '\n';
    context.out << changes_text(on_file.changes);
    context.out << without_day_text(on_file.made, candidate.exams, work.day);
    if (work.not_placed > 0)
        context.out << text_line(
            count_text(work.not_placed, "piece") + " of work" + (work.not_placed == 1 ? " has" : " have") +
            " no day with room; inkturn plan" + context.same_candidate() + " says what would help.");
}

/// What was written but not marked through: none of it comes back as a retry until it is.
void print_scripts(const Context& context, const std::vector<Script>& scripts) {
    for (const Script& script : scripts)
        context.out << (script.is_handed_in() ? "Still to mark: " : "Clock running: ")
                    << (script.id.retry ? "retry " : "sitting ") << to_text(script.id) << " ("
                    << script.paper->id() << ").\n";
}

/// The facts due for `facts sheet`, including those beyond its last row.
std::size_t facts_due_today(const Store& store, const Candidate& candidate, const Timetable& timetable,
                            Day today) {
    const std::vector<Fact> facts = FactsOnFile::all(store);
    if (facts.empty())
        return 0;
    const std::vector<Sheet> sheets = FactsOnFile::sheets(store, candidate.code);
    return count_due(facts_due(facts, sheets, candidate.exams, today), today,
                     fact_days(planned_work(timetable)));
}

/// All that is to be told of today.
struct TodayOnFile {
    Candidate candidate;
    TimetableOnFile timetable;
    std::vector<Script> scripts;
    TodaysWork work;
};

TodayOnFile today_on_file(const Context& context, const Store& store) {
    const Reading whole(store);
    const Day today = context.date_today();
    Candidate candidate = context.candidate_on_file(store);
    TimetableOnFile timetable = timetable_on_file(store, candidate, today);
    std::vector<Script> scripts = Desk::scripts(store, candidate.code);
    TodaysWork work = todays_work(candidate, timetable.made, scripts, today);
    work.facts_due = facts_due_today(store, candidate, timetable.made, today);
    return {std::move(candidate), std::move(timetable), std::move(scripts), std::move(work)};
}

void print_first_steps(const Context& context) {
    context.out << context.heading("Nothing is on file yet.") << " A first week, as typed:\n\n"
                << "  inkturn log paper-1 --new --subject maths 1=5/5 2a=2+1/4:slip 2b=-/6:unf\n"
                << "  inkturn exam add 'Maths exam' --on +60d --subject maths\n"
                << "  inkturn days set sat=120 sun=0\n"
                << "  inkturn plan\n"
                << "  inkturn\n\n"
                << "The first logs a sitting: marks in time, then in overtime, out of how many, and\n"
                << "why they went. The last says what to do each day. A teacher begins with a\n"
                << "class's file:\n\n"
                << "  inkturn class import --help\n\n"
                << "To look round first, in an invented college: inkturn sample\n"
                << "Every command: inkturn --help\n";
}

bool is_empty(const Store& store) {
    return store.candidates().empty() && store.papers().empty() && store.exams().empty();
}

/// Candidates are on file, or were until their classes were closed, and none is named.
bool is_for_others(const Context& context, const Store& store) {
    return context.candidate.empty() && !store.has_candidate(context.candidate_code()) &&
           (!store.candidates().empty() || !ClosedClasses::all(store).empty());
}

void print_for_others(const Context& context, const Store& store) {
    const std::size_t count = store.candidates().size();
    if (count == 0) {
        context.out
            << text_line("This store has no candidates any more: its classes were closed, and the figures of "
                         "their papers were kept.")
            << "Next: inkturn paper list\n";
        return;
    }
    context.out << text_line("This store has " + count_text(count, "candidate") + "; none has the code " +
                             visible(context.candidate_code()) +
                             ", which stands for you. Name a candidate to see that one's plan.")
                << "Next: inkturn "
                << (!store.classes().empty() ? "class retries"
                                             : "today --candidate " + shell_word(store.candidates().front()))
                << '\n';
}

void show_today(const Context& context, const Store& store) {
    const TodayOnFile today = today_on_file(context, store);
    const auto print_all = [&] {
        print(context, today.candidate, today.work, today.timetable, today.scripts);
        print_scripts(context, today.scripts);
        if (today.scripts.empty())
            print_next(context, today.candidate, today.work, today.timetable.papers,
                       today.candidate.sittings.empty() ? first_command(store, today.candidate) : "");
        else
            context.out << "Next: " << next_command(today.scripts.front()) << '\n';
    };
    context.answer([&] { return json_of(today.work); }, print_all);
}

void run_today(const Context& context) {
    show_today(context, context.store_to_read());
}

} // namespace

void run_alone(const Context& context) {
    const Store store = context.store_to_read();
    if (is_empty(store))
        print_first_steps(context);
    else if (is_for_others(context, store))
        print_for_others(context, store);
    else
        show_today(context, store);
}

void add_today(Command& line) {
    Command today = line.command("today", "What to retry today, and what else is planned");
    today.json();
    today.closing("Example:\n  inkturn today");
    today.runs(run_today);
}

} // namespace inkturn
