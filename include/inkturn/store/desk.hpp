#pragma once

#include "inkturn/desk/script.hpp"
#include "inkturn/store/store.hpp"

#include <optional>
#include <string>
#include <vector>

namespace inkturn {

/// The scripts in a store, which outlives it: what is being worked on, and what is handed in and not marked
/// through. Verbs that change something are called inside a Store::Change; all throw StoreError.
class Desk {
  public:
    explicit Desk(Store& store) : store_(store) {}

    std::vector<Script> scripts(const std::string& candidate) const; ///< in the order of their beginning
    std::optional<Script> find(const ScriptId& id) const;

    /// The scripts in a store that is not to be changed, in the same order.
    static std::vector<Script> scripts(const Store& store, const std::string& candidate);

    /// Puts a script on file, that of a whole paper under a number of its own: its id is set. Throws Error
    /// where the candidate has a sitting or a script of this paper on this day, or one of this retry.
    void add(Script& script);

    /// Adds the event to a script whose events on file are those that it holds. Throws Error where they are
    /// others, or the script is gone.
    void add_event(Script& script, const ClockEvent& event);

    void keep_marks(const Script& script);
    /// Puts day, extra time, marks and clock in place of those on file. Throws Error where the script is
    /// gone.
    void change(const Script& script);
    void remove(const ScriptId& id);

    /// Puts the sitting or the re-attempt that the script became in its place.
    void finish(const Script& script);

  private:
    static std::optional<Script> find(const Store& store, const ScriptId& id);

    Store& store_;
};

} // namespace inkturn
