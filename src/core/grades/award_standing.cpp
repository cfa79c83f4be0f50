#include "inkturn/grades/award_standing.hpp"

#include "inkturn/base/error.hpp"
#include "inkturn/retry/latest.hpp"

#include <algorithm>
#include <array>

namespace inkturn {
namespace {

bool is_of_component(const Paper& paper, const Award& award, const Component& component) {
    return covers(award, paper.subject()) && paper.component() == component.name;
}

/// Of a whole paper that had not been sat before.
bool is_unseen_whole(const Candidate& candidate, const SittingRecord& record) {
    const auto first =
        std::find_if(candidate.sittings.begin(), candidate.sittings.end(),
                     [&](const SittingRecord& other) { return other.paper->id() == record.paper->id(); });
    return first->id == record.id && is_whole(*record.paper, record.sitting.parts);
}

void take_once(std::vector<std::string>& ids, const std::string& id) {
    if (std::find(ids.begin(), ids.end(), id) == ids.end())
        ids.push_back(id);
}

ComponentBasis basis_of_component(const Award& award, const Component& component,
                                  const Candidate& candidate) {
    ComponentBasis basis;
    for (const SittingRecord& record : candidate.sittings) {
        const Paper& paper = *record.paper;
        if (!is_of_component(paper, award, component))
            continue;
        if (paper.marks() != component.marks) {
            take_once(basis.out_of_others, paper.id());
        } else if (is_unseen_whole(candidate, record)) {
            if (basis.sitting)
                basis.earlier.push_back(basis.sitting->paper->id());
            basis.sitting = {record.paper, record.sitting.day, totals(paper, record.sitting.parts)};
        }
    }
    return basis;
}

template <typename Value, typename Make>
ByPhase<Value> each_phase(const Totals& totals, const Make& make) {
    return {make(totals.in_time), make(totals.unaided()), make(totals.unaided() + totals.corrected)};
}

/// What is known of an award's sum under one set.
class Summing {
  public:
    Summing(const AwardStanding& standing, std::string series)
        : standing_(standing), award_(standing.award), series_(std::move(series)) {}

    AwardUnder under(std::size_t set) {
        AwardUnder under{set, series_, rests_on_guess(set), {}, {}, {}};
        for (std::size_t i = 0; i < award_.components.size(); ++i)
            under.components.push_back(brought_by(i));
        for (std::size_t i = 0; i < award_.components.size(); ++i)
            if (award_.choice_of(i) == nullptr && !is_known(under.components[i]))
                under.gaps.push_back({{i}, 1, award_.components[i].maximum()});
        for (const ComponentChoice& choice : award_.choices)
            choose(choice, under);
        under.reached = reached(under);
        return under;
    }

  private:
    static bool is_known(const ComponentUnder& component) {
        return component.place == ComponentPlace::counts || component.place == ComponentPlace::spare;
    }

    bool rests_on_guess(std::size_t set) const {
        const std::vector<BoundarySet>& sets = standing_.sets;
        return sets[set].is_guess || std::any_of(sets.begin(), sets.end(), [&](const BoundarySet& one) {
                   return !series_.empty() && !one.component.empty() && one.name == series_ && one.is_guess;
               });
    }

    ComponentUnder brought_by(std::size_t position) const {
        const Component& component = award_.components[position];
        const auto& sitting = standing_.components[position].sitting;
        if (!sitting)
            return {ComponentPlace::open, {0, 0, 0}};
        if (!component.uniform)
            return {ComponentPlace::counts, each_phase<WeightedMarks>(sitting->totals, [&](Marks raw) {
                        return weighted(component, raw);
                    })};
        const auto scale = scale_of(standing_, position, series_);
        if (!scale)
            return {ComponentPlace::no_scale, {0, 0, 0}};
        return {ComponentPlace::counts, each_phase<WeightedMarks>(sitting->totals, [&](Marks raw) {
                    return WeightedMarks{scaled(*scale, raw).count()} * Weight::unit;
                })};
    }

    /// The best ones count, by unaided marks, the first if tied; what the choice still lacks is a gap.
    void choose(const ComponentChoice& choice, AwardUnder& under) const {
        std::vector<std::size_t> known;
        std::vector<std::size_t> others;
        for (const std::size_t position : choice.components)
            (is_known(under.components[position]) ? known : others).push_back(position);
        std::stable_sort(known.begin(), known.end(), [&](std::size_t a, std::size_t b) {
            return under.components[a].brings.unaided > under.components[b].brings.unaided;
        });
        const auto count = static_cast<std::size_t>(choice.count);
        for (std::size_t i = count; i < known.size(); ++i)
            under.components[known[i]].place = ComponentPlace::spare;
        if (known.size() < count) {
            const std::size_t lacking = count - known.size();
            under.gaps.push_back({others, lacking,
                                  award_.components[choice.components.front()].maximum() *
                                      static_cast<WeightedMarks>(lacking)});
            return;
        }
        for (const std::size_t position : others)
            if (under.components[position].place == ComponentPlace::open)
                under.components[position].place = ComponentPlace::closed;
    }

    ByPhase<MarksReached> reached(const AwardUnder& under) const {
        WeightedMarks open = 0;
        for (const Gap& gap : under.gaps)
            open += gap.maximum;
        const BoundarySet& set = standing_.sets[under.set];
        const auto range = [&](WeightedMarks ByPhase<WeightedMarks>::*phase) {
            WeightedMarks sure = 0;
            for (const ComponentUnder& component : under.components)
                if (component.place == ComponentPlace::counts)
                    sure += component.brings.*phase;
            const Marks low = rounded(sure);
            const Marks high = rounded(sure + open);
            return MarksReached{low, high, grade_of(set, low), grade_of(set, high)};
        };
        using Brought = ByPhase<WeightedMarks>;
        return {range(&Brought::in_time), range(&Brought::unaided), range(&Brought::with_corrected)};
    }

    const AwardStanding& standing_;
    const Award& award_;
    std::string series_;
};

/// The names of the components' sets, each once, in their order.
std::vector<std::string> series_in(const std::vector<BoundarySet>& sets) {
    std::vector<std::string> names;
    for (const BoundarySet& set : sets)
        if (!set.component.empty())
            take_once(names, set.name);
    return names;
}

/// The series by which a set of the award is looked at.
std::vector<std::string> series_for(const BoundarySet& set, const AwardStanding& standing) {
    if (!standing.award.is_uniform())
        return {""};
    std::vector<std::string> names = series_in(standing.sets);
    if (names.empty())
        return {""};
    if (std::find(names.begin(), names.end(), set.name) != names.end())
        return {set.name};
    return names;
}

void add_grades(AwardStanding& standing, std::size_t component) {
    const auto& sitting = standing.components[component].sitting;
    for (std::size_t i = 0; sitting && i < standing.sets.size(); ++i) {
        const BoundarySet& set = standing.sets[i];
        if (set.component != standing.award.components[component].name)
            continue;
        ComponentGrade grade{
            i,
            component,
            each_phase<GradeResult>(sitting->totals, [&](Marks raw) { return grade_of(set, raw); }),
            {}};
        if (const auto scale = scale_of(standing, component, set.name))
            grade.uniform =
                each_phase<Marks>(sitting->totals, [&](Marks raw) { return scaled(*scale, raw); });
        standing.grades.push_back(grade);
    }
}

} // namespace

std::string_view name(ComponentPlace place) noexcept {
    static constexpr std::array<std::string_view, 5> names{"counts", "spare", "open", "closed", "no_scale"};
    return names[static_cast<std::size_t>(place)];
}

std::vector<ComponentBasis> component_bases(const Award& award, const Candidate& candidate,
                                            const NextPaper& next) {
    check_whole(candidate);
    check_award(award);
    const auto subject = predictable_subject(candidate, award.subject);
    const auto share = next && subject ? next(*subject) : std::nullopt;
    std::vector<ComponentBasis> bases;
    for (const Component& component : award.components) {
        bases.push_back(basis_of_component(award, component, candidate));
        if (!bases.back().sitting && share)
            bases.back().foreseen = prediction(*share, component.marks);
    }
    return bases;
}

std::optional<UniformScale> scale_of(const AwardStanding& standing, std::size_t component,
                                     const std::string& series) {
    const Component& of = standing.award.components[component];
    const auto set = std::find_if(standing.sets.begin(), standing.sets.end(), [&](const BoundarySet& one) {
        return one.component == of.name && one.name == series;
    });
    if (set == standing.sets.end() || !of.uniform)
        return std::nullopt;
    return uniform_scale(*set, set->uniform, of.uniform);
}

AwardStanding award_standing(const Award& award, const Candidate& candidate,
                             const std::vector<BoundarySet>& sets, const NextPaper& next) {
    AwardStanding standing{award, {}, component_bases(award, candidate, next), {}, {}};
    for (const BoundarySet& set : sets)
        if (set.award == award.name) {
            check_boundary_set(set);
            check_is_of(set, award);
            standing.sets.push_back(set);
        }
    for (std::size_t i = 0; i < standing.sets.size(); ++i)
        if (standing.sets[i].component.empty())
            for (const std::string& series : series_for(standing.sets[i], standing))
                standing.under.push_back(Summing(standing, series).under(i));
    for (std::size_t i = 0; i < award.components.size(); ++i)
        add_grades(standing, i);
    return standing;
}

std::vector<AwardStanding> award_standings(const std::vector<Award>& awards, const std::string& subject,
                                           const Candidate& candidate, const std::vector<BoundarySet>& sets,
                                           const NextPaper& next) {
    std::vector<AwardStanding> standings;
    for (const Award& award : awards)
        if (subject.empty() || covers(award, subject))
            standings.push_back(award_standing(award, candidate, sets, next));
    return standings;
}

} // namespace inkturn
