#include "cli/topic_spelling.hpp"

#include "cli/csv_options.hpp"
#include "cli/terminal.hpp"
#include "inkturn/base/text.hpp"
#include "inkturn/store/topic_lists.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <map>
#include <set>

namespace inkturn {
namespace {

/// Spells topics as the list of their subject does.
class ListedSpelling {
  public:
    ListedSpelling(const Context& context, const TopicList& list) : context_(context), list_(list) {}

    /// A problem, and the topic itself, where it isn't in the list. Each topic is asked about once.
    std::string of(const std::string& topic, const std::string& what) {
        const auto [known, is_new] = listed_.try_emplace(topic, topic);
        if (is_new)
            known->second = spelled(topic, what);
        return known->second;
    }

    void refuse(const std::string& name) const {
        refuse_problems(context_, name, problems_,
                        "nothing was stored: correct it, or add the topic with 'inkturn topics add --topic'");
    }

  private:
    std::string spelled(const std::string& topic, const std::string& what) {
        const SpelledTopic spelled = list_.spelled(topic);
        if (spelled.spelling == TopicSpelling::listed || spelled.spelling == TopicSpelling::alike)
            return spelled.listed;
        const bool is_near = spelled.spelling == TopicSpelling::near;
        if (is_near && is_meant(context_, topic, spelled.listed))
            return spelled.listed;
        problems_.push_back({0, 0,
                             what + ", topic '" + topic + "' is not in the list" +
                                 (is_near ? "; did you mean '" + spelled.listed + "'?" : "")});
        return topic;
    }

    const Context& context_;
    const TopicList& list_;
    std::map<std::string, std::string> listed_;
    std::vector<Problem> problems_;
};

/// Topics of the subject's other papers on file.
std::vector<std::string> other_topics(const Store& store, const Paper& paper) {
    std::set<std::string> topics;
    for (const auto& one : store.papers())
        if (one->subject() == paper.subject() && one->id() != paper.id())
            for (const Part& part : one->parts())
                topics.insert(part.topic);
    topics.erase("");
    return {topics.begin(), topics.end()};
}

/// The topic that the part had; empty if none.
std::string topic_of(const Paper* was, const Part& part) {
    const auto position = was ? was->find_part(part.label) : std::nullopt;
    return position ? was->part(*position).topic : "";
}

} // namespace

bool is_meant(const Context& context, const std::string& topic, const std::string& listed) {
    return stdin_is_terminal() && context.confirmed("The list of topics has no " + visible(topic) +
                                                    ". Is that " + visible(listed) + "?");
}

void question_topics(const Context& context, const Store& store, const Paper& paper, const Paper* was) {
    if (!TopicLists::of(store, paper.subject()).empty())
        return;
    std::vector<std::string> known = other_topics(store, paper);
    for (const Part& part : paper.parts()) {
        if (part.topic.empty() || std::find(known.begin(), known.end(), part.topic) != known.end())
            continue;
        const std::string before = topic_of(was, part);
        const auto meant = before == part.topic ? std::nullopt : topic_meant(part.topic, known);
        known.push_back(part.topic);
        if (!meant || *meant == before) // which is corrected, then
            continue;
        const std::string found =
            part.label + " of " + paper.id() + " has the topic " + visible(part.topic) + ", which is new";
        if (context.json || !stdin_is_terminal() || !stderr_is_terminal())
            context.err << text_line(
                "inkturn: note: part " + found + ", though " + visible(*meant) +
                " is on file: only parts with the same topic count together. If it is a slip, "
                "'inkturn undo' takes it back");
        else if (!context.confirmed("Part " + found + ". Did you mean " + visible(*meant) +
                                    "? Put it on file as " + visible(part.topic) + " all the same?"))
            throw Error("nothing was stored");
    }
}

Paper with_listed_topics(const Context& context, const Store& store, const Paper& paper, const Paper* was) {
    const TopicList list = TopicLists::of(store, paper.subject());
    if (list.empty()) {
        question_topics(context, store, paper, was);
        return paper;
    }
    std::vector<Part> parts = paper.parts();
    ListedSpelling spelling(context, list);
    for (Part& part : parts)
        if (!part.topic.empty() && topic_of(was, part) != part.topic)
            part.topic = spelling.of(part.topic, "part " + part.label);
    spelling.refuse("paper " + paper.id());
    return Paper(paper.head(), std::move(parts));
}

std::vector<Fact> with_listed_topics(const Context& context, const Store& store, std::vector<Fact> facts,
                                     const std::vector<Fact>& on_file) {
    if (facts.empty())
        return facts;
    const TopicList list = TopicLists::of(store, facts.front().subject);
    if (list.empty())
        return facts;
    ListedSpelling spelling(context, list);
    for (Fact& fact : facts) {
        const bool is_known = std::any_of(on_file.begin(), on_file.end(), [&](const Fact& one) {
            return one.subject == fact.subject && one.prompt == fact.prompt && one.topic == fact.topic;
        });
        if (!fact.topic.empty() && !is_known)
            fact.topic = spelling.of(fact.topic, "fact '" + fact.prompt + "'");
    }
    spelling.refuse("facts");
    return facts;
}

} // namespace inkturn
