#include "view/text/ratings.hpp"

#include "view/text/text.hpp"

#include <algorithm>

namespace inkturn {
namespace {

constexpr std::size_t max_topics_named = 6;

/// The first ones, and how many more there are.
std::string named_topics(const std::vector<std::string>& texts) {
    if (texts.size() <= max_topics_named)
        return joined(texts, " and ");
    const std::vector<std::string> first(texts.begin(), texts.begin() + max_topics_named);
    return joined(first, ", ") + " and " + std::to_string(texts.size() - max_topics_named) + " more";
}

std::string with_rating(const std::string& topic, Understanding understanding) {
    return visible(topic) + " (" + understanding_text(understanding) + ")";
}

std::string count_of_things(std::size_t count) {
    return count == 1 ? "one thing" : count == 2 ? "two things" : "three things";
}

std::string going_by(const RatedTopic& topic) {
    return topic.goes_by_marks() ? "marks" : topic.goes_by_rating() ? "rating" : "";
}

} // namespace

std::string understanding_text(Understanding understanding) {
    return understanding == Understanding::not_understood ? "not understood"
                                                          : std::string(name(understanding));
}

std::string goes_by_sentence(const Timetable& timetable) {
    if (timetable.by_ratings.empty())
        return "";
    if (timetable.first_things > 0)
        return "There are no marks yet, so the plan goes by your ratings: " +
               count_of_things(timetable.first_things) +
               " for this week, understanding first, then facts, then practice. More comes as these are "
               "done, and papers once the first is sat.";
    std::vector<std::string> texts;
    for (const TopicRating& rating : timetable.by_ratings)
        texts.push_back(with_rating(rating.topic, rating.understanding));
    return "The plan goes by your ratings for " + named_topics(texts) + ", until " +
           counted_marks(RatedTopic::outweighing) + (texts.size() == 1 ? " of it" : " of each") +
           " have been tried, and by marks for the rest.";
}

std::string goes_by_text(const Timetable& timetable) {
    const std::string sentence = goes_by_sentence(timetable);
    return sentence.empty() ? sentence : text_line(sentence);
}

Table ratings_table(const std::vector<RatedTopic>& topics) {
    Table table({{"topic", Table::Align::left_may_be_cut},
                 {"subject", Table::Align::left_may_be_cut, true},
                 {"your rating"},
                 {"rated on"},
                 {"tried", Table::Align::right},
                 {"goes by"}});
    for (const RatedTopic& topic : topics)
        table.add_row({topic.name.topic, topic.name.subject,
                       topic.rating ? understanding_text(topic.rating->understanding) : "",
                       topic.rating ? date_text(topic.rating->day) : "",
                       topic.tried == Marks(0) ? "never" : counted_marks(topic.tried), going_by(topic)});
    return table;
}

std::string never_tried_text(const std::vector<RatedTopic>& topics) {
    std::vector<std::string> texts;
    for (const RatedTopic& topic : topics)
        if (topic.tried == Marks(0))
            texts.push_back(topic.rating ? with_rating(topic.name.topic, topic.rating->understanding)
                                         : visible(topic.name.topic));
    return texts.empty() ? "" : text_line("Never tried: " + named_topics(texts) + ".");
}

} // namespace inkturn
