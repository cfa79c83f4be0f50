#pragma once

#include "inkturn/retry/candidate.hpp"

#include <cstddef>
#include <set>
#include <string>
#include <vector>

namespace inkturn {

/// How a paper on file was sat in a class.
struct PaperInClass {
    std::string id;
    bool is_set;     ///< a sitting of it was imported or marked for the class
    std::size_t sat; ///< members who sat it
};

using PaperIds = std::set<std::string>;

/// The papers that count as the class's: those that were imported or marked for it, and those that more than
/// half of its members sat.
PaperIds papers_of_class(const std::vector<PaperInClass>& papers, std::size_t members);

/// Of the papers that somebody began or sat those that are nobody's in the candidate's classes: not to be sat
/// by the candidate unless asked for. Without a class there are none.
PaperIds papers_of_others(PaperIds begun, const std::vector<PaperIds>& of_classes);

/// Leaves the sittings of these papers alone.
void keep_sittings_of(const PaperIds& papers, Candidate& candidate);

} // namespace inkturn
