#pragma once

#include "exchange/document/document.hpp"

namespace inkturn {

/// Of a candidate's own export what a teacher's store takes: the candidate with the papers they sat, are
/// sitting, or whose questions they met, and the facts on their sheets. Exams, boundary sets and names of
/// classes stay out, as they would count for others, and so does extra time, which others grant. Throws Error
/// unless it has exactly one candidate.
Document of_member(Document document);

} // namespace inkturn
