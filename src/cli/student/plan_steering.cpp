#include "cli/student/plan_steering.hpp"

#include "cli/student/timetable_on_file.hpp"

#include "inkturn/plan/steering.hpp"
#include "inkturn/practice/offered.hpp"
#include "inkturn/store/change.hpp"
#include "inkturn/store/steering.hpp"
#include "view/text/retries.hpp"
#include "view/text/steering.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <iostream>
#include <set>

namespace inkturn {
namespace {

/// The subject of a topic: the one typed, or the only one that has it to relearn or steered.
std::string subject_of_topic(const Candidate& candidate, const std::string& topic, const std::string& subject,
                             Day today) {
    if (!subject.empty())
        return subject;
    std::set<std::string> subjects;
    for (const TopicToRelearn& one :
         topics_that_may_be_relearned(candidate, retries_to_place(candidate, today), today))
        if (one.topic == topic)
            subjects.insert(one.subject);
    for (const SteeredWork& steered : candidate.steered_work)
        if (steered.what == WorkPurpose::relearn && steered.name == topic)
            subjects.insert(steered.subject);
    if (subjects.size() > 1)
        throw Error("topic '" + topic +
                    "' is to be relearned in several subjects: use --subject to say which");
    const std::vector<std::string> sat = topics_sat(candidate);
    if (subjects.empty() && std::find(sat.begin(), sat.end(), topic) == sat.end())
        throw Error("candidate " + candidate.code + " has sat no paper with the topic '" + topic + "'" +
                    meant(topic, sat, "'inkturn topics --all' lists the topics"));
    return subjects.empty() ? std::string() : *subjects.begin();
}

WorkName work_named(const Store& store, const Candidate& candidate, const PlanSteering& steering,
                    const std::string& subject, Day today) {
    if (steering.names_topic())
        return {WorkPurpose::relearn, subject_of_topic(candidate, steering.topic, subject, today),
                steering.topic};
    const auto paper = Context::paper_on_file(store, steering.paper);
    return {WorkPurpose::sit, paper->subject(), paper->id()};
}

std::string called(const WorkName& work) {
    return (work.what == WorkPurpose::sit ? "paper " : "topic ") + visible(work.name);
}

std::string to_take_back(const Context& context, const WorkName& work) {
    return "To take it back: inkturn plan --" +
           std::string(work.what == WorkPurpose::sit ? "paper " : "topic ") + shell_word(work.name) +
           " --undo" + context.same_candidate() + '\n';
}

/// Takes the drop back or, where there is none, the day asked for.
std::string undo_work(SteeringOnFile on_file, const Candidate& candidate, const WorkName& work, Day today) {
    Steering steering = steering_of(candidate, work.what, work.subject, work.name);
    std::string said;
    if (steering.let_go) {
        said = called(work) + " is no longer dropped.";
        steering = {steering.standing(today), std::nullopt};
    } else if (steering.standing(today)) {
        said = called(work) + " is no longer asked for on " + day_text(*steering.wanted) + ".";
        steering = {};
    } else {
        throw Error(called(work) + " was neither dropped nor asked for; there is nothing to undo",
                    Error::Kind::not_found);
    }
    on_file.steer(candidate.code, {work.what, work.subject, work.name, steering});
    return text_line("Undone: " + said);
}

std::string steer_work(const Context& context, Store::Change& change, const Candidate& candidate,
                       const PlanSteering& steering, const std::string& subject) {
    const Day today = context.date_today();
    const WorkName work = work_named(change.store(), candidate, steering, subject, today);
    SteeringOnFile on_file(change);
    if (steering.undo)
        return undo_work(on_file, candidate, work, today);
    TimetableRequest request = timetable_on_file(change.store(), candidate, today).request;
    if (work.what == WorkPurpose::sit)
        offer(request.papers, Context::paper_on_file(change.store(), work.name));
    if (!steering.drop.empty()) {
        check_can_be_steered(candidate, request, work, today);
        const Steering before = steering_of(candidate, work.what, work.subject, work.name);
        on_file.steer(candidate.code,
                      {work.what, work.subject, work.name, {before.wanted, LetGo{today, steering.drop}}});
        return text_line("Dropped: " + called(work) + " (" + visible(steering.drop) + ").") +
               to_take_back(context, work);
    }
    const Day wanted = parse_day(steering.on, today);
    check_can_be_wanted(candidate, request, work, wanted, today);
    on_file.steer(candidate.code, {work.what, work.subject, work.name, {wanted, std::nullopt}});
    return text_line("Asked for: " + called(work) + " on " + day_text(wanted) + ".") +
           to_take_back(context, work);
}

void let_go(Store::Change& change, const Candidate& candidate, const std::vector<Retry>& retries,
            const LetGo& why) {
    for (const Retry& retry : retries)
        SteeringOnFile(change).steer(
            {retry.id.sitting,
             retry.id.question,
             {steering_of(candidate, retry.id.sitting, retry.id.question).wanted, why}});
}

/// Empty where nothing is to be dropped.
std::string restart(const Context& context, Store::Change& change, const Candidate& candidate) {
    const Day today = context.date_today();
    const std::string same = context.same_candidate();
    const std::vector<Retry> retries = late_beyond_ten(candidate, today);
    if (retries.empty())
        return {};
    let_go(change, candidate, retries, {today, std::string(LetGo::restart)});
    return text_line("The ten late retries worth most stay. Dropped: " + counted_retries(retries.size()) +
                     ", " + worth_text(retries) + ".") +
           "To take one back: inkturn retry " + to_text(retries.front().id) + " --undo" + same +
           "; all: inkturn plan --restart --undo" + same + '\n';
}

/// Those of the latest restart.
std::string undo_restart(Store::Change& change, const Candidate& candidate) {
    std::optional<Day> latest;
    for (const SteeredRetry& steered : candidate.steered_retries)
        if (steered.steering.let_go && steered.steering.let_go->reason == LetGo::restart)
            latest = std::max(latest, std::optional(steered.steering.let_go->day));
    if (!latest)
        throw Error("there was no restart, or all of it was taken back; there is nothing to undo",
                    Error::Kind::not_found);
    std::size_t count = 0;
    for (SteeredRetry steered : candidate.steered_retries) {
        const auto& dropped = steered.steering.let_go;
        if (!dropped || dropped->reason != LetGo::restart || dropped->day != *latest)
            continue;
        steered.steering.let_go.reset();
        SteeringOnFile(change).steer(steered);
        ++count;
    }
    return "Undone: the restart of " + day_text(*latest) + "; " + counted_retries(count) +
           (count == 1 ? " is" : " are") + " no longer dropped.\n";
}

/// The retries worth least that make it fit; none where all work does: none is dropped for what may come
/// back.
std::vector<Retry> worth_least(const Store& store, const Candidate& candidate, Day today) {
    const TimetableOnFile timetable = timetable_on_file(store, candidate, today);
    if (timetable.made.fit == PlanFit::fits)
        return {};
    const auto retries = least_to_let_go(timetable.from, timetable.request, today);
    if (!retries)
        throw Error("dropping the retries worth least, up to " + std::to_string(max_let_go) +
                        " of them, would not make it fit; 'inkturn plan' says what would",
                    Error::Kind::conflict);
    return *retries;
}

std::string counted_and_worth(const std::vector<Retry>& retries) {
    return counted_retries(retries.size()) + ", worth least: " + worth_text(retries);
}

/// In a change that is taken back, so that nobody waits for the answer.
void ask_to_drop_least(const Context& context, Store& store, Day today) {
    std::vector<Retry> retries;
    {
        Store::Change tried(store);
        keep_days_passed(tried, context.candidate_on_file(store).code, today);
        retries = worth_least(store, context.candidate_on_file(store), today);
    }
    if (retries.empty())
        return;
    context.err << text_line("To make it fit: " + counted_and_worth(retries) + ".") << std::flush;
    if (!context.confirmed("Drop " + counted_retries(retries.size()) + "?"))
        throw Error("nothing was dropped");
}

/// The same.
std::string drop_least(const Context& context, Store::Change& change, const Candidate& candidate) {
    const Day today = context.date_today();
    const std::vector<Retry> retries = worth_least(change.store(), candidate, today);
    if (retries.empty())
        return {};
    let_go(change, candidate, retries, {today, std::string(LetGo::no_room)});
    return text_line("Dropped: " + counted_and_worth(retries) + ".") + "To take one back: inkturn retry " +
           to_text(retries.front().id) + " --undo" + context.same_candidate() + '\n';
}

} // namespace

bool PlanSteering::is_any() const {
    return !paper.empty() || !topic.empty() || !on.empty() || !drop.empty() || undo || restart || drop_least;
}

void add_steering_options(Command& plan, PlanSteering& steering) {
    plan.option("--paper", steering.paper, "ID", "With --on, --drop or --undo: this paper to sit");
    plan.option("--topic", steering.topic, "T", "The same: this topic to relearn");
    plan.option("--on", steering.on, "D", "Plan it on this day before the exam");
    plan.option("--drop", steering.drop, "REASON", "Take it off the plan");
    plan.flag("--drop-least", steering.drop_least,
              "Drop the retries worth least until all the work fits; asks first");
    plan.flag("--restart", steering.restart, "Of the late retries keep the ten worth most and drop the rest");
    plan.flag("--undo", steering.undo, "Undo what was decided about a paper, a topic, or the restart");
    plan.flag("--yes", steering.yes, "With --drop-least: don't ask");
}

void check_steering_options(const PlanSteering& steering, const std::string& subject) {
    const bool is_work = !steering.paper.empty() || steering.names_topic();
    if (!steering.paper.empty() && steering.names_topic())
        throw UsageError("use either --paper or --topic");
    if (!subject.empty() && !steering.paper.empty())
        throw UsageError("--subject goes with --topic or --papers");
    const int said =
        (!steering.on.empty() ? 1 : 0) + (!steering.drop.empty() ? 1 : 0) + (steering.undo ? 1 : 0);
    if (is_work && said != 1)
        throw UsageError("--paper and --topic need one of --on, --drop and --undo");
    if (is_work && (steering.restart || steering.drop_least))
        throw UsageError("--restart and --drop-least take no paper and no topic");
    if (!is_work && (!steering.on.empty() || !steering.drop.empty()))
        throw UsageError("--on and --drop need --paper or --topic; for a retry: inkturn retry RETRY --on D");
    if (steering.drop_least && steering.undo)
        throw UsageError("--drop-least is taken back retry by retry: inkturn retry RETRY --undo");
    if (!is_work && steering.undo && !steering.restart)
        throw UsageError("--undo needs --paper, --topic or --restart");
    if (steering.restart && steering.drop_least)
        throw UsageError("use either --restart or --drop-least");
    if (steering.yes && !steering.drop_least)
        throw UsageError("--yes needs --drop-least");
}

std::string steer_plan(const Context& context, const PlanSteering& steering, const std::string& subject) {
    const Day today = context.date_today();
    Store store = context.store_to_write();
    const Store::Seen seen = store.seen();
    if (steering.drop_least && !steering.yes)
        ask_to_drop_least(context, store, today);
    Store::Change change(store, seen);
    keep_times_by_default(context, change, context.candidate_code());
    keep_days_passed(change, context.candidate_on_file(store).code, today);
    const Candidate candidate = context.candidate_on_file(store);
    std::string said;
    if (steering.restart)
        said = steering.undo ? undo_restart(change, candidate) : restart(context, change, candidate);
    else if (steering.drop_least)
        said = drop_least(context, change, candidate);
    else
        said = steer_work(context, change, candidate, steering, subject);
    if (said.empty())
        return steering.restart ? "Nothing to drop: no more than ten retries are late.\n"
                                : "Nothing to drop: all of it has its day.\n";
    Candidate kept = store.candidate(candidate.code);
    if (steering.restart)
        kept.planned_for.reset(); // so that late work takes the room which was made, today's too
    keep_timetable(change, kept, today);
    change.commit();
    return said;
}

} // namespace inkturn
