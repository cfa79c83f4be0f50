#include "exchange/json/returned.hpp"

#include "exchange/json/value.hpp"

#include <utility>

namespace inkturn {

std::string json_of(DaySpan span, const std::vector<ReturnedWork>& work) {
    Json list = Json::array();
    for (const ReturnedWork& one : work)
        list.push_back({{"candidate", one.candidate},
                        {"due", one.due},
                        {"recorded", one.recorded},
                        {"planned", one.planned},
                        {"late", one.late},
                        {"rested", one.rested},
                        {"not_placed", one.not_placed},
                        {"longest_late_days", one.longest_late.count()},
                        {"last_recorded", day_or_null(one.last_recorded)}});
    return text_of({{"from", iso(span.first)}, {"to", iso(span.last)}, {"candidates", std::move(list)}});
}

} // namespace inkturn
