#include "inkturn/statistics/diagnosis.hpp"

#include "inkturn/clock/allowance.hpp"

#include <algorithm>
#include <map>
#include <utility>

namespace inkturn {
namespace {

using PartOfPaper = std::pair<std::string, std::size_t>; ///< the paper's id, the position

/// What is added up for one topic.
struct Gathered {
    TopicDiagnosis topic{};
    std::map<PartOfPaper, Marks> maxima; ///< each part once, whoever sat it
    Seconds again{0};                    ///< the allowances of the parts with marks to win back
    std::size_t candidates = 0;          ///< who have marks to win back
};

using ByTopic = std::map<std::string, Gathered>;

Marks& taken_by(LostByCause& lost, Advice cause) {
    return lost.known[static_cast<std::size_t>(cause)];
}

Advice remedy(Reason reason) {
    switch (reason) {
    case Reason::method:
        return Advice::relearn;
    case Reason::recall:
        return Advice::recall;
    case Reason::slip:
    case Reason::misread:
        return Advice::care;
    case Reason::unfinished:
        return Advice::pace;
    }
    return Advice::too_little;
}

void add_code(LostByCode& sum, const LostByCode& lost) {
    sum.method += lost.method;
    sum.accuracy += lost.accuracy;
    sum.independent += lost.independent;
    sum.other += lost.other;
    sum.accuracy_after_method += lost.accuracy_after_method;
}

void add_causes_by_code(LostByCause& sum, const LostByCode& lost) {
    taken_by(sum, Advice::relearn) += lost.method + lost.accuracy - lost.accuracy_after_method;
    taken_by(sum, Advice::recall) += lost.independent;
    taken_by(sum, Advice::care) += lost.accuracy_after_method;
    sum.unexplained += lost.other;
}

void add_lost(TopicDiagnosis& sum, const Part& part, const PartMarks& marks) {
    const Marks lost = marks_lost(part, marks);
    const auto by_code = lost_by_code(part, marks);
    if (by_code)
        add_code(sum.lost_by_code, *by_code);
    else
        sum.lost_code_unknown += lost;

    if (const auto reason = marks.reason()) {
        sum.lost.stated[static_cast<std::size_t>(*reason)] += lost;
        taken_by(sum.lost_by_cause, remedy(*reason)) += lost;
        return;
    }
    sum.lost.unstated += lost;
    if (!marks.attempted())
        taken_by(sum.lost_by_cause, Advice::pace) += lost;
    else if (by_code)
        add_causes_by_code(sum.lost_by_cause, *by_code);
    else
        sum.lost_by_cause.unexplained += lost;
}

void add_part(Gathered& gathered, const Paper& paper, std::size_t position, const PartMarks& marks,
              Seconds allowance) {
    const Part& part = paper.part(position);
    TopicDiagnosis& sum = gathered.topic;
    sum.marks += part.max;
    sum.in_time += marks.in_time();
    sum.overtime += marks.overtime();
    taken_by(sum.lost_by_cause, Advice::pace) += marks.overtime();
    gathered.maxima.emplace(PartOfPaper{paper.id(), position}, part.max);
    if (marks.unaided() < part.max)
        add_lost(sum, part, marks);
    if (marks.in_time() < part.max)
        gathered.again += allowance;
}

void add_paper(ByTopic& topics, const LatestMarks& latest) {
    check_covers(*latest.paper, latest.parts);
    const std::vector<Seconds> allowances = part_allowances(*latest.paper, latest.extra_time);
    for (std::size_t i = 0; i < latest.parts.size(); ++i)
        if (latest.parts[i].counts())
            add_part(topics[latest.paper->part(i).topic], *latest.paper, i, latest.parts[i], allowances[i]);
}

/// Marks to win back, one number per topic.
std::map<std::string, Marks> to_win_back(const ByTopic& topics) {
    std::map<std::string, Marks> marks;
    for (const auto& [topic, gathered] : topics)
        marks[topic] = gathered.topic.to_win_back();
    return marks;
}

void add_candidate(ByTopic& topics, const std::vector<LatestMarks>& candidate, std::string_view subject) {
    std::map<std::string, Marks> before = to_win_back(topics);
    for (const LatestMarks& latest : candidate)
        if (subject.empty() || latest.paper->subject() == subject)
            add_paper(topics, latest);
    for (auto& [topic, gathered] : topics)
        if (gathered.topic.to_win_back() > before[topic])
            ++gathered.candidates;
}

Interval share_interval(Marks earned, const TopicDiagnosis& topic) {
    const double share = static_cast<double>(earned.count()) / topic.marks.count();
    return jeffreys_interval(share * topic.effective_parts, topic.effective_parts);
}

bool is_firm(const TopicDiagnosis& topic) {
    return 100 * topic.in_time.count() >= TopicDiagnosis::firm_percent * topic.marks.count() &&
           topic.in_time_interval.low >= TopicDiagnosis::firm_low;
}

Advice advice_for(const TopicDiagnosis& topic) {
    if (topic.effective_parts < TopicDiagnosis::min_effective_parts ||
        topic.marks < TopicDiagnosis::min_marks)
        return Advice::too_little;
    if (is_firm(topic))
        return Advice::firm;
    if (topic.in_time_interval.high >= TopicDiagnosis::weak_high)
        return Advice::too_little;
    const auto& known = topic.lost_by_cause.known;
    const auto largest = std::max_element(known.begin(), known.end()); // the first if tied
    if (*largest < topic.lost_by_cause.unexplained)
        return Advice::too_little;
    return static_cast<Advice>(largest - known.begin());
}

/// On top of working its parts again. What isn't known counts as the most costly, so that it doesn't come
/// first.
Seconds time_to_learn(Advice advice) {
    switch (advice) {
    case Advice::relearn:
    case Advice::too_little:
        return TopicDiagnosis::time_to_relearn;
    case Advice::recall:
        return TopicDiagnosis::time_to_recall;
    case Advice::care:
    case Advice::pace:
    case Advice::firm:
        return Seconds(0);
    }
    return Seconds(0);
}

/// Half as much time again, rounded up, for marking and correcting.
Seconds work_for(const Gathered& gathered, Advice advice) {
    return (3 * gathered.again + Seconds(1)) / 2 +
           time_to_learn(advice) * static_cast<std::int64_t>(gathered.candidates);
}

TopicDiagnosis diagnosed(const std::string& name, Gathered gathered) {
    TopicDiagnosis& topic = gathered.topic;
    topic.topic = name;
    topic.parts = gathered.maxima.size();
    std::vector<Marks> maxima;
    for (const auto& [part, max] : gathered.maxima)
        maxima.push_back(max);
    topic.effective_parts = effective_parts(maxima);
    topic.unaided_interval = share_interval(topic.unaided(), topic);
    topic.in_time_interval = share_interval(topic.in_time, topic);
    if (!name.empty()) {
        topic.advice = advice_for(topic);
        topic.work = work_for(gathered, *topic.advice);
    }
    return std::move(topic);
}

bool comes_first(const TopicDiagnosis& a, const TopicDiagnosis& b) {
    if (a.topic.empty() || b.topic.empty())
        return !a.topic.empty() && b.topic.empty();
    const double in_an_hour_a = a.marks_per_hour();
    const double in_an_hour_b = b.marks_per_hour();
    if (in_an_hour_a != in_an_hour_b)
        return in_an_hour_a > in_an_hour_b;
    if (a.to_win_back() != b.to_win_back())
        return a.to_win_back() > b.to_win_back();
    return a.topic < b.topic;
}

} // namespace

std::string_view name(Advice advice) noexcept {
    switch (advice) {
    case Advice::relearn:
        return "relearn";
    case Advice::recall:
        return "recall";
    case Advice::care:
        return "care";
    case Advice::pace:
        return "pace";
    case Advice::firm:
        return "firm";
    case Advice::too_little:
        return "too little to say";
    }
    return "";
}

Marks LostByCause::all() const {
    Marks sum = unexplained;
    for (const Marks lost : known)
        sum += lost;
    return sum;
}

double TopicDiagnosis::overtime_share() const {
    return unaided() == Marks(0) ? 0 : static_cast<double>(overtime.count()) / unaided().count();
}

double TopicDiagnosis::marks_per_hour() const {
    if (work == Seconds(0))
        return 0;
    return 3600.0 * to_win_back().count() / static_cast<double>(work.count());
}

std::vector<TopicDiagnosis> diagnose(const std::vector<std::vector<LatestMarks>>& candidates,
                                     std::string_view subject) {
    ByTopic topics;
    for (const std::vector<LatestMarks>& candidate : candidates)
        add_candidate(topics, candidate, subject);
    std::vector<TopicDiagnosis> all;
    all.reserve(topics.size());
    for (auto& [topic, gathered] : topics)
        all.push_back(diagnosed(topic, std::move(gathered)));
    std::sort(all.begin(), all.end(), comes_first);
    return all;
}

} // namespace inkturn
