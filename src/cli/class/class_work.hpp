#pragma once

#include "cli/context.hpp"
#include "cli/student/timetable_on_file.hpp"
#include "inkturn/plan/plan.hpp"

#include <cstddef>
#include <functional>
#include <string>
#include <vector>

namespace inkturn {

/// A class's retries over a span of days, and those that have no day.
struct ClassWork {
    std::vector<CandidateWork> candidates; ///< by code, including those with nothing to do
    std::size_t without_day = 0;           ///< retries with no day left before a coming exam
    std::size_t not_placed = 0;            ///< retries that have days left, none with room

    std::size_t retries() const;
    std::size_t busy() const; ///< candidates with something to do
    Seconds planned() const;
};

using TakeRetries = std::function<void(const Candidate& candidate, std::vector<Retry> open)>;

/// Goes through the candidates of the class, or all on file, by code, with their open retries as their plans
/// have them. Throws Error if there is no such class.
void each_of_class(const Context& context, const Store& store, const std::string& class_name,
                   const TakeRetries& take);

ClassWork class_work(const Context& context, const Store& store, const std::string& class_name, DaySpan span);

/// All open retries of the class.
std::vector<Retry> class_retries(const Context& context, const Store& store, const std::string& class_name);

} // namespace inkturn
