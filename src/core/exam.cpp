#include "inkturn/exam.hpp"

#include "inkturn/error.hpp"
#include "inkturn/text.hpp"

#include <algorithm>

namespace inkturn {

std::optional<Day> exam_that_ends(const std::vector<Exam>& exams, std::string_view subject, Day attempt,
                                  Day today) {
    std::optional<Day> ahead;
    std::optional<Day> behind;
    for (const Exam& exam : exams) {
        if (exam.day <= attempt || !(exam.subject.empty() || exam.subject == subject))
            continue;
        if (exam.day > today)
            ahead = ahead ? std::min(*ahead, exam.day) : exam.day;
        else
            behind = behind ? std::max(*behind, exam.day) : exam.day;
    }
    return ahead ? ahead : behind;
}

void check_exam(const Exam& exam, Day today) {
    if (exam.title.empty())
        throw Error("an exam needs a title, such as 'Pure, paper 1'");
    check_printable(exam.title, 200, "the exam's title");
    check_printable(exam.subject, 200, "the exam's subject");
    if (exam.day <= today)
        throw Error("the exam on " + iso(exam.day) + " is not ahead (today is " + iso(today) +
                    "): give a day from tomorrow on");
}

} // namespace inkturn
