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

/// What a topic is spelled as in the list; a problem and the topic itself where it isn't in it.
std::string listed_topic(const Context& context, const TopicList& list, const Part& part,
                         std::vector<Problem>& problems) {
    const SpelledTopic spelled = list.spelled(part.topic);
    if (spelled.spelling == TopicSpelling::listed || spelled.spelling == TopicSpelling::alike)
        return spelled.listed;
    const bool is_near = spelled.spelling == TopicSpelling::near;
    if (is_near && is_meant(context, part.topic, spelled.listed))
        return spelled.listed;
    problems.push_back({0, 0,
                        "part " + part.label + ", topic '" + part.topic + "' is not in the list" +
                            (is_near ? "; did you mean '" + spelled.listed + "'?" : "")});
    return part.topic;
}

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
        const std::string doubt = "Part " + part.label + " of " + paper.id() + " has the topic " +
                                  visible(part.topic) + ", which is new. Did you mean " + visible(*meant) +
                                  "?";
        if (context.json || !stdin_is_terminal() || !stderr_is_terminal())
            context.err << text_line("inkturn: " + doubt + " Only parts with the same topic count together.");
        else if (!context.confirmed(doubt + " Put it on file as " + visible(part.topic) + " all the same?"))
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
    std::map<std::string, std::string> listed; // each topic is asked about once
    std::vector<Problem> problems;
    for (Part& part : parts) {
        if (part.topic.empty() || topic_of(was, part) == part.topic)
            continue;
        const auto [known, is_new] = listed.try_emplace(part.topic);
        if (is_new)
            known->second = listed_topic(context, list, part, problems);
        part.topic = known->second;
    }
    refuse_problems(context, "paper " + paper.id(), problems,
                    "nothing was stored: correct it, or add the topic with 'inkturn topics add --topic'");
    return Paper(paper.head(), std::move(parts));
}

} // namespace inkturn
