#include "exchange/json/analysis.hpp"

#include "exchange/json/value.hpp"
#include "inkturn/statistics/findings.hpp"

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

Json labels_of(const Paper& paper, const std::vector<std::size_t>& positions) {
    Json labels = Json::array();
    for (const std::size_t position : positions)
        labels.push_back(paper.part(position).label);
    return labels;
}

Json value_of(const Paper& paper, const std::optional<Findings>& findings) {
    if (!findings)
        return nullptr;
    const auto& [cost, time, trust] = *findings;
    return {{"cost",
             {{"topic", null_if_empty(cost.topic)},
              {"parts", labels_of(paper, cost.parts)},
              {"lost", cost.lost},
              {"max", cost.max ? Json(cost.max->count()) : Json(nullptr)},
              {"decision", name(cost.decision)}}},
            {"time",
             {{"ran_out", time.ran_out},
              {"went_back", time.went_back},
              {"candidates", time.candidates},
              {"most_at", time.most_at ? Json(paper.part(*time.most_at).label) : Json(nullptr)},
              {"decision", name(time.decision)}}},
            {"trust", {{"parts", labels_of(paper, trust.parts)}, {"decision", name(trust.decision)}}}};
}

} // namespace

std::string json_of(const Paper& paper, const PaperAnalysis& analysis,
                    const std::vector<std::optional<double>>& eases, WhichSitting which) {
    Json parts = Json::array();
    for (std::size_t i = 0; i < analysis.parts.size(); ++i) {
        parts.push_back(value_of(paper.parts()[i].label, analysis.parts[i]));
        parts.back()["ease"] = eases[i] ? Json(thousandths(*eases[i])) : Json(nullptr);
    }
    return text_of({{"paper", paper.id()},
                    {"sitting_counted", name(which)},
                    {"findings", value_of(paper, find_findings(paper, analysis))},
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
                      {"ran_out", analysis.ran_out},
                      {"went_back", analysis.went_back}}}});
}

} // namespace inkturn
