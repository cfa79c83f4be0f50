#include "cli/student/topics_on_file.hpp"

#include "cli/context.hpp"

#include "inkturn/base/ascii.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/likeness.hpp"
#include "inkturn/store/drawn_papers.hpp"
#include "inkturn/store/plan.hpp"
#include "inkturn/store/topic_lists.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <map>
#include <set>

namespace inkturn {

namespace {

/// Those that begin so, in any case.
std::vector<std::string> begun(const std::vector<std::string>& names, const std::string& typed) {
    const std::string beginning = lower_case(typed);
    std::vector<std::string> found;
    for (const std::string& name : names)
        if (!beginning.empty() && lower_case(name).compare(0, beginning.size(), beginning) == 0)
            found.push_back(name);
    return found;
}

/// Topics of the lists that others are pieces of, and no part has: headings.
std::set<std::pair<std::string, std::string>> headings(const Store& store) {
    std::set<std::pair<std::string, std::string>> names;
    for (const auto& [subject, list] : TopicLists::all(store))
        for (const ListedTopic& listed : list.topics())
            if (!listed.parent.empty())
                names.emplace(subject, listed.parent);
    for (const auto& paper : store.papers())
        for (const Part& part : paper->parts())
            names.erase({paper->subject(), part.topic});
    return names;
}

} // namespace

std::vector<TopicName> topics_on_file(const Store& store, const std::string& subject) {
    std::map<std::string, std::vector<TopicName>> by_subject;
    std::set<std::pair<std::string, std::string>> known;
    for (const auto& [name, list] : TopicLists::all(store))
        for (const ListedTopic& listed : list.topics())
            if ((subject.empty() || name == subject) && known.emplace(name, listed.topic).second)
                by_subject[name].push_back({name, listed.topic});
    for (const auto& paper : store.papers())
        for (const Part& part : paper->parts())
            if (!part.topic.empty() && (subject.empty() || paper->subject() == subject) &&
                known.emplace(paper->subject(), part.topic).second)
                by_subject[paper->subject()].push_back({paper->subject(), part.topic});
    std::vector<TopicName> topics;
    for (auto& [name, of_subject] : by_subject)
        std::move(of_subject.begin(), of_subject.end(), std::back_inserter(topics));
    return topics;
}

std::vector<RatedTopic> rated_topics_on_file(const Store& store, const Candidate& candidate,
                                             const std::string& subject) {
    std::vector<RatedTopic> topics =
        rated_topics(topics_on_file(store, subject), candidate, PlanOnFile::ratings(store, candidate.code),
                     DrawnPapers::copies(store));
    const auto empty = headings(store);
    topics.erase(
        std::remove_if(topics.begin(), topics.end(),
                       [&](const RatedTopic& topic) {
                           return !topic.rating && empty.count({topic.name.subject, topic.name.topic}) > 0;
                       }),
        topics.end());
    return topics;
}

std::string first_command(const Store& store, const Candidate& candidate) {
    const std::vector<RatedTopic> topics = rated_topics_on_file(store, candidate);
    const bool any =
        std::any_of(topics.begin(), topics.end(), [](const RatedTopic& one) { return !one.rating; });
    return any ? "topics rate" : "log PAPER PART=MARKS... --rest full";
}

std::string spelled_on_file(const std::vector<TopicName>& topics, const std::string& topic) {
    std::set<std::string> alike;
    for (const TopicName& one : topics) {
        if (one.topic == topic)
            return topic;
        if (likeness(one.topic) == likeness(topic))
            alike.insert(one.topic);
    }
    return alike.size() == 1 ? *alike.begin() : topic;
}

TopicName topic_named(const std::vector<TopicName>& topics, const std::string& typed) {
    const std::string topic = spelled_on_file(topics, typed);
    std::vector<TopicName> meant_by;
    std::vector<std::string> names;
    for (const TopicName& one : topics) {
        if (names.empty() || std::find(names.begin(), names.end(), one.topic) == names.end())
            names.push_back(one.topic);
        if (one.topic == topic)
            meant_by.push_back(one);
    }
    if (meant_by.empty()) {
        const std::vector<std::string> found = begun(names, topic);
        if (found.size() == 1)
            return topic_named(topics, found.front());
        if (found.size() > 1)
            throw Error("several topics begin with '" + topic + "': " + joined(found, " and ") +
                        "; type more of one");
        throw Error("no topic '" + topic + "' on file" +
                    meant(topic, names, "'inkturn topics rate' lists the topics"));
    }
    if (meant_by.size() > 1)
        throw Error("topic '" + topic + "' is in papers of several subjects: use --subject to say which");
    return meant_by.front();
}

} // namespace inkturn
