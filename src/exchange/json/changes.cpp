#include "exchange/json/changes.hpp"

#include "exchange/json/value.hpp"

#include <utility>

namespace inkturn {
namespace {

Json value_of(const ChangeOnFile& change) {
    Json records = Json::array();
    for (const RecordsChanged& one : change.records)
        records.push_back(
            {{"kind", one.kind}, {"added", one.added}, {"removed", one.removed}, {"changed", one.changed}});
    return {{"change", static_cast<std::int64_t>(change.id)},
            {"at", iso(change.occasion.at)},
            {"command", change.occasion.command},
            {"taken_back", change.taken_back},
            {"records", std::move(records)},
            {"plan_moved", change.moved_plan}};
}

} // namespace

std::string json_of(const std::vector<ChangeOnFile>& changes) {
    Json all = Json::array();
    for (const ChangeOnFile& change : changes)
        all.push_back(value_of(change));
    return text_of({{"changes", std::move(all)}});
}

std::string json_of(const ChangeOnFile& change) {
    return text_of(value_of(change));
}

} // namespace inkturn
