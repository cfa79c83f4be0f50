#include "store/first_steps.hpp"

namespace inkturn {

// A step that was released never changes.
const std::array<const char*, 10> first_steps{
    R"sql(
CREATE TABLE paper (
    id       INTEGER PRIMARY KEY,
    code     TEXT NOT NULL UNIQUE,
    title    TEXT NOT NULL,
    subject  TEXT NOT NULL,
    duration INTEGER CHECK (duration BETWEEN 60 AND 86400),
    retry_by TEXT NOT NULL CHECK (retry_by IN ('question', 'part'))
) STRICT;

CREATE TABLE part (
    paper    INTEGER NOT NULL REFERENCES paper ON DELETE CASCADE,
    position INTEGER NOT NULL CHECK (position >= 0),
    label    TEXT NOT NULL,
    marks    INTEGER NOT NULL CHECK (marks BETWEEN 1 AND 500),
    topic    TEXT NOT NULL,
    codes    TEXT NOT NULL,
    PRIMARY KEY (paper, position),
    UNIQUE (paper, label)
) STRICT, WITHOUT ROWID;

CREATE TABLE candidate (
    id   INTEGER PRIMARY KEY,
    code TEXT NOT NULL UNIQUE
) STRICT;

CREATE TABLE sitting (
    id         INTEGER PRIMARY KEY AUTOINCREMENT,
    candidate  INTEGER NOT NULL REFERENCES candidate ON DELETE CASCADE,
    paper      INTEGER NOT NULL REFERENCES paper ON DELETE CASCADE,
    day        INTEGER NOT NULL CHECK (day BETWEEN -25567 AND 84370),
    extra_time INTEGER NOT NULL CHECK (extra_time BETWEEN 0 AND 100),
    marks      TEXT NOT NULL,
    UNIQUE (candidate, paper, day)
) STRICT;
CREATE INDEX sitting_paper ON sitting (paper);

CREATE TABLE reattempt (
    sitting  INTEGER NOT NULL REFERENCES sitting ON DELETE CASCADE,
    question TEXT NOT NULL,
    turn     INTEGER NOT NULL CHECK (turn >= 1),
    day      INTEGER NOT NULL CHECK (day BETWEEN -25567 AND 84370),
    marks    TEXT NOT NULL,
    PRIMARY KEY (sitting, question, turn)
) STRICT, WITHOUT ROWID;

CREATE TABLE placement (
    sitting  INTEGER NOT NULL REFERENCES sitting ON DELETE CASCADE,
    question TEXT NOT NULL,
    day      INTEGER NOT NULL CHECK (day BETWEEN -25567 AND 84370),
    PRIMARY KEY (sitting, question)
) STRICT, WITHOUT ROWID;

CREATE TABLE week (
    candidate INTEGER PRIMARY KEY REFERENCES candidate ON DELETE CASCADE,
    mon INTEGER NOT NULL CHECK (mon BETWEEN 0 AND 86400),
    tue INTEGER NOT NULL CHECK (tue BETWEEN 0 AND 86400),
    wed INTEGER NOT NULL CHECK (wed BETWEEN 0 AND 86400),
    thu INTEGER NOT NULL CHECK (thu BETWEEN 0 AND 86400),
    fri INTEGER NOT NULL CHECK (fri BETWEEN 0 AND 86400),
    sat INTEGER NOT NULL CHECK (sat BETWEEN 0 AND 86400),
    sun INTEGER NOT NULL CHECK (sun BETWEEN 0 AND 86400)
) STRICT;

CREATE TABLE date_availability (
    candidate INTEGER NOT NULL REFERENCES candidate ON DELETE CASCADE,
    day       INTEGER NOT NULL CHECK (day BETWEEN -25567 AND 84370),
    available INTEGER NOT NULL CHECK (available BETWEEN 0 AND 86400),
    PRIMARY KEY (candidate, day)
) STRICT, WITHOUT ROWID;

CREATE TABLE exam (
    id      INTEGER PRIMARY KEY AUTOINCREMENT,
    title   TEXT NOT NULL,
    day     INTEGER NOT NULL CHECK (day BETWEEN -25567 AND 84370),
    subject TEXT NOT NULL
) STRICT;
)sql",
    R"sql(
CREATE TABLE class (
    id   INTEGER PRIMARY KEY,
    name TEXT NOT NULL UNIQUE
) STRICT;

CREATE TABLE member (
    class     INTEGER NOT NULL REFERENCES class ON DELETE CASCADE,
    candidate INTEGER NOT NULL REFERENCES candidate ON DELETE CASCADE,
    PRIMARY KEY (class, candidate)
) STRICT, WITHOUT ROWID;
CREATE INDEX member_candidate ON member (candidate);
)sql",
    R"sql(
CREATE TABLE picture (
    id       INTEGER PRIMARY KEY AUTOINCREMENT,
    paper    INTEGER NOT NULL REFERENCES paper ON DELETE CASCADE,
    question TEXT NOT NULL,
    shows    TEXT NOT NULL CHECK (shows IN ('question', 'scheme')),
    kind     TEXT NOT NULL CHECK (kind IN ('png', 'jpeg')),
    width    INTEGER NOT NULL CHECK (width >= 1),
    height   INTEGER NOT NULL CHECK (height >= 1),
    bytes    BLOB NOT NULL
) STRICT;
CREATE INDEX picture_paper ON picture (paper, question);
)sql",
    R"sql(
ALTER TABLE sitting ADD COLUMN clock TEXT NOT NULL DEFAULT '';
ALTER TABLE reattempt ADD COLUMN clock TEXT NOT NULL DEFAULT '';

CREATE TABLE script (
    id         INTEGER PRIMARY KEY,
    sitting    INTEGER NOT NULL,
    question   TEXT NOT NULL,
    turn       INTEGER NOT NULL CHECK (turn >= 0),
    retried    INTEGER REFERENCES sitting ON DELETE CASCADE CHECK (retried = sitting),
    candidate  INTEGER NOT NULL REFERENCES candidate ON DELETE CASCADE,
    paper      INTEGER NOT NULL REFERENCES paper ON DELETE CASCADE,
    day        INTEGER NOT NULL CHECK (day BETWEEN -25567 AND 84370),
    extra_time INTEGER NOT NULL CHECK (extra_time BETWEEN 0 AND 100),
    marks      TEXT NOT NULL,
    clock      TEXT NOT NULL,
    UNIQUE (sitting, question, turn),
    CHECK ((retried IS NULL) = (turn = 0))
) STRICT;
CREATE INDEX script_candidate ON script (candidate);
CREATE INDEX script_paper ON script (paper);
)sql",
    R"sql(
CREATE TABLE boundary_set (
    id      INTEGER PRIMARY KEY AUTOINCREMENT,
    name    TEXT NOT NULL,
    subject TEXT NOT NULL,
    total   INTEGER NOT NULL CHECK (total BETWEEN 1 AND 1000000),
    UNIQUE (name, subject)
) STRICT;

CREATE TABLE boundary (
    boundary_set INTEGER NOT NULL REFERENCES boundary_set ON DELETE CASCADE,
    position     INTEGER NOT NULL CHECK (position >= 0),
    grade        TEXT NOT NULL,
    mark         INTEGER NOT NULL CHECK (mark BETWEEN 0 AND 1000000),
    PRIMARY KEY (boundary_set, position),
    UNIQUE (boundary_set, grade)
) STRICT, WITHOUT ROWID;
)sql",
    R"sql(
CREATE TABLE fact (
    id      INTEGER PRIMARY KEY AUTOINCREMENT,
    subject TEXT NOT NULL,
    prompt  TEXT NOT NULL,
    answer  TEXT NOT NULL,
    topic   TEXT NOT NULL,
    UNIQUE (subject, prompt)
) STRICT;

CREATE TABLE sheet (
    id        INTEGER PRIMARY KEY AUTOINCREMENT,
    candidate INTEGER NOT NULL REFERENCES candidate ON DELETE CASCADE,
    day       INTEGER NOT NULL CHECK (day BETWEEN -25567 AND 84370),
    logged    INTEGER CHECK (logged BETWEEN day AND 84370)
) STRICT;
CREATE INDEX sheet_candidate ON sheet (candidate);

CREATE TABLE sheet_fact (
    sheet    INTEGER NOT NULL REFERENCES sheet ON DELETE CASCADE,
    position INTEGER NOT NULL CHECK (position BETWEEN 1 AND 20),
    fact     INTEGER NOT NULL REFERENCES fact ON DELETE CASCADE,
    missed   INTEGER NOT NULL DEFAULT 0 CHECK (missed IN (0, 1)),
    PRIMARY KEY (sheet, position),
    UNIQUE (sheet, fact)
) STRICT, WITHOUT ROWID;
CREATE INDEX sheet_fact_fact ON sheet_fact (fact);
)sql",
    R"sql(
ALTER TABLE week ADD COLUMN free_days INTEGER NOT NULL DEFAULT 1 CHECK (free_days BETWEEN 0 AND 6);

CREATE TABLE planned (
    id        INTEGER PRIMARY KEY,
    candidate INTEGER NOT NULL REFERENCES candidate ON DELETE CASCADE,
    kind      TEXT NOT NULL CHECK (kind IN ('sit', 'relearn', 'recall', 'foreseen')),
    subject   TEXT NOT NULL,
    name      TEXT NOT NULL,
    number    INTEGER NOT NULL CHECK (number >= 0),
    day       INTEGER NOT NULL CHECK (day BETWEEN -25567 AND 84370),
    asked     INTEGER NOT NULL CHECK (asked > 0)
) STRICT;
CREATE INDEX planned_candidate ON planned (candidate);

CREATE TABLE relearned (
    candidate INTEGER NOT NULL REFERENCES candidate ON DELETE CASCADE,
    subject   TEXT NOT NULL,
    topic     TEXT NOT NULL,
    day       INTEGER NOT NULL CHECK (day BETWEEN -25567 AND 84370),
    PRIMARY KEY (candidate, subject, topic, day)
) STRICT, WITHOUT ROWID;

CREATE TABLE plan_wish (
    candidate INTEGER PRIMARY KEY REFERENCES candidate ON DELETE CASCADE,
    marking   INTEGER NOT NULL CHECK (marking BETWEEN 0 AND 300)
) STRICT;

CREATE TABLE papers_wished (
    candidate INTEGER NOT NULL REFERENCES candidate ON DELETE CASCADE,
    subject   TEXT NOT NULL,
    papers    INTEGER NOT NULL CHECK (papers BETWEEN 0 AND 365),
    since     INTEGER NOT NULL CHECK (since BETWEEN -25567 AND 84370),
    PRIMARY KEY (candidate, subject)
) STRICT, WITHOUT ROWID;
)sql",
    R"sql(
CREATE TABLE copied_question (
    same     INTEGER NOT NULL,
    position INTEGER NOT NULL CHECK (position >= 0),
    paper    INTEGER NOT NULL REFERENCES paper ON DELETE CASCADE,
    question TEXT NOT NULL,
    PRIMARY KEY (same, position),
    UNIQUE (paper, question)
) STRICT, WITHOUT ROWID;
)sql",
    R"sql(
ALTER TABLE relearned ADD COLUMN half INTEGER NOT NULL DEFAULT 0 CHECK (half IN (0, 1));
)sql",
    R"sql(
CREATE TABLE planned_for (
    candidate INTEGER PRIMARY KEY REFERENCES candidate ON DELETE CASCADE,
    day       INTEGER NOT NULL CHECK (day BETWEEN -25567 AND 84370)
) STRICT;

ALTER TABLE exam ADD COLUMN mock INTEGER NOT NULL DEFAULT 0 CHECK (mock IN (0, 1));
ALTER TABLE paper ADD COLUMN got_at INTEGER CHECK (got_at BETWEEN 1 AND 100);
ALTER TABLE part ADD COLUMN got_at INTEGER CHECK (got_at BETWEEN 1 AND 100);
ALTER TABLE plan_wish ADD COLUMN missed_from INTEGER NOT NULL DEFAULT 1 CHECK (missed_from BETWEEN 1 AND 500);
ALTER TABLE plan_wish ADD COLUMN slips INTEGER NOT NULL DEFAULT 1 CHECK (slips IN (0, 1));

CREATE TABLE planned_work (
    id        INTEGER PRIMARY KEY,
    candidate INTEGER NOT NULL REFERENCES candidate ON DELETE CASCADE,
    kind      TEXT NOT NULL CHECK (kind IN ('sit', 'relearn', 'check', 'recall', 'foreseen')),
    subject   TEXT NOT NULL,
    name      TEXT NOT NULL,
    number    INTEGER NOT NULL CHECK (number >= 0),
    day       INTEGER NOT NULL CHECK (day BETWEEN -25567 AND 84370),
    asked     INTEGER NOT NULL CHECK (asked > 0)
) STRICT;
INSERT INTO planned_work SELECT * FROM planned;
DROP TABLE planned;
ALTER TABLE planned_work RENAME TO planned;
CREATE INDEX planned_candidate ON planned (candidate);

CREATE TABLE steered_retry (
    sitting  INTEGER NOT NULL REFERENCES sitting ON DELETE CASCADE,
    question TEXT NOT NULL,
    wanted   INTEGER CHECK (wanted BETWEEN -25567 AND 84370),
    dropped  INTEGER CHECK (dropped BETWEEN -25567 AND 84370),
    reason   TEXT NOT NULL DEFAULT '',
    PRIMARY KEY (sitting, question)
) STRICT, WITHOUT ROWID;

CREATE TABLE asked_again (
    sitting  INTEGER NOT NULL REFERENCES sitting ON DELETE CASCADE,
    question TEXT NOT NULL,
    turn     INTEGER NOT NULL CHECK (turn BETWEEN 2 AND 9999),
    day      INTEGER NOT NULL CHECK (day BETWEEN -25567 AND 84370),
    PRIMARY KEY (sitting, question, turn)
) STRICT, WITHOUT ROWID;

CREATE TABLE steered_work (
    candidate INTEGER NOT NULL REFERENCES candidate ON DELETE CASCADE,
    kind      TEXT NOT NULL CHECK (kind IN ('sit', 'relearn')),
    subject   TEXT NOT NULL,
    name      TEXT NOT NULL,
    wanted    INTEGER CHECK (wanted BETWEEN -25567 AND 84370),
    dropped   INTEGER CHECK (dropped BETWEEN -25567 AND 84370),
    reason    TEXT NOT NULL DEFAULT '',
    PRIMARY KEY (candidate, kind, subject, name)
) STRICT, WITHOUT ROWID;

CREATE TABLE calendar_event (
    candidate INTEGER NOT NULL REFERENCES candidate ON DELETE CASCADE,
    uid       TEXT NOT NULL,
    day       INTEGER NOT NULL CHECK (day BETWEEN -25567 AND 84370),
    revision  INTEGER NOT NULL CHECK (revision >= 0),
    cancelled INTEGER NOT NULL CHECK (cancelled IN (0, 1)),
    PRIMARY KEY (candidate, uid)
) STRICT, WITHOUT ROWID;
)sql"};

} // namespace inkturn
