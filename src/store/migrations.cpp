#include "store/migrations.hpp"

#include "inkturn/base/error.hpp"
#include "inkturn/store/store.hpp"
#include "store/first_steps.hpp"
#include "store/soundness.hpp"

#include <SQLiteCpp/Transaction.h>

#include <array>

namespace inkturn {
namespace {

// Append only: a step that was released never changes. docs/storage.md describes the tables that result.
// These are from the eleventh on.
constexpr std::array<const char*, 5> steps{
    R"sql(
ALTER TABLE boundary_set ADD COLUMN filled TEXT NOT NULL DEFAULT ''
    CHECK (filled IN ('', 'quarters', 'thirds', 'halves'));

CREATE TABLE change (
    id         INTEGER PRIMARY KEY AUTOINCREMENT,
    at         INTEGER NOT NULL,
    command    TEXT NOT NULL,
    taken_back INTEGER NOT NULL DEFAULT 0 CHECK (taken_back IN (0, 1)),
    changeset  BLOB NOT NULL
) STRICT;

CREATE TABLE sitting_note (
    sitting INTEGER NOT NULL REFERENCES sitting ON DELETE CASCADE,
    part    TEXT NOT NULL,
    note    TEXT NOT NULL CHECK (length(note) BETWEEN 1 AND 200),
    PRIMARY KEY (sitting, part)
) STRICT, WITHOUT ROWID;

CREATE TABLE reattempt_note (
    sitting  INTEGER NOT NULL,
    question TEXT NOT NULL,
    turn     INTEGER NOT NULL,
    part     TEXT NOT NULL,
    note     TEXT NOT NULL CHECK (length(note) BETWEEN 1 AND 200),
    PRIMARY KEY (sitting, question, turn, part),
    FOREIGN KEY (sitting, question, turn) REFERENCES reattempt ON DELETE CASCADE
) STRICT, WITHOUT ROWID;

CREATE TABLE script_note (
    sitting  INTEGER NOT NULL,
    question TEXT NOT NULL,
    turn     INTEGER NOT NULL,
    part     TEXT NOT NULL,
    note     TEXT NOT NULL CHECK (length(note) BETWEEN 1 AND 200),
    PRIMARY KEY (sitting, question, turn, part),
    FOREIGN KEY (sitting, question, turn) REFERENCES script (sitting, question, turn) ON DELETE CASCADE
) STRICT, WITHOUT ROWID;

ALTER TABLE part ADD COLUMN choice TEXT NOT NULL DEFAULT '';
ALTER TABLE candidate ADD COLUMN extra_time INTEGER CHECK (extra_time BETWEEN 0 AND 100);
)sql",
    R"sql(
CREATE TABLE class_sitting (
    class   INTEGER NOT NULL REFERENCES class ON DELETE CASCADE,
    sitting INTEGER NOT NULL REFERENCES sitting ON DELETE CASCADE,
    PRIMARY KEY (class, sitting)
) STRICT, WITHOUT ROWID;
CREATE INDEX class_sitting_sitting ON class_sitting (sitting);
)sql",
    R"sql(
CREATE TABLE checked (
    id  INTEGER PRIMARY KEY CHECK (id = 1),
    day INTEGER NOT NULL
) STRICT;

CREATE TABLE lesson (
    id          INTEGER PRIMARY KEY,
    name        TEXT NOT NULL UNIQUE,
    day         INTEGER NOT NULL CHECK (day BETWEEN -25567 AND 84370),
    start       INTEGER CHECK (start BETWEEN 0 AND 86399),
    duration    INTEGER NOT NULL CHECK (duration BETWEEN 60 AND 86400),
    subject     TEXT NOT NULL,
    places      INTEGER NOT NULL CHECK (places >= 1),
    place_order TEXT NOT NULL CHECK (place_order IN ('asked', 'marks'))
) STRICT;

CREATE TABLE lesson_topic (
    lesson INTEGER NOT NULL REFERENCES lesson ON DELETE CASCADE,
    topic  TEXT NOT NULL,
    PRIMARY KEY (lesson, topic)
) STRICT, WITHOUT ROWID;

CREATE TABLE place_asked (
    lesson    INTEGER NOT NULL REFERENCES lesson ON DELETE CASCADE,
    candidate INTEGER NOT NULL REFERENCES candidate ON DELETE CASCADE,
    number    INTEGER NOT NULL,
    asked_at  INTEGER NOT NULL,
    remark    TEXT NOT NULL,
    state     TEXT NOT NULL CHECK (state IN ('asked', 'offered', 'confirmed', 'declined', 'attended')),
    PRIMARY KEY (lesson, candidate)
) STRICT, WITHOUT ROWID;
CREATE INDEX place_asked_candidate ON place_asked (candidate);

CREATE TABLE topic_wanted (
    lesson    INTEGER NOT NULL,
    candidate INTEGER NOT NULL,
    topic     TEXT NOT NULL,
    PRIMARY KEY (lesson, candidate, topic),
    FOREIGN KEY (lesson, candidate) REFERENCES place_asked ON DELETE CASCADE
) STRICT, WITHOUT ROWID;

ALTER TABLE exam ADD COLUMN class INTEGER REFERENCES class ON DELETE CASCADE;

CREATE TABLE week_stated (
    candidate INTEGER PRIMARY KEY REFERENCES candidate ON DELETE CASCADE,
    mon INTEGER CHECK (mon BETWEEN 0 AND 86400),
    tue INTEGER CHECK (tue BETWEEN 0 AND 86400),
    wed INTEGER CHECK (wed BETWEEN 0 AND 86400),
    thu INTEGER CHECK (thu BETWEEN 0 AND 86400),
    fri INTEGER CHECK (fri BETWEEN 0 AND 86400),
    sat INTEGER CHECK (sat BETWEEN 0 AND 86400),
    sun INTEGER CHECK (sun BETWEEN 0 AND 86400),
    free_days INTEGER CHECK (free_days BETWEEN 0 AND 6)
) STRICT;
INSERT INTO week_stated SELECT candidate, mon, tue, wed, thu, fri, sat, sun, free_days FROM week;
DROP TABLE week;
ALTER TABLE week_stated RENAME TO week;

CREATE TABLE class_week (
    class INTEGER PRIMARY KEY REFERENCES class ON DELETE CASCADE,
    mon INTEGER CHECK (mon BETWEEN 0 AND 86400),
    tue INTEGER CHECK (tue BETWEEN 0 AND 86400),
    wed INTEGER CHECK (wed BETWEEN 0 AND 86400),
    thu INTEGER CHECK (thu BETWEEN 0 AND 86400),
    fri INTEGER CHECK (fri BETWEEN 0 AND 86400),
    sat INTEGER CHECK (sat BETWEEN 0 AND 86400),
    sun INTEGER CHECK (sun BETWEEN 0 AND 86400),
    free_days INTEGER CHECK (free_days BETWEEN 0 AND 6)
) STRICT;

CREATE TABLE class_date (
    class     INTEGER NOT NULL REFERENCES class ON DELETE CASCADE,
    day       INTEGER NOT NULL CHECK (day BETWEEN -25567 AND 84370),
    available INTEGER NOT NULL CHECK (available BETWEEN 0 AND 86400),
    PRIMARY KEY (class, day)
) STRICT, WITHOUT ROWID;

CREATE TABLE collected (
    candidate INTEGER PRIMARY KEY REFERENCES candidate ON DELETE CASCADE,
    day       INTEGER NOT NULL CHECK (day BETWEEN -25567 AND 84370)
) STRICT;
)sql",
    R"sql(
CREATE TABLE listed_topic (
    subject TEXT NOT NULL,
    topic   TEXT NOT NULL,
    place   INTEGER NOT NULL CHECK (place >= 1),
    parent  TEXT NOT NULL DEFAULT '',
    PRIMARY KEY (subject, topic)
) STRICT, WITHOUT ROWID;

ALTER TABLE part ADD COLUMN words TEXT NOT NULL DEFAULT '';
ALTER TABLE paper ADD COLUMN keep_unseen INTEGER NOT NULL DEFAULT 0 CHECK (keep_unseen IN (0, 1));
ALTER TABLE paper ADD COLUMN added INTEGER CHECK (added BETWEEN -25567 AND 84370);

CREATE TABLE printed_set (
    paper     INTEGER PRIMARY KEY REFERENCES paper ON DELETE CASCADE,
    day       INTEGER NOT NULL CHECK (day BETWEEN -25567 AND 84370),
    candidate INTEGER REFERENCES candidate ON DELETE CASCADE,
    class     INTEGER REFERENCES class ON DELETE CASCADE,
    CHECK (candidate IS NULL OR class IS NULL)
) STRICT;
CREATE INDEX printed_set_candidate ON printed_set (candidate);
CREATE INDEX printed_set_class ON printed_set (class);

-- Clock lines may hold readings of the computer's clocks, which a program of before would take for damage.

ALTER TABLE paper ADD COLUMN component TEXT NOT NULL DEFAULT '';

CREATE TABLE award (
    id      INTEGER PRIMARY KEY AUTOINCREMENT,
    name    TEXT NOT NULL UNIQUE,
    subject TEXT NOT NULL
) STRICT;

CREATE TABLE component (
    award        INTEGER NOT NULL REFERENCES award ON DELETE CASCADE,
    position     INTEGER NOT NULL CHECK (position >= 0),
    name         TEXT NOT NULL,
    marks        INTEGER NOT NULL CHECK (marks BETWEEN 1 AND 1000000),
    weight       INTEGER NOT NULL CHECK (weight BETWEEN 1 AND 1000000),
    uniform      INTEGER CHECK (uniform BETWEEN 1 AND 1000000),
    choice       INTEGER CHECK (choice >= 1),
    choice_count INTEGER CHECK (choice_count >= 1),
    PRIMARY KEY (award, position),
    UNIQUE (award, name),
    CHECK ((choice IS NULL) = (choice_count IS NULL))
) STRICT, WITHOUT ROWID;

CREATE TABLE boundary_set_now (
    id        INTEGER PRIMARY KEY AUTOINCREMENT,
    name      TEXT NOT NULL,
    subject   TEXT NOT NULL,
    total     INTEGER NOT NULL CHECK (total BETWEEN 1 AND 1000000),
    filled    TEXT NOT NULL DEFAULT '' CHECK (filled IN ('', 'quarters', 'thirds', 'halves')),
    guess     INTEGER NOT NULL DEFAULT 0 CHECK (guess IN (0, 1)),
    award     INTEGER REFERENCES award ON DELETE CASCADE,
    component TEXT NOT NULL DEFAULT '',
    cap       INTEGER CHECK (cap BETWEEN 1 AND 1000000),
    CHECK (award IS NOT NULL OR component = '')
) STRICT;
INSERT INTO boundary_set_now (id, name, subject, total, filled)
    SELECT id, name, subject, total, filled FROM boundary_set;
CREATE TABLE boundary_now (
    boundary_set INTEGER NOT NULL REFERENCES boundary_set_now ON DELETE CASCADE,
    position     INTEGER NOT NULL CHECK (position >= 0),
    grade        TEXT NOT NULL,
    mark         INTEGER NOT NULL CHECK (mark BETWEEN 0 AND 1000000),
    uniform      INTEGER CHECK (uniform BETWEEN 0 AND 1000000),
    PRIMARY KEY (boundary_set, position),
    UNIQUE (boundary_set, grade)
) STRICT, WITHOUT ROWID;
INSERT INTO boundary_now (boundary_set, position, grade, mark)
    SELECT boundary_set, position, grade, mark FROM boundary;
DROP TABLE boundary;
DROP TABLE boundary_set;
ALTER TABLE boundary_set_now RENAME TO boundary_set;
ALTER TABLE boundary_now RENAME TO boundary;
CREATE TABLE closed_class (
    id   INTEGER PRIMARY KEY AUTOINCREMENT,
    name TEXT NOT NULL,
    day  INTEGER NOT NULL CHECK (day BETWEEN -25567 AND 84370),
    UNIQUE (name, day)
) STRICT;

CREATE TABLE closed_part (
    closed_class INTEGER NOT NULL REFERENCES closed_class ON DELETE CASCADE,
    paper        INTEGER NOT NULL REFERENCES paper ON DELETE CASCADE,
    part         TEXT NOT NULL,
    marks        INTEGER NOT NULL CHECK (marks BETWEEN 1 AND 500),
    candidates   INTEGER NOT NULL CHECK (candidates >= 1),
    in_time      INTEGER NOT NULL CHECK (in_time BETWEEN 0 AND unaided),
    unaided      INTEGER NOT NULL CHECK (unaided <= marks * candidates),
    PRIMARY KEY (closed_class, paper, part)
) STRICT, WITHOUT ROWID;

CREATE UNIQUE INDEX boundary_set_name ON boundary_set (name, subject, ifnull(award, 0), component);

CREATE TABLE topic_rating (
    candidate INTEGER NOT NULL REFERENCES candidate ON DELETE CASCADE,
    subject   TEXT NOT NULL,
    topic     TEXT NOT NULL,
    rating    TEXT NOT NULL CHECK (rating IN ('not-understood', 'shaky', 'sure')),
    day       INTEGER NOT NULL CHECK (day BETWEEN -25567 AND 84370),
    PRIMARY KEY (candidate, subject, topic)
) STRICT, WITHOUT ROWID;

CREATE TABLE collected_record (
    candidate INTEGER NOT NULL REFERENCES candidate ON DELETE CASCADE,
    paper     TEXT NOT NULL,
    day       INTEGER NOT NULL CHECK (day BETWEEN -25567 AND 84370),
    question  TEXT NOT NULL,
    turn      INTEGER NOT NULL CHECK (turn >= 0),
    PRIMARY KEY (candidate, paper, day, question, turn)
) STRICT, WITHOUT ROWID;

CREATE TABLE absent (
    class     INTEGER NOT NULL REFERENCES class ON DELETE CASCADE,
    paper     INTEGER NOT NULL REFERENCES paper ON DELETE CASCADE,
    day       INTEGER NOT NULL CHECK (day BETWEEN -25567 AND 84370),
    candidate INTEGER NOT NULL REFERENCES candidate ON DELETE CASCADE,
    PRIMARY KEY (class, paper, day, candidate)
) STRICT, WITHOUT ROWID;
CREATE INDEX absent_candidate ON absent (candidate);
CREATE INDEX absent_paper ON absent (paper);
)sql",
    R"sql(
ALTER TABLE part ADD COLUMN allowance INTEGER CHECK (allowance BETWEEN 1 AND 86400);
)sql"};

/// From 0.
const char* sql_of(std::size_t step) {
    return step < first_steps.size() ? first_steps[step] : steps[step - first_steps.size()];
}

} // namespace

int newest_store_version() noexcept {
    return static_cast<int>(first_steps.size() + steps.size());
}

void migrate(SQLite::Database& database, Day today) {
    SQLite::Transaction transaction(database, SQLite::TransactionBehavior::IMMEDIATE);
    // Another program may have made steps while we waited for our turn.
    const int version = database.execAndGet("PRAGMA user_version").getInt();
    for (int step = version; step < newest_store_version(); ++step)
        database.exec(sql_of(static_cast<std::size_t>(step)));
    if (database.tableExists("change"))
        database.exec("DELETE FROM change"); // they are of the tables as these were
    database.exec("PRAGMA application_id = " + std::to_string(store_application_id));
    database.exec("PRAGMA user_version = " + std::to_string(newest_store_version()));
    if (const std::string fault = first_fault(database); !fault.empty())
        throw Error("it is damaged (" + fault + ")", Error::Kind::damaged);
    note_checked(database, today);
    transaction.commit();
}

} // namespace inkturn
