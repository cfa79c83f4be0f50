#pragma once

namespace inkturn::test {

/// Takes away what the newest layout has over version 12.
constexpr const char* drop_since_12 =
    "DROP TABLE collected_record; DROP TABLE absent; DROP TABLE checked; DROP TABLE collected; DROP TABLE "
    "topic_wanted; DROP TABLE place_asked; "
    "DROP TABLE lesson_topic; DROP TABLE lesson;"
    "DROP TABLE class_week; DROP TABLE class_date;"
    "ALTER TABLE exam RENAME TO exam_now;"
    "CREATE TABLE exam (id INTEGER PRIMARY KEY AUTOINCREMENT, title TEXT NOT NULL, day INTEGER NOT NULL, "
    "subject TEXT "
    "NOT NULL, mock INTEGER NOT NULL DEFAULT 0) STRICT;"
    "INSERT INTO exam SELECT id, title, day, subject, mock FROM exam_now; DROP TABLE exam_now;";

} // namespace inkturn::test
