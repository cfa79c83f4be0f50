#include "inkturn/paper/topic_list.hpp"

#include "inkturn/base/ascii.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/likeness.hpp"
#include "inkturn/base/text.hpp"

#include <algorithm>
#include <set>

namespace inkturn {
namespace {

constexpr std::size_t max_topic_length = 200;

void check_listed(const ListedTopic& listed) {
    if (listed.topic.empty())
        throw Error("a topic of a list needs a name");
    check_printable(listed.topic, max_topic_length, "topic");
    check_is_visible(listed.topic, "topic '" + listed.topic + "'");
}

/// Goes up from the topic; throws Error where that never ends.
void check_parents(const TopicList& list, const ListedTopic& listed) {
    const ListedTopic* at = &listed;
    for (std::size_t steps = 0; !at->parent.empty(); ++steps) {
        const auto parent = list.find(at->parent);
        if (!parent)
            throw Error("topic '" + at->topic + "': its parent '" + at->parent + "' is not in the list");
        if (steps == list.topics().size())
            throw Error("topic '" + listed.topic + "' is a piece of itself, by its parents");
        at = &list.topics()[*parent];
    }
}

} // namespace

std::optional<std::string> topic_meant(const std::string& topic, const std::vector<std::string>& known) {
    const auto nearest = nearest_name(topic, known);
    const bool is_slip = nearest && (lower_case(*nearest) == lower_case(topic) ||
                                     is_one_slip(lower_case(*nearest), lower_case(topic)));
    return is_slip ? nearest : std::nullopt;
}

TopicList::TopicList(std::vector<ListedTopic> topics) : topics_(std::move(topics)) {
    std::set<std::string> spelled_so;
    for (const ListedTopic& listed : topics_) {
        check_listed(listed);
        if (!spelled_so.insert(likeness(listed.topic)).second)
            throw Error("topic '" + listed.topic + "' appears twice in the list");
    }
    for (const ListedTopic& listed : topics_)
        check_parents(*this, listed);
}

std::optional<std::size_t> TopicList::find(std::string_view topic) const {
    const auto found = std::find_if(topics_.begin(), topics_.end(),
                                    [&](const ListedTopic& listed) { return listed.topic == topic; });
    if (found == topics_.end())
        return std::nullopt;
    return static_cast<std::size_t>(found - topics_.begin());
}

std::optional<std::size_t> TopicList::find_alike(std::string_view topic) const {
    const std::string like = likeness(topic);
    const auto found = std::find_if(topics_.begin(), topics_.end(), [&](const ListedTopic& listed) {
        return likeness(listed.topic) == like;
    });
    if (found == topics_.end())
        return std::nullopt;
    return static_cast<std::size_t>(found - topics_.begin());
}

SpelledTopic TopicList::spelled(const std::string& topic) const {
    if (find(topic))
        return {TopicSpelling::listed, topic};
    if (const auto alike = find_alike(topic))
        return {TopicSpelling::alike, topics_[*alike].topic};
    std::vector<std::string> names;
    for (const ListedTopic& listed : topics_)
        names.push_back(listed.topic);
    if (auto near = nearest_name(topic, names))
        return {TopicSpelling::near, *std::move(near)};
    return {TopicSpelling::unknown, ""};
}

std::vector<std::string> TopicList::with_pieces(const std::vector<std::string>& topics) const {
    std::set<std::string> wanted(topics.begin(), topics.end());
    for (std::size_t before = 0; before != wanted.size();) {
        before = wanted.size();
        for (const ListedTopic& listed : topics_)
            if (wanted.count(listed.parent) > 0)
                wanted.insert(listed.topic);
    }
    std::vector<std::string> all;
    for (const ListedTopic& listed : topics_)
        if (wanted.count(listed.topic) > 0)
            all.push_back(listed.topic);
    for (const std::string& topic : topics)
        if (!find(topic))
            all.push_back(topic);
    return all;
}

namespace {

/// The topics alone, whose parents may be elsewhere.
TopicList without_parents(std::vector<ListedTopic> topics) {
    for (ListedTopic& listed : topics)
        listed.parent.clear();
    return TopicList(std::move(topics));
}

} // namespace

TopicList with_topics(const TopicList& list, const std::vector<ListedTopic>& topics) {
    const TopicList first = without_parents(topics);
    std::vector<ListedTopic> all = topics;
    for (const ListedTopic& here : list.topics()) {
        const auto same = first.find_alike(here.topic);
        if (!same)
            all.push_back(here);
        else if (all[*same].parent.empty())
            all[*same].parent = here.parent;
    }
    const TopicList names = without_parents(all);
    for (ListedTopic& one : all)
        if (const auto parent = names.find_alike(one.parent); parent && !one.parent.empty())
            one.parent = names.topics()[*parent].topic;
    return TopicList(std::move(all));
}

namespace {

/// The topic and its pieces, behind those that its parent has already.
TopicList moved_below_parent(const TopicList& list, std::size_t position) {
    const ListedTopic& moved = list.topics()[position];
    const std::vector<std::string> pieces = list.with_pieces({moved.topic});
    const auto goes = [&](const std::string& topic) {
        return std::find(pieces.begin(), pieces.end(), topic) != pieces.end();
    };
    const std::vector<std::string> of_parent = list.with_pieces({moved.parent});
    const auto last = std::find_if_not(of_parent.rbegin(), of_parent.rend(), goes); // the parent at least
    std::vector<ListedTopic> all;
    for (const ListedTopic& one : list.topics()) {
        if (!goes(one.topic))
            all.push_back(one);
        if (one.topic == *last)
            for (const std::string& piece : pieces)
                all.push_back(list.topics()[*list.find(piece)]);
    }
    return TopicList(std::move(all));
}

} // namespace

TopicList with_topic(const TopicList& list, const ListedTopic& topic) {
    std::vector<ListedTopic> all = list.topics();
    const auto same = list.find_alike(topic.topic);
    if (same) {
        const ListedTopic before = all[*same];
        for (ListedTopic& one : all)
            if (one.parent == before.topic)
                one.parent = topic.topic;
        all[*same] = {topic.topic, topic.parent.empty() ? before.parent : topic.parent};
        const TopicList renamed = with_topics({}, all);
        return topic.parent.empty() || before.parent == renamed.topics()[*same].parent
                   ? renamed
                   : moved_below_parent(renamed, *same);
    }
    all.push_back(topic);
    return topic.parent.empty() ? with_topics({}, all)
                                : moved_below_parent(with_topics({}, all), list.topics().size());
}

} // namespace inkturn
