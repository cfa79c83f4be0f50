#include "inkturn/store/closed_classes.hpp"

#include "store/state.hpp"

#include <algorithm>
#include <tuple>

namespace inkturn {
namespace {

constexpr const char* reading_closed = "reading the figures of closed classes from";

/// A row of class, day, paper, part, marks, candidates, in_time and unaided; by closed
/// class, then paper, then the part's place in it.
void take_part(SQLite::Statement& row, std::vector<ClosedClassFigures>& all) {
    ClosedClassFigures figures{
        row.getColumn(0).getString(), day_of(row.getColumn(1).getInt64()), row.getColumn(2).getString(), {}};
    if (all.empty() || std::tie(all.back().of_class, all.back().day, all.back().paper) !=
                           std::tie(figures.of_class, figures.day, figures.paper))
        all.push_back(std::move(figures));
    PartFigures part{row.getColumn(3).getString(), Marks(row.getColumn(4).getInt()),
                     static_cast<std::size_t>(row.getColumn(5).getInt64()), Marks(row.getColumn(6).getInt()),
                     Marks(row.getColumn(7).getInt())};
    all.back().parts.push_back(std::move(part));
}

} // namespace

std::vector<ClosedClassFigures> ClosedClasses::all(const Store& store) {
    Store::State& state = *store.state_;
    return state.guarded(reading_closed, [&] {
        std::vector<ClosedClassFigures> all;
        const auto query = state.prepared(
            "SELECT closed_class.name, day, paper.code, closed_part.part, closed_part.marks, candidates, "
            "in_time, unaided FROM closed_part JOIN closed_class ON closed_class = "
            "closed_class.id JOIN paper ON closed_part.paper = paper.id LEFT JOIN part ON part.paper = "
            "paper.id AND part.label = closed_part.part ORDER BY day, closed_class.name, paper.code, "
            "position");
        while (query->executeStep())
            state.undamaged(reading_closed, [&] { take_part(*query, all); });
        for (const ClosedClassFigures& figures : all)
            state.undamaged(reading_closed, [&] { check_figures(figures); });
        return all;
    });
}

std::vector<ClosedClassFigures> ClosedClasses::of(const Store& store, const std::string& paper) {
    std::vector<ClosedClassFigures> figures = all(store);
    figures.erase(std::remove_if(figures.begin(), figures.end(),
                                 [&](const ClosedClassFigures& one) { return one.paper != paper; }),
                  figures.end());
    return figures;
}

bool ClosedClasses::add(const ClosedClassFigures& figures) {
    Store::State& state = change_.state();
    return state.changed("keeping figures in", [&] {
        check_figures(figures);
        for (const ClosedClassFigures& other : of(change_.store(), figures.paper))
            if (other.of_class == figures.of_class && other.day == figures.day)
                return false;
        const std::int64_t paper = state.paper_row_on_file(figures.paper);
        const auto closed = state.prepared("INSERT OR IGNORE INTO closed_class (name, day) VALUES (?, ?)");
        closed->bind(1, figures.of_class);
        closed->bind(2, day_number(figures.day));
        closed->exec();
        for (const PartFigures& part : figures.parts) {
            const auto insert = state.prepared(
                "INSERT INTO closed_part (closed_class, paper, part, marks, candidates, in_time, unaided) "
                "VALUES ((SELECT id FROM closed_class WHERE name = ? AND day = ?), ?, ?, ?, ?, ?, ?)");
            insert->bind(1, figures.of_class);
            insert->bind(2, day_number(figures.day));
            insert->bind(3, paper);
            insert->bind(4, part.part);
            insert->bind(5, part.max.count());
            insert->bind(6, static_cast<std::int64_t>(part.candidates));
            insert->bind(7, part.in_time.count());
            insert->bind(8, part.unaided.count());
            insert->exec();
        }
        return true;
    });
}

} // namespace inkturn
