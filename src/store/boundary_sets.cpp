#include "inkturn/store/boundary_sets.hpp"

#include "store/state.hpp"

namespace inkturn {
namespace {

constexpr const char* reading = "reading the boundaries from";

void check_undamaged(const BoundarySet& set, const std::string& file) {
    try {
        check_boundary_set(set);
    } catch (const Error& error) {
        throw StoreError(reading, file, std::string("it is damaged: ") + error.what());
    }
}

Error another_there(const BoundarySetOnFile& on_file) {
    const BoundarySet& set = on_file.set;
    return Error("boundary set '" + set.name + "'" + (set.subject.empty() ? "" : " of " + set.subject) +
                 " is on file with other marks; 'inkturn boundaries remove " +
                 std::to_string(static_cast<std::int64_t>(on_file.id)) + "' takes it off file first");
}

} // namespace

std::vector<BoundarySetOnFile> BoundarySets::all(const Store& store) {
    Store::State& state = *store.state_;
    return state.guarded(reading, [&] {
        std::vector<BoundarySetOnFile> sets;
        const auto query =
            state.prepared("SELECT id, name, subject, total, grade, mark FROM boundary_set JOIN "
                           "boundary ON boundary_set = id ORDER BY subject, name, position");
        while (query->executeStep()) {
            const BoundarySetId id{query->getColumn(0).getInt64()};
            if (sets.empty() || sets.back().id != id)
                sets.push_back({id,
                                {query->getColumn(1).getString(),
                                 query->getColumn(2).getString(),
                                 Marks(query->getColumn(3).getInt()),
                                 {}}});
            sets.back().set.grades.push_back(
                {query->getColumn(4).getString(), Marks(query->getColumn(5).getInt())});
        }
        for (const BoundarySetOnFile& on_file : sets)
            check_undamaged(on_file.set, state.file);
        return sets;
    });
}

bool BoundarySets::add(const BoundarySet& set) {
    Store::State& state = *store_.state_;
    return state.changed("adding boundaries to", [&] {
        for (const BoundarySetOnFile& on_file : all()) {
            if (on_file.set.name != set.name || on_file.set.subject != set.subject)
                continue;
            if (!(on_file.set == set))
                throw another_there(on_file);
            return false;
        }
        const auto insert =
            state.prepared("INSERT INTO boundary_set (name, subject, total) VALUES (?, ?, ?)");
        insert->bind(1, set.name);
        insert->bind(2, set.subject);
        insert->bind(3, set.total.count());
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
    Store::State& state = *store_.state_;
    state.changed("removing boundaries from", [&] {
        const auto statement = state.prepared("DELETE FROM boundary_set WHERE id = ?");
        statement->bind(1, static_cast<std::int64_t>(id));
        statement->exec();
    });
}

} // namespace inkturn
