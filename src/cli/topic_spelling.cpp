#include "cli/topic_spelling.hpp"

#include "cli/csv_options.hpp"
#include "cli/terminal.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/store/topic_lists.hpp"
#include "view/text/text.hpp"

#include <map>

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

bool had_topic(const Paper& was, const Part& part) {
    const auto position = was.find_part(part.label);
    return position && was.part(*position).topic == part.topic;
}

} // namespace

bool is_meant(const Context& context, const std::string& topic, const std::string& listed) {
    return stdin_is_terminal() && context.confirmed("The list of topics has no " + visible(topic) +
                                                    ". Is that " + visible(listed) + "?");
}

Paper with_listed_topics(const Context& context, const Store& store, const Paper& paper, const Paper* was) {
    const TopicList list = TopicLists::of(store, paper.subject());
    if (list.empty())
        return paper;
    std::vector<Part> parts = paper.parts();
    std::map<std::string, std::string> listed; // each topic is asked about once
    std::vector<Problem> problems;
    for (Part& part : parts) {
        if (part.topic.empty() || (was && had_topic(*was, part)))
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
