#include "cli/student/topics.hpp"

#include "cli/commands.hpp"
#include "cli/student/topics_on_file.hpp"
#include "cli/subjects.hpp"

#include "exchange/json/topics.hpp"
#include "inkturn/base/number.hpp"
#include "inkturn/statistics/diagnosis.hpp"
#include "view/text/diagnosis.hpp"
#include "view/text/ratings.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <iostream>

namespace inkturn {
namespace {

struct TopicsOptions {
    std::string subject;
    bool all = false;
    bool plain = false;
    GainOption gain;
};

constexpr std::size_t topics_shown = 8;

/// Before there are marks: how the topics are rated.
void print_without_marks(const Context& context, const std::string& code,
                         const std::vector<RatedTopic>& rated) {
    context.out << "No marks on file for candidate " << visible(code) << ".\n";
    const bool any_rated = std::any_of(rated.begin(), rated.end(),
                                       [](const RatedTopic& topic) { return topic.rating.has_value(); });
    if (any_rated)
        context.out << '\n' << ratings_table(rated) << "\n" << context.next("plan");
    else if (!rated.empty())
        context.out << never_tried_text(rated) << context.next("topics rate")
                    << "or, once a paper is sat: inkturn log PAPER PART=MARKS... --rest full"
                    << context.same_candidate() << '\n';
    else
        context.out << context.next("log PAPER PART=MARKS... --rest full");
}

/// For which topics the plan goes by what the candidate said.
std::string by_rating_text(const std::vector<RatedTopic>& rated) {
    Timetable made;
    made.by_ratings = ratings_that_count(rated);
    return goes_by_text(made);
}

void print(const Context& context, const TopicsOptions& options, const std::string& code,
           const TopicsFound& found, const std::vector<RatedTopic>& rated) {
    if (found.topics.empty()) {
        print_without_marks(context, code, rated);
        return;
    }
    print_topics(context, "candidate " + visible(code), found,
                 {options.all, options.plain, false, "topics --all"});
    context.out << never_tried_text(rated) << by_rating_text(rated) << context.next("plan");
}

void run(const Context& context, const TopicsOptions& options) {
    const Gain gain = options.gain.read();
    const Store store = context.store_to_read();
    const Candidate candidate = context.candidate_on_file(store);
    const std::string& code = candidate.code;
    check_subject_filter(context, store, options.subject);
    const Outlooks outlooks(context, store, peers_of(store, code));
    TopicsFound found = outlooks.topics_of({code}, options.subject, gain);
    const std::vector<RatedTopic> rated = rated_topics_on_file(store, candidate, options.subject);
    add_rated_advice(found.topics, candidate, rated);
    context.answer([&] { return json_of(found.topics, found.candidates, found.gain); },
                   [&] { print(context, options, code, found, rated); });
}

} // namespace

void GainOption::add_to(Command& command) {
    command.option("--gain", percent, "P",
                   "Of 100 marks lost on a topic, how many an hour's work on it is taken to win back (" +
                       std::to_string(Gain::usual_percent) + ")");
}

Gain GainOption::read() const {
    return percent.empty() ? Gain() : Gain(parse_whole_number(percent, 1, 100, "--gain"));
}

void print_topics(const Context& context, const std::string& whose, TopicsFound found,
                  const TopicsShown& shown) {
    std::vector<TopicDiagnosis>& topics = found.topics;
    const std::string opening = topics_opening(topics, shown.of_class, found.gain);
    const std::size_t left_out =
        shown.all || topics.size() <= topics_shown ? 0 : topics.size() - topics_shown;
    topics.resize(topics.size() - left_out);
    context.out << context.heading("Topics: " + whose) << '\n'
                << (shown.plain ? "" : opening) << '\n'
                << (shown.plain ? plain_topics_table(topics) : topics_table(topics));
    if (left_out > 0)
        context.out << "and " << left_out << " more: inkturn " << shown.command << '\n';
    context.out << '\n';
    if (shown.plain) {
        context.out << text_line(
            "Each topic by its own marks alone; 95%: where the unaided share may lie, with so "
            "few parts. Without --plain others' marks and other topics count too.");
        return;
    }
    if (shown.all) {
        if (const auto table = lost_by_reason_table(topics))
            context.out << *table << '\n';
        if (const auto table = lost_by_code_table(topics))
            context.out << *table << '\n';
    }
    context.out << topics_key(topics, found.candidates);
}

void add_topics(Command& line) {
    auto options = std::make_shared<TopicsOptions>();
    Command topics = line.group("topics", "Where marks are lost, topic by topic, and what to do about it");
    topics.option("--subject", options->subject, "S", "Only papers of this subject (all)");
    topics.flag("--all", options->all, "All topics, and what was lost by reason and by code");
    topics.flag("--plain", options->plain, "Plain shares: each topic by its own marks alone");
    options->gain.add_to(topics);
    topics.json();
    topics.closing("Example:\n  inkturn topics --subject pure");
    topics.runs(options, run);
    add_topics_add(topics);
    add_topics_list(topics);
    add_topics_of(topics);
    add_topics_rate(topics);
    add_topics_relearned(topics);
}

} // namespace inkturn
