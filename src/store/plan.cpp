#include "inkturn/store/plan.hpp"

#include "store/state.hpp"

namespace inkturn {

void Store::State::read_plan(std::int64_t row, Candidate& candidate) {
    const auto planned = prepared(
        "SELECT kind, subject, name, number, day, asked FROM planned WHERE candidate = ? ORDER BY day, id");
    planned->bind(1, row);
    while (planned->executeStep()) {
        const auto what = work_purpose_named(planned->getColumn(0).getString());
        if (!what)
            throw damaged("reading a plan from", "work of an unknown kind");
        candidate.planned.push_back({*what, planned->getColumn(1).getString(),
                                     planned->getColumn(2).getString(), planned->getColumn(3).getInt(),
                                     day_of(planned->getColumn(4).getInt64()),
                                     Seconds(planned->getColumn(5).getInt64())});
    }
    const auto planned_for = prepared("SELECT day FROM planned_for WHERE candidate = ?");
    planned_for->bind(1, row);
    if (planned_for->executeStep())
        candidate.planned_for = day_of(planned_for->getColumn(0).getInt64());
}

void Store::State::read_relearned(std::int64_t row, Candidate& candidate) {
    const auto relearned = prepared(
        "SELECT subject, topic, day, half FROM relearned WHERE candidate = ? ORDER BY day, subject, topic");
    relearned->bind(1, row);
    while (relearned->executeStep())
        candidate.relearned.push_back(
            {relearned->getColumn(0).getString(), relearned->getColumn(1).getString(),
             day_of(relearned->getColumn(2).getInt64()), relearned->getColumn(3).getInt() != 0});
}

void Store::State::read_wishes(std::int64_t row, Candidate& candidate) {
    const auto wish = prepared("SELECT marking, missed_from, slips FROM plan_wish WHERE candidate = ?");
    wish->bind(1, row);
    if (wish->executeStep()) {
        candidate.wishes.marking_percent = wish->getColumn(0).getInt();
        candidate.wishes.retries = {Marks(wish->getColumn(1).getInt()), wish->getColumn(2).getInt() != 0};
    }
    const auto papers = prepared("SELECT subject, papers, since FROM papers_wished WHERE candidate = ?");
    papers->bind(1, row);
    while (papers->executeStep())
        candidate.wishes.papers[papers->getColumn(0).getString()] = {papers->getColumn(1).getInt(),
                                                                     day_of(papers->getColumn(2).getInt64())};
}

void PlanOnFile::keep(const std::string& candidate, const std::vector<PlannedWork>& planned) {
    Store::State& state = change_.state();
    state.changed("saving a plan in", [&] {
        for (const PlannedWork& work : planned)
            check_planned(work);
        const std::int64_t row = state.candidate_row_made(candidate);
        const auto clear = state.prepared("DELETE FROM planned WHERE candidate = ?");
        clear->bind(1, row);
        clear->exec();
        for (const PlannedWork& work : planned) {
            const auto insert =
                state.prepared("INSERT INTO planned (candidate, kind, subject, name, number, day, asked) "
                               "VALUES (?, ?, ?, ?, ?, ?, ?)");
            insert->bind(1, row);
            insert->bind(2, std::string(name(work.what)));
            insert->bind(3, work.subject);
            insert->bind(4, work.name);
            insert->bind(5, work.number);
            insert->bind(6, day_number(work.day));
            insert->bind(7, static_cast<std::int64_t>(work.duration.count()));
            insert->exec();
        }
    });
}

void PlanOnFile::set_planned_for(const std::string& candidate, Day day) {
    Store::State& state = change_.state();
    state.changed("keeping a plan in", [&] {
        check_day(day);
        const std::int64_t row = state.candidate_row_made(candidate);
        const auto insert =
            state.prepared("INSERT OR REPLACE INTO planned_for (candidate, day) VALUES (?, ?)");
        insert->bind(1, row);
        insert->bind(2, day_number(day));
        insert->exec();
    });
}

void PlanOnFile::take_off(const std::string& candidate, const std::vector<Fact>& facts) {
    Store::State& state = change_.state();
    state.changed("changing a plan in", [&] {
        const auto row = state.candidate_row(candidate);
        if (!row)
            return;
        for (const Fact& fact : facts) {
            const auto statement =
                state.prepared("DELETE FROM planned WHERE candidate = ? AND kind = 'recall' AND name = ?");
            statement->bind(1, *row);
            statement->bind(2, std::to_string(static_cast<std::int64_t>(fact.id)));
            statement->exec();
        }
    });
}

void PlanOnFile::set_wishes(const std::string& candidate, const PlanWishes& wishes) {
    Store::State& state = change_.state();
    state.changed("saving wishes for a plan in", [&] {
        check_wishes(wishes);
        const std::int64_t row = state.candidate_row_made(candidate);
        const auto wish =
            state.prepared("INSERT OR REPLACE INTO plan_wish (candidate, marking, missed_from, slips) "
                           "VALUES (?, ?, ?, ?)");
        wish->bind(1, row);
        wish->bind(2, wishes.marking_percent);
        wish->bind(3, wishes.retries.missed_from.count());
        wish->bind(4, wishes.retries.slips ? 1 : 0);
        wish->exec();
        const auto clear = state.prepared("DELETE FROM papers_wished WHERE candidate = ?");
        clear->bind(1, row);
        clear->exec();
        for (const auto& [subject, papers] : wishes.papers) {
            const auto insert = state.prepared(
                "INSERT INTO papers_wished (candidate, subject, papers, since) VALUES (?, ?, ?, ?)");
            insert->bind(1, row);
            insert->bind(2, subject);
            insert->bind(3, papers.count);
            insert->bind(4, day_number(papers.since));
            insert->exec();
        }
    });
}

bool PlanOnFile::add_relearned(const std::string& candidate, const Relearned& relearned) {
    Store::State& state = change_.state();
    return state.changed("saving what was relearned in", [&] {
        check_relearned(relearned);
        const std::int64_t row = state.candidate_row_made(candidate);
        const auto planned = state.prepared(
            "DELETE FROM planned WHERE candidate = ?1 AND kind = 'relearn' AND subject = ?2 AND name = ?3 "
            "AND (NOT ?4 OR number = (SELECT min(number) FROM planned WHERE candidate = ?1 AND kind = "
            "'relearn' AND subject = ?2 AND name = ?3))");
        planned->bind(1, row);
        planned->bind(2, relearned.subject);
        planned->bind(3, relearned.topic);
        planned->bind(4, relearned.half ? 1 : 0);
        planned->exec();
        const auto insert =
            state.prepared("INSERT INTO relearned (candidate, subject, topic, day, half) VALUES (?, ?, ?, ?, "
                           "?) ON CONFLICT DO UPDATE SET half = 0 WHERE half = 1");
        insert->bind(1, row);
        insert->bind(2, relearned.subject);
        insert->bind(3, relearned.topic);
        insert->bind(4, day_number(relearned.day));
        insert->bind(5, relearned.half ? 1 : 0);
        return insert->exec() == 1;
    });
}

bool PlanOnFile::remove_relearned(const std::string& candidate, const Relearned& relearned) {
    Store::State& state = change_.state();
    return state.changed("removing what was relearned from", [&] {
        const auto row = state.candidate_row(candidate);
        if (!row)
            return false;
        const auto statement = state.prepared(
            "DELETE FROM relearned WHERE candidate = ? AND subject = ? AND topic = ? AND day = ?");
        statement->bind(1, *row);
        statement->bind(2, relearned.subject);
        statement->bind(3, relearned.topic);
        statement->bind(4, day_number(relearned.day));
        const bool removed = statement->exec() == 1;
        state.remove_candidates_without_records();
        return removed;
    });
}

} // namespace inkturn
