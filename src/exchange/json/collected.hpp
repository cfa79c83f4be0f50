#pragma once

#include "exchange/document/drawn_ids.hpp"
#include "inkturn/base/day.hpp"
#include "inkturn/store/collected.hpp"

#include <cstddef>
#include <optional>
#include <set>
#include <string>
#include <vector>

namespace inkturn {

/// A member's export in a folder, and what became of it.
struct CollectedFile {
    std::string name;      ///< of the file
    std::string candidate; ///< the code inside; empty where it can't be read
    bool is_new = false;   ///< of the candidate: not on file before
    bool taken = false;
    std::size_t sittings = 0;       ///< that it brought, added or changed
    std::size_t reattempts = 0;     ///< likewise
    std::size_t others = 0;         ///< anything else that it brought
    std::vector<std::string> why{}; ///< it was not taken, a sentence each
    /// What was collected before and taken off here since, so that it was left out.
    std::set<CollectedRecord> left_out{};
    std::vector<DrawnId> drawn_ids{}; ///< of its papers that have another id here

    bool brought() const { return sittings + reattempts + others > 0; }
};

/// Who has sent nothing new today, and when last.
struct NothingNew {
    std::string candidate;
    std::optional<Day> since; ///< nothing: never sent anything
};

struct CollectedFolder {
    std::vector<CollectedFile> files;  ///< by name
    std::vector<std::string> ignored;  ///< names of other files
    std::vector<NothingNew> nothing{}; ///< those who never sent anything first, then the longest since
};

std::string json_of(const CollectedFolder& folder);

} // namespace inkturn
