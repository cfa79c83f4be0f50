#include "store/state.hpp"

namespace inkturn {
namespace {

constexpr std::chrono::hours longest_day{25}; ///< one on which the clocks go back
constexpr std::chrono::hours two_days{49};
constexpr std::size_t always_kept = 20;
constexpr std::int64_t bytes_kept = 16'000'000;

/// Whether a change of this age is kept where so many are newer, and it and they take so many bytes.
bool is_kept(Seconds age, std::size_t newer, std::int64_t bytes) {
    return age <= longest_day || ((age <= two_days || newer < always_kept) && bytes <= bytes_kept);
}

} // namespace

void Store::State::drop_old_changes() {
    const auto query = prepared("SELECT id, at, length(changeset) FROM change ORDER BY id DESC");
    std::size_t newer = 0;
    std::int64_t bytes = 0;
    while (query->executeStep()) {
        const Moment at{Seconds{query->getColumn(1).getInt64()}};
        bytes += query->getColumn(2).getInt64();
        if (is_kept(occasion.at - at, newer++, bytes))
            continue;
        const auto drop = prepared("DELETE FROM change WHERE id <= ?");
        drop->bind(1, query->getColumn(0).getInt64());
        drop->exec();
        return;
    }
}

std::int64_t Store::State::insert_change(const Changeset& changeset) {
    const auto insert = prepared("INSERT INTO change (at, command, changeset) VALUES (?, ?, ?)");
    insert->bind(1, static_cast<std::int64_t>(occasion.at.time_since_epoch().count()));
    insert->bindNoCopy(2, occasion.command);
    insert->bindNoCopy(3, changeset.bytes(), changeset.size());
    insert->exec();
    return database->getLastInsertRowid();
}

void Store::State::replace_own_change(const Changeset& changeset) {
    if (changeset.empty()) { // what was changed was changed back
        const auto remove = prepared("DELETE FROM change WHERE id = ?");
        remove->bind(1, *own_change);
        remove->exec();
        own_change.reset();
        return;
    }
    const auto update = prepared("UPDATE change SET changeset = ? WHERE id = ?");
    update->bindNoCopy(1, changeset.bytes(), changeset.size());
    update->bind(2, *own_change);
    update->exec();
}

std::optional<Changeset> Store::State::own_changeset() {
    if (!own_change)
        return std::nullopt;
    const auto query =
        prepared("SELECT changeset FROM change WHERE id = ? AND id = (SELECT max(id) FROM change)");
    query->bind(1, *own_change);
    if (!query->executeStep())
        return std::nullopt;
    const SQLite::Column changes = query->getColumn(0);
    return Changeset::of(changes.getBlob(), changes.getBytes());
}

void Store::State::keep_recorded() {
    if (forgets_changes) {
        database->exec("DELETE FROM change");
        return;
    }
    const Changeset changes = recording->changeset();
    if (changes.empty())
        return;
    database->exec("DELETE FROM change WHERE taken_back");
    if (const auto earlier = own_changeset())
        replace_own_change(earlier->then(changes));
    else
        own_change = insert_change(changes);
    drop_old_changes();
}

} // namespace inkturn
