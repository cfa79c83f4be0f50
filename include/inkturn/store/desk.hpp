#pragma once

#include "inkturn/desk/script.hpp"
#include "inkturn/store/change.hpp"

#include <optional>
#include <string>
#include <vector>

namespace inkturn {

/// The scripts in a store: those being worked on, and those handed in and not fully marked. They are changed
/// through a Store::Change, which must outlive this; the verbs throw its errors.
class Desk {
  public:
    /// In the order in which they were begun.
    static std::vector<Script> scripts(const Store& store, const std::string& candidate);
    static std::optional<Script> find(const Store& store, const ScriptId& id);

    explicit Desk(Store::Change& change) : change_(change) {}

    /// Puts a script on file; one of a whole paper gets a number of its own, which sets its id. The candidate
    /// must have no sitting or other script of this paper on this day, or no other script of this retry.
    void add(Script& script);

    /// Adds the event to a script. Throws Error if the events on file are not those that the script holds.
    void add_event(Script& script, const ClockEvent& event);
    /// The last one, on file and in `script`; not the start, and not once it is handed in.
    void take_back_event(Script& script);
    /// Takes what the computer's clocks show now for the moment `at` of a script's clock, on file and in
    /// `script`: it goes on from there.
    void settle_clock(Script& script, const ClockReading& now, Moment at);

    void keep_marks(const Script& script);
    /// Replaces the day, extra time, marks and clock on file.
    void change(const Script& script);
    void remove(const ScriptId& id);

    /// Replaces the script by the sitting or re-attempt that it became.
    void finish(const Script& script);

  private:
    void check_is_of_sitting(const Script& script) const;
    void check_can_replace(const Script& script) const;
    void keep_events(Script& script, std::vector<ClockEvent> events);

    Store::Change& change_;
};

} // namespace inkturn
