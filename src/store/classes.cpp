#include "inkturn/base/text.hpp"
#include "store/state.hpp"

namespace inkturn {

std::vector<std::string> Store::State::names(const char* sql) {
    std::vector<std::string> names;
    const auto query = prepared(sql);
    while (query->executeStep())
        names.push_back(query->getColumn(0).getString());
    return names;
}

std::int64_t Store::State::class_row(const std::string& name) {
    const auto query = prepared("SELECT id FROM class WHERE name = ?");
    query->bindNoCopy(1, name);
    if (!query->executeStep())
        throw not_on_file("no class " + name + " on file", name, names("SELECT name FROM class"),
                          Error::Remedy::list_classes);
    return query->getColumn(0).getInt64();
}

bool Store::has_class(const std::string& name) const {
    return state_->guarded("reading the classes from", [&] {
        const auto query = state_->prepared("SELECT 1 FROM class WHERE name = ?");
        query->bindNoCopy(1, name);
        return query->executeStep();
    });
}

std::vector<ClassOnFile> Store::classes() const {
    return state_->guarded("reading the classes from", [&] {
        std::vector<ClassOnFile> classes;
        const auto query = state_->prepared("SELECT name, (SELECT count(*) FROM member WHERE member.class = "
                                            "class.id) FROM class ORDER BY name");
        while (query->executeStep())
            classes.push_back(
                {query->getColumn(0).getString(), static_cast<std::size_t>(query->getColumn(1).getInt64())});
        return classes;
    });
}

std::vector<std::string> Store::classes_of(const std::string& candidate) const {
    return state_->guarded("reading the classes from", [&] {
        std::vector<std::string> names;
        const auto query =
            state_->prepared("SELECT class.name FROM candidate JOIN member ON member.candidate = "
                             "candidate.id JOIN class ON class.id = member.class WHERE "
                             "candidate.code = ? ORDER BY class.name");
        query->bindNoCopy(1, candidate);
        while (query->executeStep())
            names.push_back(query->getColumn(0).getString());
        return names;
    });
}

std::vector<std::string> Store::classes_of(SittingId id) const {
    return state_->guarded("reading the classes from", [&] {
        std::vector<std::string> names;
        const auto query = state_->prepared("SELECT class.name FROM class_sitting JOIN class ON class.id = "
                                            "class_sitting.class WHERE sitting = ? ORDER BY class.name");
        query->bind(1, static_cast<std::int64_t>(id));
        while (query->executeStep())
            names.push_back(query->getColumn(0).getString());
        return names;
    });
}

std::vector<std::string> Store::members(const std::string& name) const {
    return state_->guarded("reading a class from", [&] {
        std::vector<std::string> codes;
        const auto query =
            state_->prepared("SELECT candidate.code FROM member JOIN candidate ON candidate.id = "
                             "member.candidate WHERE member.class = ? ORDER BY candidate.code");
        query->bind(1, state_->class_row(name));
        while (query->executeStep())
            codes.push_back(query->getColumn(0).getString());
        return codes;
    });
}

void Store::Change::add_class(const std::string& name) {
    State& state = this->state();
    state.changed("adding a class to", [&] {
        check_class_name(name);
        if (store().has_class(name))
            throw Error("class " + name + " is already on file; name candidates to add to it",
                        Error::Kind::conflict);
        const auto insert = state.prepared("INSERT INTO class (name) VALUES (?)");
        insert->bindNoCopy(1, name);
        insert->exec();
    });
}

bool Store::Change::add_member(const std::string& name, const std::string& candidate) {
    State& state = this->state();
    return state.changed("adding to a class in", [&] {
        const auto insert = state.prepared("INSERT OR IGNORE INTO member (class, candidate) VALUES (?, ?)");
        insert->bind(1, state.class_row(name));
        insert->bind(2, state.candidate_row_made(candidate));
        return insert->exec() > 0;
    });
}

void Store::Change::remove_member(const std::string& name, const std::string& candidate) {
    State& state = this->state();
    state.changed("removing from a class in", [&] {
        const auto statement = state.prepared("DELETE FROM member WHERE class = ? AND candidate = "
                                              "(SELECT id FROM candidate WHERE code = ?)");
        statement->bind(1, state.class_row(name));
        statement->bindNoCopy(2, candidate);
        if (statement->exec() == 0)
            throw Error("candidate " + candidate + " is not in class " + name, Error::Kind::not_found,
                        Error::Remedy::list_members, name);
        state.remove_candidates_without_records();
    });
}

void Store::Change::remove_class(const std::string& name) {
    State& state = this->state();
    state.changed("removing a class from", [&] {
        const auto sets = state.prepared("UPDATE printed_set SET class = NULL WHERE class = ?");
        sets->bind(1, state.class_row(name));
        sets->exec();
        const auto statement = state.prepared("DELETE FROM class WHERE id = ?");
        statement->bind(1, state.class_row(name));
        statement->exec();
        state.remove_candidates_without_records();
    });
}

void Store::Change::keep_for_class(const std::string& name, SittingId id) {
    State& state = this->state();
    state.changed("noting a sitting's class in", [&] {
        const auto insert =
            state.prepared("INSERT OR IGNORE INTO class_sitting (class, sitting) VALUES (?, ?)");
        insert->bind(1, state.class_row(name));
        insert->bind(2, static_cast<std::int64_t>(id));
        insert->exec();
    });
}

} // namespace inkturn
