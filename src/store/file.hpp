#pragma once

#include "inkturn/base/day.hpp"
#include "inkturn/base/error.hpp"

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Exception.h>

#include <memory>
#include <string>

namespace inkturn {

struct OpenedDatabase {
    std::unique_ptr<SQLite::Database> database;
    bool writable;
};

/// What a file is opened for, and on which day.
struct Opening {
    bool to_write;
    bool if_sound; ///< refused where it is not
    Day today;
};

/// Opens the file as Store::open() says, or as Store::open_to_read() does.
OpenedDatabase open_database(const std::string& file, const Opening& how);

/// Whether a change of the file was begun that is not over: a program is making it, or was interrupted.
bool has_journal(const std::string& path);

/// What went wrong, for the person who asked, with what to do about it.
std::string explained(const SQLite::Exception& failure);
Error::Kind kind_of(const SQLite::Exception& failure);
/// Whether the disk was full, or could not be read or written.
bool is_of_disk(const SQLite::Exception& failure);

} // namespace inkturn
