#include "exchange/json/boundaries.hpp"

#include "exchange/json/value.hpp"

#include <utility>

namespace inkturn {

Json value_of(const std::vector<GradeBoundary>& grades) {
    Json list = Json::array();
    for (const GradeBoundary& boundary : grades)
        list.push_back({{"grade", boundary.grade}, {"mark", boundary.mark.count()}});
    return list;
}

std::string json_of(const std::vector<BoundarySetOnFile>& sets) {
    Json list = Json::array();
    for (const auto& [id, set] : sets) {
        Json grades = value_of(set.grades);
        for (std::size_t i = 0; i < set.uniform.size(); ++i)
            grades[i]["uniform"] = set.uniform[i].count();
        list.push_back({{"id", static_cast<std::int64_t>(id)},
                        {"set", set.name},
                        {"subject", null_if_empty(set.subject)},
                        {"award", null_if_empty(set.award)},
                        {"component", null_if_empty(set.component)},
                        {"total", set.total.count()},
                        {"filled", set.filled ? Json(name(*set.filled)) : Json(nullptr)},
                        {"guess", set.is_guess},
                        {"cap", count_or_null(set.cap)},
                        {"grades", std::move(grades)}});
    }
    return text_of({{"sets", std::move(list)}});
}

std::string json_of_grades(const std::vector<GradeBoundary>& grades) {
    return text_of({{"grades", value_of(grades)}});
}

std::string json_of_scaled(const BoundarySet& set, const ScalePoint& mark,
                           std::optional<Marks> uniform_total) {
    return text_of({{"set", null_if_empty(set.name)},
                    {"subject", null_if_empty(set.subject)},
                    {"total", set.total.count()},
                    {"raw", mark.raw.count()},
                    {"uniform", mark.uniform.count()},
                    {"uniform_total", count_or_null(uniform_total)}});
}

} // namespace inkturn
