#include "cli/class/retries_csv.hpp"

#include "exchange/csv/write.hpp"
#include "view/text/retries.hpp"
#include "view/text/text.hpp"

#include <sstream>

namespace inkturn {
namespace {

/// `question 7 (7a 7b)`; a question with only one part doesn't list it.
std::string question_text(const Retry& retry) {
    const std::string question = "question " + retry.id.question;
    return retry.paper_question().parts.size() == 1 ? question : question + " (" + parts_asked(retry) + ")";
}

/// One line of a candidate's list, for a letter.
std::string line_of(const Retry& retry, Day today) {
    const std::string late = late_text(retry, today);
    return day_text(*retry.day) + ": " + retry.paper->id() + " " + question_text(retry) + ", " +
           counted_marks(retry.paper_question().marks) + ", " + length_text(retry.allowance) + ", retry " +
           to_text(retry.id) + ", window " + day_text(DaySpan{retry.window->opens, retry.window->closes}) +
           (late.empty() ? "" : ", " + late + " late");
}

std::size_t whole_minutes(Seconds length) {
    return static_cast<std::size_t>((length.count() + 59) / 60);
}

std::size_t days_late(const Retry& retry, Day today) {
    return retry.late ? static_cast<std::size_t>((today - retry.window->closes).count()) : 0;
}

std::size_t number_of(Marks marks) {
    return static_cast<std::size_t>(marks.count());
}

/// Codes may hold commas.
std::string codes_text(const std::vector<std::string>& codes) {
    std::string text;
    for (const std::string& code : codes)
        text += (text.empty() ? "" : "; ") + code;
    return text;
}

void add_retry(CsvWriter& csv, const std::string& candidate, const Retry& retry, Day today) {
    csv.text(candidate).text(to_text(retry.id)).text(retry.paper->id()).text(retry.id.question);
    csv.text(parts_asked(retry)).number(number_of(retry.paper_question().marks));
    csv.number(number_of(retry.missed_marks)).number(static_cast<std::size_t>(retry.allowance.count()));
    csv.text(iso(*retry.day)).text(iso(retry.window->opens)).text(iso(retry.window->closes));
    csv.number(days_late(retry, today)).text(remark(retry)).end_row();
}

} // namespace

std::string letters_csv(const ClassWork& work, Day today) {
    std::ostringstream text;
    CsvWriter csv(text);
    csv.text("candidate").text("retries").text("late").text("minutes").text("list").end_row();
    for (const auto& [code, within] : work.candidates) {
        if (within.retries.empty())
            continue;
        std::string list;
        std::size_t late = 0;
        for (const Retry& retry : within.retries) {
            list += (list.empty() ? "" : "; ") + line_of(retry, today);
            late += retry.late;
        }
        csv.text(code).number(within.retries.size()).number(late).number(whole_minutes(within.planned));
        csv.text(list).end_row();
    }
    return text.str();
}

std::string retries_csv(const ClassWork& work, Day today) {
    std::ostringstream text;
    CsvWriter csv(text);
    for (const char* const title : {"candidate", "retry", "paper", "question", "parts", "marks", "missed",
                                    "seconds", "day", "opens", "closes", "days_late", "note"})
        csv.text(title);
    csv.end_row();
    for (const auto& [code, within] : work.candidates)
        for (const Retry& retry : within.retries)
            add_retry(csv, code, retry, today);
    return text.str();
}

std::string sheet_csv(const ClassWork& work) {
    std::ostringstream text;
    CsvWriter csv(text);
    for (const char* const title : {"candidate", "retry", "paper", "question", "part", "max", "by", "date",
                                    "in_time", "overtime", "corrected", "reason"})
        csv.text(title);
    csv.end_row();
    for (const auto& [code, within] : work.candidates)
        for (const Retry& retry : within.retries)
            for (const std::size_t part : retry.paper_question().parts) {
                const Part& asked = retry.paper->part(part);
                csv.text(code).text(to_text(retry.id)).text(retry.paper->id()).text(retry.id.question);
                csv.text(asked.label).number(number_of(asked.max)).text(iso(retry.window->closes));
                csv.text("").text("").text("").text("").text("").end_row();
            }
    return text.str();
}

std::size_t mean_in_tenths(const DueQuestion& due) {
    const std::size_t count = due.candidates.size();
    return count == 0 ? 0 : (20 * number_of(due.missed) + count) / (2 * count);
}

std::string questions_csv(const std::vector<DueQuestion>& questions) {
    std::ostringstream text;
    CsvWriter csv(text);
    for (const char* const title :
         {"paper", "question", "marks", "due", "planned", "late", "mean missed", "closes", "candidates"})
        csv.text(title);
    csv.end_row();
    for (const DueQuestion& due : questions) {
        csv.text(due.paper->id()).text(due.paper_question().label);
        csv.number(number_of(due.paper_question().marks)).number(due.candidates.size());
        csv.number(due.planned).number(due.late).tenths(mean_in_tenths(due));
        csv.text(due.closes ? iso(*due.closes) : "").text(codes_text(due.candidates)).end_row();
    }
    return text.str();
}

} // namespace inkturn
