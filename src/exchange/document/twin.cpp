#include "exchange/document/twin.hpp"

#include "exchange/document/difference.hpp"

#include <algorithm>

namespace inkturn {
namespace {

bool has(const Candidate& candidate, const SittingRecord& record) {
    return std::any_of(candidate.sittings.begin(), candidate.sittings.end(), [&](const SittingRecord& one) {
        return one.paper->id() == record.paper->id() && one.sitting.day == record.sitting.day &&
               one.sitting.parts.size() == record.sitting.parts.size() &&
               !difference(*one.paper, one.sitting, record.sitting);
    });
}

bool has_all(const Candidate& candidate, const std::vector<SittingRecord>& records) {
    return std::all_of(records.begin(), records.end(),
                       [&](const SittingRecord& record) { return has(candidate, record); });
}

} // namespace

std::string find_twin(const Store& store, const Document& document, const std::string& code) {
    const std::vector<SittingRecord>& records = document.candidates.front().candidate.sittings;
    if (records.empty() || (store.has_candidate(code) && has_all(store.candidate(code), records)))
        return "";
    for (const std::string& other : store.candidates())
        if (other != code && has_all(store.candidate(other), records))
            return other;
    return "";
}

} // namespace inkturn
