#include "inkturn/practice/printed_set.hpp"

#include <algorithm>

namespace inkturn {

std::vector<PrintedSet> sets_for(const SetReaders& readers, const std::vector<PrintedSet>& printed) {
    std::vector<PrintedSet> theirs;
    for (const PrintedSet& set : printed) {
        const bool is_for_one =
            !set.candidate.empty() && std::find(readers.candidates.begin(), readers.candidates.end(),
                                                set.candidate) != readers.candidates.end();
        if (is_for_one || (!set.of_class.empty() && readers.classes.count(set.of_class) > 0) ||
            (set.is_for_nobody() && readers.empty()))
            theirs.push_back(set);
    }
    std::stable_sort(theirs.begin(), theirs.end(),
                     [](const PrintedSet& a, const PrintedSet& b) { return a.day > b.day; });
    return theirs;
}

} // namespace inkturn
