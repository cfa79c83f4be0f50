#include "inkturn/store/papers.hpp"
#include "store/state.hpp"

namespace inkturn {

std::vector<PaperInClass> PapersOnFile::in_class(const Store& store, const std::string& class_name) {
    Store::State& state = *store.state_;
    return state.guarded("reading a class's papers from", [&] {
        std::vector<PaperInClass> papers;
        const auto query = state.prepared(
            "SELECT code, max(is_set), sum(sat) FROM (SELECT paper, 0 AS is_set, count(DISTINCT candidate) "
            "AS "
            "sat FROM sitting WHERE candidate IN (SELECT candidate FROM member WHERE class = ?1) GROUP BY "
            "paper UNION ALL SELECT DISTINCT paper, 1, 0 FROM class_sitting JOIN sitting ON sitting.id = "
            "class_sitting.sitting WHERE class = ?1) AS met JOIN paper ON paper.id = met.paper GROUP BY code "
            "ORDER BY code");
        query->bind(1, state.class_row(class_name));
        while (query->executeStep())
            papers.push_back({query->getColumn(0).getString(), query->getColumn(1).getInt() != 0,
                              static_cast<std::size_t>(query->getColumn(2).getInt64())});
        return papers;
    });
}

PaperIds PapersOnFile::of_class(const Store& store, const std::string& class_name) {
    return papers_of_class(in_class(store, class_name), store.members(class_name).size());
}

PaperIds PapersOnFile::begun(const Store& store) {
    Store::State& state = *store.state_;
    return state.guarded("reading the papers sat from", [&] {
        PaperIds ids;
        const auto query = state.prepared(
            "SELECT code FROM paper WHERE EXISTS (SELECT 1 FROM sitting WHERE sitting.paper = paper.id) OR "
            "EXISTS (SELECT 1 FROM script WHERE script.paper = paper.id)");
        while (query->executeStep())
            ids.insert(query->getColumn(0).getString());
        return ids;
    });
}

std::vector<std::string> PapersOnFile::ids(const Store& store) {
    Store::State& state = *store.state_;
    return state.guarded("reading the papers' ids from", [&] {
        std::vector<std::string> ids;
        const auto query = state.prepared("SELECT code FROM paper ORDER BY code");
        while (query->executeStep())
            ids.push_back(query->getColumn(0).getString());
        return ids;
    });
}

std::set<std::string> PapersOnFile::absent(const Store& store, const std::optional<std::string>& class_name,
                                           const Paper& paper) {
    Store::State& state = *store.state_;
    return state.guarded("reading who was absent from", [&] {
        std::set<std::string> codes;
        const auto query = state.prepared("SELECT code FROM absent JOIN candidate ON candidate.id = "
                                          "absent.candidate WHERE paper = ?1 AND (?2 IS NULL OR class = ?2)");
        query->bind(1, state.paper_row_on_file(paper.id()));
        if (class_name)
            query->bind(2, state.class_row(*class_name));
        while (query->executeStep())
            codes.insert(query->getColumn(0).getString());
        return codes;
    });
}

std::set<std::string> PapersOnFile::absent(const Store& store, const std::string& class_name,
                                           const Paper& paper, Day day) {
    Store::State& state = *store.state_;
    return state.guarded("reading who was absent from", [&] {
        std::set<std::string> codes;
        const auto query = state.prepared("SELECT code FROM absent JOIN candidate ON candidate.id = "
                                          "absent.candidate WHERE class = ? AND paper = ? AND day = ?");
        query->bind(1, state.class_row(class_name));
        query->bind(2, state.paper_row_on_file(paper.id()));
        query->bind(3, day_number(day));
        while (query->executeStep())
            codes.insert(query->getColumn(0).getString());
        return codes;
    });
}

std::vector<Absence> PapersOnFile::absences(const Store& store, const std::string& candidate) {
    Store::State& state = *store.state_;
    return state.guarded("reading who was absent from", [&] {
        std::vector<Absence> absences;
        const auto query = state.prepared(
            "SELECT class.name, paper.code, day FROM absent JOIN candidate ON candidate.id = "
            "absent.candidate "
            "JOIN class ON class.id = absent.class JOIN paper ON paper.id = absent.paper WHERE "
            "candidate.code = ? ORDER BY day, paper.code, class.name");
        query->bindNoCopy(1, candidate);
        while (query->executeStep())
            absences.push_back({query->getColumn(0).getString(), query->getColumn(1).getString(),
                                day_of(query->getColumn(2).getInt64())});
        return absences;
    });
}

void PapersOnFile::exec_absent(const char* sql, const std::string& class_name, const Paper& paper, Day day,
                               const std::string& candidate) {
    Store::State& state = change_.state();
    state.changed("noting who was absent in", [&] {
        const auto statement = state.prepared(sql);
        statement->bind(1, state.class_row(class_name));
        statement->bind(2, state.paper_row_on_file(paper.id()));
        statement->bind(3, day_number(day));
        statement->bind(4, state.candidate_row_made(candidate));
        statement->exec();
    });
}

void PapersOnFile::note_absent(const std::string& class_name, const Paper& paper, Day day,
                               const std::string& candidate) {
    exec_absent("INSERT OR IGNORE INTO absent (class, paper, day, candidate) VALUES (?, ?, ?, ?)", class_name,
                paper, day, candidate);
}

void PapersOnFile::forget_absent(const std::string& class_name, const Paper& paper, Day day,
                                 const std::string& candidate) {
    exec_absent("DELETE FROM absent WHERE class = ? AND paper = ? AND day = ? AND candidate = ?", class_name,
                paper, day, candidate);
}

} // namespace inkturn
