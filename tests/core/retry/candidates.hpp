#pragma once

#include "days.hpp"
#include "inkturn/retry/candidate.hpp"
#include "papers.hpp"

#include <algorithm>
#include <string>
#include <vector>

namespace inkturn::test {

/// Sat a paper of three questions on the Monday, and missed two of them.
inline Candidate example() {
    Candidate candidate;
    candidate.code = "K07";
    candidate.sittings.push_back(sat(12, paper_of("made-up", {5, 4, 6}), 0, "3 4 1+0+5"));
    return candidate;
}

inline Reattempt take(const Candidate& candidate, const std::string& id, const std::string& marks, int on,
                      int today) {
    std::vector<Entry> entries;
    if (!marks.empty())
        entries.push_back(parse_entry(marks));
    return take_retry(candidate, parse_retry_id(id), entries, Rest::full, day(on), day(today));
}

/// Puts the days that were chosen now on file.
inline void keep(Candidate& candidate, const std::vector<Retry>& retries) {
    for (const Retry& retry : retries) {
        if (!retry.day_is_new)
            continue;
        auto& on_file = candidate.placements;
        on_file.erase(std::remove_if(on_file.begin(), on_file.end(),
                                     [&](const Placement& placement) {
                                         return placement.sitting == retry.id.sitting &&
                                                placement.question == retry.id.question;
                                     }),
                      on_file.end());
        on_file.push_back({retry.id.sitting, retry.id.question, *retry.day});
    }
}

} // namespace inkturn::test
