#include "inkturn/plan/relearn.hpp"

#include "inkturn/base/error.hpp"

#include <algorithm>
#include <tuple>

namespace inkturn {
namespace {

constexpr Days soon{7};

/// The marks of the question's parts in the attempt that a retry follows.
std::vector<PartMarks> marks_before(const SittingRecord& record, const Retry& retry) {
    for (const Reattempt& reattempt : record.reattempts)
        if (reattempt.question == retry.id.question && reattempt.turn == retry.id.turn - 1)
            return reattempt.parts;
    if (retry.paper->id() != record.paper->id())
        throw Error("retry " + to_text(retry.id) + " is of another paper", Error::Kind::misused);
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
    return retry.kept_day.value_or(retry.window->closes) - Days{1};
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
    check_whole(candidate);
    std::map<std::string, Marks> lost;
    const std::vector<PartMarks> marks = marks_before(get_sitting(candidate, retry.id.sitting), retry);
    for (std::size_t i = 0; i < marks.size(); ++i) {
        const Part& part = retry.paper->parts()[retry.paper->question(retry.question).parts[i]];
        if (marks[i].reason() == Reason::method && is_missed(*retry.paper, part, marks[i]) &&
            !part.topic.empty())
            lost[part.topic] += marks_lost(part, marks[i]);
    }
    return lost;
}

std::vector<TopicToRelearn> topics_to_relearn(const Candidate& candidate, const std::vector<Retry>& retries,
                                              Day today) {
    std::map<std::pair<std::string, std::string>, Gathered> topics;
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

    std::vector<TopicToRelearn> to_relearn;
    for (const auto& [named, gathered] : topics) {
        const auto& [subject, topic] = named;
        if (steering_of(candidate, WorkPurpose::relearn, subject, topic).let_go)
            continue;
        const int done = pieces_relearned(candidate.relearned, subject, topic, gathered.dropped_on);
        const DaySpan possible_days{today, std::max(today, gathered.last)};
        for (int piece = done + 1; piece <= TopicToRelearn::pieces; ++piece)
            to_relearn.push_back({subject, topic, gathered.lost, possible_days, piece, gathered.exam});
    }
    std::stable_sort(to_relearn.begin(), to_relearn.end(),
                     [](const TopicToRelearn& a, const TopicToRelearn& b) {
                         return a.possible_days.last < b.possible_days.last;
                     });
    return to_relearn;
}

} // namespace inkturn
