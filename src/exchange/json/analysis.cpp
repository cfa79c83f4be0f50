#include "exchange/json/analysis.hpp"

#include "exchange/json/value.hpp"

namespace inkturn {
namespace {

Json value_of(const Figure& figure) {
    return figure.has_value() ? Json(figure.value()) : Json(nullptr);
}

Json value_of(const std::string& label, const PartAnalysis& part) {
    return {{"part", label},
            {"max", part.max.count()},
            {"candidates", part.candidates},
            {"compared", part.compared},
            {"mean", value_of(part.mean)},
            {"facility", value_of(part.facility)},
            {"rest_correlation", value_of(part.rest_correlation)},
            {"alpha_without", value_of(part.alpha_without)},
            {"discrimination", value_of(part.discrimination)},
            {"not_attempted", value_of(part.not_attempted)},
            {"overtime_share", value_of(part.overtime)},
            {"ran_out", part.ran_out}};
}

} // namespace

std::string json_of(const Paper& paper, const PaperAnalysis& analysis,
                    const std::vector<std::optional<double>>& eases) {
    Json parts = Json::array();
    for (std::size_t i = 0; i < analysis.parts.size(); ++i) {
        parts.push_back(value_of(paper.parts()[i].label, analysis.parts[i]));
        parts.back()["ease"] = eases[i] ? Json(thousandths(*eases[i])) : Json(nullptr);
    }
    return text_of({{"paper", paper.id()},
                    {"candidates", analysis.candidates},
                    {"others", analysis.others},
                    {"parts", std::move(parts)},
                    {"total",
                     {{"max", analysis.max.count()},
                      {"mean", value_of(analysis.mean)},
                      {"deviation", value_of(analysis.deviation)},
                      {"variance", value_of(analysis.variance)},
                      {"lower_quartile", value_of(analysis.lower_quartile)},
                      {"median", value_of(analysis.median)},
                      {"upper_quartile", value_of(analysis.upper_quartile)},
                      {"alpha", value_of(analysis.alpha)},
                      {"standard_error", value_of(analysis.standard_error)},
                      {"ran_out", analysis.ran_out}}}});
}

} // namespace inkturn
