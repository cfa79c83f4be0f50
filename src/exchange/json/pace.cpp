#include "exchange/json/pace.hpp"

#include "exchange/json/value.hpp"

namespace inkturn {

std::string json_of_pace(const Paper& paper, ExtraTime extra) {
    const std::vector<Seconds> allowances = part_allowances(paper, extra);
    const std::vector<Seconds> times = checkpoints(paper, extra);
    Json parts = Json::array();
    for (std::size_t i = 0; i < paper.parts().size(); ++i)
        parts.push_back({{"part", paper.parts()[i].label},
                         {"marks", paper.parts()[i].max.count()},
                         {"allowance_seconds", allowances[i].count()},
                         {"by_seconds", times[i].count()}});
    return text_of({{"paper", paper.id()},
                    {"marks", paper.marks().count()},
                    {"allowance_seconds", allowance(paper, extra).count()},
                    {"parts", std::move(parts)}});
}

} // namespace inkturn
