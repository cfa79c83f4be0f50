#include "exchange/json/pace.hpp"

#include "exchange/json/value.hpp"

namespace inkturn {

std::string json_of(const Pace& pace) {
    Json parts = Json::array();
    for (const Pace::PacedPart& one : pace.parts) {
        const Part& part = pace.paper.parts()[one.position];
        parts.push_back({{"part", part.label},
                         {"marks", part.max.count()},
                         {"allowance_seconds", one.allowance.count()},
                         {"by_seconds", one.by ? Json(one.by->count()) : Json(nullptr)}});
    }
    return text_of({{"paper", pace.paper.id()},
                    {"marks", pace.marks.count()},
                    {"allowance_seconds", pace.length.count()},
                    {"parts", std::move(parts)}});
}

} // namespace inkturn
