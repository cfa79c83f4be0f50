#pragma once

#include "inkturn/retry/candidate.hpp"

#include <SQLiteCpp/Database.h>

#include <functional>
#include <memory>
#include <string>

struct sqlite3_changeset_iter;
struct sqlite3_session;

namespace inkturn {

/// Rows of a database with what they held before a change and after it, as SQLite's session extension writes
/// them.
class Changeset {
  public:
    Changeset() = default;
    /// Bytes that SQLite allocated, which are taken over.
    Changeset(void* bytes, int size);
    /// A copy.
    static Changeset of(const void* bytes, int size);

    bool empty() const { return size_ == 0; }
    const void* bytes() const { return bytes_.get(); }
    int size() const { return size_; }

    Changeset inverted() const;
    /// This change and then the later one, as one.
    Changeset then(const Changeset& later) const;
    /// The same where they have no table in common: it takes no time to speak of.
    Changeset beside(const Changeset& other) const;

    /// Changes the rows. Returns false, having changed none, where one of them doesn't hold what it should. A
    /// candidate to be added who is on file already is left.
    bool apply(SQLite::Database& database) const;

    /// Calls `visit_row` for each row with its table and SQLITE_INSERT, SQLITE_UPDATE or SQLITE_DELETE.
    void visit_rows(const std::function<void(const std::string& table, int operation)>& visit_row) const;
    bool touches(const std::string& table) const;
    /// Whether the candidate was added or removed.
    bool adds_or_removes_candidate(const std::string& code) const;

  private:
    void visit(const std::function<void(sqlite3_changeset_iter*)>& visit) const;
    struct Free {
        void operator()(void* bytes) const;
    };
    std::unique_ptr<void, Free> bytes_;
    int size_ = 0;
};

/// Records what is changed in a database while it lives. Left out are the kept changes themselves and what
/// calendars were written with: a file that was handed out stays as it is.
class Recording {
  public:
    explicit Recording(SQLite::Database& database);
    Changeset changeset() const;

    /// While it lives nothing is recorded but what is added.
    class Pause {
      public:
        explicit Pause(Recording& recording);
        ~Pause();
        Pause(const Pause&) = delete;
        Pause& operator=(const Pause&) = delete;

      private:
        sqlite3_session* session_;
    };
    /// A row of the table of placements that was not there before: this takes a fraction of the time in which
    /// a session finds out the same.
    void add(const Placement& inserted);

  private:
    struct Delete {
        void operator()(sqlite3_session* session) const;
    };
    std::unique_ptr<sqlite3_session, Delete> session_;
    std::string inserted_; ///< as a changeset
};

} // namespace inkturn
