#include "exchange/json/collected.hpp"

#include "exchange/json/value.hpp"

#include <utility>

namespace inkturn {

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
                         {"why", file.why}});
    Json nothing = Json::array();
    for (const NothingNew& one : folder.nothing)
        nothing.push_back({{"candidate", one.candidate}, {"since", day_or_null(one.since)}});
    return text_of(
        {{"files", std::move(files)}, {"ignored", folder.ignored}, {"nothing_new", std::move(nothing)}});
}

} // namespace inkturn
