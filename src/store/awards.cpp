#include "inkturn/store/awards.hpp"

#include "inkturn/base/text.hpp"
#include "inkturn/store/boundary_sets.hpp"
#include "store/state.hpp"

#include <algorithm>
#include <map>

namespace inkturn {
namespace {

constexpr const char* reading_awards = "reading the awards from";

/// A row of award, subject, component, marks, weight, uniform, choice and choice_count; by award, then
/// position. `choice` has the positions of an award's choices by their numbers.
void take_component(SQLite::Statement& row, std::vector<Award>& awards,
                    std::map<std::int64_t, std::size_t>& choices) {
    const std::string name = row.getColumn(0).getString();
    if (awards.empty() || awards.back().name != name) {
        awards.push_back({name, row.getColumn(1).getString(), {}, {}});
        choices.clear();
    }
    Award& award = awards.back();
    Component component{row.getColumn(2).getString(), Marks(row.getColumn(3).getInt()),
                        Weight(row.getColumn(4).getInt())};
    if (!row.getColumn(5).isNull())
        component.uniform = Marks(row.getColumn(5).getInt());
    if (!row.getColumn(6).isNull()) {
        const auto [choice, is_new] = choices.emplace(row.getColumn(6).getInt64(), award.choices.size());
        if (is_new)
            award.choices.push_back({{}, row.getColumn(7).getInt()});
        award.choices[choice->second].components.push_back(award.components.size());
    }
    award.components.push_back(std::move(component));
}

void bind_or_null(SQLite::Statement& statement, int index, std::optional<int> value) {
    if (value)
        statement.bind(index, *value);
    else
        statement.bind(index);
}

/// The number of the component's choice, from 1; nothing: it always counts.
std::optional<int> choice_number(const Award& award, std::size_t component) {
    const ComponentChoice* choice = award.choice_of(component);
    return choice == nullptr ? std::nullopt
                             : std::optional(static_cast<int>(choice - award.choices.data()) + 1);
}

} // namespace

std::vector<Award> AwardsOnFile::all(const Store& store) {
    Store::State& state = *store.state_;
    return state.guarded(reading_awards, [&] {
        std::vector<Award> awards;
        std::map<std::int64_t, std::size_t> choices;
        const auto query = state.prepared(
            "SELECT award.name, subject, component.name, marks, weight, uniform, choice, choice_count FROM "
            "award JOIN component ON award = award.id ORDER BY subject, award.name, position");
        while (query->executeStep())
            state.undamaged(reading_awards, [&] { take_component(*query, awards, choices); });
        for (const Award& award : awards)
            state.undamaged(reading_awards, [&] { check_award(award); });
        return awards;
    });
}

const Award* AwardsOnFile::find(const std::vector<Award>& awards, const std::string& name) {
    const auto found =
        std::find_if(awards.begin(), awards.end(), [&](const Award& award) { return award.name == name; });
    return found == awards.end() ? nullptr : &*found;
}

const Award& AwardsOnFile::get(const std::vector<Award>& awards, const std::string& name) {
    if (const Award* found = find(awards, name))
        return *found;
    std::vector<std::string> names;
    for (const Award& award : awards)
        names.push_back(award.name);
    throw not_on_file("no award '" + name + "' on file", name, names, Error::Remedy::list_awards);
}

void AwardsOnFile::insert(const Award& award, std::int64_t row) const {
    Store::State& state = change_.state();
    for (std::size_t i = 0; i < award.components.size(); ++i) {
        const Component& component = award.components[i];
        const auto insert =
            state.prepared("INSERT INTO component (award, position, name, marks, weight, uniform, choice, "
                           "choice_count) VALUES (?, ?, ?, ?, ?, ?, ?, ?)");
        const ComponentChoice* choice = award.choice_of(i);
        insert->bind(1, row);
        insert->bind(2, static_cast<std::int64_t>(i));
        insert->bind(3, component.name);
        insert->bind(4, component.marks.count());
        insert->bind(5, component.weight.ten_thousandths());
        bind_or_null(*insert, 6,
                     component.uniform ? std::optional(component.uniform->count()) : std::nullopt);
        bind_or_null(*insert, 7, choice_number(award, i));
        bind_or_null(*insert, 8, choice == nullptr ? std::nullopt : std::optional(choice->count));
        insert->exec();
    }
}

bool AwardsOnFile::add(const Award& award) {
    Store::State& state = change_.state();
    return state.changed("adding an award to", [&] {
        check_award(award);
        for (const Award& other : all(change_.store())) {
            if (other == award)
                return false;
            if (other.name == award.name)
                throw Error("award '" + award.name + "' is on file with other components",
                            Error::Kind::conflict, Error::Remedy::remove_award, award.name);
            check_apart(award, other);
        }
        const auto insert_award = state.prepared("INSERT INTO award (name, subject) VALUES (?, ?)");
        insert_award->bind(1, award.name);
        insert_award->bind(2, award.subject);
        insert_award->exec();
        insert(award, state.database->getLastInsertRowid());
        return true;
    });
}

void AwardsOnFile::replace(const Award& award) {
    Store::State& state = change_.state();
    state.changed("replacing an award in", [&] {
        check_award(award);
        for (const Award& other : all(change_.store()))
            if (other.name != award.name)
                check_apart(award, other);
        for (const BoundarySetOnFile& on_file : BoundarySets::all(change_.store()))
            if (on_file.set.award == award.name)
                check_is_of(on_file.set, award);
        const auto update = state.prepared("UPDATE award SET subject = ? WHERE name = ? RETURNING id");
        update->bind(1, award.subject);
        update->bind(2, award.name);
        if (!update->executeStep())
            throw Error("no award " + award.name + " on file", Error::Kind::not_found);
        const std::int64_t row = update->getColumn(0).getInt64();
        const auto remove = state.prepared("DELETE FROM component WHERE award = ?");
        remove->bind(1, row);
        remove->exec();
        insert(award, row);
        const auto sets = state.prepared("UPDATE boundary_set SET subject = ? WHERE award = ?");
        sets->bind(1, award.subject);
        sets->bind(2, row);
        sets->exec();
    });
}

void AwardsOnFile::remove(const std::string& name) {
    Store::State& state = change_.state();
    state.changed("removing an award from", [&] {
        const auto statement = state.prepared("DELETE FROM award WHERE name = ?");
        statement->bind(1, name);
        exec_found(statement, "award '" + name + "'");
    });
}

} // namespace inkturn
