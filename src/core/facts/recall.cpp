#include "inkturn/facts/recall.hpp"

#include "inkturn/base/error.hpp"

#include <algorithm>
#include <set>
#include <tuple>

namespace inkturn {
namespace {

constexpr Days week{7};
constexpr std::size_t new_a_week = 3 * Sheet::most_rows;

/// So many weeks that none has more than three sheets of what was never asked.
FactDue never_asked(const Fact& fact, std::size_t of_subject, const std::vector<Exam>& exams, Day today) {
    const Days long_enough = week * static_cast<std::int64_t>((of_subject + new_a_week - 1) / new_a_week);
    DaySpan left{today, std::min(today + long_enough - Days{1}, latest_day)};
    if (const auto exam = exam_that_ends(exams, fact.subject, today, today))
        left.last = std::min(left.last, *exam - Days{1});
    return {fact.id, std::nullopt, left, false};
}

std::map<std::string, std::size_t> count_never_asked(const std::vector<Fact>& facts,
                                                     const std::map<FactId, LastAsked>& last) {
    std::map<std::string, std::size_t> counts;
    for (const Fact& fact : facts)
        if (last.count(fact.id) == 0)
            ++counts[fact.subject];
    return counts;
}

FactDue missed_on(Day day, const Fact& fact, const std::vector<Exam>& exams, Day today) {
    const auto exam = exam_that_ends(exams, fact.subject, day, today);
    const auto window = retry_window(day, exam);
    return {fact.id, window, days_left(window, exam, today), window && window->closes < today};
}

bool is_due(const FactDue& due, Day today, const ChosenDays& chosen) {
    const auto day = chosen.find(due.fact);
    return due.left && due.left->first <= today && today <= due.left->last &&
           (day == chosen.end() || day->second <= today);
}

/// A fact that may be asked on a day that is left.
struct Askable {
    const Fact* fact;
    const FactDue* due;
};

std::vector<Askable> with_days_left(const std::vector<Fact>& facts, const std::vector<FactDue>& due) {
    std::map<FactId, const Fact*> by_id;
    for (const Fact& fact : facts)
        by_id[fact.id] = &fact;
    std::vector<Askable> all;
    for (const FactDue& one : due)
        if (one.left)
            all.push_back({by_id.at(one.fact), &one});
    return all;
}

auto place(const Fact& fact) {
    return std::tie(fact.subject, fact.topic, fact.id);
}

bool are_asked_together(const Askable& a, const Askable& b) {
    return a.fact->subject == b.fact->subject && a.due->left->first == b.due->left->first &&
           a.due->left->last == b.due->left->last;
}

} // namespace

std::vector<FactDue> facts_due(const std::vector<Fact>& facts, const std::vector<Sheet>& of_candidate,
                               const std::vector<Exam>& exams, Day today) {
    const std::map<FactId, LastAsked> last = last_asked(of_candidate);
    const std::map<std::string, std::size_t> counts = count_never_asked(facts, last);
    std::vector<FactDue> due;
    for (const Fact& fact : facts) {
        if (is_examined_by(exams, fact.subject, today))
            continue;
        const auto asked = last.find(fact.id);
        if (asked == last.end())
            due.push_back(never_asked(fact, counts.at(fact.subject), exams, today));
        else if (asked->second.missed)
            due.push_back(missed_on(asked->second.day, fact, exams, today));
    }
    return due;
}

std::vector<FactId> facts_for_sheet(const std::vector<Fact>& facts, const std::vector<FactDue>& due,
                                    Day today, const ChosenDays& chosen) {
    std::vector<Askable> asked = with_days_left(facts, due);
    asked.erase(std::remove_if(asked.begin(), asked.end(),
                               [&](const Askable& one) { return !is_due(*one.due, today, chosen); }),
                asked.end());
    std::sort(asked.begin(), asked.end(), [](const Askable& a, const Askable& b) {
        return std::pair(a.due->left->last, place(*a.fact)) < std::pair(b.due->left->last, place(*b.fact));
    });
    asked.resize(std::min(asked.size(), Sheet::most_rows));
    std::sort(asked.begin(), asked.end(),
              [](const Askable& a, const Askable& b) { return place(*a.fact) < place(*b.fact); });
    std::vector<FactId> ids;
    ids.reserve(asked.size());
    for (const Askable& one : asked)
        ids.push_back(one.fact->id);
    return ids;
}

std::size_t count_due(const std::vector<FactDue>& due, Day today, const ChosenDays& chosen) {
    return static_cast<std::size_t>(std::count_if(
        due.begin(), due.end(), [&](const FactDue& one) { return is_due(one, today, chosen); }));
}

std::vector<FactId> facts_of_topic(const std::vector<Fact>& facts, const std::vector<FactDue>& due,
                                   const std::vector<Sheet>& of_candidate, const std::string& topic,
                                   Day today) {
    const std::map<FactId, LastAsked> last = last_asked(of_candidate);
    std::set<FactId> due_today;
    for (const FactDue& one : due)
        if (is_due(one, today, {}))
            due_today.insert(one.fact);
    const auto order = [&](FactId id) {
        const auto asked = last.find(id);
        return std::tuple(due_today.count(id) == 0, asked == last.end() ? Day::min() : asked->second.day, id);
    };

    std::vector<FactId> ids;
    for (const Fact& fact : facts)
        if (fact.topic == topic)
            ids.push_back(fact.id);
    if (ids.empty())
        throw Error("no fact of topic '" + topic + "' on file", Error::Kind::not_found,
                    Error::Remedy::list_fact_topics);
    std::sort(ids.begin(), ids.end(), [&](FactId a, FactId b) { return order(a) < order(b); });
    ids.resize(std::min(ids.size(), Sheet::most_rows));
    return ids;
}

std::vector<RecallGroup> recall_groups(const std::vector<Fact>& facts, const std::vector<FactDue>& due) {
    std::vector<Askable> asked = with_days_left(facts, due);
    std::sort(asked.begin(), asked.end(), [](const Askable& a, const Askable& b) {
        return std::tuple(a.due->left->first, a.due->left->last, place(*a.fact)) <
               std::tuple(b.due->left->first, b.due->left->last, place(*b.fact));
    });
    std::vector<RecallGroup> groups;
    const Askable* before = nullptr;
    for (const Askable& one : asked) {
        if (!before || !are_asked_together(*before, one) || groups.back().facts.size() == Sheet::most_rows)
            groups.push_back({{}, one.fact->subject, *one.due->left});
        RecallGroup& group = groups.back();
        group.facts.push_back(one.fact->id);
        group.asked += time_for_fact;
        group.late = group.late || one.due->late;
        before = &one;
    }
    return groups;
}

} // namespace inkturn
