#include "store/state.hpp"

namespace inkturn {

Availability Store::State::availability(std::int64_t candidate) {
    Availability availability;
    const auto week =
        prepared("SELECT mon, tue, wed, thu, fri, sat, sun, free_days FROM week WHERE candidate = ?");
    week->bind(1, candidate);
    if (week->executeStep()) {
        for (int i = 0; i < 7; ++i)
            availability.week[static_cast<std::size_t>(i)] = Seconds(week->getColumn(i).getInt64());
        availability.free_days = week->getColumn(7).getInt();
    }

    const auto dates = prepared("SELECT day, available FROM date_availability WHERE candidate = ?");
    dates->bind(1, candidate);
    while (dates->executeStep())
        availability.dates[day_of(dates->getColumn(0).getInt64())] = Seconds(dates->getColumn(1).getInt64());
    return availability;
}

void Store::Change::set_availability(const std::string& candidate, const Availability& availability) {
    State& state = this->state();
    state.changed("setting availability in", [&] {
        check_availability(availability);
        const std::int64_t row = state.candidate_row_made(candidate);
        const auto week = state.prepared("INSERT OR REPLACE INTO week (candidate, mon, tue, wed, thu, fri, "
                                         "sat, sun, free_days) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)");
        week->bind(1, row);
        for (int i = 0; i < 7; ++i)
            week->bind(i + 2,
                       static_cast<std::int64_t>(availability.week[static_cast<std::size_t>(i)].count()));
        week->bind(9, availability.free_days);
        week->exec();

        const auto clear = state.prepared("DELETE FROM date_availability WHERE candidate = ?");
        clear->bind(1, row);
        clear->exec();
        for (const auto& [day, available] : availability.dates) {
            const auto insert =
                state.prepared("INSERT INTO date_availability (candidate, day, available) VALUES (?, ?, ?)");
            insert->bind(1, row);
            insert->bind(2, day_number(day));
            insert->bind(3, static_cast<std::int64_t>(available.count()));
            insert->exec();
        }
    });
}

} // namespace inkturn
