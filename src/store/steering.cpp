#include "inkturn/store/steering.hpp"

#include "store/state.hpp"

namespace inkturn {
namespace {

/// Columns `at` to `at` + 2: wanted, dropped, reason.
Steering steering_in(SQLite::Statement& row, int at) {
    Steering steering;
    if (!row.getColumn(at).isNull())
        steering.wanted = day_of(row.getColumn(at).getInt64());
    if (!row.getColumn(at + 1).isNull())
        steering.let_go = LetGo{day_of(row.getColumn(at + 1).getInt64()), row.getColumn(at + 2).getString()};
    return steering;
}

void bind(SQLite::Statement& statement, int at, const Steering& steering) {
    if (steering.wanted)
        statement.bind(at, day_number(*steering.wanted));
    if (steering.let_go)
        statement.bind(at + 1, day_number(steering.let_go->day));
    statement.bind(at + 2, steering.let_go ? steering.let_go->reason : std::string());
}

} // namespace

/// Comes after the sittings.
void Store::State::read_steering(std::int64_t row, Candidate& candidate) {
    const auto retries =
        prepared("SELECT r.sitting, r.question, r.wanted, r.dropped, r.reason FROM sitting s "
                 "JOIN steered_retry r ON r.sitting = s.id WHERE s.candidate = ? ORDER BY "
                 "r.sitting, r.question");
    retries->bind(1, row);
    while (retries->executeStep())
        candidate.steered_retries.push_back({SittingId{retries->getColumn(0).getInt64()},
                                             retries->getColumn(1).getString(), steering_in(*retries, 2)});
    const auto work = prepared("SELECT kind, subject, name, wanted, dropped, reason FROM steered_work WHERE "
                               "candidate = ? ORDER BY kind DESC, subject, name");
    work->bind(1, row);
    while (work->executeStep()) {
        const auto what = work_purpose_named(work->getColumn(0).getString());
        if (!what)
            throw damaged("reading a plan from", "work of an unknown kind");
        candidate.steered_work.push_back(
            {*what, work->getColumn(1).getString(), work->getColumn(2).getString(), steering_in(*work, 3)});
    }
    const auto again =
        prepared("SELECT a.sitting, a.question, a.turn, a.day FROM sitting s JOIN asked_again a "
                 "ON a.sitting = s.id WHERE s.candidate = ? ORDER BY a.sitting, a.question, "
                 "a.turn");
    again->bind(1, row);
    while (again->executeStep()) {
        const SittingId id{again->getColumn(0).getInt64()};
        for (SittingRecord& record : candidate.sittings)
            if (record.id == id)
                record.asked_again.push_back({again->getColumn(1).getString(), again->getColumn(2).getInt(),
                                              day_of(again->getColumn(3).getInt64())});
    }
}

void SteeringOnFile::steer(const SteeredRetry& retry) {
    Store::State& state = change_.state();
    state.changed("saving what was decided about a retry in", [&] {
        check_steering(retry.steering);
        const auto paper = state.paper_of(retry.sitting);
        if (!paper->find_question(retry.question))
            throw Error("paper " + paper->id() + " has no question " + retry.question + " to retry",
                        Error::Kind::not_found, Error::Remedy::show_paper, paper->id());
        const auto statement = state.prepared(
            retry.steering.is_none() ? "DELETE FROM steered_retry WHERE sitting = ? AND question = ?"
                                     : "INSERT OR REPLACE INTO steered_retry (sitting, question, wanted, "
                                       "dropped, reason) VALUES (?, "
                                       "?, ?, ?, ?)");
        statement->bind(1, static_cast<std::int64_t>(retry.sitting));
        statement->bind(2, retry.question);
        if (!retry.steering.is_none())
            bind(*statement, 3, retry.steering);
        statement->exec();
        if (retry.steering.is_none())
            state.remove_placement(retry.sitting, retry.question);
    });
}

void SteeringOnFile::steer(const std::string& candidate, const SteeredWork& work) {
    Store::State& state = change_.state();
    state.changed("saving what was decided about a plan in", [&] {
        check_steering(work);
        const std::int64_t row = state.candidate_row_made(candidate);
        const auto statement = state.prepared(
            work.steering.is_none()
                ? "DELETE FROM steered_work WHERE candidate = ? AND kind = ? AND subject = ? AND name = ?"
                : "INSERT OR REPLACE INTO steered_work (candidate, kind, subject, name, wanted, dropped, "
                  "reason) "
                  "VALUES (?, ?, ?, ?, ?, ?, ?)");
        statement->bind(1, row);
        statement->bind(2, std::string(name(work.what)));
        statement->bind(3, work.subject);
        statement->bind(4, work.name);
        if (!work.steering.is_none())
            bind(*statement, 5, work.steering);
        statement->exec();
        const auto planned = state.prepared(
            "DELETE FROM planned WHERE candidate = ? AND kind = ? AND subject = ? AND name = ?");
        planned->bind(1, row);
        planned->bind(2, std::string(name(work.what)));
        planned->bind(3, work.subject);
        planned->bind(4, work.name);
        planned->exec();
        state.remove_candidates_without_records();
    });
}

void SteeringOnFile::ask_again(SittingId sitting, const AskedAgain& again) {
    Store::State& state = change_.state();
    state.changed("asking for a question again in", [&] {
        check_fits(*state.paper_of(sitting), again);
        const auto insert = state.prepared(
            "INSERT OR REPLACE INTO asked_again (sitting, question, turn, day) VALUES (?, ?, ?, ?)");
        insert->bind(1, static_cast<std::int64_t>(sitting));
        insert->bind(2, again.question);
        insert->bind(3, again.turn);
        insert->bind(4, day_number(again.day));
        insert->exec();
        state.remove_placement(sitting, again.question);
    });
}

void SteeringOnFile::take_back_turn(const RetryId& id) {
    Store::State& state = change_.state();
    state.changed("taking back a turn in", [&] {
        const auto statement =
            state.prepared("DELETE FROM asked_again WHERE sitting = ? AND question = ? AND turn = ?");
        statement->bind(1, static_cast<std::int64_t>(id.sitting));
        statement->bind(2, id.question);
        statement->bind(3, id.turn);
        if (statement->exec() == 0)
            throw Error("retry " + to_text(id) + " was not asked for again", Error::Kind::not_found);
        state.remove_placement(id.sitting, id.question);
    });
}

} // namespace inkturn
