#include "inkturn/store/boundary_sets.hpp"

#include "inkturn/store/awards.hpp"
#include "store/state.hpp"

namespace inkturn {
namespace {

constexpr const char* reading = "reading the boundaries from";

std::optional<Marks> marks_or_none(const SQLite::Column& column) {
    return column.isNull() ? std::nullopt : std::optional(Marks(column.getInt()));
}

/// A row of number, name, subject, total, rule, guess, award, component and cap, then grade, mark and uniform
/// mark, by set, then from the top grade down.
void take_boundary(SQLite::Statement& row, std::vector<BoundarySetOnFile>& sets) {
    const BoundarySetId id{row.getColumn(0).getInt64()};
    if (sets.empty() || sets.back().id != id)
        sets.push_back({id,
                        {row.getColumn(1).getString(),
                         row.getColumn(2).getString(),
                         Marks(row.getColumn(3).getInt()),
                         {},
                         fill_rule_named(row.getColumn(4).getString()),
                         row.getColumn(5).getInt() != 0,
                         row.getColumn(6).getString(),
                         row.getColumn(7).getString(),
                         {},
                         marks_or_none(row.getColumn(8))}});
    BoundarySet& set = sets.back().set;
    set.grades.push_back({row.getColumn(9).getString(), Marks(row.getColumn(10).getInt())});
    if (const auto uniform = marks_or_none(row.getColumn(11)))
        set.uniform.push_back(*uniform);
}

/// Its award, whose subject the set must have. Throws Error where it is not one of the award's.
void check_award_of(const BoundarySet& set, const std::vector<Award>& awards) {
    const Award& award = AwardsOnFile::get(awards, set.award);
    if (set.subject != award.subject)
        throw Error("boundary set '" + set.name + "' has the subject of its award, which is " +
                    (award.subject.empty() ? "none" : "'" + award.subject + "'"));
    check_is_of(set, award);
}

void bind_marks(SQLite::Statement& statement, int index, std::optional<Marks> marks) {
    if (marks)
        statement.bind(index, marks->count());
    else
        statement.bind(index);
}

Error another_there(const BoundarySetOnFile& on_file) {
    const BoundarySet& set = on_file.set;
    return Error("boundary set '" + set.name + "'" + owner_text(set) + " is on file with other marks" +
                     (set.is_guess ? ", as a guess" : ""),
                 Error::Kind::conflict, Error::Remedy::remove_boundary_set,
                 std::to_string(static_cast<std::int64_t>(on_file.id)));
}

} // namespace

std::vector<BoundarySetOnFile> BoundarySets::all(const Store& store) {
    Store::State& state = *store.state_;
    return state.guarded(reading, [&] {
        std::vector<BoundarySetOnFile> sets;
        const auto query =
            state.prepared("SELECT boundary_set.id, boundary_set.name, boundary_set.subject, total, filled, "
                           "guess, ifnull(award.name, ''), component, cap, grade, mark, uniform FROM "
                           "boundary_set JOIN boundary ON boundary_set = boundary_set.id LEFT JOIN award ON "
                           "award.id = boundary_set.award ORDER BY boundary_set.subject, award.name, "
                           "boundary_set.name, component, boundary_set.id, boundary.position");
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
        if (!set.award.empty())
            check_award_of(set, AwardsOnFile::all(change_.store()));
        for (const BoundarySetOnFile& on_file : all(change_.store())) {
            if (!is_same_series(on_file.set, set))
                continue;
            if (!(on_file.set == set))
                throw another_there(on_file);
            return false;
        }
        const auto insert =
            state.prepared("INSERT INTO boundary_set (name, subject, total, filled, guess, award, component, "
                           "cap) VALUES (?, ?, ?, ?, ?, (SELECT id FROM award WHERE name = ?), ?, ?)");
        insert->bind(1, set.name);
        insert->bind(2, set.subject);
        insert->bind(3, set.total.count());
        insert->bind(4, set.filled ? std::string(name(*set.filled)) : std::string());
        insert->bind(5, set.is_guess ? 1 : 0);
        insert->bind(6, set.award);
        insert->bind(7, set.component);
        bind_marks(*insert, 8, set.cap);
        insert->exec();
        const std::int64_t row = state.database->getLastInsertRowid();
        for (std::size_t i = 0; i < set.grades.size(); ++i) {
            const auto grade = state.prepared(
                "INSERT INTO boundary (boundary_set, position, grade, mark, uniform) VALUES (?, ?, ?, ?, ?)");
            grade->bind(1, row);
            grade->bind(2, static_cast<std::int64_t>(i));
            grade->bind(3, set.grades[i].grade);
            grade->bind(4, set.grades[i].mark.count());
            bind_marks(*grade, 5, set.uniform.empty() ? std::nullopt : std::optional(set.uniform[i]));
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
