#pragma once

#include "inkturn/base/day.hpp"
#include "inkturn/store/change.hpp"

#include <string>
#include <vector>

namespace inkturn {

/// An event of a calendar that was written for a candidate.
struct WrittenEvent {
    std::string uid;
    Day day;                ///< in the latest calendar that has it
    int revision = 0;       ///< how often it was moved, cancelled or brought back
    bool cancelled = false; ///< the latest calendar that has it cancels it
};

/// What a store remembers of the calendars that were written, so that a later one can cancel what no longer
/// holds. It is changed through a Store::Change, which must outlive this; the verbs throw its errors.
class CalendarOnFile {
  public:
    explicit CalendarOnFile(Store::Change& change) : change_(change) {}

    /// By day, then UID.
    static std::vector<WrittenEvent> events(const Store& store, const std::string& candidate);

    /// Adds them, or replaces those with the same UID.
    void keep(const std::string& candidate, const std::vector<WrittenEvent>& events);

    /// Those of the days before.
    void forget_before(const std::string& candidate, Day day);

  private:
    Store::Change& change_;
};

} // namespace inkturn
