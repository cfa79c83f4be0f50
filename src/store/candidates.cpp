#include "inkturn/clock/clock_line.hpp"
#include "inkturn/store/reading.hpp"
#include "store/state.hpp"

#include <sstream>

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

void Store::State::remove_candidate(std::int64_t row) {
    const auto sets = prepared("UPDATE printed_set SET candidate = NULL WHERE candidate = ?");
    sets->bind(1, row); // for nobody: no plan has them sat
    sets->exec();
    const auto statement = prepared("DELETE FROM candidate WHERE id = ?");
    statement->bind(1, row);
    statement->exec();
}

void Store::State::remove_candidates_without_records() {
    std::vector<std::int64_t> rows;
    {
        const auto query = prepared(
            "SELECT id FROM candidate WHERE id NOT IN (SELECT candidate FROM sitting) AND "
            "id NOT IN (SELECT candidate FROM week) AND id NOT IN (SELECT candidate FROM member) AND "
            "id NOT IN (SELECT candidate FROM script) AND id NOT IN (SELECT candidate FROM relearned) AND "
            "id NOT IN (SELECT candidate FROM topic_rating) AND "
            "id NOT IN (SELECT candidate FROM plan_wish) AND id NOT IN (SELECT candidate FROM sheet) AND "
            "id NOT IN (SELECT candidate FROM steered_work) AND extra_time IS NULL AND "
            "id NOT IN (SELECT candidate FROM place_asked) AND "
            "id NOT IN (SELECT candidate FROM calendar_event WHERE NOT cancelled)");
        while (query->executeStep())
            rows.push_back(query->getColumn(0).getInt64());
    }
    for (const std::int64_t row : rows)
        remove_candidate(row);
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

std::vector<CandidateOnFile> Store::listed_candidates(const std::optional<std::string>& of_class) const {
    return state_->guarded("reading the candidates from", [&] {
        const auto query = state_->prepared(
            "SELECT code, candidate.extra_time, count(sitting.id), max(day), (SELECT group_concat(name, "
            "char(10)) FROM "
            "(SELECT name FROM member JOIN class ON class.id = member.class WHERE member.candidate = "
            "candidate.id ORDER BY name)) FROM candidate LEFT JOIN sitting ON sitting.candidate = "
            "candidate.id WHERE ?1 IS NULL OR candidate.id IN (SELECT candidate FROM member WHERE class = "
            "?1) GROUP BY candidate.id ORDER BY code");
        if (of_class)
            query->bind(1, state_->class_row(*of_class));
        std::vector<CandidateOnFile> listed;
        while (query->executeStep())
            listed.push_back(state_->listed_in(*query));
        return listed;
    });
}

/// A row of code, extra time, sittings, the latest one's day, and the names of classes in lines.
CandidateOnFile Store::State::listed_in(SQLite::Statement& row) const {
    CandidateOnFile listed{row.getColumn(0).getString(),
                           static_cast<std::size_t>(row.getColumn(2).getInt64())};
    if (!row.isColumnNull(1))
        listed.extra_time =
            undamaged("reading a candidate from", [&] { return ExtraTime(row.getColumn(1).getInt()); });
    if (!row.isColumnNull(3))
        listed.latest = day_of(row.getColumn(3).getInt64());
    if (!row.isColumnNull(4)) {
        std::istringstream names(row.getColumn(4).getString()); // printable, so none holds a line break
        for (std::string name; std::getline(names, name);)
            listed.classes.push_back(name);
    }
    return listed;
}

void Store::Change::rename_candidate(const std::string& from, const std::string& to) {
    State& state = this->state();
    state.changed("renaming a candidate in", [&] {
        check_candidate_code(to);
        if (state.candidate_row(to))
            throw Error("candidate " + to + " is already on file; two candidates can't be merged",
                        Error::Kind::conflict);
        const auto update = state.prepared("UPDATE candidate SET code = ? WHERE code = ?");
        update->bindNoCopy(1, to);
        update->bindNoCopy(2, from);
        exec_found(update, "candidate " + from);
        state.candidate_rows.clear();
        state.forgets_changes = true; // they tell the old code
        const auto events = state.prepared("DELETE FROM calendar_event WHERE candidate = ?");
        events->bind(1, *state.candidate_row(to)); // their UIDs were worked out from the old code
        events->exec();
    });
}

void Store::Change::set_extra_time(const std::string& code, std::optional<ExtraTime> extra) {
    State& state = this->state();
    state.changed("saving a candidate's extra time in", [&] {
        const std::int64_t row = state.candidate_row_made(code);
        const auto update = state.prepared("UPDATE candidate SET extra_time = ? WHERE id = ?");
        if (extra)
            update->bind(1, extra->percent());
        else
            update->bind(1);
        update->bind(2, row);
        update->exec();
        if (!extra)
            state.remove_candidates_without_records();
    });
}

void Store::Change::erase_candidate(const std::string& code) {
    State& state = this->state();
    state.changed("erasing a candidate from", [&] {
        const auto row = state.candidate_row(code);
        if (!row)
            throw Error("no candidate " + code + " on file", Error::Kind::not_found);
        state.remove_candidate(*row);
        state.forgets_changes = true; // they hold what was on file
        state.forget();
    });
}

std::optional<ExtraTime> Store::State::extra_time(std::int64_t candidate) {
    const auto query = prepared("SELECT extra_time FROM candidate WHERE id = ?");
    query->bind(1, candidate);
    if (!query->executeStep() || query->getColumn(0).isNull())
        return std::nullopt;
    return undamaged("reading a candidate from", [&] { return ExtraTime(query->getColumn(0).getInt()); });
}

/// A row of number, paper, day, extra time, marks and clock.
SittingRecord Store::State::sitting_in(SQLite::Statement& row) {
    SittingRecord record;
    record.id = SittingId{row.getColumn(0).getInt64()};
    record.paper = paper(row.getColumn(1).getInt64());
    const Paper& of = *record.paper;
    record.sitting.day = day_of(row.getColumn(2).getInt64());
    record.sitting.extra_time =
        undamaged("reading a sitting from", [&] { return ExtraTime(row.getColumn(3).getInt()); });
    record.sitting.parts =
        marks_in(row.getColumn(4), [&](std::string_view line) { return parse_line(of, line); });
    record.sitting.clock = clock_in(row.getColumn(5), [&](std::string_view line) {
        return parse_clock_line(of, all_positions(of), line);
    });
    return record;
}

/// A row of sitting, question, turn, day, marks and clock.
Reattempt Store::State::reattempt_in(SQLite::Statement& row, const Paper& of) {
    Reattempt reattempt{
        row.getColumn(1).getString(), row.getColumn(2).getInt(), day_of(row.getColumn(3).getInt64()), {}, {}};
    const auto question = of.find_question(reattempt.question);
    if (!question)
        throw damaged("reading retries from", "no question " + reattempt.question + " in paper " + of.id());
    const std::vector<std::size_t>& parts = of.questions()[*question].parts;
    reattempt.parts =
        marks_in(row.getColumn(4), [&](std::string_view line) { return parse_line(of, parts, line); });
    reattempt.clock =
        clock_in(row.getColumn(5), [&](std::string_view line) { return parse_clock_line(of, parts, line); });
    return reattempt;
}

void Store::State::read_sittings(std::int64_t row, Candidate& candidate) {
    const auto query = prepared("SELECT id, paper, day, extra_time, marks, clock FROM sitting WHERE "
                                "candidate = ? ORDER BY day, id");
    query->bind(1, row);
    while (query->executeStep())
        candidate.sittings.push_back(sitting_in(*query));
}

/// Comes after the sittings.
void Store::State::read_reattempts(std::int64_t row, const SittingsByNumber& records) {
    const auto query =
        prepared("SELECT r.sitting, r.question, r.turn, r.day, r.marks, r.clock FROM sitting s JOIN "
                 "reattempt r ON r.sitting = s.id WHERE s.candidate = ? ORDER BY r.sitting, r.question, "
                 "r.turn");
    query->bind(1, row);
    while (query->executeStep()) {
        SittingRecord& record = *records.at(query->getColumn(0).getInt64()); // one transaction read both
        record.reattempts.push_back(reattempt_in(*query, *record.paper));
    }
}

void Store::State::read_placements(std::int64_t row, Candidate& candidate) {
    const auto query = prepared("SELECT p.sitting, p.question, p.day FROM sitting s JOIN placement p ON "
                                "p.sitting = s.id WHERE s.candidate = ?");
    query->bind(1, row);
    while (query->executeStep())
        candidate.placements.push_back({SittingId{query->getColumn(0).getInt64()},
                                        query->getColumn(1).getString(),
                                        day_of(query->getColumn(2).getInt64())});
}

Store::State::InUse Store::State::in_use() {
    const auto query = prepared(
        "SELECT EXISTS (SELECT 1 FROM week), EXISTS (SELECT 1 FROM class_week), EXISTS (SELECT 1 FROM "
        "place_asked), "
        "EXISTS (SELECT 1 FROM relearned), EXISTS (SELECT 1 FROM plan_wish) OR EXISTS (SELECT 1 FROM "
        "papers_wished), "
        "EXISTS (SELECT 1 FROM reattempt), EXISTS (SELECT 1 FROM sitting_note) OR EXISTS (SELECT 1 FROM "
        "reattempt_note), EXISTS (SELECT 1 FROM steered_retry) OR EXISTS (SELECT 1 FROM steered_work) OR "
        "EXISTS "
        "(SELECT 1 FROM asked_again)");
    query->executeStep();
    const auto any = [&](int column) { return query->getColumn(column).getInt() != 0; };
    return {any(0), any(1), any(2), any(3), any(4), any(5), any(6), any(7)};
}

Candidate Store::candidate(const std::string& code) const {
    const Reading whole(*this);
    Candidate candidate;
    candidate.code = code;
    return state_->guarded("reading a candidate from", [&] {
        const auto row = state_->candidate_row(code);
        candidate.exams = state_->exams_of(row);
        if (row) {
            const Store::State::InUse any = state_->in_use();
            candidate.extra_time = state_->extra_time(*row);
            if (any.week)
                candidate.own_times = state_->own_times(*row);
            candidate.availability =
                availability_of(candidate.own_times,
                                any.class_week ? state_->class_times_of(*row) : std::vector<StatedTimes>());
            if (any.lessons)
                state_->read_lessons(*row, candidate);
            state_->read_plan(*row, candidate);
            if (any.relearned)
                state_->read_relearned(*row, candidate);
            if (any.wishes)
                state_->read_wishes(*row, candidate);
            state_->read_sittings(*row, candidate);
            Store::State::SittingsByNumber records;
            for (SittingRecord& record : candidate.sittings)
                records.emplace(static_cast<std::int64_t>(record.id), &record);
            if (any.reattempts)
                state_->read_reattempts(*row, records);
            if (any.notes)
                state_->read_notes(*row, records);
            state_->read_placements(*row, candidate);
            if (any.steering)
                state_->read_steering(*row, candidate);
        }
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
