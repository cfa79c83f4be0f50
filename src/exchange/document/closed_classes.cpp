#include "exchange/document/closed_classes.hpp"

#include "exchange/document/strict_json.hpp"
#include "exchange/json/value.hpp"
#include "inkturn/store/closed_classes.hpp"

#include <map>
#include <tuple>

namespace inkturn {
namespace {

constexpr int max_sum = 1'000'000'000;
constexpr int max_candidates = 1'000'000;

PartFigures read_part_figures(const JsonValue& value) {
    value.check_keys({"part", "marks", "candidates", "in_time", "unaided"});
    return {value.at("part").text(), Marks(value.at("marks").whole_number(1, max_part_marks.count())),
            static_cast<std::size_t>(value.at("candidates").whole_number(1, max_candidates)),
            Marks(value.at("in_time").whole_number(0, max_sum)),
            Marks(value.at("unaided").whole_number(0, max_sum))};
}

ClosedClassFigures read_closed_figures(const JsonValue& value, Day today) {
    value.check_keys({"class", "date", "paper", "parts"});
    ClosedClassFigures figures{value.at("class").text(),
                               read_past_day(value.at("date"), today, "a class's closing"),
                               value.at("paper").text(),
                               {}};
    value.at("class").checked([&] { check_class_name(figures.of_class); });
    value.at("parts").each_element(
        [&](const JsonValue& part) { figures.parts.push_back(read_part_figures(part)); });
    value.checked([&] { check_figures(figures); });
    return figures;
}

} // namespace

Json value_of(const ClosedClassFigures& figures) {
    Json parts = Json::array();
    for (const PartFigures& part : figures.parts)
        parts.push_back({{"part", part.part},
                         {"marks", part.max.count()},
                         {"candidates", part.candidates},
                         {"in_time", part.in_time.count()},
                         {"unaided", part.unaided.count()}});
    return {{"class", figures.of_class},
            {"date", iso(figures.day)},
            {"paper", figures.paper},
            {"parts", std::move(parts)}};
}

std::vector<ClosedClassFigures> read_closed_classes(const JsonValue& value, const PapersById& papers,
                                                    Day today) {
    std::map<std::tuple<Day, std::string, std::string>, ClosedClassFigures> by_name;
    value.each_element([&](const JsonValue& element) {
        ClosedClassFigures figures = read_closed_figures(element, today);
        get_paper(papers, element.at("paper"));
        const std::tuple named{figures.day, figures.of_class, figures.paper};
        if (!by_name.emplace(named, std::move(figures)).second)
            element.refuse("the figures appear twice");
    });
    std::vector<ClosedClassFigures> all;
    for (auto& [named, figures] : by_name)
        all.push_back(std::move(figures));
    return all;
}

void take_closed_classes(Store::Change& change, const Document& document, Merge& merge) {
    ClosedClasses closed(change);
    for (const ClosedClassFigures& figures : document.closed_classes)
        ++(closed.add(figures) ? merge.class_figures_added : merge.class_figures_unchanged);
}

} // namespace inkturn
