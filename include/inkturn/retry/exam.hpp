#pragma once

#include "inkturn/base/day.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

/// The day on which an awarding body examines a subject, or on which that is practised. No retry of the
/// subject is placed on the day of an exam or after it; the day of a mock is used last, as any exam's.
struct Exam {
    std::string title;
    Day day;
    std::string subject;    ///< empty: all subjects
    bool mock = false;      ///< an exam is practised: it ends no window
    std::string of_class{}; ///< it is for the members of this class; empty: for everybody
};

/// Whether it ends the windows of a subject: one of that subject or of all, and no mock.
bool examines(const Exam& exam, std::string_view subject);

enum class ExamId : std::int64_t {};

struct ExamOnFile {
    ExamId id{};
    Exam exam;
};

/// The first exam after the day, of the subject or of all subjects; no mock.
std::optional<Day> exam_ahead(const std::vector<Exam>& exams, std::string_view subject, Day day);

/// Whether the subject has an exam on the day or before, and none after it.
bool is_examined_by(const std::vector<Exam>& exams, std::string_view subject, Day day);

/// Whether an exam of a class is the same as one of everybody on another day: title and subject are the same,
/// and not more than 90 days lie between them, as they do between two series.
bool stands_in_for(const Exam& of_class, const Exam& of_all);

/// Of the exams of everybody and of a candidate's classes, those that count for the candidate: none of
/// everybody for which one of a class stands in.
std::vector<Exam> exams_that_count(std::vector<Exam> exams);

/// Throws Error for an exam whose title is empty or, like the subject, longer than 200 characters, or whose
/// day is not an accepted one.
void check_exam(const Exam& exam);
/// The same, and where the day is today or before.
void check_exam(const Exam& exam, Day today);

/// Throws Error where one of the same title, day, subject and class is on file.
void check_is_new(const std::vector<ExamOnFile>& on_file, const Exam& exam);

} // namespace inkturn
