#include "inkturn/clock/clock_line.hpp"
#include "store/state.hpp"

#include <sqlite3.h>

namespace inkturn {

SittingId Store::add_sitting(const std::string& candidate, const Paper& paper, const Sitting& sitting) {
    return state_->changed("adding a sitting to", [&] {
        if (const auto row = state_->candidate_row(candidate))
            state_->check_not_on_desk(*row, state_->paper_row(paper.id()).value(), sitting.day);
        return state_->insert_sitting(candidate, paper, sitting, std::nullopt);
    });
}

void Store::State::check_not_on_desk(std::int64_t candidate, std::int64_t paper, Day day) {
    const auto query =
        prepared("SELECT sitting, paper.code FROM script JOIN paper ON paper.id = script.paper "
                 "WHERE candidate = ? AND script.paper = ? AND day = ? AND retried IS NULL");
    query->bind(1, candidate);
    query->bind(2, paper);
    query->bind(3, day_number(day));
    if (!query->executeStep())
        return;
    const std::string id = std::to_string(query->getColumn(0).getInt64());
    throw Error("sitting " + id + " of " + query->getColumn(1).getString() + " on " + iso(day) +
                " is not marked yet: once it is handed in, 'inkturn mark " + id +
                "' enters its marks; 'inkturn sitting remove " + id + "' drops it");
}

SittingId Store::State::insert_sitting(const std::string& candidate, const Paper& paper,
                                       const Sitting& sitting, std::optional<SittingId> id) {
    const std::string line = to_line(sitting.parts);
    const std::string clock = to_line(sitting.clock, paper, all_positions(paper));
    const auto insert = prepared("INSERT INTO sitting (id, candidate, paper, day, extra_time, marks, clock) "
                                 "VALUES (?, ?, ?, ?, ?, ?, ?)");
    if (id)
        insert->bind(1, static_cast<std::int64_t>(*id));
    else
        insert->bind(1);
    insert->bind(2, candidate_row_made(candidate));
    insert->bind(3, paper_row(paper.id()).value());
    insert->bind(4, day_number(sitting.day));
    insert->bind(5, sitting.extra_time.percent());
    insert->bindNoCopy(6, line);
    insert->bindNoCopy(7, clock);
    try {
        insert->exec();
    } catch (const SQLite::Exception& failure) {
        if (failure.getExtendedErrorCode() != SQLITE_CONSTRAINT_UNIQUE)
            throw;
        throw Error("candidate " + candidate + " has a sitting of " + paper.id() + " on " + iso(sitting.day) +
                    " on file; 'inkturn sitting amend' corrects it");
    }
    return SittingId{database->getLastInsertRowid()};
}

std::int64_t Store::State::next_sitting() {
    // An ordinary table, as SQLite documents it, where AUTOINCREMENT looks for the last number given out.
    if (prepared("UPDATE sqlite_sequence SET seq = seq + 1 WHERE name = 'sitting'")->exec() == 0)
        prepared("INSERT INTO sqlite_sequence (name, seq) VALUES ('sitting', 1)")->exec();
    const auto query = prepared("SELECT seq FROM sqlite_sequence WHERE name = 'sitting'");
    query->executeStep();
    return query->getColumn(0).getInt64();
}

void Store::change_sitting(SittingId id, const Sitting& sitting) {
    state_->changed("changing a sitting in", [&] {
        const auto before = state_->prepared("SELECT candidate, paper, day FROM sitting WHERE id = ?");
        before->bind(1, static_cast<std::int64_t>(id));
        if (before->executeStep() && day_of(before->getColumn(2).getInt64()) != sitting.day)
            state_->check_not_on_desk(before->getColumn(0).getInt64(), before->getColumn(1).getInt64(),
                                      sitting.day);
        const auto update =
            state_->prepared("UPDATE sitting SET day = ?, extra_time = ?, marks = ?, clock = ? WHERE id = ?");
        update->bind(1, day_number(sitting.day));
        update->bind(2, sitting.extra_time.percent());
        update->bind(3, to_line(sitting.parts));
        update->bind(4, state_->clock_line(id, sitting));
        update->bind(5, static_cast<std::int64_t>(id));
        try {
            update->exec();
        } catch (const SQLite::Exception& failure) {
            if (failure.getExtendedErrorCode() != SQLITE_CONSTRAINT_UNIQUE)
                throw;
            throw Error("there is another sitting of that paper on " + iso(sitting.day) +
                        "; 'inkturn sitting list' shows it");
        }
    });
}

void Store::remove_sitting(SittingId id) {
    state_->changed("removing a sitting from", [&] {
        const auto statement = state_->prepared("DELETE FROM sitting WHERE id = ?");
        statement->bind(1, static_cast<std::int64_t>(id));
        statement->exec();
        state_->remove_candidates_without_records();
    });
}

std::shared_ptr<const Paper> Store::State::paper_of(SittingId sitting) {
    const auto query = prepared("SELECT paper FROM sitting WHERE id = ?");
    query->bind(1, static_cast<std::int64_t>(sitting));
    query->executeStep();
    return paper(query->getColumn(0).getInt64());
}

std::string Store::State::clock_line(SittingId id, const Sitting& sitting) {
    if (sitting.clock.empty())
        return {};
    const auto of = paper_of(id);
    return to_line(sitting.clock, *of, all_positions(*of));
}

std::string Store::State::clock_line(SittingId sitting, const Reattempt& reattempt) {
    if (reattempt.clock.empty())
        return {};
    const auto of = paper_of(sitting);
    const Question& question = of->questions()[of->find_question(reattempt.question).value()];
    return to_line(reattempt.clock, *of, question.parts);
}

void Store::add_reattempt(SittingId id, const Reattempt& reattempt) {
    state_->changed("recording a retry in", [&] {
        const auto insert = state_->prepared(
            "INSERT INTO reattempt (sitting, question, turn, day, marks, clock) VALUES (?, ?, ?, ?, ?, ?)");
        insert->bind(1, static_cast<std::int64_t>(id));
        insert->bind(2, reattempt.question);
        insert->bind(3, reattempt.turn);
        insert->bind(4, day_number(reattempt.day));
        insert->bind(5, to_line(reattempt.parts));
        insert->bind(6, state_->clock_line(id, reattempt));
        insert->exec();

        const auto placement = state_->prepared("DELETE FROM placement WHERE sitting = ? AND question = ?");
        placement->bind(1, static_cast<std::int64_t>(id));
        placement->bind(2, reattempt.question);
        placement->exec();
    });
}

void Store::remove_reattempt(const RetryId& id) {
    state_->changed("taking back a retry in", [&] {
        const auto reattempt =
            state_->prepared("DELETE FROM reattempt WHERE sitting = ? AND question = ? AND turn = ?");
        reattempt->bind(1, static_cast<std::int64_t>(id.sitting));
        reattempt->bind(2, id.question);
        reattempt->bind(3, id.turn);
        reattempt->exec();

        const auto placement = state_->prepared("DELETE FROM placement WHERE sitting = ? AND question = ?");
        placement->bind(1, static_cast<std::int64_t>(id.sitting));
        placement->bind(2, id.question);
        placement->exec();
    });
}

void Store::keep_day(const Placement& placement) {
    state_->changed("keeping the day of a retry in", [&] {
        const auto insert =
            state_->prepared("INSERT OR REPLACE INTO placement (sitting, question, day) VALUES (?, ?, ?)");
        insert->bind(1, static_cast<std::int64_t>(placement.sitting));
        insert->bindNoCopy(2, placement.question);
        insert->bind(3, day_number(placement.day));
        insert->exec();
    });
}

void Store::keep_days(const std::vector<Retry>& retries) {
    for (const Retry& retry : retries)
        if (retry.placed_now)
            keep_day({retry.id.sitting, retry.id.question, *retry.day});
}

std::vector<std::vector<PartMarks>> Store::latest_sittings(const Paper& paper,
                                                           const std::optional<std::string>& of_class) const {
    return state_->guarded("reading a paper's sittings from", [&] {
        const auto query = state_->prepared(
            "SELECT candidate, marks FROM sitting WHERE paper = ?1 AND (?2 IS NULL OR candidate IN "
            "(SELECT candidate FROM member WHERE class = ?2)) ORDER BY candidate, day");
        query->bind(1, state_->paper_row(paper.id()).value());
        if (of_class)
            query->bind(2, state_->class_row(*of_class));

        std::vector<std::vector<PartMarks>> latest;
        std::optional<std::int64_t> last;
        while (query->executeStep()) {
            const std::int64_t candidate = query->getColumn(0).getInt64();
            if (last != candidate)
                latest.emplace_back();
            last = candidate;
            latest.back() = state_->marks_in(query->getColumn(1),
                                             [&](std::string_view line) { return parse_line(paper, line); });
        }
        return latest;
    });
}

} // namespace inkturn
