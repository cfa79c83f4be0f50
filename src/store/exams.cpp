#include "store/state.hpp"

namespace inkturn {
namespace {

std::string named(ExamId id) {
    return "exam " + std::to_string(static_cast<std::int64_t>(id));
}

/// A row of title, day, subject, mock and the class's name.
Exam exam_in(SQLite::Statement& row) {
    return {row.getColumn(0).getString(), day_of(row.getColumn(1).getInt64()), row.getColumn(2).getString(),
            row.getColumn(3).getInt() != 0, row.isColumnNull(4) ? "" : row.getColumn(4).getString()};
}

} // namespace

ExamId Store::Change::add_exam(const Exam& exam) {
    State& state = this->state();
    return state.changed("adding an exam to", [&] {
        check_exam(exam);
        const auto insert =
            state.prepared("INSERT INTO exam (title, day, subject, mock, class) VALUES (?, ?, ?, ?, ?)");
        insert->bind(1, exam.title);
        insert->bind(2, day_number(exam.day));
        insert->bind(3, exam.subject);
        insert->bind(4, exam.mock ? 1 : 0);
        if (!exam.of_class.empty())
            insert->bind(5, state.class_row(exam.of_class));
        insert->exec();
        return ExamId{state.database->getLastInsertRowid()};
    });
}

std::vector<ExamOnFile> Store::exams() const {
    return state_->guarded("reading the exams from", [&] {
        std::vector<ExamOnFile> exams;
        const auto query = state_->prepared("SELECT title, day, subject, mock, name, exam.id FROM exam LEFT "
                                            "JOIN class ON class.id = exam.class ORDER BY day, exam.id");
        while (query->executeStep())
            exams.push_back({ExamId{query->getColumn(5).getInt64()}, exam_in(*query)});
        return exams;
    });
}

std::vector<Exam> Store::State::exams_of(std::optional<std::int64_t> candidate) {
    std::vector<Exam> exams;
    const auto query = prepared("SELECT title, day, subject, mock, name FROM exam LEFT JOIN class ON "
                                "class.id = exam.class WHERE exam.class IS NULL OR exam.class IN (SELECT "
                                "class FROM member WHERE candidate = ?) ORDER BY day, exam.id");
    if (candidate)
        query->bind(1, *candidate);
    while (query->executeStep())
        exams.push_back(exam_in(*query));
    return exams_that_count(std::move(exams));
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
