#pragma once

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

/// What went wrong, for the person who asked, with the remedy.
std::string explained(const SQLite::Exception& failure);

} // namespace inkturn
