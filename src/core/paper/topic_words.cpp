#include "inkturn/paper/topic_words.hpp"

#include "inkturn/base/ascii.hpp"
#include "inkturn/base/likeness.hpp"
#include "inkturn/paper/label.hpp"

#include <algorithm>
#include <iterator>
#include <set>

namespace inkturn {
namespace {

constexpr std::size_t min_word_length = 3; ///< bytes

bool is_of_word(char c) {
    return !is_ascii(c) || is_letter(c);
}

/// In any case alike, each once.
std::set<std::string> words_in(std::string_view text) {
    std::set<std::string> words;
    const std::string folded = likeness(text);
    for (std::size_t at = 0; at < folded.size();) {
        std::size_t end = at;
        while (end < folded.size() && is_of_word(folded[end]))
            ++end;
        if (end - at >= min_word_length)
            words.insert(folded.substr(at, end - at));
        at = std::max(end, at + 1);
    }
    return words;
}

} // namespace

bool TopicProposal::is_sure() const {
    return !topics.empty() && topics[0].words - (topics.size() > 1 ? topics[1].words : 0) >= sure_lead;
}

TopicWords::TopicWords(const std::vector<WordedPart>& known) {
    std::map<std::string, std::size_t> numbers;
    for (const WordedPart& part : known) {
        const auto [found, is_new] = numbers.emplace(part.topic, topics_.size());
        if (is_new)
            topics_.push_back(part.topic);
        Counts& of_group = by_group_[part.group];
        for (const std::string& word : words_in(part.words)) {
            ++counts_[word][found->second];
            ++of_group[word][found->second];
        }
    }
}

const TopicWords::Count* TopicWords::of_group(const std::string& group, const std::string& word) const {
    const auto counts = by_group_.find(group);
    if (counts == by_group_.end())
        return nullptr;
    const auto count = counts->second.find(word);
    return count == counts->second.end() ? nullptr : &count->second;
}

TopicProposal TopicWords::propose(std::string_view words, const std::string& without_group) const {
    std::map<std::string, int> speak_for;
    for (const std::string& word : words_in(words)) {
        const auto counted = counts_.find(word);
        if (counted == counts_.end())
            continue;
        const Count* const left_out = without_group.empty() ? nullptr : of_group(without_group, word);
        int sum = 0;
        std::pair<int, std::size_t> most{0, 0};
        for (const auto& [topic, parts] : counted->second) {
            const int here = parts - (left_out && left_out->count(topic) > 0 ? left_out->at(topic) : 0);
            sum += here;
            most = std::max(most, {here, topic});
        }
        if (2 * most.first > sum)
            ++speak_for[topics_[most.second]];
    }
    TopicProposal proposal;
    for (const auto& [topic, count] : speak_for)
        proposal.topics.push_back({topic, count});
    std::stable_sort(proposal.topics.begin(), proposal.topics.end(),
                     [](const auto& a, const auto& b) { return a.words > b.words; });
    if (proposal.topics.size() > TopicProposal::max_topics)
        proposal.topics.resize(TopicProposal::max_topics);
    return proposal;
}

HeldOutTopics held_out(const std::vector<WordedPart>& known) {
    const TopicWords words(known);
    HeldOutTopics fared;
    for (const WordedPart& part : known) {
        const TopicProposal proposal = words.propose(part.words, part.group);
        ++fared.parts;
        if (!proposal.is_sure())
            continue;
        ++fared.sure;
        if (proposal.topics.front().topic == part.topic)
            ++fared.right;
    }
    return fared;
}

std::vector<WordedPart> with_listed_topics_alone(std::vector<WordedPart> known, const TopicList& list) {
    known.erase(std::remove_if(known.begin(), known.end(),
                               [&](const WordedPart& part) { return !list.find(part.topic); }),
                known.end());
    return known;
}

std::string telling_words(const Paper& paper, std::size_t part, const WordsByPart& words) {
    const auto known = [&](std::size_t position) {
        const auto found = words.find(paper.part(position).label);
        return found == words.end() ? std::string() : found->second;
    };
    std::size_t first = part;
    while (first > 0 && question_of(paper.part(first - 1).label) == question_of(paper.part(part).label))
        --first;
    return first == part ? known(part) : known(first) + " " + known(part);
}

std::vector<WordedPart> worded_parts(const std::vector<std::shared_ptr<const Paper>>& papers,
                                     const std::vector<Copies>& copies,
                                     const std::map<std::string, WordsByPart>& words) {
    std::set<QuestionName> copied;
    for (const Copies& same : copies)
        copied.insert(std::next(same.begin()), same.end());
    std::vector<WordedPart> parts;
    std::set<std::string> with_parts;
    for (const auto& paper : papers) {
        const auto of_paper = words.find(paper->id());
        for (std::size_t i = 0; of_paper != words.end() && i < paper->parts().size(); ++i) {
            const Part& part = paper->part(i);
            const std::string question(question_of(part.label));
            std::string telling = telling_words(*paper, i, of_paper->second);
            if (part.topic.empty() || telling.empty() || copied.count({paper->id(), question}) > 0)
                continue;
            with_parts.insert(paper->id());
            parts.push_back({paper->id() + " " + question, part.topic, std::move(telling)});
        }
    }
    if (with_parts.size() > 1)
        for (WordedPart& part : parts)
            part.group.resize(part.group.find(' '));
    return parts;
}

} // namespace inkturn
