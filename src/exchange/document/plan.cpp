#include "exchange/document/plan.hpp"

#include "exchange/document/difference.hpp"
#include "exchange/document/steering.hpp"
#include "exchange/document/strict_json.hpp"
#include "inkturn/base/text.hpp"
#include "inkturn/facts/fact.hpp"
#include "inkturn/plan/relearn.hpp"
#include "inkturn/store/change.hpp"
#include "inkturn/store/plan.hpp"

#include <map>
#include <string>
#include <tuple>

namespace inkturn {
namespace {

constexpr std::size_t max_subject_length = 200; ///< as a paper's

using RelearnedKey = std::tuple<Day, std::string, std::string>;

RelearnedKey key_of(const Relearned& relearned) {
    return {relearned.day, relearned.subject, relearned.topic};
}

const std::string& read_subject(const JsonValue& owner) {
    const std::string& subject = owner.at("subject").name();
    owner.checked([&] { check_printable(subject, max_subject_length, "subject"); });
    return subject;
}

const std::string& read_topic(const JsonValue& owner) {
    const std::string& topic = owner.at("topic").name();
    owner.checked([&] { check_topic(topic); });
    if (topic.empty())
        owner.at("topic").refuse("the topic that was relearned is not stated");
    return topic;
}

bool is_half(const JsonValue& relearned) {
    return relearned.has("pieces") &&
           relearned.at("pieces").whole_number(1, TopicToRelearn::pieces) < TopicToRelearn::pieces;
}

std::vector<Relearned> read_relearned(const JsonValue& value, Day today) {
    std::map<RelearnedKey, Relearned> known;
    value.each_element([&](const JsonValue& element) {
        element.check_keys({"subject", "topic", "date"}, {"pieces"});
        const Relearned relearned{read_subject(element), read_topic(element),
                                  read_past_day(element.at("date"), today, "relearning"), is_half(element)};
        if (!known.emplace(key_of(relearned), relearned).second)
            element.refuse("the topic appears twice on " + iso(relearned.day));
    });
    std::vector<Relearned> all;
    all.reserve(known.size());
    for (auto& [key, relearned] : known)
        all.push_back(std::move(relearned));
    return all;
}

PlanWishes read_wishes(const JsonValue& value, Day today) {
    value.check_keys({"marking_percent", "papers"}, {"missed_from", "slips"});
    PlanWishes wishes;
    wishes.marking_percent = value.at("marking_percent").whole_number(0, PlanWishes::max_marking_percent);
    if (value.has("missed_from"))
        wishes.retries.missed_from = Marks(value.at("missed_from").whole_number(1, max_part_marks.count()));
    if (value.has("slips"))
        wishes.retries.slips = value.at("slips").yes_or_no();
    value.at("papers").each_element([&](const JsonValue& element) {
        element.check_keys({"subject", "papers", "since"});
        const PaperWish papers{element.at("papers").whole_number(0, PlanWishes::max_papers),
                               read_past_day(element.at("since"), today, "a wish")};
        if (!wishes.papers.emplace(read_subject(element), papers).second)
            element.refuse("the subject appears twice");
    });
    return wishes;
}

Json value_of(const PlanWishes& wishes) {
    Json papers = Json::array();
    for (const auto& [subject, wished] : wishes.papers)
        papers.push_back({{"subject", subject}, {"papers", wished.count}, {"since", iso(wished.since)}});
    Json object{{"marking_percent", wishes.marking_percent}, {"papers", std::move(papers)}};
    if (wishes.retries.missed_from != RetryRule().missed_from)
        object["missed_from"] = wishes.retries.missed_from.count();
    if (!wishes.retries.slips)
        object["slips"] = false;
    return object;
}

/// One already on file changes nothing, unless it was half done there and is whole now.
void take_relearned(PlanOnFile plan, const Candidate& here, const Candidate& in_file, Merge& merge) {
    std::map<RelearnedKey, bool> half_on_file;
    for (const Relearned& relearned : here.relearned)
        half_on_file.emplace(key_of(relearned), relearned.half);
    for (const Relearned& relearned : in_file.relearned) {
        const auto on_file = half_on_file.find(key_of(relearned));
        if (on_file == half_on_file.end() || (on_file->second && !relearned.half))
            merge.relearned_topics_added += plan.add_relearned(here.code, relearned);
    }
}

void take_wishes(PlanOnFile plan, const Candidate& here, const PlanWishes& in_file,
                 const MergeOptions& options, Merge& merge) {
    const auto differs = difference(here.wishes, in_file);
    if (!differs || in_file.is_default()) // the default says nothing
        return;
    const bool is_new = here.wishes.is_default();
    if (!is_new && !options.replaces_plan()) {
        merge.refuse("candidate " + here.code + ": " + *differs + "; --replace takes the file's");
        return;
    }
    plan.set_wishes(here.code, in_file);
    ++(is_new ? merge.plan_wishes_added : merge.plan_wishes_replaced);
}

void take_extra_time(Store::Change& change, const Candidate& here, std::optional<ExtraTime> in_file,
                     const MergeOptions& options, Merge& merge) {
    if (!in_file || (here.extra_time && here.extra_time->percent() == in_file->percent()))
        return;
    if (here.extra_time && !options.replace) {
        merge.refuse("candidate " + here.code + ": extra time is " +
                     std::to_string(here.extra_time->percent()) + "% here, " +
                     std::to_string(in_file->percent()) + "% in the file; --replace takes the file's");
        return;
    }
    change.set_extra_time(here.code, in_file);
    ++(here.extra_time ? merge.extra_times_replaced : merge.extra_times_added);
}

} // namespace

void add_plan(const Candidate& candidate, Json& object) {
    for (const Relearned& relearned : candidate.relearned) {
        Json one{{"subject", relearned.subject}, {"topic", relearned.topic}, {"date", iso(relearned.day)}};
        if (relearned.half)
            one["pieces"] = 1;
        object["relearned_topics"].push_back(std::move(one));
    }
    if (!candidate.wishes.is_default())
        object["plan_wishes"] = value_of(candidate.wishes);
    add_steering(candidate, object);
}

void read_plan(const JsonValue& object, Day today, Candidate& candidate) {
    if (object.has("relearned_topics"))
        candidate.relearned = read_relearned(object.at("relearned_topics"), today);
    if (object.has("plan_wishes"))
        candidate.wishes = read_wishes(object.at("plan_wishes"), today);
    read_steering(object, today, candidate);
}

void take_plan(Store::Change& change, const Candidate& here, const Candidate& in_file,
               const MergeOptions& options, Merge& merge) {
    const PlanOnFile plan(change);
    take_extra_time(change, here, in_file.extra_time, options, merge);
    take_relearned(plan, here, in_file, merge);
    take_wishes(plan, here, in_file.wishes, options, merge);
    take_steering(change, here, in_file, options, merge);
}

} // namespace inkturn
