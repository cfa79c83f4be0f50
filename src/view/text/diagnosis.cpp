#include "view/text/diagnosis.hpp"

#include "inkturn/plan/rating.hpp"
#include "view/text/retries.hpp"
#include "view/text/sittings.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <initializer_list>
#include <iterator>
#include <set>

namespace inkturn {
namespace {

using Align = Table::Align;

constexpr std::array<Advice, 6> all_advice{Advice::relearn, Advice::recall,   Advice::care,
                                           Advice::pace,    Advice::practise, Advice::firm};

std::string shown(const std::string& topic) {
    return topic.empty() ? "(no topic)" : topic;
}

std::string count(Marks marks) {
    return marks == Marks(0) ? "" : std::to_string(marks.count());
}

/// In percent, rounded outwards.
std::string interval_text(const Interval& interval) {
    return std::to_string(std::lround(std::floor(100 * interval.low))) + "-" +
           std::to_string(std::lround(std::ceil(100 * interval.high))) + "%";
}

std::string whole_percent(double share) {
    return std::to_string(std::lround(100 * share)) + "%";
}

std::string out_of(Marks earned, Marks max) {
    return max == Marks(0) ? "" : std::to_string(earned.count()) + "/" + std::to_string(max.count());
}

std::vector<std::string> lost_row(const TopicDiagnosis& topic, std::initializer_list<Marks> lost) {
    std::vector<std::string> row{shown(topic.topic)};
    std::transform(lost.begin(), lost.end(), std::back_inserter(row), count);
    return row;
}

std::string instruction(Advice advice) {
    switch (advice) {
    case Advice::relearn:
        return "relearn it";
    case Advice::recall:
        return "learn its facts by heart";
    case Advice::care:
        return "work with more care, checking each line";
    case Advice::pace:
        return "work faster on it";
    case Advice::practise:
        return "practise it";
    case Advice::firm:
        return "keep it up";
    }
    return "";
}

bool codes_tell(const TopicDiagnosis& topic) {
    return topic.lost_code_unknown < topic.lost.all();
}

std::string meaning(Advice advice) {
    switch (advice) {
    case Advice::relearn:
        return "marks lost because the method isn't known";
    case Advice::recall:
        return "marks lost because facts aren't known by heart";
    case Advice::care:
        return "marks lost to slips and misreadings, or to accuracy after a right method";
    case Advice::pace:
        return "marks lost to unfinished or untried work, or earned only in overtime";
    case Advice::practise:
        return "most of the marks went without a reason: state one as you mark";
    case Advice::firm:
        return "no marks lost so far, or an expected share of 80% or more";
    }
    return "";
}

bool any_again(const std::vector<TopicDiagnosis>& topics) {
    return std::any_of(topics.begin(), topics.end(),
                       [](const TopicDiagnosis& topic) { return topic.again_marks > Marks(0); });
}

bool in_several_subjects(const std::vector<TopicDiagnosis>& topics) {
    return std::any_of(topics.begin(), topics.end(),
                       [&](const TopicDiagnosis& topic) { return topic.subject != topics.front().subject; });
}

std::string relearned_note(const TopicDiagnosis& topic) {
    const std::string when =
        topic.candidates == 1
            ? "on " + day_text(topic.relearned.back())
            : "by " + count_text(topic.relearned.size(), "candidate") + ", last on " +
                  day_text(*std::max_element(topic.relearned.begin(), topic.relearned.end()));
    return visible(topic.topic) + " was relearned " + when +
           ", after its marks: new parts will show whether that helped.";
}

/// Relearned after the marks that say to relearn it.
bool is_to_be_tried(const TopicDiagnosis& topic) {
    return topic.advice && topic.advice->what == Advice::relearn && topic.is_untried();
}

/// With its subject where there are several.
std::string shown(const TopicDiagnosis& topic, bool with_subject) {
    return (with_subject && !topic.subject.empty() ? topic.subject + ": " : "") + shown(topic.topic);
}

} // namespace

std::string marks_of_text(std::size_t candidates) {
    return count_text(candidates, "candidate") + (candidates == 1 ? "'s marks alone" : "' marks");
}

std::string advice_text(const TopicDiagnosis& topic) {
    if (!topic.advice)
        return "-";
    if (is_to_be_tried(topic))
        return "try new parts";
    return (topic.advice->sure ? "" : "probably ") + std::string(name(topic.advice->what)) +
           (topic.advice->rated ? ", as rated" : "");
}

Table topics_table(const std::vector<TopicDiagnosis>& topics) {
    const bool again = any_again(topics);
    const bool subjects = in_several_subjects(topics);
    std::vector<Table::Column> columns{{"topic", Align::left_may_be_cut}, {"in time", Align::right},
                                       {"expected", Align::right},        {"80%", Align::right},
                                       {"a paper", Align::right},         {"what to do"}};
    if (again)
        columns.insert(columns.begin() + 2, {"again", Align::right});
    Table table(std::move(columns));
    for (const TopicDiagnosis& topic : topics) {
        std::vector<std::string> row{shown(topic, subjects), out_of(topic.in_time, topic.marks)};
        if (again)
            row.push_back(out_of(topic.again_unaided, topic.again_marks));
        if (const auto& outlook = topic.outlook)
            row.insert(row.end(), {whole_percent(outlook->share), interval_text(outlook->range),
                                   one_decimal(outlook->marks_a_paper)});
        else
            row.insert(row.end(), {"-", "-", "-"});
        row.push_back(advice_text(topic));
        table.add_row(std::move(row));
    }
    return table;
}

Table plain_topics_table(const std::vector<TopicDiagnosis>& topics) {
    const bool subjects = in_several_subjects(topics);
    Table table({{"topic", Align::left_may_be_cut},
                 {"parts", Align::right},
                 {"marks", Align::right},
                 {"unaided", Align::right},
                 {"95%", Align::right},
                 {"overtime", Align::right}});
    for (const TopicDiagnosis& topic : topics)
        table.add_row({shown(topic, subjects), std::to_string(topic.parts),
                       std::to_string(topic.marks.count()), percent(topic.unaided(), topic.marks),
                       interval_text(topic.unaided_interval), percent(topic.overtime, topic.unaided())});
    return table;
}

std::optional<Table> lost_by_reason_table(const std::vector<TopicDiagnosis>& topics) {
    std::vector<Table::Column> columns{{"topic", Align::left_may_be_cut}, {"lost", Align::right}};
    for (const Reason reason : all_reasons)
        columns.push_back({std::string(name(reason)), Align::right});
    columns.push_back({"unstated", Align::right});
    Table table(std::move(columns));
    bool any = false;
    for (const TopicDiagnosis& topic : topics) {
        const LostByReason& lost = topic.lost;
        if (lost.all() == Marks(0))
            continue;
        any = true;
        table.add_row(lost_row(topic, {lost.all(), lost.of(Reason::method), lost.of(Reason::recall),
                                       lost.of(Reason::slip), lost.of(Reason::misread),
                                       lost.of(Reason::unfinished), lost.unstated}));
    }
    return any ? std::optional<Table>(std::move(table)) : std::nullopt;
}

std::optional<Table> lost_by_code_table(const std::vector<TopicDiagnosis>& topics) {
    if (std::none_of(topics.begin(), topics.end(), codes_tell))
        return std::nullopt;
    Table table({{"topic", Align::left_may_be_cut},
                 {"lost", Align::right},
                 {"M", Align::right},
                 {"A", Align::right},
                 {"A after M", Align::right},
                 {"B", Align::right},
                 {"other", Align::right},
                 {"not known", Align::right}});
    for (const TopicDiagnosis& topic : topics) {
        const LostByCode& lost = topic.lost_by_code;
        if (topic.lost.all() > Marks(0))
            table.add_row(
                lost_row(topic, {topic.lost.all(), lost.method, lost.accuracy, lost.accuracy_after_method,
                                 lost.independent, lost.other, topic.lost_code_unknown}));
    }
    return table;
}

std::string topics_opening(const std::vector<TopicDiagnosis>& topics, bool of_class, Gain gain) {
    const auto first = std::find_if(topics.begin(), topics.end(), [](const TopicDiagnosis& topic) {
        return topic.advice && topic.advice->what != Advice::firm;
    });
    if (topics.empty() || !topics.front().outlook)
        return text_line("No part that was sat has a topic yet. 'inkturn topics of PAPER' gives topics.");
    if (first == topics.end())
        return text_line("Every topic seen so far is firm, or probably so: keep sitting papers.");
    const std::string subject = in_several_subjects(topics) ? first->subject : "";
    if (is_to_be_tried(*first))
        return text_line(
            visible((subject.empty() ? "" : subject + ": ") + first->topic) +
            " first: it was relearned after its marks, so try new parts of it. By these marks it costs " +
            (of_class ? "each candidate " : "") + "about " + one_decimal(first->outlook->marks_a_paper) +
            " marks a paper.");
    return text_line(
        visible((subject.empty() ? "" : subject + ": ") + first->topic) +
        " first: " + (first->advice->sure ? "" : "probably ") + instruction(first->advice->what) +
        (first->advice->rated ? ", as you rated it not understood" : "") + ". It costs " +
        (of_class ? "each candidate " : "") + "about " + one_decimal(first->outlook->marks_a_paper) +
        " marks a paper. If an hour's work wins back " + std::to_string(gain.percent()) +
        " of every 100, which is assumed (--gain), that is " + one_decimal(first->outlook->won_back) +
        " marks.");
}

std::vector<std::string> topic_notes(const std::vector<TopicDiagnosis>& topics) {
    std::vector<std::string> notes;
    std::set<std::string> of_one_part;
    for (const TopicDiagnosis& topic : topics) {
        if (!topic.relearned.empty())
            notes.push_back(relearned_note(topic));
        if (topic.outlook && topic.distinct_parts == 1)
            of_one_part.insert(visible(topic.topic));
    }
    if (!of_one_part.empty())
        notes.push_back("One part so far of " + list_text(of_one_part) +
                        ": a hard part and a weak topic look alike, and what is expected leans on the other "
                        "topics.");
    return notes;
}

std::string topics_key(const std::vector<TopicDiagnosis>& topics, std::size_t candidates) {
    if (candidates == 0) // no topic has an outlook
        return "";
    std::string lines;
    for (const std::string& note : topic_notes(topics))
        lines += text_line(note);
    for (const Advice advice : all_advice)
        if (std::any_of(topics.begin(), topics.end(), [&](const TopicDiagnosis& topic) {
                return topic.advice && topic.advice->what == advice && !topic.advice->rated &&
                       !is_to_be_tried(topic);
            }))
            lines += text_line(std::string(name(advice)) + ": " + meaning(advice) + ".");
    if (std::any_of(topics.begin(), topics.end(),
                    [](const TopicDiagnosis& topic) { return topic.advice && topic.advice->rated; }))
        lines += text_line("as rated: you rated it not understood, which counts until " +
                           counted_marks(RatedTopic::outweighing) +
                           " of it have been tried. Parts left out were not tried.");
    if (std::any_of(topics.begin(), topics.end(),
                    [](const TopicDiagnosis& topic) { return topic.advice && !topic.advice->sure; }))
        lines += text_line("probably: too little has been seen to be sure.");
    if (any_again(topics))
        lines += text_line("again: unaided marks at the latest retries. They count nowhere else here, as the "
                           "question and its mark scheme had been seen.");
    return lines +
           text_line("expected: the share in time of new parts, from " + marks_of_text(candidates) +
                     " in parts not seen before; 80%: where it lies four times in five. a paper: marks "
                     "the topic costs in the usual paper.");
}

} // namespace inkturn
