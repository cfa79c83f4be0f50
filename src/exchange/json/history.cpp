#include "exchange/json/history.hpp"

#include "exchange/json/value.hpp"

namespace inkturn {

Json value_of(const Paper& paper, const Question& question, const QuestionAttempt& attempt) {
    Json parts = Json::array();
    for (std::size_t place = 0; place < attempt.parts.size(); ++place) {
        const Part& part = paper.part(question.parts[place]);
        Json marks = value_of(part, attempt.parts[place]);
        add_note(attempt.notes, part, marks);
        parts.push_back(std::move(marks));
    }
    return {{"turn", attempt.outcome.turn},
            {"date", iso(attempt.day)},
            {"got", attempt.outcome.got},
            {"parts", std::move(parts)}};
}

void add_note(const Notes& notes, const Part& part, Json& marks) {
    if (const auto noted = notes.find(part.label); noted != notes.end())
        marks["note"] = noted->second;
}

std::string json_of(const RetryHistory& shown, const std::string& candidate, bool with_notes) {
    const Question& question = shown.paper_question();
    Json parts = Json::array();
    for (std::size_t place = 0; place < question.parts.size(); ++place) {
        const Part& part = shown.paper->part(question.parts[place]);
        parts.push_back({{"part", part.label},
                         {"marks", part.max.count()},
                         {"topic", null_if_empty(part.topic)},
                         {"codes", null_if_empty(part.codes)},
                         {"to_earn", bool(shown.to_earn()[place])}});
    }
    Json attempts = Json::array();
    for (QuestionAttempt attempt : shown.attempts) {
        if (!with_notes)
            attempt.notes.clear();
        attempts.push_back(value_of(*shown.paper, question, attempt));
    }
    Json pictures = Json::array();
    for (const PictureOnFile& picture : shown.pictures)
        pictures.push_back(static_cast<std::int64_t>(picture.id));
    return text_of({{"id", to_text(shown.id)},
                    {"candidate", candidate},
                    {"paper", shown.paper->id()},
                    {"question", shown.id.question},
                    {"turn", shown.id.turn},
                    {"marks", question.marks.count()},
                    {"allowance_seconds", shown.allowance.count()},
                    {"state", name(shown.state)},
                    {"open", shown.open ? value_of(*shown.open) : Json(nullptr)},
                    {"parts", std::move(parts)},
                    {"pictures", std::move(pictures)},
                    {"notes", shown.count_of_notes()},
                    {"attempts", std::move(attempts)}});
}

} // namespace inkturn
