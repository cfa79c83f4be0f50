#include "inkturn/clock/pace.hpp"

#include "inkturn/sitting/sitting.hpp"

#include <algorithm>

namespace inkturn {
namespace {

/// Whether more of the choice's questions are to be sat than count.
bool is_to_be_made(const ChoiceOfQuestions& choice, const std::vector<bool>& is_set) {
    return std::count_if(choice.questions.begin(), choice.questions.end(), [&](const Question& question) {
               return is_set[question.parts.front()];
           }) > choice.choice.count;
}

/// The first part of a choice that is to be made; the count of parts where there is none.
std::size_t first_open(const Paper& paper, const std::vector<bool>& is_set) {
    std::size_t first = paper.parts().size();
    for (const ChoiceOfQuestions& choice : paper.choices())
        if (is_to_be_made(choice, is_set))
            for (const Question& question : choice.questions)
                for (const std::size_t part : question.parts)
                    if (is_set[part])
                        first = std::min(first, part);
    return first;
}

} // namespace

Pace pace_of(const Paper& paper, ExtraTime extra, const std::optional<std::vector<std::size_t>>& set) {
    std::vector<PartMarks> parts(paper.parts().size(), set ? PartMarks::not_set() : PartMarks());
    std::vector<bool> is_set(parts.size(), !set);
    for (const std::size_t position : set.value_or(std::vector<std::size_t>())) {
        parts.at(position) = PartMarks();
        is_set[position] = true;
    }
    count_chosen(paper, parts);
    const std::vector<Seconds> allowances = part_allowances(paper, is_set, extra);
    const std::vector<Seconds> times = checkpoints(paper, is_set, extra);
    const std::size_t open = first_open(paper, is_set);
    const Marks marks = totals(paper, parts).max;
    Pace pace{paper, extra, {}, marks, allowance(paper, marks, extra), open < parts.size()};
    for (std::size_t i = 0; i < parts.size(); ++i)
        if (is_set[i])
            pace.parts.push_back({i, allowances[i], i < open ? std::optional(times[i]) : std::nullopt});
    return pace;
}

} // namespace inkturn
