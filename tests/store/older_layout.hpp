#pragma once

#include <string>

namespace inkturn::test {

/// Takes away what the newest layout has over version 14.
inline const std::string drop_since_14 = "ALTER TABLE part DROP COLUMN allowance;";

/// Takes away what the newest layout has over version 13.
inline const std::string drop_since_13 =
    drop_since_14 +
    "DROP TABLE collected_record; DROP TABLE absent; DROP TABLE topic_rating; DROP TABLE listed_topic; DROP "
    "TABLE printed_set; ALTER TABLE part DROP COLUMN words;"
    "ALTER TABLE paper DROP COLUMN keep_unseen; ALTER TABLE paper DROP COLUMN added;"
    "DROP TABLE closed_part; DROP TABLE closed_class;"
    "CREATE TABLE boundary_set_old (id INTEGER PRIMARY KEY AUTOINCREMENT, name TEXT NOT NULL, subject TEXT "
    "NOT NULL, total INTEGER NOT NULL CHECK (total BETWEEN 1 AND 1000000), filled TEXT NOT NULL DEFAULT '' "
    "CHECK (filled IN ('', 'quarters', 'thirds', 'halves')), UNIQUE (name, subject)) STRICT;"
    "INSERT INTO boundary_set_old SELECT id, name, subject, total, filled FROM boundary_set;"
    "CREATE TABLE boundary_old (boundary_set INTEGER NOT NULL REFERENCES boundary_set_old ON DELETE "
    "CASCADE, position INTEGER NOT NULL CHECK (position >= 0), grade TEXT NOT NULL, mark INTEGER NOT NULL "
    "CHECK (mark BETWEEN 0 AND 1000000), PRIMARY KEY (boundary_set, position), UNIQUE (boundary_set, "
    "grade)) STRICT, WITHOUT ROWID;"
    "INSERT INTO boundary_old SELECT boundary_set, position, grade, mark FROM boundary;"
    "DROP TABLE boundary; DROP TABLE boundary_set; DROP TABLE component; DROP TABLE award;"
    "ALTER TABLE boundary_set_old RENAME TO boundary_set;"
    "ALTER TABLE boundary_old RENAME TO boundary;"
    "ALTER TABLE paper DROP COLUMN component;";

/// Takes away what the newest layout has over version 12.
inline const std::string drop_since_12 =
    drop_since_13 +
    "DROP TABLE checked; DROP TABLE collected; DROP TABLE topic_wanted; DROP TABLE place_asked; "
    "DROP TABLE lesson_topic; DROP TABLE lesson;"
    "DROP TABLE class_week; DROP TABLE class_date;"
    "ALTER TABLE exam RENAME TO exam_now;"
    "CREATE TABLE exam (id INTEGER PRIMARY KEY AUTOINCREMENT, title TEXT NOT NULL, day INTEGER NOT NULL, "
    "subject TEXT "
    "NOT NULL, mock INTEGER NOT NULL DEFAULT 0) STRICT;"
    "INSERT INTO exam SELECT id, title, day, subject, mock FROM exam_now; DROP TABLE exam_now;";

} // namespace inkturn::test
