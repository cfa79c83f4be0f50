#include "inkturn/store/boundary_sets.hpp"

#include "store/state.hpp"

namespace inkturn {
namespace {

constexpr const char* reading = "reading the boundaries from";

/// A row of number, name, subject, total, rule, grade and mark, by set, then from the top grade down.
void take_boundary(SQLite::Statement& row, std::vector<BoundarySetOnFile>& sets) {
    const BoundarySetId id{row.getColumn(0).getInt64()};
    if (sets.empty() || sets.back().id != id)
        sets.push_back({id,
                        {row.getColumn(1).getString(),
                         row.getColumn(2).getString(),
                         Marks(row.getColumn(3).getInt()),
                         {},
                         fill_rule_named(row.getColumn(4).getString())}});
    sets.back().set.grades.push_back({row.getColumn(5).getString(), Marks(row.getColumn(6).getInt())});
}

Error another_there(const BoundarySetOnFile& on_file) {
    const BoundarySet& set = on_file.set;
    return Error("boundary set '" + set.name + "'" + (set.subject.empty() ? "" : " of " + set.subject) +
                     " is on file with other marks",
                 Error::Kind::conflict, Error::Remedy::remove_boundary_set,
                 std::to_string(static_cast<std::int64_t>(on_file.id)));
}

} // namespace

std::vector<BoundarySetOnFile> BoundarySets::all(const Store& store) {
    Store::State& state = *store.state_;
    return state.guarded(reading, [&] {
        std::vector<BoundarySetOnFile> sets;
        const auto query =
            state.prepared("SELECT id, name, subject, total, filled, grade, mark FROM boundary_set JOIN "
                           "boundary ON boundary_set = id ORDER BY subject, name, position");
        while (query->executeStep())
            state.undamaged(reading, [&] { take_boundary(*query, sets); });
        for (const BoundarySetOnFile& on_file : sets)
            state.undamaged(reading, [&] { check_boundary_set(on_file.set); });
        return sets;
    });
}

bool BoundarySets::add(const BoundarySet& set) {
    Store::State& state = change_.state();
    return state.changed("adding boundaries to", [&] {
        check_boundary_set(set);
        for (const BoundarySetOnFile& on_file : all(change_.store())) {
            if (on_file.set.name != set.name || on_file.set.subject != set.subject)
                continue;
            if (!(on_file.set == set))
                throw another_there(on_file);
            return false;
        }
        const auto insert =
            state.prepared("INSERT INTO boundary_set (name, subject, total, filled) VALUES (?, ?, ?, ?)");
        insert->bind(1, set.name);
        insert->bind(2, set.subject);
        insert->bind(3, set.total.count());
        insert->bind(4, set.filled ? std::string(name(*set.filled)) : std::string());
        insert->exec();
        const std::int64_t row = state.database->getLastInsertRowid();
        for (std::size_t i = 0; i < set.grades.size(); ++i) {
            const auto grade = state.prepared(
                "INSERT INTO boundary (boundary_set, position, grade, mark) VALUES (?, ?, ?, ?)");
            grade->bind(1, row);
            grade->bind(2, static_cast<std::int64_t>(i));
            grade->bind(3, set.grades[i].grade);
            grade->bind(4, set.grades[i].mark.count());
            grade->exec();
        }
        return true;
    });
}

void BoundarySets::remove(BoundarySetId id) {
    Store::State& state = change_.state();
    state.changed("removing boundaries from", [&] {
        const auto statement = state.prepared("DELETE FROM boundary_set WHERE id = ?");
        statement->bind(1, static_cast<std::int64_t>(id));
        exec_found(statement, "boundary set " + std::to_string(static_cast<std::int64_t>(id)));
    });
}

} // namespace inkturn
