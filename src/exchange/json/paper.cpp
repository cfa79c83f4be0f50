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
    if (!marks.counts())
        json["left_out"] = marks.is_set() ? "not_chosen" : "not_set";
    if (marks.by_code())
        json["codes"] = codes_text(part, *marks.by_code());
    return json;
}

Json value_of(const Paper& paper) {
    const auto percent_or_null = [](std::optional<GotAt> got_at) {
        return got_at ? Json(got_at->percent()) : Json(nullptr);
    };
    Json parts = Json::array();
    for (const Part& part : paper.parts()) {
        parts.push_back({{"part", part.label},
                         {"marks", part.max.count()},
                         {"topic", part.topic},
                         {"codes", part.codes},
                         {"got_at", percent_or_null(part.got_at)}});
        if (part.choice)
            parts.back()["choice"] = {{"group", part.choice->group}, {"count", part.choice->count}};
    }
    Json json{{"paper", paper.id()},
              {"title", paper.title()},
              {"subject", paper.subject()},
              {"marks", paper.marks().count()},
              {"allowance_seconds", allowance(paper).count()},
              {"retry_by", name(paper.retry_by())},
              {"got_at", percent_or_null(paper.got_at())}};
    if (!paper.component().empty())
        json["component"] = paper.component();
    json["parts"] = std::move(parts);
    return json;
}

std::string json_of(const Paper& paper) {
    return text_of(value_of(paper));
}

std::string json_of(const Paper& paper, const std::vector<ClosedClassFigures>& closed, bool keep_unseen) {
    Json list = Json::array();
    for (const ClosedClassFigures& figures : closed) {
        Json parts = Json::array();
        for (const PartFigures& part : figures.parts)
            parts.push_back({{"part", part.part},
                             {"marks", part.max.count()},
                             {"candidates", part.candidates},
                             {"in_time", part.in_time.count()},
                             {"unaided", part.unaided.count()},
                             {"facility", thousandths(part.facility())}});
        list.push_back(
            {{"class", figures.of_class}, {"date", iso(figures.day)}, {"parts", std::move(parts)}});
    }
    Json json = value_of(paper);
    if (keep_unseen)
        json["keep_unseen"] = true;
    if (!list.empty())
        json["closed_classes"] = std::move(list);
    return text_of(json);
}

std::string json_of(const std::vector<PaperOnFile>& papers, const std::set<std::string>& kept_unseen) {
    Json list = Json::array();
    for (const auto& [paper, sittings] : papers)
        list.push_back({{"paper", paper->id()},
                        {"title", paper->title()},
                        {"subject", paper->subject()},
                        {"marks", paper->marks().count()},
                        {"parts", paper->parts().size()},
                        {"allowance_seconds", allowance(*paper).count()},
                        {"sittings", sittings},
                        {"keep_unseen", kept_unseen.count(paper->id()) > 0}});
    return text_of({{"papers", std::move(list)}});
}

} // namespace inkturn
