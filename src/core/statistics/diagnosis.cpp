#include "inkturn/statistics/diagnosis.hpp"

#include <algorithm>
#include <iterator>
#include <map>
#include <set>
#include <string_view>
#include <tuple>
#include <utility>

namespace inkturn {
namespace {

/// Those of a paper's parts that are of one topic, by position, whoever sat it.
struct PartsOfTopic {
    std::vector<Marks> maxima;         ///< 0: of another topic
    std::vector<bool> lost_for_method; ///< whether anyone lost marks there for method
};

/// What is added up for one topic.
struct Gathered {
    TopicDiagnosis topic{};
    std::map<std::string_view, PartsOfTopic> papers; ///< by id
    std::set<std::size_t> candidates;

    PartsOfTopic& of_paper(const Paper& paper) {
        PartsOfTopic& parts = papers[paper.id()];
        parts.maxima.resize(std::max(parts.maxima.size(), paper.parts().size()));
        parts.lost_for_method.resize(parts.maxima.size());
        return parts;
    }
};

/// By subject and name; the nameless ones come after all others. Names are the papers' own.
using ByTopic = std::map<std::tuple<bool, std::string_view, std::string_view>, Gathered>;

Gathered& of_topic(ByTopic& topics, const Paper& paper, const Part& part) {
    return topics[{part.topic.empty(), paper.subject(), part.topic}];
}

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
    return Advice::practise;
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

void add_part(TopicDiagnosis& sum, const Part& part, const PartMarks& marks) {
    sum.marks += part.max;
    sum.in_time += marks.in_time();
    sum.overtime += marks.overtime();
    taken_by(sum.lost_by_cause, Advice::pace) += marks.overtime();
    ++sum.parts;
    if (marks.unaided() < part.max)
        add_lost(sum, part, marks);
}

void add_unseen(ByTopic& topics, const PaperMarks& unseen, std::size_t candidate) {
    check_covers(*unseen.paper, unseen.parts);
    const std::string* name = nullptr; // parts of one topic mostly come together
    Gathered* gathered = nullptr;
    PartsOfTopic* parts = nullptr;
    for (std::size_t i = 0; i < unseen.parts.size(); ++i) {
        const Part& part = unseen.paper->parts()[i];
        if (!unseen.parts[i].counts())
            continue;
        if (!name || *name != part.topic) {
            name = &part.topic;
            gathered = &of_topic(topics, *unseen.paper, part);
            parts = &gathered->of_paper(*unseen.paper);
        }
        parts->maxima[i] = part.max;
        gathered->candidates.insert(candidate);
        const Marks for_method = gathered->topic.lost_by_cause.of(Advice::relearn);
        add_part(gathered->topic, part, unseen.parts[i]);
        if (gathered->topic.lost_by_cause.of(Advice::relearn) > for_method)
            parts->lost_for_method[i] = true;
    }
}

void add_again(ByTopic& topics, const PaperMarks& again) {
    check_covers(*again.paper, again.parts);
    for (std::size_t i = 0; i < again.parts.size(); ++i) {
        const Part& part = again.paper->parts()[i];
        if (!again.parts[i].counts())
            continue;
        TopicDiagnosis& topic = of_topic(topics, *again.paper, part).topic;
        topic.again_marks += part.max;
        topic.again_unaided += again.parts[i].unaided();
    }
}

template <typename Add>
void for_subject(const std::vector<std::vector<PaperMarks>>& candidates, std::string_view subject, Add add) {
    for (std::size_t candidate = 0; candidate < candidates.size(); ++candidate)
        for (const PaperMarks& marks : candidates[candidate])
            if (subject.empty() || marks.paper->subject() == subject)
                add(marks, candidate);
}

/// Others' marks in the same parts tell nothing of other parts, so each part counts once.
std::vector<Marks> each_part_once(const Gathered& gathered) {
    std::vector<Marks> maxima;
    for (const auto& [paper, parts] : gathered.papers)
        std::copy_if(parts.maxima.begin(), parts.maxima.end(), std::back_inserter(maxima),
                     [](Marks max) { return max > Marks(0); });
    return maxima;
}

Interval unaided_interval(const TopicDiagnosis& topic, const std::vector<Marks>& maxima) {
    const double share = static_cast<double>(topic.unaided().count()) / topic.marks.count();
    const double trials = effective_parts(maxima);
    return jeffreys_interval(share * trials, trials);
}

std::size_t count_lost_for_method(const Gathered& gathered) {
    std::size_t count = 0;
    for (const auto& [paper, parts] : gathered.papers)
        count += static_cast<std::size_t>(
            std::count(parts.lost_for_method.begin(), parts.lost_for_method.end(), true));
    return count;
}

/// The cause of most of the lost marks; practise where no reason is known for more of them.
Advice cause_of(const LostByCause& lost) {
    const auto largest = std::max_element(lost.known.begin(), lost.known.end()); // the first if tied
    if (*largest < lost.unexplained)
        return Advice::practise;
    return static_cast<Advice>(largest - lost.known.begin());
}

TopicAdvice advice_for(const TopicDiagnosis& topic, const TopicOutlook& outlook) {
    const bool seen_enough = topic.distinct_parts >= TopicDiagnosis::min_parts;
    if (outlook.below <= TopicDiagnosis::firm_chance)
        return {Advice::firm, seen_enough};
    if (topic.lost_in_time() == Marks(0) ||
        (outlook.below < TopicDiagnosis::advised_chance && outlook.share >= TopicOutlook::sound_share))
        return {Advice::firm, false};
    const Advice cause = cause_of(topic.lost_by_cause);
    const bool cause_is_sure = cause != Advice::relearn || topic.may_need_relearning();
    return {cause, outlook.below >= TopicDiagnosis::advised_chance && seen_enough && cause_is_sure};
}

TopicDiagnosis diagnosed(std::string_view subject, std::string_view name, Gathered gathered) {
    const std::vector<Marks> maxima = each_part_once(gathered);
    TopicDiagnosis& topic = gathered.topic;
    topic.subject = subject;
    topic.topic = name;
    topic.distinct_parts = maxima.size();
    topic.method_parts = count_lost_for_method(gathered);
    topic.candidates = gathered.candidates.size();
    topic.unaided_interval = unaided_interval(topic, maxima);
    return std::move(topic);
}

/// Largest first.
double cost(const TopicDiagnosis& topic) {
    return topic.outlook ? topic.outlook->marks_a_paper : -1;
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
    case Advice::practise:
        return "practise";
    case Advice::firm:
        return "firm";
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

bool TopicDiagnosis::may_need_relearning() const {
    return method_parts >= min_parts && cause_of(lost_by_cause) == Advice::relearn;
}

std::vector<TopicDiagnosis> diagnose(const std::vector<std::vector<PaperMarks>>& unseen,
                                     const std::vector<std::vector<PaperMarks>>& again,
                                     std::string_view subject) {
    ByTopic topics;
    for_subject(unseen, subject, [&](const PaperMarks& marks, std::size_t candidate) {
        add_unseen(topics, marks, candidate);
    });
    for_subject(again, subject, [&](const PaperMarks& marks, std::size_t) { add_again(topics, marks); });
    std::vector<TopicDiagnosis> all;
    for (auto& [name, gathered] : topics)
        if (gathered.topic.marks > Marks(0))
            all.push_back(diagnosed(std::get<1>(name), std::get<2>(name), std::move(gathered)));
    return all;
}

void add_outlook(TopicDiagnosis& topic, const TopicOutlook& outlook) {
    topic.outlook = outlook;
    topic.advice = advice_for(topic, outlook);
}

void add_relearned(std::vector<TopicDiagnosis>& topics, const std::vector<UntriedTopic>& untried) {
    for (TopicDiagnosis& topic : topics)
        for (const UntriedTopic& one : untried)
            if (one.subject == topic.subject && one.topic == topic.topic)
                topic.relearned.push_back(one.relearned_on);
}

void sort_by_cost(std::vector<TopicDiagnosis>& topics) {
    std::stable_sort(topics.begin(), topics.end(), [](const TopicDiagnosis& a, const TopicDiagnosis& b) {
        if (a.topic.empty() || b.topic.empty())
            return !a.topic.empty() && b.topic.empty();
        if (cost(a) != cost(b))
            return cost(a) > cost(b);
        return std::tie(a.subject, a.topic) < std::tie(b.subject, b.topic);
    });
}

} // namespace inkturn
