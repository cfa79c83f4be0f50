#pragma once

#include "inkturn/clock/clock.hpp"
#include "inkturn/paper/marks.hpp"
#include "inkturn/paper/paper.hpp"
#include "inkturn/retry/candidate.hpp"
#include "inkturn/retry/retry.hpp"
#include "inkturn/sitting/sitting.hpp"

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

/// Names a script: `12` becomes the sitting of that number, `12q7` and `12q7t2` the re-attempt of that retry.
struct ScriptId {
    SittingId sitting{};
    std::optional<RetryId> retry; ///< of that sitting
};

ScriptId script_id(SittingId sitting);
ScriptId script_id(const RetryId& retry);
std::string to_text(const ScriptId& id);

/// Throws Error where the text is neither a sitting's number nor a retry's id.
ScriptId parse_script_id(std::string_view text);

/// What a candidate wrote: a paper, or one question again. It is being worked on, or handed in and not fully
/// marked.
struct Script {
    ScriptId id;
    std::string candidate;
    std::shared_ptr<const Paper> paper;
    std::vector<std::size_t> positions; ///< of the parts that it covers, ascending
    Day day;
    ExtraTime extra_time;
    /// In the order of positions; nothing: not marked yet. From the start a part that was not set is not set.
    std::vector<std::optional<PartMarks>> marks;
    std::vector<ClockEvent> events; ///< of clock_of()
    Notes notes{};                  ///< of parts at positions

    bool is_set(std::size_t place) const; ///< of the part at this place among the positions
    bool is_handed_in() const;
    bool is_marked() const;
};

/// The positions of a set of parts, or nothing for all.
using PartsSet = std::optional<std::vector<std::size_t>>;

/// An empty script, of a paper or of one of the candidate's retries.
Script blank_script(const std::string& candidate, std::shared_ptr<const Paper> paper, Day day,
                    ExtraTime extra, const PartsSet& set = {});
/// Throws Error as parts_tried() does.
Script blank_script(const Candidate& candidate, const RetryId& retry, Day day, Day today,
                    const PartsSet& only = {});

/// Takes all parts but those at the positions `only` for not set. Those of them that were not set are still
/// to mark then, or else not attempted. Throws Error where one of the others is marked.
void keep_only(Script& script, const std::vector<std::size_t>& only, bool still_to_mark);

/// Enters marks in place of those there. Throws Error as marks_from_entries() does.
void enter_marks(Script& script, const std::vector<Entry>& entries);

/// The clock that it was written against, with the events so far.
Clock clock_of(const Script& script);

/// The clock of a sitting on file; nothing where it was sat without one.
std::optional<Clock> clock_of(const Paper& paper, const Sitting& sitting);

/// What clock_of() recorded up to its last event.
ClockRecord record_of(const Clock& clock);

/// Throws Error unless the script covers all parts of its paper or of the question that is retried, marks and
/// events fit these, and candidate and day are valid.
void check_fits(const Script& script);

/// The sitting, or the re-attempt, that a script becomes. Throws Error unless it is of that kind and marked.
Sitting sitting_of(const Script& script);
Reattempt reattempt_of(const Script& script);

/// The marks as one line, `?` for a part not marked yet, and back. Throws Error where the line does not fit.
std::string to_line(const std::vector<std::optional<PartMarks>>& marks);
std::vector<std::optional<PartMarks>>
parse_script_line(const Paper& paper, const std::vector<std::size_t>& positions, std::string_view line);

} // namespace inkturn
