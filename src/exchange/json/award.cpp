#include "exchange/json/award.hpp"

#include "exchange/json/value.hpp"

namespace inkturn {
namespace {

Json component_json(const Award& award, std::size_t position,
                    const std::vector<std::shared_ptr<const Paper>>& papers) {
    const Component& component = award.components[position];
    return {{"component", component.name},
            {"marks", component.marks.count()},
            {"weight", to_text(component.weight)},
            {"uniform_total", count_or_null(component.uniform)},
            {"papers", ids_of(papers_of(award, position, papers))}};
}

Json choice_json(const Award& award, const ComponentChoice& choice) {
    Json names = Json::array();
    for (const std::size_t position : choice.components)
        names.push_back(award.components[position].name);
    return {{"components", std::move(names)}, {"count", choice.count}};
}

Json award_json(const Award& award, const std::vector<std::shared_ptr<const Paper>>& papers) {
    Json components = Json::array();
    for (std::size_t i = 0; i < award.components.size(); ++i)
        components.push_back(component_json(award, i, papers));
    Json choices = Json::array();
    for (const ComponentChoice& choice : award.choices)
        choices.push_back(choice_json(award, choice));
    return {{"award", award.name},
            {"subject", null_if_empty(award.subject)},
            {"total", award.total().count()},
            {"components", std::move(components)},
            {"choices", std::move(choices)}};
}

} // namespace

std::string json_of(const std::vector<Award>& awards,
                    const std::vector<std::shared_ptr<const Paper>>& papers) {
    Json list = Json::array();
    for (const Award& award : awards)
        list.push_back(award_json(award, papers));
    return text_of({{"awards", std::move(list)}});
}

} // namespace inkturn
