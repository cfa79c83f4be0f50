#include "inkturn/base/day.hpp"

#include "inkturn/base/ascii.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"

#include <algorithm>
#include <array>
#include <utility>
#include <vector>

namespace inkturn {
namespace {

constexpr int max_days_away = 36525;
constexpr std::array<std::string_view, 7> weekday_names{"monday", "tuesday",  "wednesday", "thursday",
                                                        "friday", "saturday", "sunday"};
constexpr std::array<std::string_view, 12> month_names{"january",   "february", "march",    "april",
                                                       "may",       "june",     "july",     "august",
                                                       "september", "october",  "november", "december"};
constexpr std::size_t min_of_name = 3; ///< letters

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

/// `+14d`, `-1d`.
std::optional<Days> read_days_away(std::string_view text) {
    if (text.size() < 3 || text.back() != 'd' || (text.front() != '+' && text.front() != '-'))
        return std::nullopt;
    const auto away = read_whole_number(text.substr(1, text.size() - 2), max_days_away);
    if (!away)
        return std::nullopt;
    return Days{text.front() == '-' ? -*away : *away};
}

/// The position of the first name that begins so.
template <typename Names>
std::optional<int> position_of(const Names& names, std::string_view text) {
    const std::string typed = lower_case(text);
    if (typed.size() < min_of_name)
        return std::nullopt;
    for (std::size_t i = 0; i < names.size(); ++i)
        if (names[i].substr(0, typed.size()) == typed)
            return static_cast<int>(i);
    return std::nullopt;
}

/// 0 for Monday to 6 for Sunday.
std::optional<int> read_weekday(std::string_view text) {
    return position_of(weekday_names, text);
}

/// Parted by blanks, commas, points, hyphens and slashes.
std::vector<std::string_view> words_of_date(std::string_view text) {
    std::vector<std::string_view> words;
    for (std::size_t at = 0; (at = text.find_first_not_of(" ,.-/", at)) != std::string_view::npos;) {
        const std::size_t end = std::min(text.find_first_of(" ,.-/", at), text.size());
        words.push_back(text.substr(at, end - at));
        at = end;
    }
    return words;
}

/// `25`, `25th`.
std::optional<int> read_day_of_month(std::string_view word) {
    for (const std::string_view ending : {"st", "nd", "rd", "th"})
        if (word.size() > 2 && lower_case(word.substr(word.size() - 2)) == ending)
            return read_whole_number(word.substr(0, word.size() - 2), 31);
    return read_whole_number(word, 31);
}

std::optional<int> read_year(std::string_view word) {
    return word.size() == 4 ? read_whole_number(word, 9999) : std::nullopt;
}

std::optional<Day> day_of(const std::optional<int>& year, const std::optional<int>& month,
                          const std::optional<int>& of_month) {
    if (!year || !month || !of_month)
        return std::nullopt;
    const date::year_month_day fields = date::year{*year} / (*month + 1) / *of_month;
    if (!fields.ok() || Day{fields} < earliest_day || Day{fields} > latest_day)
        return std::nullopt;
    return Day{fields};
}

std::optional<Day> read_day_with_month(std::string_view text) {
    std::vector<std::string_view> words = words_of_date(text);
    const auto weekday = words.empty() ? std::nullopt : read_weekday(words.front());
    if (weekday)
        words.erase(words.begin());
    if (words.size() != 3)
        return std::nullopt;
    if (position_of(month_names, words[0]))
        std::swap(words[0], words[1]);
    if (read_year(words[0]))
        std::swap(words[0], words[2]);
    const auto day =
        day_of(read_year(words[2]), position_of(month_names, words[1]), read_day_of_month(words[0]));
    return day && weekday && static_cast<int>(weekday_index(*day)) != *weekday ? std::nullopt : day;
}

Days to_weekday(Day today, int weekday, WeekdayMeans means) {
    const int ahead = (weekday - static_cast<int>(weekday_index(today)) + 7) % 7;
    return Days{means == WeekdayMeans::next || ahead == 0 ? ahead : ahead - 7};
}

/// The three numbers of a date such as 10/11/2026.
std::optional<std::array<int, 3>> numbers_of_date(std::string_view text) noexcept {
    std::array<int, 3> numbers{};
    char between = '\0';
    for (std::size_t i = 0; i < numbers.size(); ++i) {
        std::size_t digits = 0;
        while (digits < text.size() && is_digit(text[digits]))
            ++digits;
        const auto number = read_whole_number(text.substr(0, digits), 9999);
        if (!number)
            return std::nullopt;
        numbers[i] = *number;
        text.remove_prefix(digits);
        if (i + 1 == numbers.size())
            break;
        if (text.empty() || (text.front() != '/' && text.front() != '.' && text.front() != '-') ||
            (i > 0 && text.front() != between))
            return std::nullopt;
        between = text.front();
        text.remove_prefix(1);
    }
    return text.empty() ? std::optional(numbers) : std::nullopt;
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

std::optional<Day> read_plain_day(std::string_view text) {
    const auto day = read_iso_day(text);
    return day ? day : read_day_with_month(text);
}

std::string why_no_day(std::string_view text) {
    const std::string quoted = "'" + std::string(text) + "'";
    if (!has_iso_shape(text))
        return quoted + " is not a date: write it as year-month-day, such as 2026-11-25";
    if (!fields_of(text).ok())
        return quoted + " is not in the calendar";
    return quoted + " is outside " + iso(earliest_day) + " to " + iso(latest_day);
}

void check_day(Day day) {
    if (day < earliest_day || day > latest_day)
        throw Error("the day is outside " + iso(earliest_day) + " to " + iso(latest_day));
}

std::optional<Day> read_day_in_order(std::string_view text, DateOrder order) noexcept {
    const auto numbers = numbers_of_date(text);
    if (!numbers)
        return std::nullopt;
    const auto [first, second, third] = *numbers;
    const bool year_first = order == DateOrder::year_month_day;
    if (year_first != (first > 31) || (year_first ? third : first) > 31 ||
        (year_first ? first : third) < 1000)
        return std::nullopt;
    const int year = year_first ? first : third;
    const int month = order == DateOrder::month_day_year ? first : second;
    const int of_month = year_first ? third : order == DateOrder::month_day_year ? second : first;
    const date::year_month_day fields{date::year{year}, date::month{static_cast<unsigned>(month)},
                                      date::day{static_cast<unsigned>(of_month)}};
    if (!fields.ok() || Day{fields} < earliest_day || Day{fields} > latest_day)
        return std::nullopt;
    return Day{fields};
}

bool has_date_shape(std::string_view text) noexcept {
    return numbers_of_date(text).has_value();
}

Day parse_day(std::string_view text, Day today, WeekdayMeans weekday) {
    const std::string typed = lower_case(text);
    if (typed == "today")
        return today;
    if (typed == "tomorrow")
        return checked(today + Days{1}, text);
    if (typed == "yesterday")
        return checked(today - Days{1}, text);
    if (const auto away = read_days_away(text))
        return checked(today + *away, text);
    if (const auto named = read_weekday(text))
        return checked(today + to_weekday(today, *named, weekday), text);
    const auto day = read_iso_day(text);
    if (!day)
        throw Error(why_no_day(text) +
                    (has_iso_shape(text) ? "" : ", or as today, yesterday, tomorrow, +14d, -1d or sat"));
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

std::string date_text(Day day) {
    const std::string text = day_text(day);
    return text.substr(text.find(' ') + 1);
}

unsigned weekday_index(Day day) noexcept {
    return date::weekday{day}.iso_encoding() - 1;
}

} // namespace inkturn
