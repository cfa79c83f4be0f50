#pragma once

#include "inkturn/base/day.hpp"

#include <SQLiteCpp/Database.h>

#include <optional>
#include <string>
#include <vector>

namespace inkturn {

struct FileFault {
    std::string what;
    bool is_of_index; ///< which can be built anew from its table

    bool operator==(const FileFault& other) const {
        return what == other.what && is_of_index == other.is_of_index;
    }
};

/// What is wrong with a file itself, its first ten faults, each once; empty if it is sound. `whole` compares
/// indexes with their tables too, which takes longer.
std::vector<FileFault> faults_of_file(SQLite::Database& database, bool whole);

/// Rows that name a row which isn't there, counted for each table: `3 rows of 'sitting' belong to nothing`.
std::vector<std::string> loose_ends(SQLite::Database& database);

/// The first fault of either kind, found the shorter way; empty if there is none.
std::string first_fault(SQLite::Database& database);

/// The day on which the file was last found sound.
std::optional<Day> day_checked(SQLite::Database& database);
void note_checked(SQLite::Database& database, Day day);

} // namespace inkturn
