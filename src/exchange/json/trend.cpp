#include "exchange/json/trend.hpp"

#include "exchange/json/value.hpp"

#include <utility>

namespace inkturn {
namespace {

Json value_of(const TrendSitting& sitting) {
    const Totals& sum = sitting.totals;
    const auto seconds_per_mark = sitting.seconds_per_mark();
    return {{"sitting", static_cast<std::int64_t>(sitting.id)},
            {"paper", sitting.paper->id()},
            {"date", iso(sitting.day)},
            {"again", sitting.time_sat > 1},
            {"marks", sum.max.count()},
            {"in_time_share", share(sum.in_time, sum.max)},
            {"unaided_share", share(sum.unaided(), sum.max)},
            {"corrected_share", share(sum.corrected, sum.max)},
            {"reach", share(sitting.reach, sum.max)},
            {"seconds_per_mark", seconds_per_mark ? Json(thousandths(*seconds_per_mark)) : Json(nullptr)},
            {"allowed_seconds_per_mark", thousandths(sitting.allowed_per_mark())},
            {"overtime_seconds", sitting.worked ? Json(sitting.worked->overtime.count()) : Json(nullptr)},
            {"time_off_seconds", sitting.worked ? Json(sitting.worked->off.count()) : Json(nullptr)}};
}

Json value_of(const SecuredAgain& again) {
    const auto interval = again.interval();
    return {{"met", again.met},
            {"got", again.got},
            {"low", interval ? Json(thousandths(interval->low)) : Json(nullptr)},
            {"high", interval ? Json(thousandths(interval->high)) : Json(nullptr)}};
}

} // namespace

std::string json_of(const Trend& trend) {
    Json sittings = Json::array();
    for (const TrendSitting& sitting : trend.sittings)
        sittings.push_back(value_of(sitting));
    Json retries = Json::array();
    for (const TurnCount& count : trend.turns)
        retries.push_back({{"turn", count.turn}, {"done", count.done}, {"got", count.got}});
    return text_of({{"sittings", std::move(sittings)},
                    {"retries", std::move(retries)},
                    {"secured_again", value_of(trend.secured_again)}});
}

} // namespace inkturn
