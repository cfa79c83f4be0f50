#include "cli/student/timetable_on_file.hpp"
#include "cli/student/topics.hpp"

#include "exchange/json/relearned.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/plan/relearn.hpp"
#include "inkturn/store/change.hpp"
#include "inkturn/store/plan.hpp"
#include "view/text/retries.hpp"
#include "view/text/text.hpp"

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

/// The subjects of the papers sat in which a part states the topic.
std::set<std::string> subjects_of(const Candidate& candidate, const std::string& topic) {
    std::set<std::string> subjects;
    for (const SittingRecord& record : candidate.sittings)
        for (const Part& part : record.paper->parts())
            if (part.topic == topic)
                subjects.insert(record.paper->subject());
    return subjects;
}

/// Of the one named, the one that has it on the plan, or the only one.
std::string subject_of(const Candidate& candidate, const TopicsRelearnedOptions& options, Day today) {
    const std::set<std::string> subjects = subjects_of(candidate, options.topic);
    if (subjects.empty())
        throw Error("topic '" + options.topic + "': no paper that candidate " + candidate.code +
                    " has sat states it; 'inkturn topics' lists those that are stated");
    if (!options.subject.empty()) {
        if (subjects.count(options.subject) == 0)
            throw Error("topic '" + options.topic + "' is none of subject '" + options.subject +
                        "'; its topics: inkturn topics --subject=" + shell_word(options.subject));
        return options.subject;
    }
    std::set<std::string> topic_names;
    for (const TopicToRelearn& topic :
         topics_to_relearn(candidate, retries_to_place(candidate, today), today))
        if (topic.topic == options.topic)
            topic_names.insert(topic.subject);
    const std::set<std::string>& among = topic_names.empty() ? subjects : topic_names;
    if (among.size() > 1)
        throw Error("topic '" + options.topic +
                    "' stands in papers of several subjects: say which with --subject");
    return *among.begin();
}

/// Two halves that are noted on one day are the whole.
bool is_half_on_file(const Store& store, const std::string& code, const Relearned& relearned) {
    const std::vector<Relearned> all = store.candidate(code).relearned;
    return std::any_of(all.begin(), all.end(), [&](const Relearned& one) {
        return one.half && one.day == relearned.day && one.subject == relearned.subject &&
               one.topic == relearned.topic;
    });
}

void print(const Context& context, const Relearned& relearned, bool undo, bool any) {
    context.out << visible(relearned.topic)
                << (undo             ? " is no longer noted as relearned on "
                    : relearned.half ? ": half of it was relearned on "
                                     : " was relearned on ")
                << day_text(relearned.day) << (!undo && !any ? ", as noted before" : "")
                << ".\nNext: inkturn plan\n";
}

void run(const Context& context, const TopicsRelearnedOptions& options) {
    const Day today = context.date_today();
    Store store = context.store_to_write();
    Store::Change change(store);
    const Candidate candidate = context.candidate_on_file(store);
    Relearned relearned{subject_of(candidate, options, today), options.topic, context.date_of(options.date),
                        options.half};
    check_has_happened(relearned.day, today, "relearning");
    const bool any = options.undo ? PlanOnFile(change).remove_relearned(candidate.code, relearned)
                                  : PlanOnFile(change).add_relearned(candidate.code, relearned);
    if (!options.undo)
        relearned.half = is_half_on_file(store, candidate.code, relearned);
    if (options.undo && !any)
        throw Error("topic '" + options.topic + "' is not noted as relearned on " + iso(relearned.day) +
                    "; there is nothing to take back");
    if (!options.undo)
        keep_timetable(change, candidate.code, today);
    change.commit();
    context.answer([&] { return json_of(relearned, !options.undo); },
                   [&] { print(context, relearned, options.undo, any); });
}

} // namespace

void add_topics_relearned(Command& topics) {
    auto options = std::make_shared<TopicsRelearnedOptions>();
    Command relearned =
        topics.command("relearned", "Note that a topic was worked through again: that takes it off the plan");
    relearned.argument("TOPIC", options->topic, "As the papers state it").required();
    relearned.option("--subject", options->subject, "S", "Where several subjects have it");
    relearned.option("--date", options->date, "D", "The day (today)");
    const Option half =
        relearned.flag("--half", options->half, "Half an hour of it: the other half stays on the plan");
    relearned.flag("--undo", options->undo, "Take the note of that day back").excludes(half);
    relearned.json();
    relearned.closing("Examples:\n  inkturn topics relearned integration\n"
                      "  inkturn topics relearned integration --half");
    relearned.runs(options, run);
}

} // namespace inkturn
