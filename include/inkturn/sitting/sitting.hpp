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

/// Decides which questions of the paper's choices count, of those set and tried: the most unaided marks, then
/// the most in time, then the first. The others of a choice are not chosen. Whoever makes a paper's marks
/// calls it.
void count_chosen(const Paper& paper, std::vector<PartMarks>& parts);

/// positions_named(), those that were set. Throws Error, also where a question of a choice
/// is named only in part.
std::vector<std::size_t> parts_set(const Paper& paper, std::string_view only);

/// The parts that count, one for each of the paper.
std::vector<bool> counting(const std::vector<PartMarks>& parts);

/// What would have counted of choices of which fewer questions were tried than count: lost on no part.
Marks marks_left_open(const Paper& paper, const std::vector<PartMarks>& parts);

/// Whether everything that the paper asks for was set: of each choice, as many questions as count.
bool is_whole(const Paper& paper, const std::vector<PartMarks>& parts);

/// The marks by phase of the parts that count. in_time + overtime + corrected + unearned = max.
struct Totals {
    Marks max;
    Marks in_time;
    Marks overtime;
    Marks corrected;

    Marks unaided() const { return in_time + overtime; }
    Marks unearned() const { return max - unaided() - corrected; }
};

/// What the marks that count buy.
Seconds allowance(const Paper& paper, const Sitting& sitting);

/// Here and below `parts` are those of the paper, one each: throws Error where there are more or fewer.
Totals totals(const Paper& paper, const std::vector<PartMarks>& parts);

/// Unaided marks short of the maximum, by the reason stated for their part.
struct LostByReason {
    std::array<Marks, 5> stated; ///< by Reason
    Marks unstated;
    Marks left_open; ///< see marks_left_open()

    Marks of(Reason reason) const { return stated[static_cast<std::size_t>(reason)]; }
    Marks all() const;
};

LostByReason lost_by_reason(const Paper& paper, const std::vector<PartMarks>& parts);

/// The marks of the parts that count and were tried in time. Divided by the marks that count it is the reach.
Marks reach_of(const Paper& paper, const std::vector<PartMarks>& parts);

/// Unaided marks short of the maximum, over those parts of a question that were missed, see is_missed().
/// Throws Error where the question is not the paper's.
Marks missed_marks(const Paper& paper, const Question& question, const std::vector<PartMarks>& parts);

/// What becomes of the parts that no entry names.
enum class Rest : std::uint8_t {
    full, ///< all their marks earned in time; of a question of a choice only where an entry names one of its
          ///< parts
    none  ///< not attempted
};

/// Reads the marks of the parts at `positions` from entries, in the order of `positions`. Throws Error for an
/// entry for another part, a part named twice, a /MAX that is not the paper's, or, without a rest, parts that
/// no entry names, which it lists.
std::vector<PartMarks> marks_from_entries(const Paper& paper, const std::vector<std::size_t>& positions,
                                          const std::vector<Entry>& entries, std::optional<Rest> rest);

/// The same for all parts of the paper; those that are not among `set` were not. Questions of a choice may be
/// left out where as many as count are named.
std::vector<PartMarks> marks_from_entries(const Paper& paper, const std::vector<Entry>& entries,
                                          std::optional<Rest> rest,
                                          const std::optional<std::vector<std::size_t>>& set = {});

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

/// Throws Error where none of the parts was set, or a question of a choice only in part.
void check_set(const Paper& paper, const std::vector<PartMarks>& parts);

/// Throws Error unless the day is an accepted one, marks, clock and notes are those of the paper's parts, one
/// of them was set, and questions of a choice were set whole or not at all.
void check_fits(const Paper& paper, const Sitting& sitting);

/// The marks as one line, one text per part in the paper's order, and back. Throws Error where the line does
/// not fit the paper.
std::string to_line(const std::vector<PartMarks>& parts);
std::vector<PartMarks> parse_line(const Paper& paper, const std::vector<std::size_t>& positions,
                                  std::string_view line);
std::vector<PartMarks> parse_line(const Paper& paper, std::string_view line);

} // namespace inkturn
