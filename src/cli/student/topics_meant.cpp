#include "cli/student/topics_meant.hpp"

#include "inkturn/base/error.hpp"
#include "inkturn/base/text.hpp"
#include "inkturn/store/topic_lists.hpp"
#include "view/text/text.hpp"

#include <map>
#include <set>

namespace inkturn {
namespace {

void check_topic(const std::set<std::string>& topics, const std::string& topic) {
    if (topics.count(topic) > 0)
        return;
    const std::string problem = "no question to draw from has the topic '" + topic + "'; ";
    if (topics.empty())
        throw Error(problem + "none has a topic: leave out --topic, or add a paper with topics");
    if (const auto nearest = nearest_name(topic, {topics.begin(), topics.end()}))
        throw Error(problem + "did you mean '" + *nearest + "'?");
    throw Error(problem + "topics: " + list_text(topics));
}

} // namespace

std::vector<std::string> topics_meant(const Store& store,
                                      const std::vector<std::shared_ptr<const Paper>>& papers,
                                      const std::string& subject, std::vector<std::string> typed) {
    if (typed.empty())
        return typed;
    std::set<std::string> topics;
    for (const auto& paper : papers)
        for (const Part& part : paper->parts())
            if (!part.topic.empty())
                topics.insert(part.topic);
    const std::map<std::string, TopicList> lists = TopicLists::all(store);
    for (const auto& [of, list] : lists) {
        if (!subject.empty() && of != subject)
            continue;
        for (std::string& topic : typed)
            if (const auto listed = list.find_alike(topic)) {
                topic = list.topics()[*listed].topic;
                topics.insert(topic);
            }
    }
    for (const std::string& topic : typed)
        check_topic(topics, topic);
    for (const auto& [of, list] : lists)
        if (subject.empty() || of == subject)
            typed = list.with_pieces(typed);
    return typed;
}

} // namespace inkturn
