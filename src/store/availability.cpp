#include "store/state.hpp"

namespace inkturn {
namespace {

/// The statements that read and write the times of a candidate, or of a class.
struct TimesSql {
    const char* read_week;
    const char* read_dates;
    const char* write_week;
    const char* clear_week;
    const char* clear_dates;
    const char* write_date;
};

constexpr TimesSql of_candidate{
    "SELECT mon, tue, wed, thu, fri, sat, sun, free_days FROM week WHERE candidate = ?",
    "SELECT day, available FROM date_availability WHERE candidate = ?",
    "INSERT OR REPLACE INTO week (candidate, mon, tue, wed, thu, fri, sat, sun, free_days) VALUES (?, ?, ?, "
    "?, ?, ?, ?, ?, ?)",
    "DELETE FROM week WHERE candidate = ?",
    "DELETE FROM date_availability WHERE candidate = ?",
    "INSERT INTO date_availability (candidate, day, available) VALUES (?, ?, ?)"};

constexpr TimesSql of_class{
    "SELECT mon, tue, wed, thu, fri, sat, sun, free_days FROM class_week WHERE class = ?",
    "SELECT day, available FROM class_date WHERE class = ?",
    "INSERT OR REPLACE INTO class_week (class, mon, tue, wed, thu, fri, sat, sun, free_days) VALUES (?, ?, "
    "?, ?, ?, ?, ?, ?, ?)",
    "DELETE FROM class_week WHERE class = ?",
    "DELETE FROM class_date WHERE class = ?",
    "INSERT INTO class_date (class, day, available) VALUES (?, ?, ?)"};

/// A row of the seven weekdays and the free days.
void read_week(SQLite::Statement& row, StatedTimes& times) {
    for (int i = 0; i < 7; ++i)
        if (!row.isColumnNull(i))
            times.week[static_cast<std::size_t>(i)] = Seconds(row.getColumn(i).getInt64());
    if (!row.isColumnNull(7))
        times.free_days = Days(row.getColumn(7).getInt());
}

/// After the row's number; what is not set stays null.
void bind_week(SQLite::Statement& insert, const StatedTimes& times) {
    for (int i = 0; i < 7; ++i)
        if (const auto& time = times.week[static_cast<std::size_t>(i)])
            insert.bind(i + 2, static_cast<std::int64_t>(time->count()));
    if (times.free_days)
        insert.bind(9, times.free_days->count());
}

template <typename State>
StatedTimes read_times(State& state, const TimesSql& sql, std::int64_t row) {
    StatedTimes times;
    const auto week = state.prepared(sql.read_week);
    week->bind(1, row);
    if (week->executeStep())
        read_week(*week, times);
    const auto dates = state.prepared(sql.read_dates);
    dates->bind(1, row);
    while (dates->executeStep())
        times.dates[day_of(dates->getColumn(0).getInt64())] = Seconds(dates->getColumn(1).getInt64());
    return times;
}

/// One row of the week stands for all that was set, so it is there if there are only dates.
template <typename State>
void write_times(State& state, const TimesSql& sql, std::int64_t row, const StatedTimes& times) {
    for (const char* clear : {sql.clear_week, sql.clear_dates}) {
        const auto statement = state.prepared(clear);
        statement->bind(1, row);
        statement->exec();
    }
    if (times.is_empty())
        return;
    const auto week = state.prepared(sql.write_week);
    week->bind(1, row);
    bind_week(*week, times);
    week->exec();
    for (const auto& [day, available] : times.dates) {
        const auto insert = state.prepared(sql.write_date);
        insert->bind(1, row);
        insert->bind(2, day_number(day));
        insert->bind(3, static_cast<std::int64_t>(available.count()));
        insert->exec();
    }
}

} // namespace

StatedTimes Store::State::own_times(std::int64_t candidate) {
    return read_times(*this, of_candidate, candidate);
}

std::vector<StatedTimes> Store::State::class_times_of(std::int64_t candidate) {
    std::vector<std::int64_t> classes;
    const auto query =
        prepared("SELECT class FROM member WHERE candidate = ? AND class IN (SELECT class FROM "
                 "class_week)");
    query->bind(1, candidate);
    while (query->executeStep())
        classes.push_back(query->getColumn(0).getInt64());
    std::vector<StatedTimes> times;
    for (const std::int64_t row : classes)
        times.push_back(read_times(*this, of_class, row));
    return times;
}

StatedTimes Store::class_times(const std::string& name) const {
    return state_->guarded("reading a class from",
                           [&] { return read_times(*state_, of_class, state_->class_row(name)); });
}

void Store::Change::set_times(const std::string& candidate, const StatedTimes& times) {
    State& state = this->state();
    state.changed("setting times in", [&] {
        check_times(times);
        write_times(state, of_candidate, state.candidate_row_made(candidate), times);
        if (times.is_empty())
            state.remove_candidates_without_records();
    });
}

void Store::Change::set_class_times(const std::string& name, const StatedTimes& times) {
    State& state = this->state();
    state.changed("setting a class's times in", [&] {
        check_times(times);
        write_times(state, of_class, state.class_row(name), times);
    });
}

} // namespace inkturn
