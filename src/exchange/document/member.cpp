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

/// Leaves the papers that the member met, and the facts.
void keep_what_was_met(Document& document) {
    const ExportedCandidate& member = document.candidates.front();
    const std::set<std::string> papers = papers_met(member, document.copies);
    keep_only(document.papers, [&](const auto& paper) { return papers.count(paper->id()) > 0; });
    keep_only(document.copies, [&](const Copies& same) {
        return std::all_of(same.begin(), same.end(),
                           [&](const QuestionName& name) { return papers.count(name.paper) > 0; });
    });
    const std::set<FactId> facts = facts_met(member);
    keep_only(document.facts, [&](const Fact& fact) { return facts.count(fact.id) > 0; });
}

std::set<CollectedRecord> records_of(const Candidate& candidate) {
    std::set<CollectedRecord> records;
    for (const SittingRecord& record : candidate.sittings) {
        records.insert({record.paper->id(), record.sitting.day, "", 0});
        for (const Reattempt& reattempt : record.reattempts)
            records.insert({record.paper->id(), record.sitting.day, reattempt.question, reattempt.turn});
    }
    return records;
}

/// What belongs to sittings that are not among the candidate's any more.
void drop_what_hangs_on(const std::set<SittingId>& gone, ExportedCandidate& member) {
    keep_only(member.candidate.placements,
              [&](const Placement& one) { return gone.count(one.sitting) == 0; });
    keep_only(member.candidate.steered_retries,
              [&](const SteeredRetry& one) { return gone.count(one.sitting) == 0; });
    keep_only(member.scripts,
              [&](const Script& one) { return !one.id.retry || gone.count(one.id.sitting) == 0; });
}

/// The first turn of the question that was removed here; nothing: none was.
std::optional<int> first_removed(const SittingRecord& record, const std::string& question,
                                 const std::set<CollectedRecord>& removed) {
    const auto found = removed.lower_bound({record.paper->id(), record.sitting.day, question, 0});
    if (found == removed.end() || found->paper != record.paper->id() || found->day != record.sitting.day ||
        found->question != question)
        return std::nullopt;
    return found->turn;
}

/// Takes out re-attempts, and what is decided or half done of their questions since.
void drop_reattempts(SittingRecord& record, const std::set<CollectedRecord>& removed,
                     ExportedCandidate& member) {
    const auto is_of_removed = [&](SittingId sitting, const std::string& question) {
        return sitting == record.id && first_removed(record, question, removed);
    };
    keep_only(member.candidate.placements,
              [&](const Placement& one) { return !is_of_removed(one.sitting, one.question); });
    keep_only(member.candidate.steered_retries,
              [&](const SteeredRetry& one) { return !is_of_removed(one.sitting, one.question); });
    keep_only(member.scripts, [&](const Script& one) {
        return !one.id.retry || !is_of_removed(one.id.sitting, one.id.retry->question);
    });
    keep_only(record.reattempts, [&](const Reattempt& one) {
        const auto first = first_removed(record, one.question, removed);
        return !first || one.turn < *first;
    });
}

} // namespace

std::set<CollectedRecord> records_of(const Document& document) {
    return records_of(document.candidates.front().candidate);
}

std::set<CollectedRecord> leave_out_removed(Document& document, const Candidate& here,
                                            const std::set<CollectedRecord>& came_before) {
    ExportedCandidate& member = document.candidates.front();
    const std::set<CollectedRecord> on_file = records_of(here);
    std::set<CollectedRecord> removed;
    for (const CollectedRecord& record : records_of(member.candidate)) {
        const bool is_of_removed_sitting =
            !record.question.empty() && removed.count({record.paper, record.day, "", 0}) > 0;
        if (came_before.count(record) > 0 && on_file.count(record) == 0 && !is_of_removed_sitting)
            removed.insert(record);
    }
    std::set<SittingId> gone;
    for (const SittingRecord& record : member.candidate.sittings)
        if (removed.count({record.paper->id(), record.sitting.day, "", 0}) > 0)
            gone.insert(record.id);
    keep_only(member.candidate.sittings,
              [&](const SittingRecord& record) { return gone.count(record.id) == 0; });
    drop_what_hangs_on(gone, member);
    for (SittingRecord& record : member.candidate.sittings)
        drop_reattempts(record, removed, member);
    keep_what_was_met(document);
    return removed;
}

Document of_member(Document document) {
    if (document.candidates.size() != 1)
        throw Error("it holds " + std::to_string(document.candidates.size()) +
                    " candidates, and a member's export holds one: write it with 'inkturn candidate export "
                    "CODE -o CODE.json'");
    ExportedCandidate& member = document.candidates.front();
    member.classes.clear();
    member.candidate.extra_time.reset();
    member.sitting_classes.clear();
    member.absences.clear();
    document.exams.clear();
    document.awards.clear();
    document.boundaries.clear();
    document.classes.clear();
    keep_what_was_met(document);
    return document;
}

} // namespace inkturn
