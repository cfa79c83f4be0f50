-- A store as the first layout of the tables had it, with a sitting in it.
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

INSERT INTO paper VALUES (1, 'made-up', '', '', NULL, 'question');
INSERT INTO part VALUES (1, 0, '1', 3, 'surds', ''), (1, 1, '2', 5, '', '');
INSERT INTO candidate VALUES (1, 'K01');
INSERT INTO sitting VALUES (1, 1, 1, 20759, 0, '1 1');
INSERT INTO placement VALUES (1, '2', 20775);
PRAGMA application_id = 0x696E6B74;
PRAGMA user_version = 1;
