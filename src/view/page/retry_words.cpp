#include "view/page/retry_words.hpp"

#include "inkturn/base/time.hpp"
#include "view/page/html.hpp"
#include "view/text/retries.hpp"
#include "view/text/text.hpp"

#include <vector>

namespace inkturn {
namespace {

/// Everything unusual about a retry, in words; empty if nothing is.
std::string remarks(const Retry& retry) {
    std::vector<std::string> all;
    if (!retry.day)
        all.push_back(retry.window ? "not placed: no day has room for it"
                                   : "no day is left for it before the exam");
    if (retry.outside_window)
        all.push_back("outside its window, whose days have no room");
    if (retry.late)
        all.push_back("late: its window has closed");
    if (retry.window && retry.window->squeezed)
        all.push_back("squeezed: its window was moved earlier because the exam comes first");
    std::string joined_remarks;
    for (const std::string& one : all)
        joined_remarks += (joined_remarks.empty() ? "" : "; ") + one;
    return joined_remarks;
}

} // namespace

std::string where_to_find(const Retry& retry) {
    const Paper& paper = *retry.paper;
    const Question& question = retry.paper_question();
    std::string where = paper.title().empty() ? paper.id() : paper.title() + " (" + paper.id() + ")";
    where += ": question " + question.label;
    if (question.parts.size() > 1)
        where += ", parts " + parts_asked(retry);
    return "<p class=\"find\">Find it in the paper. " + escaped(where) + "</p>\n";
}

std::string said_of(const Retry& retry) {
    std::string said = (retry.day ? day_text(*retry.day) : "No day") + ", " + length_text(retry.allowance) +
                       " for " + counted_marks(retry.paper_question().marks) + ". Missed " +
                       missed_text(retry) + " on " + day_text(retry.dropped_on) + ".";
    if (retry.window)
        said += " Window " + day_text(DaySpan{retry.window->opens, retry.window->closes}) + ".";
    said += " Retry " + to_text(retry.id) +
            (retry.id.turn > 1 ? ", turn " + std::to_string(retry.id.turn) : "") + ".";
    if (std::string note = remarks(retry); !note.empty()) {
        note.front() = static_cast<char>(note.front() - 'a' + 'A');
        said += " " + note + ".";
    }
    return paragraph(said, "said");
}

} // namespace inkturn
