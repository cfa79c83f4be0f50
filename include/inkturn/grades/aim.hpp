#pragma once

#include "inkturn/grades/award_standing.hpp"
#include "inkturn/statistics/diagnosis.hpp"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace inkturn {

/// A grade to be reached, so many marks clear of its boundary.
struct Aim {
    std::string grade;
    Marks clear{};
};

/// What a component that was not sat has to bring.
struct ComponentNeed {
    std::size_t component;    ///< position in the award
    Marks in_award;           ///< of what full marks bring, rounded up
    std::optional<Marks> raw; ///< of its papers' marks; nothing: no set of the series says which
};

enum class AimReach : std::uint8_t {
    reached,   ///< by the marks in time that count, whatever else comes
    in_gaps,   ///< by what is not sat yet
    beyond,    ///< not even with full marks in what is not sat yet
    short_of,  ///< everything was sat, and it is short
    not_known, ///< marks of a component can't be turned into uniform marks
    too_high   ///< more than the total
};

std::string_view name(AimReach reach) noexcept;

/// What an aim takes under one set, by marks in time: an exam gives no overtime.
struct AimUnder {
    std::size_t set;       ///< position among the sets of the standing
    std::string series;    ///< as AwardUnder::series
    bool is_guess;         ///< as AwardUnder::is_guess
    Marks wanted;          ///< the boundary and what it is to be cleared by
    Marks in_time;         ///< that count
    MarksDifference above; ///< in time above wanted; below 0: short
    AimReach reach;
    std::vector<ComponentNeed> needs; ///< in_gaps and beyond: all gaps at the same share, each rounded up
};

/// Under the sets that have the grade, in the order of AwardStanding::under.
std::vector<AimUnder> aims(const AwardStanding& standing, const Aim& aim);

/// Under the sets of papers that have the grade and that marks fit.
std::vector<AimUnder> aims(const SubjectStanding& in, const Aim& aim);

/// What an aim takes, whatever marks are held against.
struct AimOutlook {
    Aim aim;
    std::vector<std::vector<AimUnder>> subjects; ///< as the candidate's standing in subjects
    std::vector<std::vector<AimUnder>> awards;   ///< as the standings in awards
    std::vector<TopicDiagnosis> nearest;         ///< see nearest_marks()
};

/// Throws Error if none of the sets has the grade.
AimOutlook aim_outlook(const CandidateStanding& standing, const std::vector<AwardStanding>& awards,
                       const Aim& aim, std::vector<TopicDiagnosis> topics);

/// The topics that an hour's work is taken to win the most marks back in, the most first: those with an
/// outlook that brings something, `max` at most.
std::vector<TopicDiagnosis> nearest_marks(std::vector<TopicDiagnosis> topics, std::size_t max = 5);

} // namespace inkturn
