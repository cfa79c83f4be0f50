#include "store/state.hpp"

#include <algorithm>

namespace inkturn {
namespace {

std::int64_t sitting_number(SittingId id) {
    return static_cast<std::int64_t>(id);
}

void bind_turn(const StatementInUse& statement, const RetryId& id) {
    statement->bind(1, sitting_number(id.sitting));
    statement->bind(2, id.question);
    statement->bind(3, id.turn);
}

} // namespace

void Store::State::set_sitting_notes(SittingId sitting, const Notes& notes) {
    const auto old = prepared("DELETE FROM sitting_note WHERE sitting = ?");
    old->bind(1, sitting_number(sitting));
    old->exec();
    for (const auto& [part, note] : notes) {
        const auto insert = prepared("INSERT INTO sitting_note (sitting, part, note) VALUES (?, ?, ?)");
        insert->bind(1, sitting_number(sitting));
        insert->bind(2, part);
        insert->bind(3, note);
        insert->exec();
    }
}

/// The re-attempt has none yet.
void Store::State::add_reattempt_notes(const RetryId& id, const Notes& notes) {
    for (const auto& [part, note] : notes) {
        const auto insert = prepared(
            "INSERT INTO reattempt_note (sitting, question, turn, part, note) VALUES (?, ?, ?, ?, ?)");
        bind_turn(insert, id);
        insert->bind(4, part);
        insert->bind(5, note);
        insert->exec();
    }
}

void Store::State::set_script_notes(const RetryId& id, const Notes& notes) {
    const auto old = prepared("DELETE FROM script_note WHERE sitting = ? AND question = ? AND turn = ?");
    bind_turn(old, id);
    old->exec();
    for (const auto& [part, note] : notes) {
        const auto insert =
            prepared("INSERT INTO script_note (sitting, question, turn, part, note) VALUES (?, ?, ?, ?, ?)");
        bind_turn(insert, id);
        insert->bind(4, part);
        insert->bind(5, note);
        insert->exec();
    }
}

Notes Store::State::script_notes(const RetryId& id) {
    Notes notes;
    const auto query =
        prepared("SELECT part, note FROM script_note WHERE sitting = ? AND question = ? AND turn = ?");
    bind_turn(query, id);
    while (query->executeStep())
        notes.emplace(query->getColumn(0).getString(), query->getColumn(1).getString());
    return notes;
}

/// Comes after the sittings and the re-attempts.
void Store::State::read_notes(std::int64_t row, const SittingsByNumber& records) {
    const auto of_sittings =
        prepared("SELECT n.sitting, n.part, n.note FROM sitting s JOIN sitting_note n ON "
                 "n.sitting = s.id WHERE s.candidate = ?");
    of_sittings->bind(1, row);
    while (of_sittings->executeStep())
        records.at(of_sittings->getColumn(0).getInt64())
            ->sitting.notes.emplace(of_sittings->getColumn(1).getString(),
                                    of_sittings->getColumn(2).getString());

    const bool any_turns = std::any_of(records.begin(), records.end(),
                                       [](const auto& record) { return !record.second->reattempts.empty(); });
    if (!any_turns)
        return;
    const auto of_turns = prepared("SELECT n.sitting, n.question, n.turn, n.part, n.note FROM sitting s JOIN "
                                   "reattempt_note n ON n.sitting = s.id WHERE s.candidate = ?");
    of_turns->bind(1, row);
    while (of_turns->executeStep()) {
        SittingRecord& record = *records.at(of_turns->getColumn(0).getInt64());
        for (Reattempt& reattempt : record.reattempts)
            if (reattempt.turn == of_turns->getColumn(2).getInt() &&
                reattempt.question == of_turns->getColumn(1).getString())
                reattempt.notes.emplace(of_turns->getColumn(3).getString(),
                                        of_turns->getColumn(4).getString());
    }
}

} // namespace inkturn
