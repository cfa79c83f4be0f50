#pragma once

#include "inkturn/base/day.hpp"
#include "inkturn/paper/copies.hpp"
#include "inkturn/paper/paper.hpp"

#include <memory>
#include <set>
#include <string>
#include <vector>

namespace inkturn {

/// A set of questions that was printed, or a paper that was drawn, and for whom: a candidate, a class, or
/// nobody in particular.
struct PrintedSet {
    std::string paper;       ///< id of the drawn paper that holds it
    Day day;                 ///< on which it was made
    std::string candidate{}; ///< code; empty: it is not for one candidate
    std::string of_class{};  ///< name; empty: it is not for a class

    bool is_for_nobody() const { return candidate.empty() && of_class.empty(); } ///< in particular
};

/// Those for whom a set is made; empty: for nobody in particular.
struct SetReaders {
    std::vector<std::string> candidates; ///< codes
    std::set<std::string> classes;       ///< the class that it is for, or those that the candidate is in

    bool empty() const { return candidates.empty() && classes.empty(); }
};

/// The sets that were printed for one of the readers or for one of their classes, the latest first; for
/// nobody in particular if there are no readers.
std::vector<PrintedSet> sets_for(const SetReaders& readers, const std::vector<PrintedSet>& printed);

} // namespace inkturn
