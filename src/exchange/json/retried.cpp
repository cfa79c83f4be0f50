#include "exchange/class/retried_import.hpp"

#include "exchange/json/value.hpp"

#include <utility>

namespace inkturn {

std::string json_of(const ClassRetried& retried) {
    Json list = Json::array();
    for (const RetriedOnce& one : retried.added)
        list.push_back({{"candidate", one.candidate},
                        {"id", to_text(one.id)},
                        {"date", iso(one.reattempt.day)},
                        {"got", one.got},
                        {"missed", one.missed.count()}});
    return text_of({{"rows", retried.rows},
                    {"reattempts_added", retried.added.size()},
                    {"reattempts_unchanged", retried.unchanged},
                    {"left_open", retried.left_open},
                    {"repeated", retried.repeated},
                    {"columns_ignored", retried.columns_ignored},
                    {"rows_left_out", retried.rows_left_out},
                    {"reattempts", std::move(list)},
                    {"doubts", value_of(retried.doubts)},
                    {"problems", value_of(retried.problems)}});
}

} // namespace inkturn
