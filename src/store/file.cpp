#include "store/file.hpp"

#include "inkturn/base/error.hpp"
#include "inkturn/store/store.hpp"
#include "store/copy.hpp"
#include "store/migrations.hpp"
#include "store/soundness.hpp"
#include "store/sqlite_version.hpp"

#include <SQLiteCpp/Statement.h>
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

/// What the file's own list of tables says.
struct Layout {
    int entries;
    int foreign; ///< views and the like, which run when a table is read, for as long as who doctored it
                 ///< pleases
};

Layout layout_of(SQLite::Database& database) {
    SQLite::Statement query(database,
                            "SELECT count(*), count(*) FILTER (WHERE type NOT IN ('table', 'index') OR "
                            "sql LIKE 'CREATE VIRTUAL%') FROM sqlite_schema");
    query.executeStep();
    return {query.getColumn(0).getInt(), query.getColumn(1).getInt()};
}

/// Another program's file is recognised before anything in it is touched.
int version_of(SQLite::Database& database, const std::string& file) {
    database.exec("BEGIN"); // read at one moment, and with one lock
    const int application = database.execAndGet("PRAGMA application_id").getInt();
    const int version = database.execAndGet("PRAGMA user_version").getInt();
    const Layout layout = layout_of(database);
    database.exec("COMMIT");
    if (application == 0 && version == 0 && layout.entries == 0)
        return 0;
    if (application != store_application_id)
        refuse(file, "that is another program's database; name an inkturn store, or a file that doesn't "
                     "exist yet");
    if (version < 0 || layout.foreign > 0)
        refuse(file, "it is damaged", Error::Kind::damaged);
    if (version > newest_store_version())
        refuse(file, "it was written by a newer inkturn (its layout is " + std::to_string(version) +
                         ", this program knows " + std::to_string(newest_store_version()) +
                         "); install that version to use it");
    return version;
}

void set_for_writing(SQLite::Database& database) {
    database.exec("PRAGMA foreign_keys = ON");
    database.exec("PRAGMA journal_mode = DELETE");
    database.exec("PRAGMA synchronous = EXTRA");
    database.exec("PRAGMA secure_delete = ON");
    database.exec("PRAGMA trusted_schema = OFF");
}

/// A store belongs to one thread at a time, so SQLite needs no locks of its own.
constexpr int one_thread = SQLITE_OPEN_NOMUTEX;

OpenedDatabase open_in_memory() {
    auto database = std::make_unique<SQLite::Database>(":memory:", SQLite::OPEN_READWRITE |
                                                                       SQLite::OPEN_CREATE | one_thread);
    set_for_writing(*database);
    migrate(*database, Day{});
    return {std::move(database), true};
}

/// A copy of the file as it was is kept beside it until the new layout is there and was checked.
void bring_up_to_date(SQLite::Database& database, const std::string& path, int version, Day today) {
    if (version == 0) {
        migrate(database, today);
        return;
    }
    const std::string kept = free_name(path + ".layout-" + std::to_string(version));
    copy_database(database, kept);
    migrate(database, today);
    ::unlink(kept.c_str());
}

/// Once a day, and after a change was undone because the program that made it was interrupted.
void check_before_writing(SQLite::Database& database, const std::string& file, Day today, bool was_undone) {
    const auto checked = day_checked(database);
    if (checked == today && !was_undone)
        return;
    if (const std::string fault = first_fault(database); !fault.empty())
        refuse(file, "it is damaged (" + fault + ")", Error::Kind::damaged);
    if (checked != today)
        note_checked(database, today);
}

/// So that the next command that writes looks, even if none comes before the journal is gone.
void look_next_time(SQLite::Database& database) {
    database.tryExec("DELETE FROM checked");
}

OpenedDatabase open_file(const std::string& file, const std::string& path, const Opening& how,
                         bool writable) {
    const bool was_undone = has_journal(path);
    const int mode = (writable ? SQLite::OPEN_READWRITE : SQLite::OPEN_READONLY) | one_thread;
    auto database = std::make_unique<SQLite::Database>(path, mode, wait_for_others_ms);
    const int version = version_of(*database, file);
    if (writable) {
        set_for_writing(*database);
        if (version < newest_store_version())
            bring_up_to_date(*database, path, version, how.today);
        else if (how.if_sound)
            check_before_writing(*database, file, how.today, was_undone);
        else if (was_undone)
            look_next_time(*database);
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

bool has_journal(const std::string& path) {
    struct stat status {};
    return ::stat((path + "-journal").c_str(), &status) == 0 && status.st_size > 0;
}

std::string explained(const SQLite::Exception& failure) {
    switch (failure.getErrorCode() & 0xFF) {
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
        return "another program is using it; try again when that is done";
    case SQLITE_READONLY:
        return "it can't be written; check the permissions of the file and its folder";
    case SQLITE_FULL:
        return "the disk is full";
    case SQLITE_NOTADB:
        return "that is not an inkturn store; name another file";
    case SQLITE_CORRUPT:
        return "it is damaged";
    case SQLITE_CANTOPEN:
        return "it can't be opened; check the permissions of the file and its folder";
    case SQLITE_IOERR:
        return "the disk could not be read or written (" + std::string(failure.what()) + ")";
    case SQLITE_CONSTRAINT:
        return "what is on file stands in the way, as it changed meanwhile or was damaged; look again";
    case SQLITE_NOMEM:
        return "there is not enough memory";
    case SQLITE_TOOBIG:
        return "it is more than a store holds in one place";
    default:
        return "SQLite failed (" + std::string(failure.what()) + ")";
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

bool is_of_disk(const SQLite::Exception& failure) {
    const int code = failure.getErrorCode() & 0xFF;
    return code == SQLITE_FULL || code == SQLITE_IOERR;
}

OpenedDatabase open_database(const std::string& file, const Opening& how) {
    if (sqlite3_libversion_number() < strict_tables_since)
        refuse(file, std::string("SQLite 3.37 or newer is needed, this is ") + sqlite3_libversion());
    const std::string path = absolute(file);
    const bool is_there = exists(file, path);
    try {
        if (!is_there && !how.to_write)
            return open_in_memory();
        if (!is_there)
            make_private_file(file, path);
        const bool writable = may_be_written(path);
        if (how.to_write && !writable)
            refuse(file, "it can't be written; check the permissions of the file and its folder",
                   Error::Kind::unwritable);
        return open_file(file, path, how, writable);
    } catch (const SQLite::Exception& failure) {
        refuse(file, explained(failure) + (is_of_disk(failure) ? "; nothing was changed" : ""),
               kind_of(failure));
    } catch (const StoreError&) {
        throw;
    } catch (const Error& error) {
        refuse(file, error.what(), error.kind());
    }
}

const char* sqlite_version() noexcept {
    return sqlite3_libversion();
}

} // namespace inkturn
