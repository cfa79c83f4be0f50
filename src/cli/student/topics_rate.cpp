#include "cli/desk/live_clock.hpp"
#include "cli/desk/live_terminal.hpp"
#include "cli/student/timetable_on_file.hpp"
#include "cli/student/topics.hpp"
#include "cli/student/topics_on_file.hpp"
#include "cli/terminal.hpp"

#include "exchange/json/ratings.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/store/change.hpp"
#include "inkturn/store/plan.hpp"
#include "view/text/ratings.hpp"
#include "view/text/text.hpp"
#include "view/text/timetable.hpp"

#include <algorithm>
#include <iostream>

namespace inkturn {
namespace {

struct TopicsRateOptions {
    std::vector<std::string> entries;
    std::string subject;
    bool list = false;
};

/// What was said, and by which signal the program is to end.
struct RatingsTyped {
    std::vector<TopicRating> ratings;
    std::optional<int> signal{};
};

/// Goes down the topics, a key each.
class RatingWalk {
  public:
    RatingWalk(const Context& context, const std::vector<RatedTopic>& topics)
        : today_(context.date_today()),
          bold_(!context.no_colour && stdout_takes_styles()),
          topics_(topics),
          said_(topics.size()) {}

    RatingsTyped walk() {
        RatingsTyped typed;
        {
            LiveTerminal terminal;
            while (at_ < topics_.size() && take(terminal, typed)) {
            }
        }
        for (std::size_t i = 0; i < topics_.size(); ++i)
            if (said_[i])
                typed.ratings.push_back({topics_[i].name.subject, topics_[i].name.topic, *said_[i], today_});
        return typed;
    }

  private:
    /// False once it is to end.
    bool take(LiveTerminal& terminal, RatingsTyped& typed) {
        constexpr std::chrono::minutes long_enough{60};
        draw(terminal);
        const Wake wake = terminal.wait(long_enough);
        typed.signal = wake.signal;
        if (wake.why == Wake::Why::end || wake.key == "q")
            return false;
        if (wake.why == Wake::Why::key)
            take_key(wake.key);
        return true;
    }

    void take_key(const std::string& key) {
        message_.clear();
        if (key == "b") {
            at_ -= at_ > 0 ? 1 : 0;
        } else if (key == "\r" || key == "\n") {
            ++at_;
        } else if (key >= "1" && key <= "3" && key.size() == 1) {
            said_[at_++] = all_understandings[static_cast<std::size_t>(key.front() - '1')];
        } else {
            message_ = "Press 1, 2 or 3, Enter to leave it as it is, b to go back, or q to end.";
        }
    }

    void draw(const LiveTerminal& terminal) const {
        const RatedTopic& topic = topics_[at_];
        const auto now = said_[at_]     ? said_[at_]
                         : topic.rating ? std::optional(topic.rating->understanding)
                                        : std::nullopt;
        terminal.draw({std::to_string(at_ + 1) + " of " + std::to_string(topics_.size()) + "  " +
                           visible(topic.name.topic) +
                           (topic.name.subject.empty() ? "" : " (" + visible(topic.name.subject) + ")"),
                       (now ? understanding_text(*now) + " so far; " : "") +
                           (topic.met ? counted_marks(topic.tried) + " tried" : "never tried"),
                       "1 not understood  2 shaky  3 sure", "Enter leave  b back  q end"},
                      message_, bold_);
    }

    Day today_;
    bool bold_;
    const std::vector<RatedTopic>& topics_;
    std::vector<std::optional<Understanding>> said_;
    std::size_t at_ = 0;
    std::string message_;
};

/// `vectors=shaky`; a topic may hold a `=` itself.
TopicRating parse_rating(const std::string& entry, const std::vector<TopicName>& topics, Day today) {
    const std::size_t equals = entry.rfind('=');
    if (equals == std::string::npos)
        throw Error("'" + entry + "': write TOPIC=RATING, such as vectors=shaky");
    const TopicName topic = topic_named(topics, entry.substr(0, equals));
    return {topic.subject, topic.topic, parse_understanding(entry.substr(equals + 1)), today};
}

std::vector<TopicRating> parse_ratings(const TopicsRateOptions& options, const std::vector<TopicName>& topics,
                                       Day today) {
    std::vector<TopicRating> ratings;
    for (const std::string& entry : options.entries) {
        TopicRating rating = parse_rating(entry, topics, today);
        if (std::any_of(ratings.begin(), ratings.end(), [&](const TopicRating& one) {
                return one.subject == rating.subject && one.topic == rating.topic;
            }))
            throw Error("topic '" + rating.topic + "' is rated twice: leave one out");
        ratings.push_back(std::move(rating));
    }
    return ratings;
}

/// All of them in one change, and the plan that follows.
std::vector<PlanChange> store_ratings(const Context& context, const std::vector<TopicRating>& ratings) {
    const Day today = context.date_today();
    Store store = context.store_to_write();
    Store::Change change(store);
    const std::string code = context.candidate_code();
    const Candidate days_before = store.candidate(code);
    keep_days_passed(change, code, today);
    for (const TopicRating& rating : ratings)
        PlanOnFile(change).rate(code, rating);
    const KeptTimetable kept = keep_timetable(change, store.candidate(code), today, days_before);
    change.commit();
    return kept.moved;
}

void print_ratings(const Context& context, const std::vector<RatedTopic>& topics, std::size_t rated,
                   const std::vector<PlanChange>& moved) {
    if (rated > 0)
        context.out << "Rated " << count_text(rated, "topic") << ".\n\n";
    context.out << ratings_table(topics) << '\n'
                << text_line("The plan goes by a rating until " + counted_marks(RatedTopic::outweighing) +
                             " of the topic have been tried, unseen; then it goes by the marks.")
                << outweighed_text(topics) << changes_text(moved) << context.next("plan");
}

void rate(const Context& context, const TopicsRateOptions& options) {
    const Day today = context.date_today();
    const Store store = context.store_to_read();
    const Candidate candidate = store.candidate(context.candidate_code());
    const std::vector<RatedTopic> topics = rated_topics_on_file(store, candidate, options.subject);
    if (topics.empty())
        throw Error(options.subject.empty()
                        ? "no topic is on file; 'inkturn topics add' puts a subject's list of topics there"
                        : "no topic on file in subject '" + options.subject +
                              "'; 'inkturn topics add' puts its list of topics there");
    RatingsTyped typed;
    if (!options.entries.empty()) {
        typed.ratings = parse_ratings(options, topics_on_file(store, options.subject), today);
    } else if (!options.list && !context.json && stdin_is_terminal() && stdout_is_terminal()) {
        context.out.flush();
        typed = RatingWalk(context, topics).walk();
    }
    const std::vector<PlanChange> moved =
        typed.ratings.empty() ? std::vector<PlanChange>() : store_ratings(context, typed.ratings);
    if (typed.signal)
        end_by(*typed.signal);
    const std::vector<RatedTopic> now = rated_topics_on_file(store, candidate, options.subject);
    context.answer([&] { return json_of(now); },
                   [&] { print_ratings(context, now, typed.ratings.size(), moved); });
}

} // namespace

void add_topics_rate(Command& topics) {
    auto options = std::make_shared<TopicsRateOptions>();
    Command command =
        topics.command("rate", "Say how well you understand each topic: one key each, as often as you like");
    command.argument("TOPIC=RATING", options->entries,
                     "not-understood, shaky or sure; without any, a terminal walks through the topics");
    command.option("--subject", options->subject, "S", "Only its topics (all)");
    command.flag("--list", options->list, "Only show the ratings");
    command.json();
    command.closing(
        "Examples:\n  inkturn topics rate\n  inkturn topics rate vectors=shaky proof=not-understood\n"
        "Ratings are a start: the plan goes by marks once there are some.");
    command.runs(options, rate);
}

} // namespace inkturn
