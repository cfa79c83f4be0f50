#include "inkturn/retry/exam.hpp"

#include "inkturn/base/error.hpp"
#include "inkturn/base/text.hpp"
#include "inkturn/retry/candidate.hpp"

#include <algorithm>

namespace inkturn {

bool examines(const Exam& exam, std::string_view subject) {
    return !exam.mock && (exam.subject.empty() || exam.subject == subject);
}

std::optional<Day> exam_ahead(const std::vector<Exam>& exams, std::string_view subject, Day day) {
    std::optional<Day> ahead;
    for (const Exam& exam : exams)
        if (exam.day > day && examines(exam, subject))
            ahead = std::min(ahead.value_or(exam.day), exam.day);
    return ahead;
}

bool is_examined_by(const std::vector<Exam>& exams, std::string_view subject, Day day) {
    bool any = false;
    for (const Exam& exam : exams) {
        if (!examines(exam, subject))
            continue;
        if (exam.day > day)
            return false;
        any = true;
    }
    return any;
}

bool stands_in_for(const Exam& of_class, const Exam& of_all) {
    constexpr Days within_a_series{90};
    const Days apart = of_class.day < of_all.day ? of_all.day - of_class.day : of_class.day - of_all.day;
    return !of_class.of_class.empty() && of_all.of_class.empty() && of_class.title == of_all.title &&
           of_class.subject == of_all.subject && of_class.mock == of_all.mock && apart <= within_a_series;
}

std::vector<Exam> exams_that_count(std::vector<Exam> exams) {
    const std::vector<Exam> all = exams;
    exams.erase(std::remove_if(exams.begin(), exams.end(),
                               [&](const Exam& exam) {
                                   return std::any_of(all.begin(), all.end(), [&](const Exam& other) {
                                       return stands_in_for(other, exam);
                                   });
                               }),
                exams.end());
    return exams;
}

void check_exam(const Exam& exam) {
    if (exam.title.empty())
        throw Error("an exam needs a title, such as 'Pure, paper 1'");
    check_printable(exam.title, 200, "the exam's title");
    check_printable(exam.subject, 200, "the exam's subject");
    check_day(exam.day);
    if (!exam.of_class.empty())
        check_class_name(exam.of_class);
}

void check_exam(const Exam& exam, Day today) {
    check_exam(exam);
    if (exam.day <= today)
        throw Error("the exam on " + iso(exam.day) + " is not in the future (today is " + iso(today) +
                        "): give a day from tomorrow on",
                    Error::Kind::conflict);
}

void check_is_new(const std::vector<ExamOnFile>& on_file, const Exam& exam) {
    for (const auto& [id, other] : on_file)
        if (other.title == exam.title && other.day == exam.day && other.subject == exam.subject &&
            other.of_class == exam.of_class)
            throw Error("exam '" + exam.title + "' on " + iso(exam.day) + " is already on file, as number " +
                            std::to_string(static_cast<std::int64_t>(id)),
                        Error::Kind::conflict, Error::Remedy::see_exam);
}

} // namespace inkturn
