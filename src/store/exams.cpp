#include "store/state.hpp"

namespace inkturn {

ExamId Store::add_exam(const Exam& exam) {
    return state_->changed("adding an exam to", [&] {
        const auto insert = state_->prepared("INSERT INTO exam (title, day, subject) VALUES (?, ?, ?)");
        insert->bind(1, exam.title);
        insert->bind(2, day_number(exam.day));
        insert->bind(3, exam.subject);
        insert->exec();
        return ExamId{state_->database->getLastInsertRowid()};
    });
}

std::vector<ExamOnFile> Store::exams() const {
    return state_->guarded("reading the exams from", [&] {
        std::vector<ExamOnFile> exams;
        const auto query = state_->prepared("SELECT id, title, day, subject FROM exam ORDER BY day, id");
        while (query->executeStep())
            exams.push_back({ExamId{query->getColumn(0).getInt64()},
                             {query->getColumn(1).getString(), day_of(query->getColumn(2).getInt64()),
                              query->getColumn(3).getString()}});
        return exams;
    });
}

void Store::move_exam(ExamId id, Day to) {
    state_->changed("moving an exam in", [&] {
        const auto statement = state_->prepared("UPDATE exam SET day = ? WHERE id = ?");
        statement->bind(1, day_number(to));
        statement->bind(2, static_cast<std::int64_t>(id));
        statement->exec();
    });
}

void Store::remove_exam(ExamId id) {
    state_->changed("removing an exam from", [&] {
        const auto statement = state_->prepared("DELETE FROM exam WHERE id = ?");
        statement->bind(1, static_cast<std::int64_t>(id));
        statement->exec();
    });
}

} // namespace inkturn
