#pragma once

#include <date/date.h>

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace inkturn {

/// A day of the civil calendar. It has no time zone: a day is what the candidate's wall calendar says.
using Day = date::sys_days;
using Days = date::days;

/// The first and the last day accepted.
constexpr Day earliest_day{date::year{1900} / date::January / 1};
constexpr Day latest_day{date::year{2200} / date::December / 31};

/// Reads `2026-11-25`; nothing if the calendar has no such day or it lies outside the accepted days.
std::optional<Day> read_iso_day(std::string_view text) noexcept;

/// The same, and dates with the month's English name or its first letters, three or more: `25 Nov 2026`,
/// `Nov 25th, 2026`, `25-November-2026`; a weekday in front has to be the day's.
std::optional<Day> read_plain_day(std::string_view text);

/// In which order a date such as 10/11/2026 has day, month and year.
enum class DateOrder : std::uint8_t { day_month_year, month_day_year, year_month_day };

/// Reads `10/11/2026` in that order, with `/`, `.` or `-` between the numbers and four digits of the year;
/// nothing if the calendar has no such day or it lies outside the accepted days.
std::optional<Day> read_day_in_order(std::string_view text, DateOrder order) noexcept;

/// Whether the text is three numbers as read_day_in_order() takes them, in one order or another.
bool has_date_shape(std::string_view text) noexcept;

/// Which day of that name a weekday means: today, or else the last one, or the next.
enum class WeekdayMeans : std::uint8_t { last, next };

/// Reads `2026-11-25`, `today`, `yesterday`, `tomorrow`, `+14d`, `-1d`, or a weekday: its first three letters
/// or more, in any case. Throws an Error that says why the text isn't a day.
Day parse_day(std::string_view text, Day today, WeekdayMeans weekday = WeekdayMeans::next);

/// Throws Error unless it is an accepted day.
void check_day(Day day);

/// Why read_iso_day() didn't accept the text: one sentence, with the remedy.
std::string why_no_day(std::string_view text);

/// ISO 8601: `2026-11-25`.
std::string iso(Day day);

/// For people: `Wed 25 Nov 2026`.
std::string day_text(Day day);

/// The same without the weekday: `25 Nov 2026`.
std::string date_text(Day day);

/// 0 for Monday to 6 for Sunday.
unsigned weekday_index(Day day) noexcept;

} // namespace inkturn
