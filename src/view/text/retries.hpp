#pragma once

#include "inkturn/base/day_span.hpp"
#include "inkturn/retry/candidate.hpp"
#include "inkturn/retry/turn_outcome.hpp"
#include "view/text/table.hpp"

#include <optional>
#include <string>
#include <vector>

namespace inkturn {

/// `9 to 16 Dec 2026`, `29 Nov to 6 Dec 2026`.
std::string day_text(DaySpan span);

/// `9 to 16 Dec`, `29 Nov to 6 Dec`, where what stands around it gives the year.
std::string short_day_text(DaySpan span);
/// `Wed 9 Dec`.
std::string short_day_text(Day day);

/// `1 retry`, `3 retries`.
std::string counted_retries(std::size_t count);

/// `7a 7b 7c`: the parts to be retried.
std::string parts_asked(const Retry& retry);

/// `5 of 12`: marks missed in the last attempt, out of the question's.
std::string missed_text(const Retry& retry);

/// Which misses make a retry; empty if all do.
std::string rule_text(const RetryRule& rule);

/// What is unusual about a retry, other than that it is late: squeezed, outside its window, no day left or
/// none with room; empty if nothing is.
std::string remark(const Retry& retry);

/// `3 days` since its window closed; empty if it isn't late.
std::string late_text(const Retry& retry, Day today);

/// What an attempt at a question lost, part by part, and which of it was got before and joins the turn after
/// it, or does not: `Lost this time: 2 to method in part 7a.` Empty if nothing was. `turn_after`: nothing
/// where none is open.
std::string lost_text(const Paper& paper, const Question& question, const std::vector<LostPart>& lost,
                      std::optional<int> turn_after);

/// The retries of one paper, with their days.
Table retries_by_day(const std::vector<Retry>& retries, Day today);

/// The retries of one day, with the papers they come from.
Table retries_of_day(const std::vector<Retry>& retries, Day today);

} // namespace inkturn
