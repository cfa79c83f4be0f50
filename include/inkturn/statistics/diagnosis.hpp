#pragma once

#include "inkturn/base/day.hpp"
#include "inkturn/base/interval.hpp"
#include "inkturn/paper/codes.hpp"
#include "inkturn/paper/marks.hpp"
#include "inkturn/sitting/sitting.hpp"
#include "inkturn/statistics/outlook.hpp"
#include "inkturn/statistics/topic.hpp"

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

/// What a topic needs. Each of the first four wins back the marks lost to one cause.
enum class Advice : std::uint8_t {
    relearn,  ///< the method isn't known
    recall,   ///< facts aren't known
    care,     ///< slips, misreadings, and accuracy lost after its method
    pace,     ///< unfinished, not attempted, or earned in overtime
    practise, ///< marks are lost, and most of them without a reason
    firm      ///< hardly any marks to win
};

std::string_view name(Advice advice) noexcept;

/// Marks that were not earned in time, by what would win them back. A reason stated for the part overrides
/// the codes of its marks.
struct LostByCause {
    std::array<Marks, 4> known; ///< by Advice, relearn to pace
    Marks unexplained;          ///< no reason stated, and the codes don't tell

    Marks of(Advice cause) const { return known[static_cast<std::size_t>(cause)]; }
    Marks all() const;
};

/// What a topic needs, and whether enough is known to say so.
struct TopicAdvice {
    Advice what;
    bool sure;          ///< otherwise probably: little has been seen so far
    bool rated = false; ///< by the candidate's rating, where the plan goes by that
};

/// How one topic stands, by the marks of parts not seen before.
struct TopicDiagnosis {
    std::string subject;
    std::string topic;          ///< empty: the parts that state none
    std::size_t parts;          ///< of a class: counted once for each candidate who sat them
    std::size_t distinct_parts; ///< counted once
    std::size_t candidates;     ///< who have marks in them
    std::size_t method_parts;   ///< of these, where marks went because the method isn't known
    Marks marks;                ///< above 0
    Marks in_time;              ///< earned within the allowance
    Marks overtime;             ///< earned after it, still unaided
    Interval unaided_interval;  ///< of unaided ÷ marks, 95%, by these parts alone

    Marks again_marks;   ///< of the parts that were tried again
    Marks again_unaided; ///< of these, by the latest re-attempts

    LostByReason lost;         ///< sums to marks - unaided
    LostByCode lost_by_code;   ///< with lost_code_unknown sums to marks - unaided
    Marks lost_code_unknown;   ///< of parts whose codes don't tell
    LostByCause lost_by_cause; ///< sums to marks - in time

    std::vector<Day> relearned; ///< by candidates who tried no new part of it since; see add_relearned()

    std::optional<TopicOutlook> outlook; ///< nothing until add_outlook(), and for parts without a topic
    std::optional<TopicAdvice> advice;   ///< with the outlook

    Marks unaided() const { return in_time + overtime; }
    Marks lost_in_time() const { return marks - in_time; }
    /// Whether all relearned it after their marks.
    bool is_untried() const { return candidates > 0 && relearned.size() >= candidates; }
    /// Of unaided marks, 0 to 1; 0 where there are none.
    double overtime_share() const;
    /// Whether an outlook may make it one to relearn for sure: most marks went for the method, in parts
    /// enough.
    bool may_need_relearning() const;

    /// Thresholds of the advice: our own, see docs/method.md.
    static constexpr std::size_t min_parts = 2;    ///< to be sure; to relearn it, of method_parts
    static constexpr double firm_chance = 0.05;    ///< that the share is below TopicOutlook::sound_share
    static constexpr double advised_chance = 0.80; ///< of the same
};

/// The topics of the subject's papers, or of all papers if it is empty, by subject, then name. Parts without
/// a topic come last. Each element of `unseen` holds one candidate's unseen_marks(), of `again` the
/// reattempted_marks(); with several, the parts of all are taken together.
std::vector<TopicDiagnosis> diagnose(const std::vector<std::vector<PaperMarks>>& unseen,
                                     const std::vector<std::vector<PaperMarks>>& again = {},
                                     std::string_view subject = {});

/// A topic that a candidate relearned in full, and no new part of it was tried since.
struct UntriedTopic {
    std::string subject;
    std::string topic;
    Day relearned_on;
};

/// Notes which of the topics were relearned after all their marks.
void add_relearned(std::vector<TopicDiagnosis>& topics, const std::vector<UntriedTopic>& untried);

/// Gives a topic its outlook, and what follows from it.
void add_outlook(TopicDiagnosis& topic, const TopicOutlook& outlook);

/// Those that cost the most marks in a paper first; if tied, by subject and name. Those without an outlook
/// come last.
void sort_by_cost(std::vector<TopicDiagnosis>& topics);

} // namespace inkturn
