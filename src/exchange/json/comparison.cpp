#include "exchange/json/comparison.hpp"

#include "exchange/json/value.hpp"

#include <cmath>
#include <utility>

namespace inkturn {
namespace {

Json value_of(const Sample& sample) {
    return {{"candidates", sample.size},
            {"mean", sample.size > 0 ? Json(sample.mean) : Json(nullptr)},
            {"deviation", sample.size > 1 ? Json(std::sqrt(sample.variance)) : Json(nullptr)}};
}

Json value_of(const Difference& difference) {
    const auto or_null = [&](double value) { return difference.interval ? Json(value) : Json(nullptr); };
    return {{"difference", difference.difference},
            {"low", difference.interval ? Json(difference.interval->low) : Json(nullptr)},
            {"high", difference.interval ? Json(difference.interval->high) : Json(nullptr)},
            {"degrees_of_freedom", or_null(difference.degrees_of_freedom)},
            {"p", or_null(difference.p)}};
}

Json value_of(const PartCompared& part, bool closed) {
    Json second = value_of(part.b);
    if (closed)
        second["deviation"] = nullptr; // the widest there can be: not the class's own
    return {{"part", part.label},
            {"topic", null_if_empty(part.topic)},
            {"max", part.max.count()},
            {"facility", {{"first", value_of(part.a)}, {"second", std::move(second)}}},
            {"difference", value_of(part.difference)},
            {"adjusted_p", part.difference.interval ? Json(part.adjusted_p) : Json(nullptr)},
            {"beyond_chance", part.is_beyond_chance()}};
}

/// Of two papers, in one or over a closed class.
Json value_of(const Paper& a, const std::string& b, const Comparison& comparison, WhichSitting which) {
    Json parts = Json::array();
    for (const PartCompared& part : comparison.parts)
        parts.push_back(value_of(part, comparison.closed));
    Json total = {{"max", comparison.max.count()},
                  {"first", value_of(comparison.a)},
                  {"second", value_of(comparison.b)},
                  {"difference", value_of(comparison.total)}};
    return {{"papers", {{"first", a.id()}, {"second", b}}},
            {"sitting_counted", name(which)},
            {"on_both", comparison.on_both},
            {"without_total", comparison.without_total},
            {"total", comparison.closed ? Json(nullptr) : std::move(total)},
            {"parts", std::move(parts)},
            {"parts_left_out", comparison.unlike},
            {"parts_on_other_topics", comparison.other_topics}};
}

} // namespace

std::string json_of(const Side& a, const Side& b, const Comparison& comparison, WhichSitting which) {
    return text_of(value_of(*a.paper, b.paper->id(), comparison, which));
}

std::string json_of(const Side& a, const ClosedClassFigures& b, const Comparison& comparison,
                    WhichSitting which) {
    Json json = value_of(*a.paper, b.paper, comparison, which);
    json["closed_class"] = {{"class", b.of_class}, {"date", iso(b.day)}};
    return text_of(json);
}

} // namespace inkturn
