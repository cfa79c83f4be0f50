#include "exchange/json/value.hpp"

#include "inkturn/paper/paper.hpp"

#include <cmath>

namespace inkturn {

std::string text_of(const Json& document) {
    return document.dump(2);
}

double thousandths(double value) {
    return std::round(value * 1000) / 1000;
}

double share(Marks part, Marks whole) {
    return static_cast<double>(part.count()) / whole.count();
}

Json null_if_empty(const std::string& text) {
    return text.empty() ? Json(nullptr) : Json(text);
}

Json count_or_null(const std::optional<Marks>& marks) {
    return marks ? Json(marks->count()) : Json(nullptr);
}

Json day_or_null(const std::optional<Day>& day) {
    return day ? Json(iso(*day)) : Json(nullptr);
}

Json ids_of(const std::vector<std::shared_ptr<const Paper>>& papers) {
    Json ids = Json::array();
    for (const auto& paper : papers)
        ids.push_back(paper->id());
    return ids;
}

} // namespace inkturn
