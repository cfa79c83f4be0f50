#include "inkturn/store/printed_sets.hpp"

#include "store/state.hpp"

namespace inkturn {

std::vector<PrintedSet> PrintedSets::all(const Store& store) {
    Store::State& state = *store.state_;
    return state.guarded("reading the printed sets from", [&] {
        std::vector<PrintedSet> sets;
        const auto any = state.prepared("SELECT EXISTS (SELECT 1 FROM printed_set)");
        any->executeStep();
        if (any->getColumn(0).getInt() == 0) // to prepare what follows takes longer than to find none
            return sets;
        const auto query = state.prepared(
            "SELECT paper.code, printed_set.day, ifnull(candidate.code, ''), ifnull(class.name, '') FROM "
            "printed_set JOIN paper ON paper.id = printed_set.paper LEFT JOIN candidate ON candidate.id = "
            "printed_set.candidate LEFT JOIN class ON class.id = printed_set.class ORDER BY printed_set.day, "
            "printed_set.paper");
        while (query->executeStep())
            sets.push_back({query->getColumn(0).getString(), day_of(query->getColumn(1).getInt64()),
                            query->getColumn(2).getString(), query->getColumn(3).getString()});
        return sets;
    });
}

void PrintedSets::keep(const PrintedSet& set) {
    Store::State& state = change_.state();
    state.changed("noting a printed set in", [&] {
        check_day(set.day);
        const auto insert = state.prepared(
            "INSERT OR REPLACE INTO printed_set (paper, day, candidate, class) VALUES (?, ?, ?, ?)");
        insert->bind(1, state.paper_row_on_file(set.paper));
        insert->bind(2, day_number(set.day));
        if (set.candidate.empty())
            insert->bind(3);
        else
            insert->bind(3, state.candidate_row_made(set.candidate));
        if (set.of_class.empty())
            insert->bind(4);
        else
            insert->bind(4, state.class_row(set.of_class));
        insert->exec();
    });
}

} // namespace inkturn
