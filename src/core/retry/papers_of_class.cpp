#include "inkturn/retry/papers_of_class.hpp"

#include <algorithm>

namespace inkturn {

PaperIds papers_of_class(const std::vector<PaperInClass>& papers, std::size_t members) {
    PaperIds ids;
    for (const PaperInClass& paper : papers)
        if (paper.is_set || 2 * paper.sat > members)
            ids.insert(paper.id);
    return ids;
}

PaperIds papers_of_others(PaperIds begun, const std::vector<PaperIds>& of_classes) {
    if (of_classes.empty())
        return {};
    for (const PaperIds& own : of_classes)
        for (const std::string& id : own)
            begun.erase(id);
    return begun;
}

void keep_sittings_of(const PaperIds& papers, Candidate& candidate) {
    auto& all = candidate.sittings;
    all.erase(
        std::remove_if(all.begin(), all.end(),
                       [&](const SittingRecord& record) { return papers.count(record.paper->id()) == 0; }),
        all.end());
}

} // namespace inkturn
