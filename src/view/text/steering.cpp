#include "view/text/steering.hpp"

#include "view/text/retries.hpp"
#include "view/text/text.hpp"

#include <cmath>

namespace inkturn {
namespace {

std::string named(const Choice& choice) {
    const std::string what = visible(choice.what);
    return choice.work == WorkKind::retry ? what
                                          : (choice.work == WorkKind::sit ? "paper " : "topic ") + what;
}

/// `0:20:00 more is outside its window`; empty for nothing.
std::string difference_text(Seconds more, const std::string& what) {
    if (more == Seconds(0))
        return {};
    return length_text(more < Seconds(0) ? -more : more) + (more < Seconds(0) ? " less " : " more ") + what;
}

/// Rounded up, as in the plan's table.
long percent_of(double share) {
    constexpr double exact = 1e-9;
    return std::lround(std::ceil(100 * share - exact));
}

std::string cost_text(const Choice& choice) {
    const ChoiceCost& cost = *choice.cost;
    const long fullest = percent_of(cost.fullest_share);
    const long without = percent_of(cost.fullest_share_without);
    std::vector<std::string> differences{
        difference_text(cost.work, "to do"), difference_text(cost.without_day, "without a day"),
        difference_text(cost.outside, "outside its window"),
        fullest == without ? ""
                           : "the fullest day is " + std::to_string(fullest) + "% instead of " +
                                 std::to_string(without) + "%"};
    std::string text;
    for (const std::string& one : differences)
        if (!one.empty())
            text += (text.empty() ? "" : "; ") + one;
    return text.empty() ? "no other work loses its day or its window by it" : text;
}

std::string said_of(const Choice& choice) {
    const std::string day = day_text(choice.day);
    switch (choice.kind) {
    case ChoiceKind::on:
        if (choice.placed_on != choice.day)
            return named(choice) + " was asked for on " + day + ", which has no room; it " +
                   (choice.placed_on ? "is on " + day_text(*choice.placed_on) : "has no day");
        return named(choice) + " on " + day + ", as you asked";
    case ChoiceKind::again:
        return named(choice) + " once more, as you asked on " + day;
    case ChoiceKind::let_go:
        return named(choice) + " dropped on " + day + " (" + visible(choice.reason) + ")";
    }
    return {};
}

} // namespace

std::string choices_text(const std::vector<Choice>& choices) {
    std::string text;
    std::size_t more = 0;
    for (const Choice& choice : choices) {
        const bool is_lost = choice.kind == ChoiceKind::on && choice.placed_on != choice.day;
        if (choice.cost)
            text += text_line(said_of(choice) + (is_lost ? "." : ": " + cost_text(choice) + "."));
        else
            ++more;
    }
    if (more > 0)
        text += "And " + std::to_string(more) +
                " more that you decided; what those cost isn't worked out here.\n";
    return text;
}

std::string worth_text(const std::vector<Retry>& retries) {
    std::vector<std::string> texts;
    for (const Retry& retry : retries)
        texts.push_back(to_text(retry.id) + " (" + missed_text(retry) + " missed)");
    return joined(texts, ", ");
}

std::string let_go_text(const Candidate& candidate, const SittingRecord& record) {
    std::string text;
    for (const Question& question : record.paper->questions()) {
        const auto let_go = steering_of(candidate, record.id, question.label).let_go;
        const auto open = turn_to_follow(record, question);
        if (let_go && open)
            text += text_line("Dropped: " + to_text(RetryId{record.id, question.label, open->turn}) + " on " +
                              day_text(let_go->day) + ": " + visible(let_go->reason) + ".");
    }
    return text;
}

} // namespace inkturn
