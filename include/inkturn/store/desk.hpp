#pragma once

#include "inkturn/desk/script.hpp"
#include "inkturn/store/change.hpp"

#include <optional>
#include <string>
#include <vector>

namespace inkturn {

/// The scripts in a store: what is being worked on, and what is handed in and not marked through. They are
/// changed by a Store::Change, which outlives this and whose errors the verbs throw.
class Desk {
  public:
    /// In the order of their beginning.
    static std::vector<Script> scripts(const Store& store, const std::string& candidate);
    static std::optional<Script> find(const Store& store, const ScriptId& id);

    explicit Desk(Store::Change& change) : change_(change) {}

    /// Puts a script on file, that of a whole paper under a number of its own: its id is set. The candidate
    /// has no sitting or other script of this paper on this day, or no other one of this retry.
    void add(Script& script);

    /// Adds the event to a script whose events on file are those that it holds. Throws Error where they are
    /// others.
    void add_event(Script& script, const ClockEvent& event);

    void keep_marks(const Script& script);
    /// Puts day, extra time, marks and clock in place of those on file.
    void change(const Script& script);
    void remove(const ScriptId& id);

    /// Puts the sitting or the re-attempt that the script became in its place.
    void finish(const Script& script);

  private:
    void check_is_of_sitting(const Script& script) const;
    void check_can_replace(const Script& script) const;

    Store::Change& change_;
};

} // namespace inkturn
