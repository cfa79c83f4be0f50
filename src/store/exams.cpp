#include "store/state.hpp"

namespace inkturn {
namespace {

std::string named(ExamId id) {
    return "exam " + std::to_string(static_cast<std::int64_t>(id));
}

} // namespace

ExamId Store::Change::add_exam(const Exam& exam) {
    State& state = this->state();
    return state.changed("adding an exam to", [&] {
        check_exam(exam);
        const auto insert =
            state.prepared("INSERT INTO exam (title, day, subject, mock) VALUES (?, ?, ?, ?)");
        insert->bind(1, exam.title);
        insert->bind(2, day_number(exam.day));
        insert->bind(3, exam.subject);
        insert->bind(4, exam.mock ? 1 : 0);
        insert->exec();
        return ExamId{state.database->getLastInsertRowid()};
    });
}

std::vector<ExamOnFile> Store::exams() const {
    return state_->guarded("reading the exams from", [&] {
        std::vector<ExamOnFile> exams;
        const auto query =
            state_->prepared("SELECT id, title, day, subject, mock FROM exam ORDER BY day, id");
        while (query->executeStep())
            exams.push_back({ExamId{query->getColumn(0).getInt64()},
                             {query->getColumn(1).getString(), day_of(query->getColumn(2).getInt64()),
                              query->getColumn(3).getString(), query->getColumn(4).getInt() != 0}});
        return exams;
    });
}

void Store::Change::move_exam(ExamId id, Day to) {
    State& state = this->state();
    state.changed("moving an exam in", [&] {
        check_day(to);
        const auto statement = state.prepared("UPDATE exam SET day = ? WHERE id = ?");
        statement->bind(1, day_number(to));
        statement->bind(2, static_cast<std::int64_t>(id));
        exec_found(statement, named(id));
    });
}

void Store::Change::remove_exam(ExamId id) {
    State& state = this->state();
    state.changed("removing an exam from", [&] {
        const auto statement = state.prepared("DELETE FROM exam WHERE id = ?");
        statement->bind(1, static_cast<std::int64_t>(id));
        exec_found(statement, named(id));
    });
}

} // namespace inkturn
