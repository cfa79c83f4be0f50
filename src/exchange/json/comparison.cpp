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

Json value_of(const PartCompared& part) {
    return {{"part", part.label},
            {"topic", null_if_empty(part.topic)},
            {"max", part.max.count()},
            {"facility", {{"first", value_of(part.a)}, {"second", value_of(part.b)}}},
            {"difference", value_of(part.difference)},
            {"adjusted_p", part.difference.interval ? Json(part.adjusted_p) : Json(nullptr)},
            {"beyond_chance", part.is_beyond_chance()}};
}

} // namespace

std::string json_of(const Side& a, const Side& b, const Comparison& comparison, WhichSitting which) {
    Json parts = Json::array();
    for (const PartCompared& part : comparison.parts)
        parts.push_back(value_of(part));
    Json unlike = Json::array();
    for (const std::string& label : comparison.unlike)
        unlike.push_back(label);
    return text_of({{"papers", {{"first", a.paper->id()}, {"second", b.paper->id()}}},
                    {"sitting_counted", name(which)},
                    {"on_both", comparison.on_both},
                    {"without_total", comparison.without_total},
                    {"total",
                     {{"max", comparison.max.count()},
                      {"first", value_of(comparison.a)},
                      {"second", value_of(comparison.b)},
                      {"difference", value_of(comparison.total)}}},
                    {"parts", std::move(parts)},
                    {"parts_left_out", std::move(unlike)}});
}

} // namespace inkturn
