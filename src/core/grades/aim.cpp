#include "inkturn/grades/aim.hpp"

#include "inkturn/base/error.hpp"

#include <algorithm>
#include <array>

namespace inkturn {
namespace {

constexpr WeightedMarks divided_up(WeightedMarks a, WeightedMarks b) {
    return (a + b - 1) / b;
}

Marks rounded_up(WeightedMarks marks) {
    return Marks(static_cast<int>(divided_up(marks, Weight::unit)));
}

/// Sums over an award's gaps under one set.
struct Gaps {
    WeightedMarks maximum = 0;
    WeightedMarks missing = 0; ///< that they have to bring together
};

/// The share missing ÷ maximum of what the component can bring, and the raw marks that bring it.
ComponentNeed need_of(const AwardStanding& standing, const AwardUnder& under, std::size_t position,
                      const Gaps& gaps) {
    const Component& component = standing.award.components[position];
    if (!component.uniform) {
        const Marks raw(static_cast<int>(divided_up(gaps.missing * component.marks.count(), gaps.maximum)));
        return {position, rounded_up(weighted(component, raw)), raw};
    }
    const Marks uniform(
        static_cast<int>(divided_up(gaps.missing * component.uniform->count(), gaps.maximum)));
    const auto scale = scale_of(standing, position, under.series);
    return {position, uniform,
            scale && uniform <= *component.uniform ? raw_for(*scale, uniform) : std::nullopt};
}

/// What counts for sure, exactly.
WeightedMarks sure_in_time(const AwardUnder& under) {
    WeightedMarks sure = 0;
    for (const ComponentUnder& component : under.components)
        if (component.place == ComponentPlace::counts)
            sure += component.brings.in_time;
    return sure;
}

Gaps gaps_of(const AwardUnder& under, Marks wanted) {
    Gaps gaps;
    for (const Gap& gap : under.gaps)
        gaps.maximum += gap.maximum;
    // The sum is rounded once, a half up.
    gaps.missing = WeightedMarks{wanted.count()} * Weight::unit - Weight::unit / 2 - sure_in_time(under);
    return gaps;
}

bool lacks_a_scale(const AwardUnder& under) {
    return std::any_of(under.components.begin(), under.components.end(),
                       [](const ComponentUnder& one) { return one.place == ComponentPlace::no_scale; });
}

AimReach reach_of(const AwardUnder& under, const AimUnder& aim, const Gaps& gaps, Marks total) {
    if (aim.wanted > total)
        return AimReach::too_high;
    if (aim.above.count() >= 0)
        return AimReach::reached;
    if (lacks_a_scale(under))
        return AimReach::not_known;
    if (under.gaps.empty())
        return AimReach::short_of;
    return gaps.missing > gaps.maximum ? AimReach::beyond : AimReach::in_gaps;
}

AimUnder aim_under(const AwardStanding& standing, const AwardUnder& under, Marks wanted) {
    const Marks in_time = under.reached.in_time.low;
    AimUnder aim{under.set, under.series,      under.is_guess,    wanted,
                 in_time,   {in_time, wanted}, AimReach::reached, {}};
    const Gaps gaps = gaps_of(under, wanted);
    aim.reach = reach_of(under, aim, gaps, standing.sets[under.set].total);
    if (aim.reach == AimReach::in_gaps)
        for (const Gap& gap : under.gaps)
            for (const std::size_t component : gap.components)
                aim.needs.push_back(need_of(standing, under, component, gaps));
    return aim;
}

} // namespace

std::string_view name(AimReach reach) noexcept {
    static constexpr std::array<std::string_view, 6> names{"reached",  "in_gaps",   "beyond",
                                                           "short_of", "not_known", "too_high"};
    return names[static_cast<std::size_t>(reach)];
}

std::vector<AimUnder> aims(const AwardStanding& standing, const Aim& aim) {
    std::vector<AimUnder> all;
    for (const AwardUnder& under : standing.under)
        if (const auto boundary = find_boundary(standing.sets[under.set], aim.grade))
            all.push_back(aim_under(standing, under, *boundary + aim.clear));
    return all;
}

std::vector<AimUnder> aims(const SubjectStanding& in, const Aim& aim) {
    std::vector<AimUnder> all;
    for (const StandingUnder& under : in.standing.under) {
        const BoundarySet& set = in.sets[under.set];
        const auto boundary = find_boundary(set, aim.grade);
        if (!boundary)
            continue;
        const Marks wanted = *boundary + aim.clear;
        const Marks in_time = under.basis.totals.in_time;
        const MarksDifference above(in_time, wanted);
        all.push_back({under.set,
                       "",
                       set.is_guess,
                       wanted,
                       in_time,
                       above,
                       wanted > set.total   ? AimReach::too_high
                       : above.count() >= 0 ? AimReach::reached
                                            : AimReach::short_of,
                       {}});
    }
    return all;
}

AimOutlook aim_outlook(const CandidateStanding& standing, const std::vector<AwardStanding>& awards,
                       const Aim& aim, std::vector<TopicDiagnosis> topics) {
    AimOutlook outlook{aim, {}, {}, nearest_marks(std::move(topics))};
    bool is_known = false;
    const auto look_in = [&](const std::vector<BoundarySet>& sets) {
        is_known = is_known || std::any_of(sets.begin(), sets.end(), [&](const BoundarySet& set) {
                       return find_boundary(set, aim.grade).has_value();
                   });
    };
    for (const SubjectStanding& in : standing.subjects) {
        look_in(in.sets);
        outlook.subjects.push_back(aims(in, aim));
    }
    for (const AwardStanding& award : awards) {
        look_in(award.sets);
        outlook.awards.push_back(aims(award, aim));
    }
    if (!is_known)
        throw Error("no boundary set looked at has the grade '" + aim.grade + "'", Error::Kind::not_found,
                    Error::Remedy::list_boundary_sets);
    return outlook;
}

std::vector<TopicDiagnosis> nearest_marks(std::vector<TopicDiagnosis> topics, std::size_t max) {
    topics.erase(std::remove_if(topics.begin(), topics.end(),
                                [](const TopicDiagnosis& topic) {
                                    return !topic.outlook || topic.outlook->won_back <= 0;
                                }),
                 topics.end());
    std::stable_sort(topics.begin(), topics.end(), [](const TopicDiagnosis& a, const TopicDiagnosis& b) {
        return a.outlook->won_back > b.outlook->won_back;
    });
    topics.erase(topics.begin() + static_cast<std::ptrdiff_t>(std::min(topics.size(), max)), topics.end());
    return topics;
}

} // namespace inkturn
