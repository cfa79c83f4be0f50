#include "cli/student/timetable_on_file.hpp"
#include "cli/student/topics.hpp"
#include "cli/student/topics_on_file.hpp"

#include "exchange/json/relearned.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/plan/check.hpp"
#include "inkturn/plan/relearn.hpp"
#include "inkturn/store/change.hpp"
#include "inkturn/store/plan.hpp"
#include "view/text/retries.hpp"
#include "view/text/text.hpp"
#include "view/text/timetable.hpp"

#include <algorithm>
#include <iostream>
#include <set>

namespace inkturn {
namespace {

struct TopicsRelearnedOptions {
    std::string topic;
    std::string subject;
    std::string date;
    bool half = false;
    bool undo = false;
};

/// Subjects of the papers sat that have a part on the topic.
std::set<std::string> subjects_of(const Candidate& candidate, const std::string& topic) {
    std::set<std::string> subjects;
    for (const SittingRecord& record : candidate.sittings)
        for (const Part& part : record.paper->parts())
            if (part.topic == topic)
                subjects.insert(record.paper->subject());
    return subjects;
}

/// Of the subject named, the one that has the topic on the plan, or the only one.
TopicName topic_meant_by(const Store& store, const Candidate& candidate,
                         const TopicsRelearnedOptions& options, Day today) {
    const std::set<std::string> subjects = subjects_of(candidate, options.topic);
    if (subjects.empty()) // never sat, or begun
        return topic_named(topics_on_file(store, options.subject), options.topic);
    if (!options.subject.empty()) {
        if (subjects.count(options.subject) == 0)
            throw Error("topic '" + options.topic + "' is not in subject '" + options.subject +
                        "'; for its topics: inkturn topics --subject=" + shell_word(options.subject));
        return {options.subject, options.topic};
    }
    std::set<std::string> topic_names;
    for (const TopicToRelearn& topic :
         topics_that_may_be_relearned(candidate, retries_to_place(candidate, today), today))
        if (topic.topic == options.topic)
            topic_names.insert(topic.subject);
    const std::set<std::string>& among = topic_names.empty() ? subjects : topic_names;
    if (among.size() > 1)
        throw Error("topic '" + options.topic +
                    "' is in papers of several subjects: use --subject to say which");
    return {*among.begin(), options.topic};
}

/// What is on file of a topic and day.
struct RelearnedOnFile {
    Relearned relearned;
    bool is_all = false;       ///< all of the topic is done by it
    bool was_recorded = false; ///< before
};

/// Two halves recorded on one day make the whole.
bool is_half_on_file(const Candidate& candidate, const Relearned& relearned) {
    return std::any_of(candidate.relearned.begin(), candidate.relearned.end(), [&](const Relearned& one) {
        return one.half && one.day == relearned.day && one.subject == relearned.subject &&
               one.topic == relearned.topic;
    });
}

bool is_in_full_on(const Candidate& candidate, const Relearned& relearned) {
    return relearned_in_full(candidate, relearned.subject, relearned.topic) == relearned.day;
}

/// After a half, what is recorded without --half is the other one.
RelearnedOnFile record(Store::Change& change, const Candidate& candidate, Relearned relearned) {
    const bool is_all_again = !relearned.half && is_in_full_on(candidate, relearned);
    relearned.half = relearned.half || is_second_half(candidate, relearned);
    const bool is_new = !is_all_again && PlanOnFile(change).add_relearned(candidate.code, relearned);
    const Candidate now = change.store().candidate(candidate.code);
    relearned.half = is_half_on_file(now, relearned);
    return {relearned, is_in_full_on(now, relearned), !is_new};
}

std::string recorded_text(const RelearnedOnFile& on_file) {
    const Relearned& relearned = on_file.relearned;
    const bool is_other_half = relearned.half && on_file.is_all;
    return text_line(visible(relearned.topic) +
                     (is_other_half    ? ": the other half was relearned on "
                      : relearned.half ? ": half was relearned on "
                                       : " was relearned on ") +
                     day_text(relearned.day) + (on_file.was_recorded ? ", as already recorded" : "") +
                     (is_other_half ? "; all of it is done" : "") + ".");
}

void run(const Context& context, const TopicsRelearnedOptions& typed) {
    const Day today = context.date_today();
    Store store = context.store_to_write();
    TopicsRelearnedOptions options = typed;
    options.topic = spelled_on_file(topics_on_file(store, typed.subject), typed.topic);
    Store::Change change(store);
    keep_times_by_default(context, change, context.candidate_code());
    const Candidate candidate = context.candidate_on_file(store);
    keep_days_passed(change, candidate.code, today);
    const TopicName topic = topic_meant_by(store, candidate, options, today);
    Relearned relearned{topic.subject, topic.topic, context.date_done(options.date), options.half};
    check_has_happened(relearned.day, today, "relearning");
    std::string said = visible(relearned.topic) + " is no longer recorded as relearned on " +
                       day_text(relearned.day) + ".\n";
    if (!options.undo) {
        const RelearnedOnFile on_file = record(change, candidate, relearned);
        relearned = on_file.relearned;
        said = recorded_text(on_file);
    } else if (!PlanOnFile(change).remove_relearned(candidate.code, relearned)) {
        throw Error("topic '" + relearned.topic + "' is not recorded as relearned on " + iso(relearned.day) +
                    "; there is nothing to undo");
    }
    const KeptTimetable kept = keep_timetable(change, store.candidate(candidate.code), today, candidate);
    change.commit();
    context.answer([&] { return json_of(relearned, !options.undo); },
                   [&] { context.out << said << changes_text(kept.moved) << context.next("plan"); });
}

} // namespace

void add_topics_relearned(Command& topics) {
    auto options = std::make_shared<TopicsRelearnedOptions>();
    Command relearned =
        topics.command("relearned", "Record that a topic was relearned, which takes it off the plan");
    relearned.argument("TOPIC", options->topic, "As the papers name it").required();
    relearned.option("--subject", options->subject, "S", "If several subjects have it");
    relearned.option("--date", options->date, "D", "The day (today)");
    const Option half =
        relearned.flag("--half", options->half, "Only half an hour of it; the other half stays on the plan");
    relearned.flag("--undo", options->undo, "Undo what was recorded for that day").excludes(half);
    relearned.json();
    relearned.closing("Examples:\n  inkturn topics relearned integration\n"
                      "  inkturn topics relearned integration --half");
    relearned.runs(options, run);
}

} // namespace inkturn
