#include "view/text/history.hpp"

#include "view/text/retries.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <sstream>

namespace inkturn {
namespace {

using Align = Table::Align;

/// `4a and 4c`, of those of Question::parts that are true.
std::string labels_text(const RetryHistory& shown, const std::vector<bool>& which) {
    std::vector<std::string> labels;
    for (std::size_t place = 0; place < which.size(); ++place)
        if (which[place])
            labels.push_back(shown.paper->part(shown.paper_question().parts[place]).label);
    return joined(labels, " and ");
}

bool any_has_share(const RetryHistory& shown) {
    const std::vector<std::size_t>& parts = shown.paper_question().parts;
    return std::any_of(parts.begin(), parts.end(), [&](std::size_t part) {
        return got_at(*shown.paper, shown.paper->part(part)) != GotAt();
    });
}

std::string got_when(const RetryHistory& shown) {
    return "It counts as got once " + labels_text(shown, shown.to_earn()) +
           (std::count(shown.to_earn().begin(), shown.to_earn().end(), true) == 1 ? " is" : " are") +
           " earned without help, " +
           (any_has_share(shown) ? "to the share that the paper asks for" : "in full") +
           ", and no other part loses marks except by a slip or a misreading.";
}

std::string day_of_open(const RetryHistory& shown, Day today) {
    const Retry& retry = *shown.open;
    if (!retry.window)
        return shown.exams_are_over ? "It rests: the last exam of its subject has come."
                                    : "No day is left for it before the exam.";
    const std::string window =
        " (window " + day_text(DaySpan{retry.window->opens, retry.window->closes}) + ")";
    if (!retry.day)
        return "No day has room for it" + window + ".";
    std::string text = "To do on " + day_text(*retry.day) + window;
    if (retry.late)
        text += ", late by " + late_text(retry, today);
    if (retry.wanted == retry.day)
        text += ", as you asked";
    return text + ".";
}

std::string state_text(const RetryHistory& shown, Day today) {
    switch (shown.state) {
    case TurnState::open:
        return shown.open ? day_of_open(shown, today) : "It is open.";
    case TurnState::recorded: {
        const QuestionAttempt& attempt = shown.attempts[static_cast<std::size_t>(shown.id.turn)];
        return "Recorded on " + day_text(attempt.day) + (attempt.outcome.got ? ": got." : ": not got.");
    }
    case TurnState::secured:
        return "Question " + shown.id.question + " is secured: this turn does not come round.";
    case TurnState::let_go:
        return "Dropped on " + day_text(shown.let_go->day) + ": " + visible(shown.let_go->reason) + ".";
    case TurnState::replaced:
        return "Paper " + shown.paper->id() + " was sat again later: that sitting's retries count.";
    case TurnState::too_little:
        return "What was missed makes no retry by your wishes (inkturn plan --missed-from, --slips).";
    }
    return {};
}

/// `Picture 3, of 7: inkturn picture show 3 -o 12q7-3.png`
std::string picture_text(const PictureOnFile& picture, const std::string& retry) {
    const std::string number = std::to_string(static_cast<std::int64_t>(picture.id));
    std::string text = "Picture " + number;
    text.append(", of ").append(picture.question).append(": inkturn picture show ").append(number);
    text.append(" -o ").append(retry).append(1, '-').append(number);
    return text + (picture.kind == PictureKind::png ? ".png" : ".jpg");
}

/// `Noted in 12q7 on part 7b: sign of cos`
std::string note_line(const std::string& where, const std::string& label, const std::string& note) {
    std::string text = "Noted ";
    if (!where.empty())
        text.append("in ").append(where).append(1, ' ');
    return text_line(text.append("on part ").append(label).append(": ").append(visible(note)));
}

std::string marks_or_blank(Marks marks) {
    return marks == Marks(0) ? std::string() : marks_number(marks);
}

/// Part, maximum, marks by ink and reason.
void add_marks(const Part& part, const PartMarks& marks, std::vector<std::string>& row) {
    row.insert(row.end(),
               {part.label, marks_number(part.max), marks.attempted() ? marks_number(marks.in_time()) : "-",
                marks_or_blank(marks.overtime()), marks_or_blank(marks.corrected()),
                marks.reason() ? std::string(name(*marks.reason())) : ""});
}

} // namespace

std::string heading_of(const RetryHistory& shown) {
    const Question& question = shown.paper_question();
    return "Retry " + to_text(shown.id) + ": question " + question.label + " of " + shown.paper->id() +
           ", turn " + std::to_string(shown.id.turn) + ", " + counted_marks(question.marks) + " in " +
           length_text(shown.allowance);
}

std::string what_to_do(const RetryHistory& shown, Day today) {
    std::string text = text_line(state_text(shown, today));
    const bool is_ahead = shown.state == TurnState::open || shown.state == TurnState::let_go;
    if (is_ahead)
        text += text_line(got_when(shown));
    if (!is_ahead && shown.open)
        text += text_line("Turn " + std::to_string(shown.open->id.turn) +
                          " is open: " + to_text(shown.open->id) + ". " + day_of_open(shown, today));
    return text;
}

Table parts_table(const RetryHistory& shown) {
    Table table({{"part"},
                 {"marks", Align::right},
                 {"to earn", Align::left, true},
                 {"codes", Align::left_may_be_cut, true},
                 {"topic", Align::left_may_be_cut, true}});
    const Question& question = shown.paper_question();
    for (std::size_t place = 0; place < question.parts.size(); ++place) {
        const Part& part = shown.paper->part(question.parts[place]);
        table.add_row({part.label, marks_number(part.max), shown.to_earn()[place] ? "yes" : "", part.codes,
                       part.topic});
    }
    return table;
}

std::string pictures_text(const RetryHistory& shown) {
    if (shown.pictures.empty())
        return text_line(
            "No picture of it is on file: find question " + shown.id.question + " in " + shown.paper->id() +
            (shown.paper->title().empty() ? std::string() : " (" + visible(shown.paper->title()) + ")") +
            ".");
    std::string text;
    for (const PictureOnFile& picture : shown.pictures)
        text += text_line(picture_text(picture, to_text(shown.id)));
    return text;
}

Table attempts_table(const Paper& paper, const Question& question,
                     const std::vector<QuestionAttempt>& attempts) {
    Table table({{"attempt"},
                 {"date"},
                 {"part"},
                 {"of", Align::right},
                 {"in time", Align::right},
                 {"overtime", Align::right, true},
                 {"corrected", Align::right, true},
                 {"reason", Align::left, true}});
    for (const QuestionAttempt& attempt : attempts)
        for (std::size_t place = 0; place < attempt.parts.size(); ++place) {
            const std::string which = attempt.outcome.turn == 0 ? "sitting" : attempt_name(attempt);
            std::vector<std::string> row{place == 0 ? which : "", place == 0 ? day_text(attempt.day) : ""};
            add_marks(paper.part(question.parts[place]), attempt.parts[place], row);
            table.add_row(std::move(row));
        }
    return table;
}

std::string reattempts_text(const SittingRecord& record) {
    Table table({{"retry"},
                 {"date"},
                 {"part"},
                 {"of", Align::right},
                 {"in time", Align::right},
                 {"overtime", Align::right, true},
                 {"corrected", Align::right, true},
                 {"reason", Align::left, true},
                 {"got"}});
    std::string notes;
    bool any = false;
    for (const Question& question : record.paper->questions())
        for (const QuestionAttempt& attempt : attempts_at(record, question)) {
            if (attempt.outcome.turn == 0)
                continue;
            any = true;
            const std::string id = to_text(RetryId{record.id, question.label, attempt.outcome.turn});
            for (std::size_t place = 0; place < attempt.parts.size(); ++place) {
                std::vector<std::string> row{place == 0 ? id : "", place == 0 ? day_text(attempt.day) : ""};
                add_marks(record.paper->part(question.parts[place]), attempt.parts[place], row);
                row.push_back(place > 0 ? "" : attempt.outcome.got ? "yes" : "no");
                table.add_row(std::move(row));
            }
            for (const auto& [label, note] : attempt.notes)
                notes += note_line(id, label, note);
        }
    if (!any)
        return "";
    std::ostringstream text;
    text << "\nRe-attempts:\n\n" << table << notes;
    return text.str();
}

std::string attempt_name(const QuestionAttempt& attempt) {
    return attempt.outcome.turn == 0 ? "the sitting" : "turn " + std::to_string(attempt.outcome.turn);
}

std::string notes_text(const std::vector<QuestionAttempt>& attempts) {
    std::string text;
    for (const QuestionAttempt& attempt : attempts)
        for (const auto& [label, note] : attempt.notes)
            text += note_line(attempt_name(attempt), label, note);
    return text.empty() ? text : '\n' + text;
}

std::string notes_text(const Notes& notes) {
    std::string text;
    for (const auto& [label, note] : notes)
        text += note_line("", label, note);
    return text;
}

} // namespace inkturn
