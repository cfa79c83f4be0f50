#include "inkturn/clock/clock_line.hpp"
#include "store/state.hpp"

namespace inkturn {
namespace {

constexpr const char* saving_day = "saving the day of a retry in";

constexpr const char* last_turn = "SELECT sitting.day, max(turn), max(reattempt.day) FROM sitting LEFT JOIN "
                                  "reattempt ON sitting = id AND question = ? WHERE id = ? GROUP BY id";

Error not_recorded(const RetryId& id) {
    return Error("retry " + to_text(id) + " was not recorded; there is nothing to undo",
                 Error::Kind::not_found);
}

/// Where the retry has no day to keep, Error.
Placement placement_of(const Retry& retry) {
    if (!retry.day)
        throw Error("retry " + to_text(retry.id) + " has no day to keep", Error::Kind::misused);
    return {retry.id.sitting, retry.id.question, *retry.day};
}

} // namespace

/// The sitting is on file.
void Store::State::check_is_next_turn(SittingId sitting, const Reattempt& reattempt) {
    const std::string id = to_text(RetryId{sitting, reattempt.question, reattempt.turn});
    const auto query = prepared(last_turn);
    query->bindNoCopy(1, reattempt.question);
    query->bind(2, static_cast<std::int64_t>(sitting));
    query->executeStep();
    const int last = query->getColumn(1).getInt(); // 0 for null
    if (reattempt.turn <= last)
        throw Error("retry " + id + " was already recorded", Error::Kind::conflict, Error::Remedy::undo_retry,
                    id);
    if (reattempt.turn > last + 1)
        throw Error("no retry " + id + " yet: record " +
                        to_text(RetryId{sitting, reattempt.question, last + 1}) + " first",
                    Error::Kind::conflict);
    const Day missed_on = day_of(query->getColumn(last == 0 ? 0 : 2).getInt64());
    if (reattempt.day < missed_on)
        throw Error("retry " + id + " on " + iso(reattempt.day) + ": the question was missed on " +
                        iso(missed_on) + "; a re-attempt can't come before that",
                    Error::Kind::conflict);
}

void Store::State::check_is_last_turn(const RetryId& id) {
    const auto query = prepared(last_turn);
    query->bindNoCopy(1, id.question);
    query->bind(2, static_cast<std::int64_t>(id.sitting));
    const int last = query->executeStep() ? query->getColumn(1).getInt() : 0;
    if (id.turn > last)
        throw not_recorded(id);
    if (id.turn < last)
        throw Error("retry " + to_text(id) + ": a later turn was recorded", Error::Kind::conflict,
                    Error::Remedy::undo_retry_first, to_text(RetryId{id.sitting, id.question, last}));
}

void Store::State::remove_placement(SittingId sitting, const std::string& question) {
    const auto placement = prepared("DELETE FROM placement WHERE sitting = ? AND question = ?");
    placement->bind(1, static_cast<std::int64_t>(sitting));
    placement->bindNoCopy(2, question);
    placement->exec();
}

/// It was of the turn that was open until now.
void Store::State::remove_wanted_day(SittingId sitting, const std::string& question) {
    const auto clear = prepared("DELETE FROM steered_retry WHERE sitting = ? AND question = ? AND dropped IS "
                                "NULL");
    clear->bind(1, static_cast<std::int64_t>(sitting));
    clear->bindNoCopy(2, question);
    clear->exec();
}

void Store::Change::add_reattempt(SittingId id, const Reattempt& reattempt) {
    State& state = this->state();
    state.changed("recording a retry in", [&] {
        const auto paper = state.paper_of(id);
        check_fits(*paper, reattempt);
        state.check_is_next_turn(id, reattempt);
        const auto insert = state.prepared(
            "INSERT INTO reattempt (sitting, question, turn, day, marks, clock) VALUES (?, ?, ?, ?, ?, ?)");
        insert->bind(1, static_cast<std::int64_t>(id));
        insert->bind(2, reattempt.question);
        insert->bind(3, reattempt.turn);
        insert->bind(4, day_number(reattempt.day));
        insert->bind(5, to_line(reattempt.parts));
        insert->bind(6, to_line(reattempt.clock, *paper, question_of(*paper, reattempt).parts));
        insert->exec();
        state.add_reattempt_notes({id, reattempt.question, reattempt.turn}, reattempt.notes);
        state.remove_placement(id, reattempt.question);
        state.remove_wanted_day(id, reattempt.question);
    });
}

void Store::Change::remove_reattempt(const RetryId& id) {
    State& state = this->state();
    state.changed("undoing a retry in", [&] {
        state.check_is_last_turn(id);
        const auto reattempt =
            state.prepared("DELETE FROM reattempt WHERE sitting = ? AND question = ? AND turn = ?");
        reattempt->bind(1, static_cast<std::int64_t>(id.sitting));
        reattempt->bind(2, id.question);
        reattempt->bind(3, id.turn);
        if (reattempt->exec() == 0)
            throw not_recorded(id);
        state.remove_placement(id.sitting, id.question);
        state.remove_wanted_day(id.sitting, id.question);
    });
}

void Store::State::check_can_be_kept(const Placement& placement) {
    check_day(placement.day);
    const auto paper = paper_of(placement.sitting);
    if (!paper->find_question(placement.question))
        throw Error("paper " + paper->id() + " has no question " + placement.question + " to retry",
                    Error::Kind::not_found, Error::Remedy::show_paper, paper->id());
}

void Store::State::insert_placement(const char* sql, const Placement& placement) {
    const auto insert = prepared(sql);
    insert->bind(1, static_cast<std::int64_t>(placement.sitting));
    insert->bindNoCopy(2, placement.question);
    insert->bind(3, day_number(placement.day));
    insert->exec();
}

void Store::Change::keep_day(const Placement& placement) {
    State& state = this->state();
    state.changed(saving_day, [&] {
        state.check_can_be_kept(placement);
        state.insert_placement("INSERT INTO placement (sitting, question, day) VALUES (?, ?, ?) "
                               "ON CONFLICT (sitting, question) DO UPDATE SET day = excluded.day",
                               placement);
    });
}

void Store::Change::keep_days(const std::vector<Retry>& retries) {
    for (const Retry& retry : retries)
        if (retry.day_is_new)
            keep_day(placement_of(retry));
}

void Store::Change::keep_first_days(const std::vector<Retry>& retries) {
    State& state = this->state();
    state.changed(saving_day, [&] {
        const Recording::Pause pause(*state.recording);
        for (const Retry& retry : retries) {
            if (!retry.day_is_new)
                continue;
            const Placement placement = placement_of(retry);
            state.check_can_be_kept(placement);
            state.insert_placement("INSERT INTO placement (sitting, question, day) VALUES (?, ?, ?)",
                                   placement);
            state.recording->add(placement);
        }
    });
}

} // namespace inkturn
