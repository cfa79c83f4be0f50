#include "inkturn/store/topic_lists.hpp"

#include "store/state.hpp"

namespace inkturn {
namespace {

constexpr const char* reading_topics = "reading the topics from";

} // namespace

std::map<std::string, TopicList> TopicLists::all(const Store& store) {
    Store::State& state = *store.state_;
    return state.guarded(reading_topics, [&] {
        std::map<std::string, std::vector<ListedTopic>> read;
        const auto query =
            state.prepared("SELECT subject, topic, parent FROM listed_topic ORDER BY subject, place");
        while (query->executeStep())
            read[query->getColumn(0).getString()].push_back(
                {query->getColumn(1).getString(), query->getColumn(2).getString()});
        std::map<std::string, TopicList> lists;
        for (auto& [subject, topics] : read)
            lists.emplace(subject, state.undamaged(reading_topics,
                                                   [&of = topics] { return TopicList(std::move(of)); }));
        return lists;
    });
}

TopicList TopicLists::of(const Store& store, const std::string& subject) {
    std::map<std::string, TopicList> lists = all(store);
    const auto found = lists.find(subject);
    return found == lists.end() ? TopicList() : std::move(found->second);
}

void TopicLists::keep(const std::string& subject, const TopicList& list) {
    Store::State& state = change_.state();
    state.changed("keeping topics in", [&] {
        const auto before = state.prepared("DELETE FROM listed_topic WHERE subject = ?");
        before->bind(1, subject);
        before->exec();
        std::int64_t place = 0;
        for (const ListedTopic& listed : list.topics()) {
            const auto insert = state.prepared(
                "INSERT INTO listed_topic (subject, topic, place, parent) VALUES (?, ?, ?, ?)");
            insert->bind(1, subject);
            insert->bind(2, listed.topic);
            insert->bind(3, ++place);
            insert->bind(4, listed.parent);
            insert->exec();
        }
    });
}

} // namespace inkturn
