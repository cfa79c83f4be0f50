#include "inkturn/facts/recall.hpp"

#include "inkturn/base/error.hpp"
#include "inkturn/base/text.hpp"

#include <algorithm>
#include <set>
#include <tuple>

namespace inkturn {
namespace {

constexpr Days week{7};
constexpr std::size_t new_a_week = 3 * Sheet::max_rows;

/// Enough weeks for at most three sheets of facts never asked in each.
DueFact never_recalled(const Fact& fact, std::size_t of_subject, const std::vector<Exam>& exams, Day today) {
    const Days long_enough = week * static_cast<std::int64_t>((of_subject + new_a_week - 1) / new_a_week);
    DaySpan possible_days{today, std::min(today + long_enough - Days{1}, latest_day)};
    const auto exam = exam_ahead(exams, fact.subject, today);
    if (exam)
        possible_days.last = std::min(possible_days.last, *exam - Days{1});
    return {fact.id, std::nullopt, possible_days, false, exam};
}

std::map<std::string, std::size_t> count_never_recalled(const std::vector<Fact>& facts,
                                                        const std::map<FactId, LastRecall>& last) {
    std::map<std::string, std::size_t> counts;
    for (const Fact& fact : facts)
        if (last.count(fact.id) == 0)
            ++counts[fact.subject];
    return counts;
}

DueFact missed_on(Day day, const Fact& fact, const std::vector<Exam>& exams, Day today) {
    const WindowByExams by = window_by_exams(exams, fact.subject, day, today);
    return {fact.id, by.window, possible_days(by.window, by.exam, today),
            by.window && by.window->closes < today, by.exam};
}

bool is_due(const DueFact& due, Day today, const FactDays& fact_days) {
    const auto day = fact_days.find(due.fact);
    return due.possible_days && due.possible_days->first <= today && today <= due.possible_days->last &&
           (day == fact_days.end() || day->second <= today);
}

/// A fact that may be asked on a day that is left.
struct FactToRecall {
    const Fact* fact;
    const DueFact* due;
};

std::vector<FactToRecall> with_possible_days(const std::vector<Fact>& facts,
                                             const std::vector<DueFact>& due) {
    std::map<FactId, const Fact*> by_id;
    for (const Fact& fact : facts)
        by_id[fact.id] = &fact;
    std::vector<FactToRecall> all;
    for (const DueFact& one : due) {
        if (!one.possible_days)
            continue;
        const auto fact = by_id.find(one.fact);
        if (fact == by_id.end())
            throw Error("a fact that is due is missing from the facts", Error::Kind::misused);
        all.push_back({fact->second, &one});
    }
    return all;
}

auto place(const Fact& fact) {
    return std::tie(fact.subject, fact.topic, fact.id);
}

bool share_a_group(const FactToRecall& a, const FactToRecall& b) {
    return a.fact->subject == b.fact->subject && a.due->possible_days->first == b.due->possible_days->first &&
           a.due->possible_days->last == b.due->possible_days->last;
}

} // namespace

std::vector<DueFact> facts_due(const std::vector<Fact>& facts, const std::vector<Sheet>& of_candidate,
                               const std::vector<Exam>& exams, Day today) {
    const std::map<FactId, LastRecall> last = last_recalls(of_candidate);
    const std::map<std::string, std::size_t> counts = count_never_recalled(facts, last);
    std::vector<DueFact> due;
    for (const Fact& fact : facts) {
        if (is_examined_by(exams, fact.subject, today))
            continue;
        const auto recall = last.find(fact.id);
        if (recall == last.end())
            due.push_back(never_recalled(fact, counts.at(fact.subject), exams, today));
        else if (recall->second.missed)
            due.push_back(missed_on(recall->second.day, fact, exams, today));
    }
    return due;
}

std::vector<FactId> facts_for_sheet(const std::vector<Fact>& facts, const std::vector<DueFact>& due,
                                    Day today, const FactDays& fact_days) {
    std::vector<FactToRecall> recall = with_possible_days(facts, due);
    recall.erase(std::remove_if(recall.begin(), recall.end(),
                                [&](const FactToRecall& one) { return !is_due(*one.due, today, fact_days); }),
                 recall.end());
    std::sort(recall.begin(), recall.end(), [](const FactToRecall& a, const FactToRecall& b) {
        return std::pair(a.due->possible_days->last, place(*a.fact)) <
               std::pair(b.due->possible_days->last, place(*b.fact));
    });
    recall.resize(std::min(recall.size(), Sheet::max_rows));
    std::sort(recall.begin(), recall.end(),
              [](const FactToRecall& a, const FactToRecall& b) { return place(*a.fact) < place(*b.fact); });
    std::vector<FactId> ids;
    ids.reserve(recall.size());
    for (const FactToRecall& one : recall)
        ids.push_back(one.fact->id);
    return ids;
}

std::size_t count_due(const std::vector<DueFact>& due, Day today, const FactDays& fact_days) {
    return static_cast<std::size_t>(std::count_if(
        due.begin(), due.end(), [&](const DueFact& one) { return is_due(one, today, fact_days); }));
}

std::string topic_to_recall(const std::vector<Fact>& facts, const std::vector<DueFact>& due,
                            const std::vector<Sheet>& of_candidate) {
    const std::map<FactId, LastRecall> last = last_recalls(of_candidate);
    const auto order = [&](const Fact& fact) {
        const auto one =
            std::find_if(due.begin(), due.end(), [&](const DueFact& other) { return other.fact == fact.id; });
        const auto recall = last.find(fact.id);
        return std::tuple(one == due.end() || !one->possible_days ? latest_day : one->possible_days->first,
                          recall == last.end() ? Day::min() : recall->second.day, fact.id);
    };
    const Fact* first = nullptr;
    for (const Fact& fact : facts)
        if (!fact.topic.empty() && (!first || order(fact) < order(*first)))
            first = &fact;
    return first ? first->topic : "";
}

std::vector<FactId> facts_of_topic(const std::vector<Fact>& facts, const std::vector<DueFact>& due,
                                   const std::vector<Sheet>& of_candidate, const std::string& topic,
                                   Day today) {
    const std::map<FactId, LastRecall> last = last_recalls(of_candidate);
    std::set<FactId> due_today;
    for (const DueFact& one : due)
        if (is_due(one, today, {}))
            due_today.insert(one.fact);
    const auto order = [&](FactId id) {
        const auto recall = last.find(id);
        return std::tuple(due_today.count(id) == 0, recall == last.end() ? Day::min() : recall->second.day,
                          id);
    };

    std::vector<FactId> ids;
    for (const Fact& fact : facts)
        if (fact.topic == topic)
            ids.push_back(fact.id);
    if (ids.empty()) {
        std::vector<std::string> topics;
        for (const Fact& fact : facts)
            topics.push_back(fact.topic);
        std::sort(topics.begin(), topics.end());
        topics.erase(std::unique(topics.begin(), topics.end()), topics.end());
        const auto nearest = nearest_name(topic, topics);
        throw Error("no fact of topic '" + topic + "' on file" +
                        (nearest ? ", but of '" + *nearest + "'" : ""),
                    Error::Kind::not_found, Error::Remedy::list_fact_topics);
    }
    std::sort(ids.begin(), ids.end(), [&](FactId a, FactId b) { return order(a) < order(b); });
    ids.resize(std::min(ids.size(), Sheet::max_rows));
    return ids;
}

std::vector<RecallGroup> recall_groups(const std::vector<Fact>& facts, const std::vector<DueFact>& due) {
    std::vector<FactToRecall> recall = with_possible_days(facts, due);
    std::sort(recall.begin(), recall.end(), [](const FactToRecall& a, const FactToRecall& b) {
        return std::tuple(a.due->possible_days->first, a.due->possible_days->last, place(*a.fact)) <
               std::tuple(b.due->possible_days->first, b.due->possible_days->last, place(*b.fact));
    });
    std::vector<RecallGroup> groups;
    const FactToRecall* before = nullptr;
    for (const FactToRecall& one : recall) {
        if (!before || !share_a_group(*before, one) || groups.back().facts.size() == Sheet::max_rows)
            groups.push_back({{}, one.fact->subject, *one.due->possible_days});
        RecallGroup& group = groups.back();
        group.facts.push_back(one.fact->id);
        group.duration += time_for_fact;
        if (one.due->late && !group.late)
            group.window = one.due->window;
        group.late = group.late || one.due->late;
        group.exam = one.due->exam;
        before = &one;
    }
    return groups;
}

} // namespace inkturn
