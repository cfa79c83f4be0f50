#pragma once

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

/// Opens the file as Store::open() says, or as Store::open_to_read() does.
OpenedDatabase open_database(const std::string& file, bool to_write);

/// What went wrong, for the person who asked, with what to do about it.
std::string explained(const SQLite::Exception& failure);
Error::Kind kind_of(const SQLite::Exception& failure);

} // namespace inkturn
