#include "inkturn/base/day.hpp"

#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"

#include <array>

namespace inkturn {
namespace {

constexpr int furthest_days_ahead = 36525;

bool has_iso_shape(std::string_view text) noexcept {
    if (text.size() != 10)
        return false;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const bool dash = i == 4 || i == 7;
        if (dash ? text[i] != '-' : text[i] < '0' || text[i] > '9')
            return false;
    }
    return true;
}

date::year_month_day fields_of(std::string_view text) noexcept {
    const auto digit = [&](std::size_t i) { return text[i] - '0'; };
    return date::year{digit(0) * 1000 + digit(1) * 100 + digit(2) * 10 + digit(3)} /
           (digit(5) * 10 + digit(6)) / (digit(8) * 10 + digit(9));
}

std::string padded(unsigned number, std::size_t width) {
    std::string digits = std::to_string(number);
    return digits.size() < width ? std::string(width - digits.size(), '0') + digits : digits;
}

Day checked(Day day, std::string_view text) {
    if (day < earliest_day || day > latest_day)
        throw Error("'" + std::string(text) + "' is outside " + iso(earliest_day) + " to " + iso(latest_day));
    return day;
}

} // namespace

std::optional<Day> read_iso_day(std::string_view text) noexcept {
    if (!has_iso_shape(text))
        return std::nullopt;
    const auto fields = fields_of(text);
    if (!fields.ok())
        return std::nullopt;
    const Day day{fields};
    if (day < earliest_day || day > latest_day)
        return std::nullopt;
    return day;
}

std::string why_no_day(std::string_view text) {
    const std::string quoted = "'" + std::string(text) + "'";
    if (!has_iso_shape(text))
        return quoted + " is no date: write it as year-month-day, such as 2026-11-25";
    if (!fields_of(text).ok())
        return quoted + " is no day of the calendar";
    return quoted + " is outside " + iso(earliest_day) + " to " + iso(latest_day);
}

void check_day(Day day) {
    if (day < earliest_day || day > latest_day)
        throw Error("the day lies outside " + iso(earliest_day) + " to " + iso(latest_day));
}

Day parse_day(std::string_view text, Day today) {
    if (text == "today")
        return today;
    if (text == "tomorrow")
        return checked(today + Days{1}, text);
    if (text.size() > 2 && text.front() == '+' && text.back() == 'd') {
        const auto ahead = read_whole_number(text.substr(1, text.size() - 2), furthest_days_ahead);
        if (ahead)
            return checked(today + Days{*ahead}, text);
    }
    const auto day = read_iso_day(text);
    if (!day)
        throw Error(why_no_day(text) + (has_iso_shape(text) ? "" : ", or as today, tomorrow or +14d"));
    return *day;
}

std::string iso(Day day) {
    const date::year_month_day fields{day};
    return padded(static_cast<unsigned>(int(fields.year())), 4) + "-" + padded(unsigned(fields.month()), 2) +
           "-" + padded(unsigned(fields.day()), 2);
}

std::string day_text(Day day) {
    constexpr std::array<const char*, 7> weekdays{"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"};
    constexpr std::array<const char*, 12> months{"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                                 "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
    const date::year_month_day fields{day};
    return std::string(weekdays[weekday_index(day)]) + " " + std::to_string(unsigned(fields.day())) + " " +
           months[unsigned(fields.month()) - 1] + " " + std::to_string(int(fields.year()));
}

unsigned weekday_index(Day day) noexcept {
    return date::weekday{day}.iso_encoding() - 1;
}

} // namespace inkturn
