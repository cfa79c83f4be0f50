"""Stores in which somebody changed rows or tables with another program."""

import sqlite3

from damaged import READING, WRITING, ends_well
from trials import Trial

STEP = 25
TEXTS = ("''", "'\u00e9'", "x'ff'", "'a b'", "char(0)", "'=1+1'", "'-5'", "'99999999999999999999'", "printf('%.*c', 100000, 'k')")
NUMBERS = ("0", "-1", "9223372036854775807", "-9223372036854775808", "84370", "1e300")
TABLES = (
    "CREATE VIEW v AS SELECT 1", "CREATE TRIGGER t AFTER INSERT ON sitting BEGIN DELETE FROM paper; END",
    "CREATE VIRTUAL TABLE f USING fts5(a)", "DROP TABLE planned", "DROP TABLE change", "DROP TABLE checked",
    "ALTER TABLE paper RENAME TO papers", "ALTER TABLE sitting DROP COLUMN clock", "DROP INDEX sitting_paper",
    "ALTER TABLE exam RENAME TO e; CREATE VIEW exam AS WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n) "
    "SELECT i AS id, 'x' AS title, i AS day, '' AS subject, 0 AS mock FROM n",
    "PRAGMA user_version = 5", "PRAGMA user_version = 0", "PRAGMA user_version = -3", "PRAGMA application_id = 0",
    "DELETE FROM candidate", "DELETE FROM paper", "DELETE FROM part", "UPDATE part SET position = position + 7",
    "DELETE FROM sqlite_sequence", "UPDATE sqlite_sequence SET seq = 9223372036854775807",
)


def columns(store):
    """Of every table: name, column, whether it holds text."""
    with sqlite3.connect(store) as database:
        tables = [name for name, in database.execute("SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT "
                                                     "LIKE 'sqlite_%'")]
        return [(table, column, kind == "TEXT") for table in tables
                for _, column, kind, *_ in database.execute(f"PRAGMA table_info({table})")]


def doctor(binary, base, sql):
    with Trial(binary, base) as trial:
        database = sqlite3.connect(trial.store)
        try:
            database.executescript("PRAGMA ignore_check_constraints = ON; PRAGMA foreign_keys = OFF;" + sql)
        except sqlite3.Error:
            return "" # the table itself refuses it
        finally:
            database.close()
        for words in READING + WRITING:
            wrong = ends_well(trial, words)
            if wrong:
                return wrong
    return ""


def trials(binary, base, step):
    for sql in TABLES:
        yield sql, lambda s=sql: doctor(binary, base, s)
    place = 0
    for table, column, is_text in columns(base / "store"):
        for value in TEXTS if is_text else NUMBERS:
            place += 1
            if place % step == 0:
                sql = f"UPDATE OR IGNORE {table} SET {column} = {value}"
                yield sql, lambda s=sql: doctor(binary, base, s)
