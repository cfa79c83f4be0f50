#pragma once

#include "inkturn/plan/rating.hpp"
#include "inkturn/plan/timetable.hpp"
#include "view/text/table.hpp"

#include <optional>
#include <string>
#include <vector>

namespace inkturn {

/// `not understood`, `shaky`, `sure`.
std::string understanding_text(Understanding understanding);

/// Whether a plan goes by ratings or by marks, in a sentence or two without breaks; empty where no rating
/// counts: it then goes by marks, as ever.
std::string goes_by_sentence(const Timetable& timetable);
/// The same in lines.
std::string goes_by_text(const Timetable& timetable);

/// Topics with their ratings, what was tried of them, and by which the plan goes.
Table ratings_table(const std::vector<RatedTopic>& topics);

/// The topics that no sitting had a part on, with their ratings, in lines; empty if there are none.
std::string never_tried_text(const std::vector<RatedTopic>& topics);

/// Which topics rated sure the plan has relearned nevertheless; empty where there are none.
std::string outweighed_text(const std::vector<RatedTopic>& topics);

} // namespace inkturn
