#include "cli/student/topics.hpp"
#include "cli/class/class.hpp"
#include "cli/commands.hpp"
#include "cli/subjects.hpp"

#include "exchange/json/class.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <iostream>

namespace inkturn {
namespace {

struct ClassTopicsOptions {
    std::string of_class;
    std::string subject;
    bool all = false;
    bool plain = false;
    GainOption gain;
};

bool any_topic(const TopicsFound& found) {
    return std::any_of(found.topics.begin(), found.topics.end(),
                       [](const TopicDiagnosis& one) { return !one.topic.empty(); });
}

void print(const Context& context, const ClassTopicsOptions& options, const TopicsFound& found) {
    if (found.topics.empty()) {
        context.out << "No marks" << (options.of_class.empty() ? "" : " for " + class_title(options.of_class))
                    << (options.subject.empty() ? "" : " in " + visible(options.subject))
                    << " on file.\nNext: inkturn class import FILE --paper ID"
                    << class_words(options.of_class) << '\n';
        return;
    }
    const std::string of_class = class_words(options.of_class);
    print_topics(context, class_title(options.of_class), found,
                 {options.all, options.plain, true, "class topics" + of_class + " --all"});
    context.out << (options.plain ? "" : text_line("expected, a paper: on average over the candidates."))
                << (options.of_class.empty() ? "" : text_line(counted_for_class(options.of_class)))
                << (any_topic(found) ? "Next: inkturn lesson seats" + of_class + " --lessons 1 --places 8\n"
                                     : "Next: inkturn topics of\n");
}

void run(const Context& context, const ClassTopicsOptions& options) {
    const Gain gain = options.gain.read();
    const Store store = context.store_to_read();
    check_subject_filter(context, store, options.subject);
    const Outlooks outlooks(context, store, codes_of(store, options.of_class), options.of_class);
    const std::vector<std::string> codes =
        outlooks.with_marks(codes_of(store, options.of_class), options.subject);
    const TopicsFound found = outlooks.topics_of(codes, options.subject, gain);
    context.answer(
        [&] { return json_of_class(class_named(options.of_class), codes.size(), found.topics, gain); },
        [&] { print(context, options, found); });
}

} // namespace

void add_class_topics(Command& group) {
    auto options = std::make_shared<ClassTopicsOptions>();
    Command topics = group.command("topics", "Where the class loses marks, topic by topic");
    add_class_looked_at(topics, options->of_class, "Only this class (all on file)");
    topics.option("--subject", options->subject, "S", "Only papers of this subject (all)");
    topics.flag("--all", options->all, "All topics, and what was lost by reason and by code");
    topics.flag("--plain", options->plain, "Plain shares: each topic by its own marks alone");
    options->gain.add_to(topics);
    topics.json();
    topics.closing("Example:\n  inkturn class topics --class tuesday --subject pure");
    topics.runs(options, run);
}

} // namespace inkturn
