#include "inkturn/retry/due_question.hpp"

#include <algorithm>
#include <map>
#include <tuple>
#include <utility>

namespace inkturn {
namespace {

/// The retries of one question, by candidate.
using ByCandidate = std::map<std::string_view, std::vector<const Retry*>>;

bool is_planned(const Retry& retry, DaySpan days) {
    return retry.day && days.contains(*retry.day);
}

void add(DueQuestion& due, const std::vector<const Retry*>& of_candidate, DaySpan days) {
    const auto any = [&](auto holds) { return std::any_of(of_candidate.begin(), of_candidate.end(), holds); };
    due.candidates.push_back(of_candidate.front()->candidate);
    due.planned += any([&](const Retry* retry) { return is_planned(*retry, days); });
    due.late += any([](const Retry* retry) { return retry->late; });
    for (const Retry* const retry : of_candidate) {
        due.missed += retry->missed_marks;
        if (!retry->late && retry->window)
            due.closes = std::min(due.closes.value_or(retry->window->closes), retry->window->closes);
    }
}

bool comes_first(const DueQuestion& a, const DueQuestion& b) {
    const auto key = [](const DueQuestion& due) {
        return std::tuple(due.candidates.size(), due.late, due.missed.count());
    };
    if (key(a) != key(b))
        return key(a) > key(b);
    return std::tie(a.paper->id(), a.question) < std::tie(b.paper->id(), b.question);
}

} // namespace

bool is_due(const Retry& retry, DaySpan days) {
    if (is_planned(retry, days))
        return true;
    if (!retry.possible_days || retry.possible_days->first > days.last)
        return false;
    return retry.late || retry.possible_days->last >= days.first;
}

std::vector<DueQuestion> due_questions(const std::vector<Retry>& retries, DaySpan days) {
    std::map<std::pair<std::string, std::size_t>, ByCandidate> by_question;
    for (const Retry& retry : retries)
        if (is_due(retry, days))
            by_question[{retry.paper->id(), retry.question}][retry.candidate].push_back(&retry);
    std::vector<DueQuestion> questions;
    for (const auto& [named, by_candidate] : by_question) {
        DueQuestion due{by_candidate.begin()->second.front()->paper, named.second, {}};
        for (const auto& of_candidate : by_candidate)
            add(due, of_candidate.second, days);
        questions.push_back(std::move(due));
    }
    std::sort(questions.begin(), questions.end(), comes_first);
    return questions;
}

} // namespace inkturn
