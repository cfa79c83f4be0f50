#pragma once

#include "inkturn/paper/copies.hpp"
#include "inkturn/paper/paper.hpp"
#include "inkturn/paper/topic_list.hpp"

#include <cstddef>
#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

namespace inkturn {

/// A part whose topic is known, with its printed words.
struct WordedPart {
    std::string group; ///< parts that may share words for another reason than their topic, such as a paper
    std::string topic; ///< not empty
    std::string words;
};

/// What the words of a part speak for.
struct TopicProposal {
    struct Topic {
        std::string topic;
        int words; ///< 1 or more
    };
    std::vector<Topic> topics; ///< by words, most first, then by name; at most max_topics

    static constexpr std::size_t max_topics = 3;
    static constexpr int sure_lead = 2; ///< words that the first must have over the second

    bool is_sure() const;
};

/// Proposes topics by a plain count of words. A word, of three letters or more and in any case, speaks for a
/// topic if that is the topic of more than half of the parts that have it; the parts of a group that is left
/// out don't count.
class TopicWords {
  public:
    explicit TopicWords(const std::vector<WordedPart>& known);

    TopicProposal propose(std::string_view words, const std::string& without_group = "") const;

  private:
    /// In how many parts of each topic, by its number.
    using Count = std::unordered_map<std::size_t, int>;
    using Counts = std::unordered_map<std::string, Count>; ///< by word
    const Count* of_group(const std::string& group, const std::string& word) const;

    std::vector<std::string> topics_;
    Counts counts_;
    std::map<std::string, Counts> by_group_;
};

/// How proposals fare on the parts whose topic is known, each proposed without its group.
struct HeldOutTopics {
    std::size_t parts = 0;
    std::size_t sure = 0;  ///< of these
    std::size_t right = 0; ///< of the sure ones
};

HeldOutTopics held_out(const std::vector<WordedPart>& known);

/// Those whose topic is in the list: no other is to be proposed.
std::vector<WordedPart> with_listed_topics_alone(std::vector<WordedPart> known, const TopicList& list);

/// The first words printed of parts, by label.
using WordsByPart = std::map<std::string, std::string>;

/// What a part's topic is told by: its words, and before them those of the first part of its question, where
/// what all of its parts are about is said.
std::string telling_words(const Paper& paper, std::size_t part, const WordsByPart& words);

/// The parts of these papers with a topic and words, `words` by paper's id. Copies count once. The groups are
/// papers, or questions where only one paper has such parts.
std::vector<WordedPart> worded_parts(const std::vector<std::shared_ptr<const Paper>>& papers,
                                     const std::vector<Copies>& copies,
                                     const std::map<std::string, WordsByPart>& words);

} // namespace inkturn
