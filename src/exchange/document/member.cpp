#include "exchange/document/member.hpp"

#include "inkturn/base/error.hpp"

#include <algorithm>
#include <set>
#include <string>
#include <utility>

namespace inkturn {
namespace {

template <typename T, typename Keep>
void keep_only(std::vector<T>& all, Keep keep) {
    all.erase(std::remove_if(all.begin(), all.end(), [&](const T& one) { return !keep(one); }), all.end());
}

/// The papers that the candidate met, and those that questions of these were drawn from.
std::set<std::string> papers_met(const ExportedCandidate& member, const std::vector<Copies>& copies) {
    std::set<std::string> met;
    for (const SittingRecord& record : member.candidate.sittings)
        met.insert(record.paper->id());
    for (const Script& script : member.scripts)
        met.insert(script.paper->id());
    const std::set<std::string> sat = met;
    for (const Copies& same : copies)
        if (std::any_of(same.begin(), same.end(),
                        [&](const QuestionName& name) { return sat.count(name.paper) > 0; }))
            for (const QuestionName& name : same)
                met.insert(name.paper);
    return met;
}

std::set<FactId> facts_met(const ExportedCandidate& member) {
    std::set<FactId> met;
    for (const Sheet& sheet : member.sheets)
        for (const Sheet::Row& row : sheet.rows)
            met.insert(row.fact);
    return met;
}

} // namespace

Document of_member(Document document) {
    if (document.candidates.size() != 1)
        throw Error("it holds " + std::to_string(document.candidates.size()) +
                    " candidates, and a member's export holds one: write it with 'inkturn candidate export "
                    "CODE -o CODE.json'");
    ExportedCandidate& member = document.candidates.front();
    member.classes.clear();
    member.candidate.extra_time.reset();
    member.sitting_classes.clear();
    document.exams.clear();
    document.boundaries.clear();
    document.classes.clear();
    const std::set<std::string> papers = papers_met(member, document.copies);
    keep_only(document.papers, [&](const auto& paper) { return papers.count(paper->id()) > 0; });
    keep_only(document.copies, [&](const Copies& same) {
        return std::all_of(same.begin(), same.end(),
                           [&](const QuestionName& name) { return papers.count(name.paper) > 0; });
    });
    const std::set<FactId> facts = facts_met(member);
    keep_only(document.facts, [&](const Fact& fact) { return facts.count(fact.id) > 0; });
    return document;
}

} // namespace inkturn
