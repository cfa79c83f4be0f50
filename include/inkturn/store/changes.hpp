#pragma once

#include "inkturn/store/change.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace inkturn {

enum class ChangeId : std::int64_t {};

/// How many records of one kind a change added, removed, and changed otherwise.
struct RecordsChanged {
    std::string kind;   ///< of one: `sitting`
    std::string plural; ///< of several: `sittings`
    std::size_t added;
    std::size_t removed;
    std::size_t changed;
};

/// What was changed from one opening of a store to its end: what one command did.
struct ChangeOnFile {
    ChangeId id;
    Occasion occasion;
    bool taken_back;
    std::vector<RecordsChanged> records; ///< what counts as a record of its own
    bool moved_plan;                     ///< whether days chosen for work changed
};

/// The changes of a store that can be taken back, one after another from the last. Kept are those of the
/// last 25 hours, and those of the last 49 hours and the last 20 as far as all take no more than 16 MB. What
/// calendars were written with is not taken back.
class ChangesOnFile {
  public:
    /// The latest first, no more than `max`.
    static std::vector<ChangeOnFile> list(const Store& store, std::optional<std::size_t> max = std::nullopt);
    static std::optional<ChangeOnFile> find_last(const Store& store);       ///< that was not taken back
    static std::optional<ChangeOnFile> find_taken_back(const Store& store); ///< the one that was last

    /// What a change that is under way has changed so far.
    static std::vector<RecordsChanged> records(const Store::Change& change);
    /// Whether one of them added or removed the candidate, so that it may tell of someone no longer on file.
    static bool tell_of(const Store& store, const std::string& candidate);

    /// Makes the store what it was before the change. Throws Error, of kind conflict, unless it is the last
    /// one that was not taken back, and where the store is not what that change left.
    static void take_back(Store& store, ChangeId id);
    /// Makes the change again. Throws Error, of kind conflict, unless it is the one that was taken back last.
    /// Those that were taken back go with the next change.
    static void bring_back(Store& store, ChangeId id);
};

} // namespace inkturn
