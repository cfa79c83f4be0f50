#pragma once

#include "inkturn/base/day.hpp"
#include "inkturn/clock/allowance.hpp"
#include "inkturn/clock/clock.hpp"
#include "inkturn/paper/marks.hpp"
#include "inkturn/paper/notes.hpp"
#include "inkturn/paper/paper.hpp"

#include <array>
#include <optional>
#include <string>
#include <vector>

namespace inkturn {

/// One attempt at a paper by a candidate on a day.
struct Sitting {
    Day day;
    ExtraTime extra_time;
    std::vector<PartMarks> parts;    ///< in the paper's order, one per part
    std::vector<ClockEvent> clock{}; ///< empty: sat without one
    Notes notes{};
};

/// A paper's marks by phase. in_time + overtime + corrected + unearned = max.
struct Totals {
    Marks max;
    Marks in_time;
    Marks overtime;
    Marks corrected;

    Marks unaided() const { return in_time + overtime; }
    Marks unearned() const { return max - unaided() - corrected; }
};

/// Here and below `parts` are those of the paper, one each: throws Error where there are more or fewer.
Totals totals(const Paper& paper, const std::vector<PartMarks>& parts);

/// Unaided marks short of the maximum, by the reason stated for their part.
struct LostByReason {
    std::array<Marks, 5> stated; ///< by Reason
    Marks unstated;

    Marks of(Reason reason) const { return stated[static_cast<std::size_t>(reason)]; }
    Marks all() const;
};

LostByReason lost_by_reason(const Paper& paper, const std::vector<PartMarks>& parts);

/// The marks of the parts that were tried in time. Divided by the paper's marks it is the reach.
Marks reach_of(const Paper& paper, const std::vector<PartMarks>& parts);

/// Unaided marks short of the maximum, over those parts of a question that were missed, see is_missed().
/// Throws Error where the question is not the paper's.
Marks missed_marks(const Paper& paper, const Question& question, const std::vector<PartMarks>& parts);

/// What becomes of the parts that no entry names.
enum class Rest : std::uint8_t {
    full, ///< all their marks earned in time
    none  ///< not attempted
};

/// Reads the marks of the parts at `positions` from entries, in the order of `positions`. Throws Error for an
/// entry for another part, a part named twice, a /MAX that is not the paper's, or, without a rest, parts that
/// no entry names, which it lists.
std::vector<PartMarks> marks_from_entries(const Paper& paper, const std::vector<std::size_t>& positions,
                                          const std::vector<Entry>& entries, std::optional<Rest> rest);

/// The same for all parts of the paper.
std::vector<PartMarks> marks_from_entries(const Paper& paper, const std::vector<Entry>& entries,
                                          std::optional<Rest> rest);

/// The marks with those of the entries in place of the old ones. Throws as marks_from_entries() does.
std::vector<PartMarks> amended(const Paper& paper, std::vector<PartMarks> parts,
                               const std::vector<Entry>& entries);

/// What two versions of a sitting differ in, one line each: `3b 5+1 -> 4+1`, `extra time: 0% -> 25%`.
std::vector<std::string> differences(const Paper& paper, const Sitting& was, const Sitting& is);

/// A paper made of entries that each give /MAX, in their order.
Paper paper_from_entries(PaperHead head, const std::vector<Entry>& entries);

/// Throws Error for a day after today: what hasn't happened can't be on file.
void check_has_happened(Day day, Day today, const std::string& what);

/// Throws Error unless there is one for each part of the paper. Whether they fit it is not looked at.
void check_covers(const Paper& paper, const std::vector<PartMarks>& parts);

/// Throws Error where the marks can't be those of the part.
void check_fits(const PartMarks& marks, const Part& part);

/// Throws Error unless there are marks for each of the parts at `positions`, and they fit them.
void check_fits(const Paper& paper, const std::vector<std::size_t>& positions,
                const std::vector<PartMarks>& marks);

/// Throws Error unless the day is an accepted one, and marks, clock and notes are those of the paper's parts.
void check_fits(const Paper& paper, const Sitting& sitting);

/// The marks as one line, one text per part in the paper's order, and back. Throws Error where the line does
/// not fit the paper.
std::string to_line(const std::vector<PartMarks>& parts);
std::vector<PartMarks> parse_line(const Paper& paper, const std::vector<std::size_t>& positions,
                                  std::string_view line);
std::vector<PartMarks> parse_line(const Paper& paper, std::string_view line);

} // namespace inkturn
