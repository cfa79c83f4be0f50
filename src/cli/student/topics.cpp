#include "cli/student/topics.hpp"

#include "cli/commands.hpp"
#include "cli/subjects.hpp"

#include "exchange/json/topics.hpp"
#include "inkturn/statistics/diagnosis.hpp"
#include "view/text/diagnosis.hpp"
#include "view/text/text.hpp"

#include <iostream>

namespace inkturn {
namespace {

struct TopicsOptions {
    std::string subject;
    bool all = false;
};

constexpr std::size_t topics_shown = 8;

void print(const Context& context, const TopicsOptions& options, const std::string& code,
           const std::vector<TopicDiagnosis>& topics) {
    if (topics.empty()) {
        context.out << "No marks on file for candidate " << visible(code)
                    << ".\nNext: inkturn log PAPER PART=MARKS... --rest full\n";
        return;
    }
    print_topics(context, "candidate " + visible(code), topics, options.all, "topics --all");
    context.out << "Next: inkturn plan\n";
}

void run(const Context& context, const TopicsOptions& options) {
    const Store store = context.store_to_read();
    const Candidate candidate = context.candidate_on_file(store);
    check_subject_filter(context, store, options.subject);
    const std::vector<TopicDiagnosis> topics = diagnose({latest_marks(candidate)}, options.subject);
    context.answer([&] { return json_of(topics); }, [&] { print(context, options, candidate.code, topics); });
}

} // namespace

void print_topics(const Context& context, const std::string& whose, std::vector<TopicDiagnosis> topics,
                  bool all, const std::string& command) {
    const std::size_t left_out = all || topics.size() <= topics_shown ? 0 : topics.size() - topics_shown;
    topics.resize(topics.size() - left_out);
    context.out << context.heading("Topics: " + whose) << ", by the latest attempt at each part\n\n"
                << topics_table(topics);
    if (left_out > 0)
        context.out << "and " << left_out << " more: inkturn " << command << '\n';
    context.out << '\n';
    if (const auto table = lost_by_reason_table(topics))
        context.out << *table << '\n';
    if (const auto table = lost_by_code_table(topics))
        context.out << *table << '\n';
    context.out << topics_key(topics);
}

void add_topics(Command& line) {
    auto options = std::make_shared<TopicsOptions>();
    Command topics = line.group("topics", "Where marks are lost, topic by topic, and what to do about it");
    topics.option("--subject", options->subject, "S", "Only papers of this subject (all)");
    topics.flag("--all", options->all, "All topics, not only the eight that come first");
    topics.json();
    topics.closing("Example:\n  inkturn topics --subject pure");
    topics.runs(options, run);
    add_topics_relearned(topics);
}

} // namespace inkturn
