#pragma once

#include "cli/context.hpp"
#include "cli/student/pictures_on_file.hpp"
#include "view/page/phone.hpp"

namespace inkturn {

/// The seven days from the day typed, or from today on.
DaySpan phone_week(const Context& context, const std::string& from);

/// A candidate's week by the plan.
PhonePage phone_page(const Store& store, PicturesOnFile& pictures, const Candidate& candidate, DaySpan week,
                     Day today);

/// `0.4 MB`: of a page, rounded up.

} // namespace inkturn
