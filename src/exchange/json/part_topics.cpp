#include "exchange/json/part_topics.hpp"

#include "exchange/json/value.hpp"

namespace inkturn {

std::string json_of(const std::vector<PartTopicRow>& rows, const HeldOutTopics& fared) {
    Json parts = Json::array();
    for (const PartTopicRow& row : rows)
        parts.push_back({{"paper", row.paper},
                         {"part", row.part},
                         {"marks", row.marks.count()},
                         {"words", row.words},
                         {"topic", row.topic},
                         {"says", row.says},
                         {"perhaps", row.perhaps}});
    return text_of(
        {{"parts", std::move(parts)},
         {"held_out", {{"parts", fared.parts}, {"proposed", fared.sure}, {"right", fared.right}}}});
}

std::string json_of_topics_stored(std::size_t changed, std::size_t unchanged, std::size_t papers) {
    return text_of({{"parts_changed", changed}, {"parts_unchanged", unchanged}, {"papers", papers}});
}

} // namespace inkturn
