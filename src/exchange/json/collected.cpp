#include "exchange/json/collected.hpp"

#include "exchange/json/value.hpp"

#include <utility>

namespace inkturn {

namespace {

Json value_of(const std::set<CollectedRecord>& records) {
    Json all = Json::array();
    for (const CollectedRecord& record : records)
        all.push_back({{"paper", record.paper},
                       {"date", iso(record.day)},
                       {"question", null_if_empty(record.question)},
                       {"turn", record.question.empty() ? Json(nullptr) : Json(record.turn)}});
    return all;
}

} // namespace

std::string json_of(const CollectedFolder& folder) {
    Json files = Json::array();
    for (const CollectedFile& file : folder.files)
        files.push_back({{"file", file.name},
                         {"candidate", null_if_empty(file.candidate)},
                         {"new_candidate", file.is_new},
                         {"taken", file.taken},
                         {"sittings", file.sittings},
                         {"reattempts", file.reattempts},
                         {"others", file.others},
                         {"left_out", value_of(file.left_out)},
                         {"drawn_ids", value_of(file.drawn_ids)},
                         {"why", file.why}});
    Json nothing = Json::array();
    for (const NothingNew& one : folder.nothing)
        nothing.push_back({{"candidate", one.candidate}, {"since", day_or_null(one.since)}});
    return text_of(
        {{"files", std::move(files)}, {"ignored", folder.ignored}, {"nothing_new", std::move(nothing)}});
}

} // namespace inkturn
