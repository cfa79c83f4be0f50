#pragma once

#include "inkturn/base/day_span.hpp"
#include "inkturn/retry/candidate.hpp"
#include "view/text/table.hpp"

#include <string>
#include <vector>

namespace inkturn {

/// `9 to 16 Dec 2026`, `29 Nov to 6 Dec 2026`.
std::string day_text(DaySpan span);

/// `1 retry`, `3 retries`.
std::string counted_retries(std::size_t count);

/// `7a 7b 7c`: what the retry asks for.
std::string parts_asked(const Retry& retry);

/// `5 of 12`: marks missed in the attempt before, of the question's.
std::string missed_text(const Retry& retry);

/// What is out of the ordinary about a retry: late, squeezed, outside its window, no day left; empty where
/// nothing is.
std::string remark(const Retry& retry);

/// The retries of one paper, with their days.
Table retries_by_day(const std::vector<Retry>& retries);

/// The retries of one day, with where they come from.
Table retries_of_day(const std::vector<Retry>& retries);

} // namespace inkturn
