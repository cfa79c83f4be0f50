#include "view/text/aim.hpp"

#include "view/text/award.hpp"
#include "view/text/text.hpp"

#include <algorithm>

namespace inkturn {
namespace {

/// `64 of 100 in Paper 2`; of uniform marks `64 of 100 uniform marks in Paper 2 (49 of 75 raw)`.
std::string need_text(const ComponentNeed& need, const Award& award) {
    const Component& component = award.components[need.component];
    const std::string raw = need.raw ? marks_number(*need.raw) + " of " + marks_number(component.marks) : "";
    if (!component.uniform)
        return raw + " in " + component.name;
    return marks_number(need.in_award) + " of " + marks_number(*component.uniform) + " uniform marks in " +
           component.name +
           (need.raw ? " (" + raw + " raw)" : ", whose raw marks this series has no boundaries to tell");
}

/// Those that always count first, then `any 1 of these: 48 of 75 in Statistics, 48 of 75 in Mechanics`.
std::string needs_text(const AimUnder& aim, const AwardUnder& under, const Award& award) {
    const auto text_of = [&](std::size_t component) {
        const auto need = std::find_if(aim.needs.begin(), aim.needs.end(),
                                       [&](const ComponentNeed& one) { return one.component == component; });
        return need_text(*need, award);
    };
    std::vector<std::string> all;
    for (const Gap& gap : under.gaps) {
        std::vector<std::string> texts;
        for (const std::size_t component : gap.components)
            texts.push_back(text_of(component));
        const std::string any =
            gap.count < gap.components.size() ? "any " + std::to_string(gap.count) + " of these: " : "";
        all.push_back(any + joined(texts, any.empty() ? " and " : ", "));
    }
    return joined(all, " and ");
}

std::string gaps_text(const AimUnder& aim, const AwardUnder& under, const Award& award) {
    std::size_t counted = 0;
    for (const Gap& gap : under.gaps)
        counted += static_cast<std::size_t>(gap.count);
    const bool is_one = counted == 1;
    return std::string(is_one ? "what is not sat yet must bring: "
                              : "what is not sat yet must bring, each the same share: ") +
           needs_text(aim, under, award) + ".";
}

std::string short_text(const AimUnder& aim) {
    return "short by " + std::to_string(-aim.above.count()) + " in time";
}

std::string reach_text(const AimUnder& aim) {
    switch (aim.reach) {
    case AimReach::reached:
        return "reached in time, with " +
               (aim.above.count() == 0 ? "none" : std::to_string(aim.above.count())) + " to spare.";
    case AimReach::too_high:
        return "that is more than all the marks there are: aim for less.";
    case AimReach::not_known:
        return short_text(aim) + "; what it takes can't be told until the sets named above are on file.";
    case AimReach::short_of:
        return short_text(aim) + " with all that was sat: the next paper has to bring more.";
    case AimReach::beyond:
        return short_text(aim) + ", which full marks in all that is not sat yet don't bring.";
    case AimReach::in_gaps:
        return short_text(aim) + "; ";
    }
    return "";
}

std::string start_of(const AimUnder& aim, const BoundarySet& set) {
    return visible(set_and_series(set, aim.series, aim.is_guess)) + ", " + marks_number(aim.wanted) + " of " +
           marks_number(set.total) + ": ";
}

} // namespace

std::string aim_title(const Aim& aim) {
    return visible(aim.grade) +
           (aim.clear > Marks(0) ? ", " + counted_marks(aim.clear) + " clear of its boundary" : "");
}

std::string aim_lines(const std::vector<AimUnder>& aims, const AwardStanding& standing, const Aim& aim) {
    std::string lines;
    for (const AimUnder& one : aims) {
        const BoundarySet& set = standing.sets[one.set];
        const auto under =
            std::find_if(standing.under.begin(), standing.under.end(), [&](const AwardUnder& other) {
                return other.set == one.set && other.series == one.series;
            });
        lines += text_line(
            start_of(one, set) + reach_text(one) +
            (one.reach == AimReach::in_gaps ? visible(gaps_text(one, *under, standing.award)) : ""));
    }
    return aims.empty() && !standing.under.empty()
               ? text_line("No set of this award has the grade " + visible(aim.grade) + ".")
               : lines;
}

std::string aim_lines(const std::vector<AimUnder>& aims, const SubjectStanding& in) {
    std::string lines;
    for (const AimUnder& one : aims) {
        const BoundarySet& set = in.sets[one.set];
        lines += text_line(start_of(one, set) + reach_text(one));
    }
    return lines;
}

std::optional<Table> nearest_table(const std::vector<TopicDiagnosis>& nearest) {
    if (nearest.empty())
        return std::nullopt;
    Table table({{"topic", Table::Align::left_may_be_cut},
                 {"subject", Table::Align::left_may_be_cut, true},
                 {"expected", Table::Align::right},
                 {"costs a paper", Table::Align::right},
                 {"an hour may win", Table::Align::right}});
    for (const TopicDiagnosis& topic : nearest)
        table.add_row({topic.topic, topic.subject, decimal(100 * topic.outlook->share, 0) + "%",
                       one_decimal(topic.outlook->marks_a_paper), one_decimal(topic.outlook->won_back)});
    return table;
}

std::string nearest_key(Gain gain) {
    return text_line("Expected: of the topic's marks, in time, by the model of the topics. This assumes that "
                     "an hour wins back " +
                     std::to_string(gain.percent()) +
                     "% of what is lost. It is arithmetic, not a promise: inkturn topics says "
                     "more.");
}

} // namespace inkturn
