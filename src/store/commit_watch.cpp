#include "store/commit_watch.hpp"

#include "store/file.hpp"

#include <sqlite3.h>

namespace inkturn {
namespace {

/// The file's own count of the changes that were written to it (SQLite's file format, 1.3.9); nothing where
/// it can't be read, or is in memory. Read through SQLite: to close the file elsewhere would drop its locks.
std::optional<std::string> changes_counted(SQLite::Database& database) {
    sqlite3_file* file = nullptr;
    if (sqlite3_file_control(database.getHandle(), "main", SQLITE_FCNTL_FILE_POINTER, &file) != SQLITE_OK ||
        !file || !file->pMethods)
        return std::nullopt;
    std::string count(4, '\0');
    if (file->pMethods->xRead(file, count.data(), 4, 24) != SQLITE_OK)
        return std::nullopt;
    return count;
}

} // namespace

CommitWatch::CommitWatch(SQLite::Database& database)
    : database_(database), before_(changes_counted(database)) {}

bool CommitWatch::took_effect() const {
    const auto now = changes_counted(database_);
    return !has_journal(sqlite3_db_filename(database_.getHandle(), "main")) && before_ && now &&
           now != before_;
}

} // namespace inkturn
