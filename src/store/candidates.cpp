#include "inkturn/clock/clock_line.hpp"
#include "inkturn/store/reading.hpp"
#include "store/state.hpp"

namespace inkturn {

std::optional<std::int64_t> Store::State::candidate_row(const std::string& code) {
    const auto known = candidate_rows.find(code);
    if (known != candidate_rows.end())
        return known->second;
    const auto query = prepared("SELECT id FROM candidate WHERE code = ?");
    query->bindNoCopy(1, code);
    if (!query->executeStep())
        return std::nullopt;
    const std::int64_t row = query->getColumn(0).getInt64();
    candidate_rows.emplace(code, row);
    return row;
}

std::int64_t Store::State::candidate_row_made(const std::string& code) {
    if (const auto row = candidate_row(code))
        return *row;
    check_candidate_code(code);
    const auto insert = prepared("INSERT INTO candidate (code) VALUES (?)");
    insert->bindNoCopy(1, code);
    insert->exec();
    const std::int64_t row = database->getLastInsertRowid();
    candidate_rows.emplace(code, row);
    return row;
}

void Store::State::remove_candidates_without_records() {
    const auto statement = prepared(
        "DELETE FROM candidate WHERE id NOT IN (SELECT candidate FROM sitting) AND "
        "id NOT IN (SELECT candidate FROM week) AND id NOT IN (SELECT candidate FROM member) AND "
        "id NOT IN (SELECT candidate FROM script) AND id NOT IN (SELECT candidate FROM relearned) AND "
        "id NOT IN (SELECT candidate FROM plan_wish) AND id NOT IN (SELECT candidate FROM sheet)");
    statement->exec();
    candidate_rows.clear();
}

bool Store::has_candidate(const std::string& code) const {
    return state_->guarded("reading the candidates from",
                           [&] { return state_->candidate_row(code).has_value(); });
}

std::vector<std::string> Store::candidates() const {
    return state_->guarded("reading the candidates from", [&] {
        std::vector<std::string> codes;
        const auto query = state_->prepared("SELECT code FROM candidate ORDER BY code");
        while (query->executeStep())
            codes.push_back(query->getColumn(0).getString());
        return codes;
    });
}

void Store::rename_candidate(const std::string& from, const std::string& to) {
    check_candidate_code(to);
    state_->changed("renaming a candidate in", [&] {
        if (state_->candidate_row(to))
            throw Error("candidate " + to + " is on file already; two candidates are not made one");
        const auto update = state_->prepared("UPDATE candidate SET code = ? WHERE code = ?");
        update->bindNoCopy(1, to);
        update->bindNoCopy(2, from);
        update->exec();
        state_->candidate_rows.clear();
    });
}

void Store::erase_candidate(const std::string& code) {
    state_->changed("erasing a candidate from", [&] {
        const auto statement = state_->prepared("DELETE FROM candidate WHERE code = ?");
        statement->bindNoCopy(1, code);
        statement->exec();
        state_->candidate_rows.clear();
    });
}

Candidate Store::candidate(const std::string& code) const {
    const Reading whole(*this);
    Candidate candidate;
    candidate.code = code;
    for (ExamOnFile& exam : exams())
        candidate.exams.push_back(std::move(exam.exam));
    return state_->guarded("reading a candidate from", [&] {
        const auto row = state_->candidate_row(code);
        if (!row)
            return candidate;
        candidate.availability = state_->availability(*row);
        state_->read_plan(*row, candidate);

        const auto sittings = state_->prepared("SELECT id, paper, day, extra_time, marks, clock FROM sitting "
                                               "WHERE candidate = ? ORDER BY day, id");
        sittings->bind(1, *row);
        std::unordered_map<std::int64_t, std::size_t> positions;
        while (sittings->executeStep()) {
            SittingRecord record;
            record.id = SittingId{sittings->getColumn(0).getInt64()};
            record.paper = state_->paper(sittings->getColumn(1).getInt64());
            record.sitting.day = day_of(sittings->getColumn(2).getInt64());
            record.sitting.extra_time = ExtraTime(sittings->getColumn(3).getInt());
            record.sitting.parts = state_->marks_in(sittings->getColumn(4), [&](std::string_view line) {
                return parse_line(*record.paper, line);
            });
            record.sitting.clock = state_->clock_in(sittings->getColumn(5), [&](std::string_view line) {
                return parse_clock_line(*record.paper, all_positions(*record.paper), line);
            });
            positions.emplace(sittings->getColumn(0).getInt64(), candidate.sittings.size());
            candidate.sittings.push_back(std::move(record));
        }

        const auto reattempts =
            state_->prepared("SELECT r.sitting, r.question, r.turn, r.day, r.marks, r.clock FROM sitting s "
                             "JOIN reattempt r ON "
                             "r.sitting = s.id WHERE s.candidate = ? ORDER BY r.sitting, r.question, r.turn");
        reattempts->bind(1, *row);
        while (reattempts->executeStep()) {
            SittingRecord& record = candidate.sittings[positions.at(reattempts->getColumn(0).getInt64())];
            Reattempt reattempt{reattempts->getColumn(1).getString(),
                                reattempts->getColumn(2).getInt(),
                                day_of(reattempts->getColumn(3).getInt64()),
                                {},
                                {}};
            const auto question = record.paper->find_question(reattempt.question);
            if (!question)
                throw StoreError("reading retries from", state_->file,
                                 "it is damaged: no question " + reattempt.question + " in paper " +
                                     record.paper->id());
            const std::vector<std::size_t>& parts = record.paper->questions()[*question].parts;
            reattempt.parts = state_->marks_in(reattempts->getColumn(4), [&](std::string_view line) {
                return parse_line(*record.paper, parts, line);
            });
            reattempt.clock = state_->clock_in(reattempts->getColumn(5), [&](std::string_view line) {
                return parse_clock_line(*record.paper, parts, line);
            });
            record.reattempts.push_back(std::move(reattempt));
        }

        const auto placements = state_->prepared(
            "SELECT p.sitting, p.question, p.day FROM sitting s JOIN placement p ON p.sitting = s.id "
            "WHERE s.candidate = ?");
        placements->bind(1, *row);
        while (placements->executeStep())
            candidate.placements.push_back({SittingId{placements->getColumn(0).getInt64()},
                                            placements->getColumn(1).getString(),
                                            day_of(placements->getColumn(2).getInt64())});
        return candidate;
    });
}

std::optional<std::string> Store::candidate_of(SittingId id) const {
    return state_->guarded("reading a sitting from", [&]() -> std::optional<std::string> {
        const auto query = state_->prepared("SELECT candidate.code FROM sitting JOIN candidate ON "
                                            "candidate.id = sitting.candidate WHERE sitting.id = ?");
        query->bind(1, static_cast<std::int64_t>(id));
        if (!query->executeStep())
            return std::nullopt;
        return query->getColumn(0).getString();
    });
}

} // namespace inkturn
