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
};

using Latest = std::vector<std::vector<LatestMarks>>;

/// Of the candidates who have marks in the subject.
Latest latest_on_file(const Store& store, const ClassTopicsOptions& options) {
    Latest candidates;
    for (const std::string& code : codes_of(store, options.of_class)) {
        std::vector<LatestMarks> latest = latest_marks(store.candidate(code));
        const bool any = std::any_of(latest.begin(), latest.end(), [&](const LatestMarks& marks) {
            return options.subject.empty() || marks.paper->subject() == options.subject;
        });
        if (any)
            candidates.push_back(std::move(latest));
    }
    return candidates;
}

void print(const Context& context, const ClassTopicsOptions& options, std::size_t candidates,
           const std::vector<TopicDiagnosis>& topics) {
    if (topics.empty()) {
        context.out << "No marks" << (options.of_class.empty() ? "" : " for " + class_title(options.of_class))
                    << (options.subject.empty() ? "" : " in " + visible(options.subject))
                    << " on file.\nNext: inkturn class import FILE --paper ID\n";
        return;
    }
    print_topics(context, class_title(options.of_class), topics, options.all, "class topics --all");
    context.out << "Over " << count_text(candidates, "candidate")
                << "; a part counts once for each one who sat it.\n"
                   "Next: inkturn class seats --classes 1 --places 8\n";
}

void run(const Context& context, const ClassTopicsOptions& options) {
    const Store store = context.store_to_read();
    check_subject_filter(context, store, options.subject);
    const Latest latest = latest_on_file(store, options);
    const std::vector<TopicDiagnosis> topics = diagnose(latest, options.subject);
    context.answer([&] { return json_of_class(class_named(options.of_class), latest.size(), topics); },
                   [&] { print(context, options, latest.size(), topics); });
}

} // namespace

void add_class_topics(Command& group) {
    auto options = std::make_shared<ClassTopicsOptions>();
    Command topics = group.command("topics", "Where the class loses marks, topic by topic");
    add_class_option(topics, options->of_class, "Only this class (all on file)");
    topics.option("--subject", options->subject, "S", "Only papers of this subject (all)");
    topics.flag("--all", options->all, "All topics, not only the eight that come first");
    topics.json();
    topics.closing("Example:\n  inkturn class topics --class tuesday --subject pure");
    topics.runs(options, run);
}

} // namespace inkturn
