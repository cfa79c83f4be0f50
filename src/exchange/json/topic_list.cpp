#include "exchange/json/topic_list.hpp"

#include "exchange/json/value.hpp"

namespace inkturn {
namespace {

Json value_of(const std::string& subject, const TopicList& list) {
    Json topics = Json::array();
    for (const ListedTopic& listed : list.topics())
        topics.push_back({{"topic", listed.topic}, {"parent", null_if_empty(listed.parent)}});
    return {{"subject", subject}, {"topics", std::move(topics)}};
}

} // namespace

std::string json_of(const std::string& subject, const TopicList& list) {
    return text_of(value_of(subject, list));
}

std::string json_of(const std::map<std::string, TopicList>& lists) {
    Json all = Json::array();
    for (const auto& [subject, list] : lists)
        all.push_back(value_of(subject, list));
    return text_of({{"lists", std::move(all)}});
}

} // namespace inkturn
