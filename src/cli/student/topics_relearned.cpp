#include "cli/student/timetable_on_file.hpp"
#include "cli/student/topics.hpp"
#include "cli/student/topics_on_file.hpp"

#include "exchange/json/relearned.hpp"
#include "inkturn/base/error.hpp"
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

/// The subject named, the one that has the topic on the plan, or the only one.
std::string subject_of(const Store& store, const Candidate& candidate, const TopicsRelearnedOptions& options,
                       Day today) {
    const std::set<std::string> subjects = subjects_of(candidate, options.topic);
    if (subjects.empty()) // never sat
        return topic_named(topics_on_file(store, options.subject), options.topic).subject;
    if (!options.subject.empty()) {
        if (subjects.count(options.subject) == 0)
            throw Error("topic '" + options.topic + "' is not in subject '" + options.subject +
                        "'; for its topics: inkturn topics --subject=" + shell_word(options.subject));
        return options.subject;
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
    return *among.begin();
}

/// Two halves recorded on one day make the whole.
bool is_half_on_file(const Store& store, const std::string& code, const Relearned& relearned) {
    const std::vector<Relearned> all = store.candidate(code).relearned;
    return std::any_of(all.begin(), all.end(), [&](const Relearned& one) {
        return one.half && one.day == relearned.day && one.subject == relearned.subject &&
               one.topic == relearned.topic;
    });
}

void print(const Context& context, const Relearned& relearned, bool undo, bool any,
           const std::vector<PlanChange>& moved) {
    context.out << visible(relearned.topic)
                << (undo             ? " is no longer recorded as relearned on "
                    : relearned.half ? ": half was relearned on "
                                     : " was relearned on ")
                << day_text(relearned.day) << (!undo && !any ? ", as already recorded" : "") << ".\n"
                << changes_text(moved) << context.next("plan");
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
    Relearned relearned{subject_of(store, candidate, options, today), options.topic,
                        context.date_done(options.date), options.half};
    check_has_happened(relearned.day, today, "relearning");
    const bool any = options.undo ? PlanOnFile(change).remove_relearned(candidate.code, relearned)
                                  : PlanOnFile(change).add_relearned(candidate.code, relearned);
    if (!options.undo)
        relearned.half = is_half_on_file(store, candidate.code, relearned);
    if (options.undo && !any)
        throw Error("topic '" + options.topic + "' is not recorded as relearned on " + iso(relearned.day) +
                    "; there is nothing to undo");
    const KeptTimetable kept = keep_timetable(change, store.candidate(candidate.code), today, candidate);
    change.commit();
    context.answer([&] { return json_of(relearned, !options.undo); },
                   [&] { print(context, relearned, options.undo, any, kept.moved); });
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
