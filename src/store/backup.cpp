#include "inkturn/store/backup.hpp"

#include "inkturn/base/error.hpp"
#include "inkturn/store/check.hpp"
#include "store/commit_watch.hpp"
#include "store/copy.hpp"
#include "store/migrations.hpp"
#include "store/state.hpp"

#include <SQLiteCpp/Backup.h>

#include <cerrno>
#include <cstring>
#include <filesystem>
#include <sys/stat.h>
#include <unistd.h>

namespace inkturn {
namespace {

constexpr int wait_for_writers_ms = 3000;

bool same_file(const std::string& a, const std::string& b) {
    struct stat of_a {};
    struct stat of_b {};
    return ::stat(a.c_str(), &of_a) == 0 && ::stat(b.c_str(), &of_b) == 0 && of_a.st_dev == of_b.st_dev &&
           of_a.st_ino == of_b.st_ino;
}

/// A copy of the copy, beside the store, so that the one given is never written to; removed at the end of its
/// scope.
class CheckedCopy {
  public:
    CheckedCopy(const std::string& copy, const std::string& store)
        : name_(free_name(store + ".restoring")), journal_(name_ + "-journal") {
        try {
            if (::access(copy.c_str(), R_OK) != 0)
                throw Error("'" + copy + "' can't be read: " + std::strerror(errno), Error::Kind::unreadable);
            struct stat status {};
            if (::stat(copy.c_str(), &status) != 0 || !S_ISREG(status.st_mode))
                throw Error("'" + copy + "' is not a regular file: name a backup");
            SQLite::Database from(copy, SQLite::OPEN_READONLY, wait_for_writers_ms);
            if (from.execAndGet("PRAGMA application_id").getInt() != store_application_id)
                throw Error("'" + copy + "' is not an inkturn store: name a backup");
            if (from.execAndGet("PRAGMA user_version").getInt() > newest_store_version())
                throw Error("'" + copy +
                            "' was written by a newer inkturn: install that version to restore it");
            copy_database(from, name_);
        } catch (const SQLite::Exception& failure) {
            throw Error("'" + copy + "' can't be read: " + explained(failure), kind_of(failure));
        }
    }
    ~CheckedCopy() {
        ::unlink(name_.c_str());
        ::unlink(journal_.c_str());
    }
    CheckedCopy(const CheckedCopy&) = delete;
    CheckedCopy& operator=(const CheckedCopy&) = delete;

    /// Brings its tables up to date and reads all of it.
    void check(const std::string& copy) const {
        const Store store = Store::open(name_);
        const auto faults = faults_of(store);
        if (!faults.empty())
            throw Error("'" + copy + "' is damaged (" + faults.front().what + "): name another backup");
    }

    const std::string& name() const { return name_; }

  private:
    std::string name_;
    std::string journal_; ///< put together beforehand: where memory has run out it is still removed
};

void link_or_refuse(const std::string& from, const std::string& to) {
    if (::link(from.c_str(), to.c_str()) != 0)
        throw Error("'" + to + "' can't be written: " + std::strerror(errno), Error::Kind::unwritable);
}

/// A store that can't be read as one, with its journal, under other names; both stay in their places too.
void keep_unread(const std::string& file, const std::string& kept) {
    link_or_refuse(file, kept);
    if (::access((file + "-journal").c_str(), F_OK) == 0)
        link_or_refuse(file + "-journal", kept + "-journal");
    sync_folder_of(file);
}

/// The journal goes first: beside another store it would be played back into it.
void put_in_place(const std::string& checked, const std::string& file) {
    const std::string journal = file + "-journal";
    if (::access(journal.c_str(), F_OK) == 0 && ::unlink(journal.c_str()) != 0)
        throw Error("'" + journal + "' can't be removed: " + std::strerror(errno), Error::Kind::unwritable);
    sync_folder_of(file);
    if (::rename(checked.c_str(), file.c_str()) != 0)
        throw Error("'" + file + "' can't be written: " + std::strerror(errno), Error::Kind::unwritable);
    sync_folder_of(file);
}

/// One change of the store, so that other programs see it before or after, and a crash undoes it.
void overwrite(SQLite::Database& present, const std::string& checked) {
    present.exec("PRAGMA synchronous = EXTRA");
    SQLite::Database from(checked, SQLite::OPEN_READONLY);
    const CommitWatch watch(present);
    try {
        SQLite::Backup(present, from).executeStep();
    } catch (const SQLite::Exception& failure) {
        if (!watch.took_effect())
            throw;
        throw Error("what the backup holds is stored; after it: " + explained(failure), kind_of(failure));
    }
}

/// Whether the store could be read, and was kept.
bool kept_as_copy(SQLite::Database& present, const std::string& kept) {
    try {
        copy_database(present, kept);
        return true;
    } catch (const Error& error) {
        if (error.kind() != Error::Kind::damaged)
            throw;
        return false;
    }
}

/// Throws SQLite::Exception where another program uses it.
bool replaced_whole(const std::string& file, const std::string& kept, const std::string& checked) {
    SQLite::Database present(file, SQLite::OPEN_READWRITE, wait_for_writers_ms);
    if (!kept_as_copy(present, kept))
        return false;
    overwrite(present, checked);
    return true;
}

} // namespace

void back_up(const Store& store, const std::string& to) {
    store.state_->guarded("reading", [&] { copy_database(*store.state_->database, to); });
}

std::string restore_store(const std::string& copy, const std::string& file) {
    if (same_file(copy, file))
        throw Error("'" + copy + "' is the store itself: name a backup of it");
    const CheckedCopy checked(copy, file);
    checked.check(copy);
    if (::access(file.c_str(), F_OK) != 0) {
        put_in_place(checked.name(), file);
        return {};
    }
    std::string kept = free_name(file + ".before-restore");
    try {
        if (!replaced_whole(file, kept, checked.name())) {
            keep_unread(file, kept);
            put_in_place(checked.name(), file);
        }
    } catch (const SQLite::Exception& failure) {
        throw StoreError("restoring", file, explained(failure), kind_of(failure));
    }
    return kept;
}

} // namespace inkturn
