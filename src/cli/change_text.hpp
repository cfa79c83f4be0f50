#pragma once

#include "inkturn/store/changes.hpp"

#include <set>
#include <string>
#include <vector>

namespace inkturn {

/// As typed; who made it if the change came from elsewhere.
std::string command_text(const ChangeOnFile& change);

/// `: 2 re-attempts`: what was added by a command that read standard input, which it does not name; else
/// empty.
std::string what_came_in_text(const ChangeOnFile& change);

/// `2026-11-25 22:47`, on this machine's clock.
std::string time_text(const ChangeOnFile& change);

/// When it was made, then what was typed and what that changed: lines of full width.
std::string change_text(const ChangeOnFile& change);

/// What goes with a record that is removed, `first` before it: ` with 2 sittings and 1 picture`, without its
/// own kinds; empty if nothing does.
std::string with_what_goes(const std::vector<RecordsChanged>& records, const std::set<std::string>& own_kinds,
                           std::vector<std::string> first = {});

/// What the work would change: it is tried on the store, and taken back.
template <typename Work>
std::vector<RecordsChanged> records_if(Store& store, const Work& work) {
    Store::Change tried(store);
    work(tried);
    return ChangesOnFile::records(tried);
}

/// Lines about what was amended, indented; `It was so already.` where there are none.
std::string amended_text(const std::vector<std::string>& differences);

} // namespace inkturn
