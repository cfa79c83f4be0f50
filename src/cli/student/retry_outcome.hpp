#pragma once

#include "cli/context.hpp"
#include "cli/student/timetable_on_file.hpp"

namespace inkturn {

/// The result of a re-attempt on file: as JSON, or in words; if the question isn't secured, with the next
/// turn and its day.
void print_retried(const Context& context, const Candidate& candidate, const RetryId& id,
                   const KeptTimetable& kept);

/// The changes but that of the retry itself: what is said of it says its day.
std::vector<PlanChange> beside(std::vector<PlanChange> changes, const RetryId& id);

/// The open turn of the question that the id names, whatever turn the id gives.
std::optional<Retry> open_retry(const std::vector<Retry>& retries, const RetryId& id);

} // namespace inkturn
