#include "exchange/workbook/number_format.hpp"

#include "inkturn/base/ascii.hpp"
#include "inkturn/base/day.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <utility>

namespace inkturn {
namespace {

constexpr double above_all_days = 2'958'466; ///< 10000-01-01, by 1900
constexpr double above_whole_numbers = 1e15; ///< of which all digits are kept
constexpr long long day_seconds = 86'400;

std::string in_digits(double number, std::chars_format format, int precision) {
    std::array<char, 64> digits{};
    const auto written =
        std::to_chars(digits.data(), digits.data() + digits.size(), number, format, precision);
    return {digits.data(), written.ptr};
}

bool is_whole(double number) {
    return number >= 0 && number < above_whole_numbers && std::floor(number) == number;
}

/// `K07`, `007` or `7`, where what is shown ends in the number's digits, but for words that follow them.
std::optional<std::string> code_in(double number, std::string_view shown) {
    const std::size_t end = shown.find_last_of("0123456789") + 1; // 0 if there are none
    const std::string digits = in_digits(number, std::chars_format::fixed, 0);
    if (end < digits.size() || shown.substr(end - digits.size(), digits.size()) != digits)
        return std::nullopt;
    std::string_view before = shown.substr(0, end - digits.size());
    if (before.find_first_of(".,") != std::string_view::npos)
        return std::nullopt;
    before.remove_prefix(std::min(before.find_first_not_of(' '), before.size()));
    const bool is_code =
        std::any_of(before.begin(), before.end(), [](char c) { return is_letter(c) || is_digit(c); });
    const bool goes_on = end < shown.size() && is_letter(shown[end]);
    return (is_code ? std::string(before) : "") + digits + std::string(goes_on ? shown.substr(end) : "");
}

/// A number with decimals whose digits are all shown, with a point for a comma.
std::optional<std::string> decimals_in(double number, std::string_view shown) {
    std::string digits(shown);
    std::replace(digits.begin(), digits.end(), ',', '.');
    const bool plain =
        std::all_of(digits.begin(), digits.end(), [](char c) { return is_digit(c) || c == '.'; });
    return plain && read_xml_number(digits) == number ? std::optional(digits) : std::nullopt;
}

/// The day of a serial number; the one that 1900 never had is left to be refused as any such date.
std::string day_of(long long serial, bool from_1904) {
    if (from_1904)
        return iso(date::sys_days{date::year{1904} / 1 / 1} + Days(serial));
    if (serial == 60)
        return "1900-02-29";
    return iso(date::sys_days{date::year{1899} / 12 / 30} + Days(serial < 60 ? serial + 1 : serial));
}

} // namespace

std::string plain_text(double number) {
    return in_digits(number, std::chars_format::general, 15);
}

std::string shown_or_plain(double number, std::string_view shown) {
    if (std::abs(number) >= above_whole_numbers)
        return plain_text(number);
    const auto text = is_whole(number) ? code_in(number, shown) : decimals_in(number, shown);
    return text.value_or(plain_text(number));
}

std::optional<double> read_xml_number(std::string_view text) noexcept {
    if (!text.empty() && text.front() == '+')
        text.remove_prefix(1);
    double number = 0;
    const auto read = std::from_chars(text.data(), text.data() + text.size(), number);
    if (read.ec != std::errc() || read.ptr != text.data() + text.size() || !std::isfinite(number))
        return std::nullopt;
    return number;
}

std::string time_of_day(long long seconds) {
    const auto two = [](long long number) { return (number < 10 ? "0" : "") + std::to_string(number); };
    std::string text = two(seconds / 3600) + ':' + two(seconds / 60 % 60);
    return seconds % 60 == 0 ? text : text + ':' + two(seconds % 60);
}

/// Reads a format's code: of its sections the first, which is for numbers that are not negative.
class NumberFormatReader {
  public:
    NumberFormatReader(std::string_view code, NumberFormat& format) : code_(code), format_(format) {}

    void read() {
        while (at_ < code_.size() && code_[at_] != ';')
            read_token();
        format_.shows_ = shows();
    }

  private:
    using Shows = NumberFormat::Shows;

    char next() { return at_ < code_.size() ? code_[at_++] : '\0'; }

    bool take(std::string_view word) {
        const std::string_view here = code_.substr(at_, word.size());
        const bool is = std::equal(here.begin(), here.end(), word.begin(), word.end(),
                                   [](char a, char b) { return lower(a) == lower(b); });
        at_ += is ? word.size() : 0;
        return is;
    }

    void read_token() {
        if (take("general")) {
            format_.min_digits_ = 1;
            met_digits_ = true;
        } else if (take("am/pm") || take("a/p")) {
            has_time_ = true;
        } else if (take("e+") || take("e-")) {
            is_simple_ = false;
        } else {
            read_character(next());
        }
    }

    void read_character(char c) {
        switch (lower(c)) {
        case '"':
            literal(code_.substr(at_, code_.find('"', at_) - at_));
            at_ = std::min(code_.find('"', at_), code_.size() - 1) + 1;
            break;
        case '\\':
            literal(code_.substr(at_, 1));
            next();
            break;
        case '_':
            next();
            literal(" ");
            break;
        case '*':
            next();
            break;
        case '[':
            read_brackets();
            break;
        case '0':
        case '#':
        case '?':
            read_digit(c);
            break;
        case '%':
            has_percent_ = true;
            break;
        case '.':
            met_point_ = true;
            break;
        default:
            read_letter(lower(c), c);
        }
    }

    void read_letter(char c, char as_written) {
        if (c == 'y' || c == 'd')
            has_day_ = true;
        else if (c == 'h' || c == 's')
            has_time_ = true;
        else if (c == 'm')
            has_m_ = true;
        else if (c == ',' || c == '/' || c == '@')
            is_simple_ = false;
        else
            literal({&as_written, 1});
    }

    /// Elapsed time, a colour, a currency, a language or a condition.
    void read_brackets() {
        const std::size_t end = std::min(code_.find(']', at_), code_.size());
        const std::string_view inside = code_.substr(at_, end - at_);
        at_ = std::min(end + 1, code_.size());
        const char first = inside.empty() ? '\0' : lower(inside.front());
        const bool all_the_same =
            std::all_of(inside.begin(), inside.end(), [&](char c) { return lower(c) == first; });
        if (all_the_same && (first == 'h' || first == 'm' || first == 's'))
            has_time_ = true;
        else if (first == '<' || first == '>' || first == '=')
            is_simple_ = false;
    }

    void read_digit(char c) {
        if (!met_point_) {
            format_.min_digits_ += c == '0';
            is_simple_ = is_simple_ && format_.after_.empty();
        } else {
            ++format_.decimals_;
            is_simple_ = is_simple_ && c == '0';
        }
        met_digits_ = true;
    }

    void literal(std::string_view text) { (met_digits_ ? format_.after_ : format_.before_).append(text); }

    Shows shows() const {
        const bool day = has_day_ || (has_m_ && !has_time_);
        if (day)
            return has_time_ ? Shows::day_and_time : Shows::day;
        if (has_time_)
            return Shows::time;
        if (has_percent_)
            return Shows::percentage;
        return is_simple_ && met_digits_ && format_.min_digits_ + format_.decimals_ <= max_digits
                   ? Shows::code
                   : Shows::plain;
    }

    static constexpr std::size_t max_digits = 40;

    std::string_view code_;
    NumberFormat& format_;
    std::size_t at_ = 0;
    bool met_digits_ = false;
    bool met_point_ = false;
    bool is_simple_ = true; ///< no grouping, fraction, exponent, condition or text
    bool has_percent_ = false;
    bool has_day_ = false;
    bool has_time_ = false;
    bool has_m_ = false; ///< months, or beside a time minutes
};

NumberFormat::NumberFormat(std::string_view code) {
    NumberFormatReader(code, *this).read();
}

NumberFormat NumberFormat::built_in(unsigned id) {
    NumberFormat format;
    const auto between = [&](unsigned first, unsigned last) { return id >= first && id <= last; };
    if (id == 2)
        format = NumberFormat("0.00");
    else if (id == 9 || id == 10)
        format.shows_ = Shows::percentage;
    else if (id == 22)
        format.shows_ = Shows::day_and_time;
    else if (between(18, 21) || between(32, 35) || between(45, 47))
        format.shows_ = Shows::time;
    else if (between(14, 17) || between(27, 31) || id == 36 || between(50, 58))
        format.shows_ = Shows::day;
    return format;
}

std::optional<std::string> NumberFormat::text(double number, bool from_1904) const {
    number += 0.0; // -0 is 0
    if (shows_ == Shows::plain)
        return plain_text(number);
    if (shows_ == Shows::percentage)
        return plain_text(number * 100) + '%';
    if (shows_ == Shows::code) {
        const std::string digits = in_digits(number, std::chars_format::fixed, static_cast<int>(decimals_));
        const std::size_t whole = std::min(digits.find('.'), digits.size());
        const std::size_t zeros = std::max(min_digits_, whole) - whole;
        const bool is_code = is_whole(number) && decimals_ == 0;
        return is_code ? shown_or_plain(number, before_ + std::string(zeros, '0') + digits + after_)
                       : shown_or_plain(number, digits);
    }
    if (number < 0 || number >= above_all_days)
        return std::nullopt;
    const long long seconds = std::llround(number * static_cast<double>(day_seconds));
    if (shows_ == Shows::time)
        return time_of_day(seconds);
    const long long serial = shows_ == Shows::day ? static_cast<long long>(number) : seconds / day_seconds;
    if (serial == 0 && !from_1904)
        return std::nullopt;
    const std::string day = day_of(serial, from_1904);
    const bool at_midnight = shows_ == Shows::day || seconds % day_seconds == 0;
    return at_midnight ? day : day + 'T' + time_of_day(seconds % day_seconds);
}

} // namespace inkturn
