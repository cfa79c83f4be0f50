#include "exchange/json/paper.hpp"

#include "exchange/json/value.hpp"
#include "inkturn/clock/allowance.hpp"
#include "inkturn/paper/codes.hpp"

namespace inkturn {

Json value_of(const Part& part, const PartMarks& marks) {
    Json json{{"part", part.label},
              {"max", part.max.count()},
              {"attempted", marks.attempted()},
              {"in_time", marks.in_time().count()},
              {"overtime", marks.overtime().count()},
              {"corrected", marks.corrected().count()},
              {"reason", marks.reason() ? Json(name(*marks.reason())) : Json(nullptr)}};
    if (marks.by_code())
        json["codes"] = codes_text(part, *marks.by_code());
    return json;
}

Json value_of_parts(const Paper& paper) {
    Json parts = Json::array();
    for (const Part& part : paper.parts())
        parts.push_back({{"part", part.label},
                         {"marks", part.max.count()},
                         {"topic", part.topic},
                         {"codes", part.codes}});
    return parts;
}

Json value_of(const Paper& paper) {
    return {{"paper", paper.id()},
            {"title", paper.title()},
            {"subject", paper.subject()},
            {"marks", paper.marks().count()},
            {"allowance_seconds", allowance(paper).count()},
            {"retry_by", name(paper.retry_by())},
            {"parts", value_of_parts(paper)}};
}

std::string json_of(const Paper& paper) {
    return text_of(value_of(paper));
}

std::string json_of(const std::vector<PaperOnFile>& papers) {
    Json list = Json::array();
    for (const auto& [paper, sittings] : papers)
        list.push_back({{"paper", paper->id()},
                        {"title", paper->title()},
                        {"subject", paper->subject()},
                        {"marks", paper->marks().count()},
                        {"parts", paper->parts().size()},
                        {"allowance_seconds", allowance(*paper).count()},
                        {"sittings", sittings}});
    return text_of({{"papers", std::move(list)}});
}

} // namespace inkturn
