#pragma once

#include "exchange/document/document.hpp"
#include "inkturn/store/collected.hpp"

#include <set>

namespace inkturn {

/// Of a candidate's own export what a teacher's store takes: the candidate with the papers they sat, are
/// sitting, or whose questions they met, and the facts on their sheets. Exams, boundary sets and names of
/// classes stay out, as they would count for others, and so does extra time, which others grant. Throws Error
/// unless it has exactly one candidate.
Document of_member(Document document);

/// The sittings and re-attempts of a member's document.
std::set<CollectedRecord> records_of(const Document& document);

/// Takes out of a member's document what came with an export before and is no longer on file here: it was
/// taken back or removed. A sitting goes with its re-attempts and a re-attempt with those after it, which
/// are not named. Returns what it took out.
std::set<CollectedRecord> leave_out_removed(Document& document, const Candidate& here,
                                            const std::set<CollectedRecord>& came_before);

} // namespace inkturn
