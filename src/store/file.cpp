#include "store/file.hpp"

#include "inkturn/base/error.hpp"
#include "inkturn/store/store.hpp"
#include "store/migrations.hpp"

#include <sqlite3.h>

#include <cerrno>
#include <cstring>
#include <fcntl.h>
#include <filesystem>
#include <sys/stat.h>
#include <unistd.h>

namespace inkturn {
namespace {

constexpr int strict_tables_since = 3037000;
constexpr int wait_for_others_ms = 3000;

[[noreturn]] void refuse(const std::string& file, const std::string& why,
                         Error::Kind kind = Error::Kind::unreadable) {
    throw StoreError("opening the store", file, why, kind);
}

/// An absolute path is never taken for a URI or for SQLite's name of a database in memory.
std::string absolute(const std::string& file) {
    std::error_code failure;
    const std::filesystem::path path = std::filesystem::absolute(file, failure);
    if (failure)
        refuse(file, failure.message());
    return path.string();
}

bool exists(const std::string& file, const std::string& path) {
    struct stat status {};
    if (::stat(path.c_str(), &status) != 0) {
        if (errno == ENOENT)
            return false;
        refuse(file, std::strerror(errno));
    }
    if (S_ISDIR(status.st_mode))
        refuse(file, "that is a folder; name a file");
    if (!S_ISREG(status.st_mode))
        refuse(file, "that is not a regular file");
    if (status.st_size == 1) // SQLite would take it for empty, and write over it
        refuse(file, "that is not an inkturn store; name another file");
    return true;
}

void make_private_file(const std::string& file, const std::string& path) {
    const int descriptor = ::open(path.c_str(), O_CREAT | O_RDWR | O_CLOEXEC, S_IRUSR | S_IWUSR);
    if (descriptor < 0)
        refuse(file, std::string(std::strerror(errno)) + "; name a file in a folder that you can write to",
               Error::Kind::unwritable);
    ::close(descriptor);
}

/// Another program's file is recognised before anything in it is touched.
int version_of(SQLite::Database& database, const std::string& file) {
    const int application = database.execAndGet("PRAGMA application_id").getInt();
    const int version = database.execAndGet("PRAGMA user_version").getInt();
    const int tables = database.execAndGet("SELECT count(*) FROM sqlite_schema").getInt();
    if (application == 0 && version == 0 && tables == 0)
        return 0;
    if (application != store_application_id)
        refuse(file, "that is another program's database; name an inkturn store, or a file that doesn't "
                     "exist yet");
    if (version < 0)
        refuse(file, "it is damaged; go back to a copy of it", Error::Kind::damaged);
    if (version > newest_store_version())
        refuse(file, "it was written by a newer inkturn (its layout is " + std::to_string(version) +
                         ", this program knows " + std::to_string(newest_store_version()) +
                         "); install that version to use it");
    return version;
}

void set_for_writing(SQLite::Database& database) {
    database.exec("PRAGMA foreign_keys = ON");
    database.exec("PRAGMA journal_mode = DELETE");
    database.exec("PRAGMA synchronous = FULL");
    database.exec("PRAGMA secure_delete = ON");
    database.exec("PRAGMA trusted_schema = OFF");
}

/// A store belongs to one thread at a time, so SQLite needs no locks of its own.
constexpr int one_thread = SQLITE_OPEN_NOMUTEX;

OpenedDatabase open_in_memory() {
    auto database = std::make_unique<SQLite::Database>(":memory:", SQLite::OPEN_READWRITE |
                                                                       SQLite::OPEN_CREATE | one_thread);
    set_for_writing(*database);
    migrate(*database, 0);
    return {std::move(database), true};
}

OpenedDatabase open_file(const std::string& file, const std::string& path, bool writable) {
    const int mode = (writable ? SQLite::OPEN_READWRITE : SQLite::OPEN_READONLY) | one_thread;
    auto database = std::make_unique<SQLite::Database>(path, mode, wait_for_others_ms);
    const int version = version_of(*database, file);
    if (writable) {
        set_for_writing(*database);
        migrate(*database, version);
    } else if (version < newest_store_version()) {
        refuse(file, "it has an older layout and can't be brought up to date: it can't be written",
               Error::Kind::unwritable);
    }
    return {std::move(database), writable};
}

/// SQLite writes a journal beside the file, so the folder counts too.
bool may_be_written(const std::string& path) {
    const std::string folder = std::filesystem::path(path).parent_path().string();
    return ::access(path.c_str(), W_OK) == 0 && ::access(folder.c_str(), W_OK) == 0;
}

} // namespace

std::string explained(const SQLite::Exception& failure) {
    switch (failure.getErrorCode() & 0xFF) {
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
        return "another program is using it; try again when that is done";
    case SQLITE_READONLY:
        return "it can't be written; check the permissions of the file and its folder";
    case SQLITE_FULL:
        return "the disk is full; nothing was changed";
    case SQLITE_NOTADB:
        return "that is not an inkturn store; name another file";
    case SQLITE_CORRUPT:
        return "it is damaged; go back to a copy of it";
    case SQLITE_CANTOPEN:
        return "it can't be opened; check the permissions of the file and its folder";
    case SQLITE_IOERR:
        return "the disk could not be read or written (" + std::string(failure.what()) +
               "); nothing was changed";
    default:
        return failure.what();
    }
}

Error::Kind kind_of(const SQLite::Exception& failure) {
    switch (failure.getErrorCode() & 0xFF) {
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
        return Error::Kind::busy;
    case SQLITE_READONLY:
        return Error::Kind::unwritable;
    case SQLITE_CORRUPT:
        return Error::Kind::damaged;
    case SQLITE_CONSTRAINT:
    case SQLITE_TOOBIG:
        return Error::Kind::invalid;
    default:
        return Error::Kind::unreadable;
    }
}

OpenedDatabase open_database(const std::string& file, bool to_write) {
    if (sqlite3_libversion_number() < strict_tables_since)
        refuse(file, std::string("SQLite 3.37 or newer is needed, this is ") + sqlite3_libversion());
    const std::string path = absolute(file);
    const bool is_there = exists(file, path);
    try {
        if (!is_there && !to_write)
            return open_in_memory();
        if (!is_there)
            make_private_file(file, path);
        const bool writable = may_be_written(path);
        if (to_write && !writable)
            refuse(file, "it can't be written; check the permissions of the file and its folder",
                   Error::Kind::unwritable);
        return open_file(file, path, writable);
    } catch (const SQLite::Exception& failure) {
        refuse(file, explained(failure), kind_of(failure));
    }
}

} // namespace inkturn
