#include "inkturn/store/desk.hpp"

#include "inkturn/clock/clock_line.hpp"
#include "inkturn/store/reading.hpp"
#include "store/state.hpp"

namespace inkturn {
namespace {

constexpr const char* reading_desk = "reading the desk in";

std::int64_t number(SittingId id) {
    return static_cast<std::int64_t>(id);
}

/// As its rows name it: of a paper without a question, turn 0.
RetryId row_of(const ScriptId& id) {
    return id.retry.value_or(RetryId{id.sitting, "", 0});
}

void bind(const StatementInUse& statement, const ScriptId& id) {
    const RetryId row = row_of(id);
    statement->bind(1, number(row.sitting));
    statement->bind(2, row.question);
    statement->bind(3, row.turn);
}

Error already_there(const Script& script) {
    if (script.id.retry)
        return Error("retry " + to_text(script.id) + " is already on the desk", Error::Kind::conflict,
                     Error::Remedy::resume_or_mark_script, to_text(script.id));
    return Error("candidate " + script.candidate + " has already sat " + script.paper->id() + " on " +
                     iso(script.day),
                 Error::Kind::conflict, Error::Remedy::see_sitting);
}

Error gone(const ScriptId& id) {
    return Error("the script of " + to_text(id) +
                     " is no longer on file: it, its paper or its candidate was removed",
                 Error::Kind::not_found);
}

/// The script as one of the paper on file.
Script of_paper(Script script, std::shared_ptr<const Paper> paper) {
    script.paper = std::move(paper);
    return script;
}

/// Replaces the marks, or whatever else is kept of a script, on file.
void exec_on_desk(const StatementInUse& update, const ScriptId& id) {
    if (update->exec() != 1)
        throw gone(id);
}

} // namespace

std::vector<Script> Desk::scripts(const Store& store, const std::string& candidate) {
    const Reading whole(store);
    Store::State& state = *store.state_;
    std::vector<ScriptId> ids;
    state.guarded(reading_desk, [&] {
        const auto row = state.candidate_row(candidate);
        const auto query =
            state.prepared("SELECT sitting, question, turn FROM script WHERE candidate = ? ORDER BY id");
        if (!row)
            return;
        query->bind(1, *row);
        while (query->executeStep()) {
            const SittingId sitting{query->getColumn(0).getInt64()};
            const int turn = query->getColumn(2).getInt();
            ids.push_back(turn == 0 ? script_id(sitting)
                                    : script_id(RetryId{sitting, query->getColumn(1).getString(), turn}));
        }
    });
    std::vector<Script> scripts;
    for (const ScriptId& id : ids)
        if (auto script = find(store, id))
            scripts.push_back(std::move(*script));
    return scripts;
}

std::optional<Script> Desk::find(const Store& store, const ScriptId& id) {
    Store::State& state = *store.state_;
    return state.guarded(reading_desk, [&]() -> std::optional<Script> {
        const auto query =
            state.prepared("SELECT candidate.code, paper, day, script.extra_time, marks, clock FROM script "
                           "JOIN candidate ON "
                           "candidate.id = script.candidate WHERE sitting = ? AND question = ? AND turn = ?");
        bind(query, id);
        if (!query->executeStep())
            return std::nullopt;
        const auto paper = state.paper(query->getColumn(1).getInt64());
        const auto extra =
            state.undamaged(reading_desk, [&] { return ExtraTime(query->getColumn(3).getInt()); });
        Script script = blank_script(query->getColumn(0).getString(), paper,
                                     day_of(query->getColumn(2).getInt64()), extra);
        script.id = id;
        if (id.retry) {
            const auto question = paper->find_question(id.retry->question);
            if (!question)
                throw state.damaged(reading_desk,
                                    "no question " + id.retry->question + " in paper " + paper->id());
            script.positions = paper->questions()[*question].parts;
        }
        script.marks = state.marks_in(query->getColumn(4), [&](std::string_view line) {
            return parse_script_line(*paper, script.positions, line);
        });
        script.events = state.clock_in(query->getColumn(5), [&](std::string_view line) {
            return parse_clock_line(*paper, script.positions, line);
        });
        script.notes = state.script_notes(row_of(id));
        return script;
    });
}

void Desk::check_is_of_sitting(const Script& script) const {
    if (!script.id.retry)
        return;
    Store::State& state = change_.state();
    const auto candidate = change_.store().candidate_of(script.id.sitting);
    if (state.paper_of(script.id.sitting)->id() != script.paper->id() || candidate != script.candidate)
        throw Error("the script of " + to_text(script.id) +
                        " has a different paper or candidate from the sitting",
                    Error::Kind::invalid);
}

/// Finds the script on file of this id, and checks that this one may replace it.
void Desk::check_can_replace(const Script& script) const {
    check_fits(script);
    const auto on_file = find(change_.store(), script.id);
    if (!on_file)
        throw gone(script.id);
    check_fits(of_paper(script, on_file->paper));
    if (script.paper->id() != on_file->paper->id() || script.candidate != on_file->candidate)
        throw Error("the script of " + to_text(script.id) + " on file has a different paper or candidate",
                    Error::Kind::conflict);
}

void Desk::add(Script& script) {
    Store::State& state = change_.state();
    state.changed("putting a script in", [&] {
        check_fits(script);
        const std::int64_t paper = state.paper_row_on_file(script.paper->id());
        check_fits(of_paper(script, state.paper(paper)));
        check_is_of_sitting(script);
        const std::int64_t candidate = state.candidate_row_made(script.candidate);
        const auto sat = state.prepared(
            "SELECT 1 FROM sitting WHERE candidate = ?1 AND paper = ?2 AND day = ?3 UNION ALL SELECT 1 FROM "
            "script WHERE candidate = ?1 AND paper = ?2 AND day = ?3 AND retried IS NULL");
        sat->bind(1, candidate);
        sat->bind(2, paper);
        sat->bind(3, day_number(script.day));
        if (script.id.retry ? find(change_.store(), script.id).has_value() : sat->executeStep())
            throw already_there(script);
        if (!script.id.retry)
            script.id = script_id(SittingId{state.next_sitting()});

        const auto insert =
            state.prepared("INSERT INTO script (sitting, question, turn, retried, candidate, paper, day, "
                           "extra_time, marks, clock) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)");
        bind(insert, script.id);
        if (script.id.retry)
            insert->bind(4, number(script.id.sitting));
        else
            insert->bind(4);
        insert->bind(5, candidate);
        insert->bind(6, paper);
        insert->bind(7, day_number(script.day));
        insert->bind(8, script.extra_time.percent());
        insert->bind(9, to_line(script.marks));
        insert->bind(10, to_line(script.events, *script.paper, script.positions));
        insert->exec();
        state.set_script_notes(row_of(script.id), script.notes);
    });
}

void Desk::add_event(Script& script, const ClockEvent& event) {
    std::vector<ClockEvent> events = script.events;
    events.push_back(event);
    keep_events(script, std::move(events));
}

void Desk::take_back_event(Script& script) {
    if (script.events.size() < 2 || script.is_handed_in())
        throw Error("the clock of " + to_text(script.id) + " has nothing to take back",
                    Error::Kind::conflict);
    std::vector<ClockEvent> events = script.events;
    const ClockEvent taken = events.back();
    events.pop_back();
    if (taken.reading) // whatever was decided about a clock that jumped stays decided
        events.back().reading = earlier(*taken.reading, taken.at - events.back().at);
    keep_events(script, std::move(events));
}

void Desk::settle_clock(Script& script, const ClockReading& now, Moment at) {
    std::vector<ClockEvent> events = script.events;
    ClockEvent& last = events.back();
    last.reading = earlier(now, at - last.at);
    keep_events(script, std::move(events));
}

void Desk::keep_events(Script& script, std::vector<ClockEvent> events) {
    Store::State& state = change_.state();
    state.changed("writing the clock in", [&] {
        check_fits(script);
        check_events(*script.paper, script.positions, events);
        const auto update = state.prepared(
            "UPDATE script SET clock = ?4 WHERE sitting = ?1 AND question = ?2 AND turn = ?3 AND clock = ?5");
        bind(update, script.id);
        update->bind(4, to_line(events, *script.paper, script.positions));
        update->bind(5, to_line(script.events, *script.paper, script.positions));
        if (update->exec() == 1)
            return;
        if (find(change_.store(), script.id))
            throw Error("the clock of " + to_text(script.id) +
                            " was moved on from another window: close this one",
                        Error::Kind::conflict);
        throw gone(script.id);
    });
    script.events = std::move(events);
}

void Desk::keep_marks(const Script& script) {
    Store::State& state = change_.state();
    state.changed("saving marks in", [&] {
        check_can_replace(script);
        const auto update =
            state.prepared("UPDATE script SET marks = ?4 WHERE sitting = ?1 AND question = ?2 AND turn = ?3");
        bind(update, script.id);
        update->bind(4, to_line(script.marks));
        exec_on_desk(update, script.id);
        state.set_script_notes(row_of(script.id), script.notes);
    });
}

void Desk::change(const Script& script) {
    Store::State& state = change_.state();
    state.changed("changing a script in", [&] {
        check_can_replace(script);
        const auto update =
            state.prepared("UPDATE script SET day = ?4, extra_time = ?5, marks = ?6, clock = ?7 "
                           "WHERE sitting = ?1 AND question = ?2 AND turn = ?3");
        bind(update, script.id);
        update->bind(4, day_number(script.day));
        update->bind(5, script.extra_time.percent());
        update->bind(6, to_line(script.marks));
        update->bind(7, to_line(script.events, *script.paper, script.positions));
        exec_on_desk(update, script.id);
        state.set_script_notes(row_of(script.id), script.notes);
    });
}

void Desk::remove(const ScriptId& id) {
    Store::State& state = change_.state();
    state.changed("removing a script from", [&] {
        const auto statement =
            state.prepared("DELETE FROM script WHERE sitting = ? AND question = ? AND turn = ?");
        bind(statement, id);
        exec_on_desk(statement, id);
        state.remove_candidates_without_records();
    });
}

void Desk::finish(const Script& script) {
    Store::State& state = change_.state();
    state.changed("finishing a script in", [&] {
        check_can_replace(script);
        if (script.id.retry)
            change_.add_reattempt(script.id.sitting, reattempt_of(script));
        else
            state.insert_sitting(script.candidate, state.paper_row_on_file(script.paper->id()),
                                 sitting_of(script), script.id.sitting);
        remove(script.id);
    });
}

} // namespace inkturn
