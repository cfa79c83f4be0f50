#include "inkturn/facts/fact.hpp"

#include "inkturn/base/error.hpp"
#include "inkturn/base/text.hpp"

#include <algorithm>

namespace inkturn {
namespace {

constexpr std::size_t max_topic_length = 200; ///< as a paper's subject and topics

void check_filled(const std::string& text, const std::string& what) {
    check_printable(text, Fact::max_characters, what);
    if (text.empty() || text.front() == ' ' || text.back() == ' ')
        throw Error(what + ": give 1 to " + std::to_string(Fact::max_characters) +
                    " characters, no blank at the ends");
}

} // namespace

void check_prompt(const std::string& prompt) {
    check_filled(prompt, "prompt");
}

void check_answer(const std::string& answer) {
    check_filled(answer, "answer");
}

void check_topic(const std::string& topic) {
    check_printable(topic, max_topic_length, "topic");
}

void check_fact(const Fact& fact) {
    check_prompt(fact.prompt);
    check_answer(fact.answer);
    check_topic(fact.topic);
    check_printable(fact.subject, max_topic_length, "subject");
}

FactMatch match_fact(const Fact& on_file, const Fact& incoming) {
    const bool topics_differ = !incoming.topic.empty() && incoming.topic != on_file.topic;
    if (incoming.answer != on_file.answer || (topics_differ && !on_file.topic.empty()))
        return FactMatch::contradicted;
    return topics_differ ? FactMatch::completed : FactMatch::unchanged;
}

Fact updated_fact(Fact on_file, const Fact& incoming) {
    on_file.answer = incoming.answer;
    if (!incoming.topic.empty())
        on_file.topic = incoming.topic;
    return on_file;
}

const Fact* find_fact(const std::vector<Fact>& facts, FactId id) {
    const auto found =
        std::find_if(facts.begin(), facts.end(), [&](const Fact& fact) { return fact.id == id; });
    return found == facts.end() ? nullptr : &*found;
}

} // namespace inkturn
