#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

/// A topic as a subject's list has it.
struct ListedTopic {
    std::string topic;
    std::string parent{}; ///< the topic of the list that it is a piece of; empty: none

    friend bool operator==(const ListedTopic& a, const ListedTopic& b) {
        return a.topic == b.topic && a.parent == b.parent;
    }
};

/// How a topic stands against a list.
enum class TopicSpelling : unsigned char {
    listed,
    alike,  ///< it differs from a listed one in case, blanks or accents alone
    near,   ///< it was probably meant to be a listed one
    unknown ///< it is like none
};

struct SpelledTopic {
    TopicSpelling spelling;
    std::string listed; ///< the one of the list; empty: unknown
};

/// The one of these that a slip of a finger, or capitals, made this topic of, where no list decides; mean and
/// median are two.
std::optional<std::string> topic_meant(const std::string& topic, const std::vector<std::string>& known);

/// The topics of one subject in their order: where their spelling is decided. No two are spelled alike, and
/// none is a piece of itself.
class TopicList {
  public:
    TopicList() = default; ///< empty: topics may be spelled in any way
    /// Throws Error.
    explicit TopicList(std::vector<ListedTopic> topics);

    const std::vector<ListedTopic>& topics() const { return topics_; }
    bool empty() const { return topics_.empty(); }

    /// The position of the topic, spelled so.
    std::optional<std::size_t> find(std::string_view topic) const;
    /// The position of the topic that is spelled alike.
    std::optional<std::size_t> find_alike(std::string_view topic) const;

    SpelledTopic spelled(const std::string& topic) const;

    /// The topics with all that are pieces of them, in the order of the list; those that it doesn't hold come
    /// last, as they were given.
    std::vector<std::string> with_pieces(const std::vector<std::string>& topics) const;

  private:
    std::vector<ListedTopic> topics_;
};

/// The list with these topics first, in their order; those of the list that are spelled alike are spelled as
/// these are, and a parent that these leave open stays. Throws Error.
TopicList with_topics(const TopicList& list, const std::vector<ListedTopic>& topics);

/// The list with one topic more: behind the last piece of its parent, or at the end. Of one that is spelled
/// alike the spelling is changed, and the parent if it has one here. Throws Error.
TopicList with_topic(const TopicList& list, const ListedTopic& topic);

} // namespace inkturn
