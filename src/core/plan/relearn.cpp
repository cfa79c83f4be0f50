#include "inkturn/plan/relearn.hpp"

#include "inkturn/base/error.hpp"
#include "inkturn/statistics/diagnosis.hpp"

#include <algorithm>
#include <memory>
#include <utility>

namespace inkturn {
namespace {

constexpr Days soon{7};

/// The marks of the question's parts in the attempt that a retry follows.
std::vector<PartMarks> marks_before(const SittingRecord& record, const Retry& retry) {
    for (const Reattempt& reattempt : record.reattempts)
        if (reattempt.question == retry.id.question && reattempt.turn == retry.id.turn - 1)
            return reattempt.parts;
    if (!record.paper || retry.paper->id() != record.paper->id())
        throw Error("retry " + to_text(retry.id) + " is of another paper", Error::Kind::misused);
    check_covers(*record.paper, record.sitting.parts);
    std::vector<PartMarks> marks;
    const Question& question = retry.paper->question(retry.question);
    marks.reserve(question.parts.size());
    for (const std::size_t part : question.parts)
        marks.push_back(record.sitting.parts[part]);
    return marks;
}

/// What is added up for one topic.
struct Gathered {
    Marks lost;
    Day dropped_on; ///< the latest
    Day last;       ///< the day before the first of its retries, at the latest
    std::optional<Day> exam;
};

Day last_before(const Retry& retry, Day today) {
    if (retry.wanted)
        return *retry.wanted - Days{1};
    if (retry.late)
        return std::min(today + soon, retry.exam.value_or(latest_day)) - Days{1};
    const bool has_day = retry.kept_day && *retry.kept_day >= today;
    return (has_day ? *retry.kept_day : retry.window->closes) - Days{1};
}

using ByTopicName = std::map<std::pair<std::string, std::string>, Gathered>;

/// Of all topics that open retries lost marks on for method.
ByTopicName gathered_by_topic(const Candidate& candidate, const std::vector<Retry>& retries, Day today) {
    ByTopicName topics;
    for (const Retry& retry : retries) {
        if (!retry.possible_days || !retry.window)
            continue;
        for (const auto& [topic, lost] : lost_for_method(candidate, retry)) {
            const Day last = last_before(retry, today);
            Gathered& gathered = topics
                                     .try_emplace({retry.paper->subject(), topic},
                                                  Gathered{Marks(0), retry.dropped_on, last, retry.exam})
                                     .first->second;
            gathered.lost += lost;
            gathered.dropped_on = std::max(gathered.dropped_on, retry.dropped_on);
            gathered.last = std::min(gathered.last, last);
        }
    }
    return topics;
}

/// Of these topics, the weak ones, then those that a day was asked for; without those let go.
std::vector<ByTopicName::key_type> in_order(const Candidate& candidate, const std::vector<WeakTopic>& weak,
                                            const ByTopicName& topics) {
    std::vector<ByTopicName::key_type> names;
    for (const WeakTopic& one : weak)
        names.emplace_back(one.subject, one.topic);
    for (const auto& [name, gathered] : topics)
        if (steering_of(candidate, WorkPurpose::relearn, name.first, name.second).wanted &&
            std::find(names.begin(), names.end(), name) == names.end())
            names.push_back(name);
    names.erase(std::remove_if(
                    names.begin(), names.end(),
                    [&](const auto& name) {
                        return topics.count(name) == 0 ||
                               steering_of(candidate, WorkPurpose::relearn, name.first, name.second).let_go;
                    }),
                names.end());
    return names;
}

/// By the candidate's own marks, with the papers sat as the usual ones.
Outlook own_outlook(const Candidate& candidate, const std::vector<PaperMarks>& unseen,
                    const std::string& subject, const std::vector<Copies>& copies) {
    std::vector<std::shared_ptr<const Paper>> papers;
    for (const PaperMarks& marks : unseen)
        if (std::find(papers.begin(), papers.end(), marks.paper) == papers.end())
            papers.push_back(marks.paper);
    return Outlook({{candidate.code, unseen}}, subject, usual_papers(papers, subject, copies));
}

bool any_for_method(const std::vector<PaperMarks>& papers) {
    return std::any_of(papers.begin(), papers.end(), [](const PaperMarks& marks) {
        return std::any_of(marks.parts.begin(), marks.parts.end(),
                           [](const PartMarks& part) { return part.reason() == Reason::method; });
    });
}

} // namespace

int pieces_relearned(const std::vector<Relearned>& relearned, const std::string& subject,
                     const std::string& topic, Day since) {
    int pieces = 0;
    for (const Relearned& one : relearned)
        if (one.subject == subject && one.topic == topic && one.day >= since)
            pieces += one.half ? 1 : TopicToRelearn::pieces;
    return std::min(pieces, TopicToRelearn::pieces);
}

std::map<std::string, Marks> lost_for_method(const Candidate& candidate, const Retry& retry) {
    const SittingRecord& record = get_sitting(candidate, retry.id.sitting);
    std::map<std::string, Marks> lost;
    const std::vector<PartMarks> marks = marks_before(record, retry);
    for (std::size_t i = 0; i < marks.size(); ++i) {
        const Part& part = retry.paper->parts()[retry.paper->question(retry.question).parts[i]];
        if (marks[i].reason() == Reason::method && is_missed(*retry.paper, part, marks[i]) &&
            !part.topic.empty())
            lost[part.topic] += marks_lost(part, marks[i]);
    }
    return lost;
}

std::vector<WeakTopic> weak_topics(const Candidate& candidate, const std::vector<Copies>& copies) {
    const std::vector<PaperMarks> unseen = unseen_marks(candidate, copies);
    if (!any_for_method(unseen))
        return {};
    std::vector<TopicDiagnosis> topics = diagnose({unseen});
    topics.erase(std::remove_if(topics.begin(), topics.end(),
                                [](const TopicDiagnosis& topic) {
                                    return topic.topic.empty() || !topic.may_need_relearning();
                                }),
                 topics.end());
    std::map<std::string, Outlook> outlooks; // by subject
    for (TopicDiagnosis& topic : topics) {
        auto outlook = outlooks.find(topic.subject);
        if (outlook == outlooks.end())
            outlook =
                outlooks.emplace(topic.subject, own_outlook(candidate, unseen, topic.subject, copies)).first;
        if (const auto found = outlook->second.find(candidate.code)->on_topic(topic.topic, {}))
            add_outlook(topic, *found);
    }
    sort_by_cost(topics);
    std::vector<WeakTopic> weak;
    for (const TopicDiagnosis& topic : topics)
        if (topic.advice && topic.advice->what == Advice::relearn && topic.advice->sure)
            weak.push_back({topic.subject, topic.topic, topic.outlook->marks_a_paper});
    return weak;
}

std::vector<TopicToRelearn> topics_to_relearn(const Candidate& candidate, const std::vector<WeakTopic>& weak,
                                              const std::vector<Retry>& retries, Day today) {
    std::vector<TopicToRelearn> to_relearn;
    if (weak.empty() && candidate.steered_work.empty())
        return to_relearn;
    const ByTopicName topics = gathered_by_topic(candidate, retries, today);
    for (const auto& name : in_order(candidate, weak, topics)) {
        const auto& [subject, topic] = name;
        const Gathered& gathered = topics.at(name);
        const int done = pieces_relearned(candidate.relearned, subject, topic, gathered.dropped_on);
        const DaySpan possible_days{today, std::max(today, gathered.last)};
        for (int piece = done + 1; piece <= TopicToRelearn::pieces; ++piece)
            to_relearn.push_back({subject, topic, gathered.lost, possible_days, piece, gathered.exam});
    }
    return to_relearn;
}

std::vector<TopicToRelearn> topics_that_may_be_relearned(const Candidate& candidate,
                                                         const std::vector<Retry>& retries, Day today) {
    std::vector<WeakTopic> all;
    for (const auto& [name, gathered] : gathered_by_topic(candidate, retries, today))
        all.push_back({name.first, name.second, 0});
    return topics_to_relearn(candidate, all, retries, today);
}

} // namespace inkturn
