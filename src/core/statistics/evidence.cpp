#include "inkturn/statistics/evidence.hpp"

#include "inkturn/base/error.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace inkturn {
namespace {

void check_part(const Evidence& evidence, const Evidence::Part& part) {
    if (part.max == Marks(0))
        throw Error("a part without marks is no evidence");
    if (part.topic && *part.topic >= evidence.topics)
        throw Error("a part has a topic that is not there");
}

void check_result(const Evidence& evidence, const Evidence::Result& result) {
    if (result.candidate >= evidence.candidates || result.part >= evidence.parts.size())
        throw Error("a result is of a candidate or part that is not there");
    if (result.earned > evidence.parts[result.part].max)
        throw Error("a result is more than its part's marks");
    if (!std::isfinite(result.time))
        throw Error("a result is of no time");
}

} // namespace

void check_evidence(const Evidence& evidence) {
    for (const Evidence::Part& part : evidence.parts)
        check_part(evidence, part);
    std::vector<std::pair<std::size_t, std::size_t>> done;
    done.reserve(evidence.results.size());
    for (const Evidence::Result& result : evidence.results) {
        check_result(evidence, result);
        done.emplace_back(result.candidate, result.part);
    }
    std::sort(done.begin(), done.end());
    if (std::adjacent_find(done.begin(), done.end()) != done.end())
        throw Error("a candidate has two results in one part");
}

} // namespace inkturn
