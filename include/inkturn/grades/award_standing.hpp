#pragma once

#include "inkturn/grades/award.hpp"
#include "inkturn/grades/prediction.hpp"
#include "inkturn/grades/standing.hpp"
#include "inkturn/grades/uniform_mark.hpp"

#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace inkturn {

/// A sitting whose marks a component's come from.
struct ComponentSitting {
    std::shared_ptr<const Paper> paper;
    Day day{};
    Totals totals;
};

/// What a candidate sat of a component.
struct ComponentBasis {
    std::optional<ComponentSitting> sitting; ///< the latest of a whole paper that was unseen; nothing: none
    std::vector<std::string> earlier;        ///< ids of its papers whose unseen sittings came before that one
    std::vector<std::string> out_of_others;  ///< ids of papers of it that have other marks than it: not taken
    std::optional<Prediction> foreseen;      ///< where nothing was sat: what the next paper may bring
};

/// How a component comes into an award's sum.
enum class ComponentPlace : std::uint8_t {
    counts,
    spare,   ///< others of its choice bring more
    open,    ///< not sat, and it counts or may count
    closed,  ///< not sat, and its choice is full without it
    no_scale ///< sat, but no set of the series turns its marks into uniform marks
};

std::string_view name(ComponentPlace place) noexcept;

struct ComponentUnder {
    ComponentPlace place;
    ByPhase<WeightedMarks> brings; ///< into the sum, if it counts; 0 where it is open or without a scale
};

/// Components of which so many are still to bring their marks.
struct Gap {
    std::vector<std::size_t> components; ///< positions, ascending
    std::size_t count;                   ///< of these
    WeightedMarks maximum;               ///< that all of `count` together can bring
};

/// From what is sure to what full marks in every gap would bring.
struct MarksReached {
    Marks low;
    Marks high;
    GradeResult low_grade;
    GradeResult high_grade;
};

/// Where a candidate stands under one set of an award.
struct AwardUnder {
    std::size_t set;                        ///< position among the sets
    std::string series;                     ///< whose sets made the uniform marks; empty: none were made
    bool is_guess;                          ///< the set is one, or one that made uniform marks
    std::vector<ComponentUnder> components; ///< as the award's
    std::vector<Gap> gaps;                  ///< components that always count first
    ByPhase<MarksReached> reached;          ///< rounded once, a half up
};

/// Where a candidate's marks in a component lie under one of its sets.
struct ComponentGrade {
    std::size_t set;       ///< position among the sets
    std::size_t component; ///< position in the award
    ByPhase<GradeResult> reached;
    std::optional<ByPhase<Marks>> uniform;
};

struct AwardStanding {
    Award award;
    std::vector<BoundarySet> sets;          ///< of the award and its components
    std::vector<ComponentBasis> components; ///< as the award's
    std::vector<AwardUnder> under;          ///< in the order of the award's own sets, then by series
    std::vector<ComponentGrade> grades; ///< of components that were sat, in their order, then that of sets
};

/// What the candidate sat of each component: the latest sitting of a whole paper that had not been sat before
/// counts, whatever else was sat. Foreseen is what nothing was sat of, where `next` is given.
std::vector<ComponentBasis> component_bases(const Award& award, const Candidate& candidate,
                                            const NextPaper& next = {});

/// The standing under the award's own sets; of `sets` those that are the award's count. In an award with
/// uniform marks a set goes with the components' sets of its name; where there are none of that name, with
/// those of each name in turn. Throws Error as check_award() and check_is_of() do.
AwardStanding award_standing(const Award& award, const Candidate& candidate,
                             const std::vector<BoundarySet>& sets, const NextPaper& next = {});

/// Those in the awards whose papers may be of the subject; in all if it is empty.
std::vector<AwardStanding> award_standings(const std::vector<Award>& awards, const std::string& subject,
                                           const Candidate& candidate, const std::vector<BoundarySet>& sets,
                                           const NextPaper& next = {});

/// The scale of a component in a series, by its set there; nothing without one.
std::optional<UniformScale> scale_of(const AwardStanding& standing, std::size_t component,
                                     const std::string& series);

} // namespace inkturn
