#include "exchange/workbook/ods_cell.hpp"

#include "exchange/workbook/number_format.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"

#include <algorithm>
#include <array>
#include <utility>

namespace inkturn {
namespace {

/// Where each type has its value (ODF 1.2 part 1, 19.385).
constexpr std::array<std::pair<std::string_view, std::string_view>, 7> value_attributes{{
    {"float", "office:value"},
    {"percentage", "office:value"},
    {"currency", "office:value"},
    {"date", "office:date-value"},
    {"time", "office:time-value"},
    {"boolean", "office:boolean-value"},
    {"string", "office:string-value"},
}};

/// What programs show for a formula that came to nothing; LibreOffice adds `Err:502` and the like.
constexpr std::array<std::string_view, 8> errors_shown{"#DIV/0!", "#N/A",  "#NAME?",  "#NULL!",
                                                       "#NUM!",   "#REF!", "#VALUE!", "Err:"};

constexpr int max_hours = 1'000'000;

/// The number in front of a letter, which it removes with it; 0 where the letter isn't there.
std::optional<int> take_number(std::string_view& text, char letter) {
    const std::size_t end = text.find(letter);
    if (end == std::string_view::npos)
        return 0;
    const auto number = read_whole_number(text.substr(0, std::min(end, text.find_first_of(".,"))), max_hours);
    text.remove_prefix(end + 1);
    return number;
}

/// `09:30` of `PT09H30M00S`.
std::optional<std::string> time_in(std::string_view duration) {
    if (duration.substr(0, 2) != "PT")
        return std::nullopt;
    duration.remove_prefix(2);
    const auto hours = take_number(duration, 'H');
    const auto minutes = take_number(duration, 'M');
    const auto seconds = take_number(duration, 'S');
    if (!hours || !minutes || !seconds || !duration.empty())
        return std::nullopt;
    return time_of_day(3600LL * *hours + 60LL * *minutes + *seconds);
}

/// The day, with the time of day if it has one that is shown.
std::string day_in(std::string_view value, std::string_view shown) {
    const std::size_t split = std::min(value.find('T'), value.size());
    const bool shows_time = shown.empty() || shown.find(':') != std::string_view::npos;
    std::string_view time = value.substr(split);
    time = time.substr(0, time.find_first_of(".,"));
    if (time.size() == 9 && time.substr(6) == ":00")
        time.remove_suffix(3);
    return std::string(value.substr(0, split)).append(shows_time && time != "T00:00" ? time : "");
}

} // namespace

void OdsCell::start(const XmlAttributes& attributes) {
    type_ = attributes.text("office:value-type");
    is_formula_ = attributes.find("table:formula").has_value();
    is_error_ = attributes.text("calcext:value-type") == "error";
    value_.clear();
    has_value_ = false;
    for (const auto& [type, name] : value_attributes)
        if (type == type_ && attributes.find(name)) {
            value_ = attributes.text(name);
            has_value_ = true;
        }
    sheet_.check_length(value_);
    shown_.clear();
    has_paragraph_ = false;
}

void OdsCell::start_paragraph() {
    if (has_paragraph_)
        shown_ += '\n';
    has_paragraph_ = true;
    swallows_blanks_ = true;
}

/// Runs of blanks are one, and none at the start of a paragraph (ODF 1.2 part 1, 6.1.2).
void OdsCell::add_text(std::string_view piece) {
    for (const char c : piece) {
        const bool is_blank = c == ' ' || c == '\t' || c == '\n' || c == '\r';
        if (!is_blank)
            shown_ += c;
        else if (!swallows_blanks_)
            shown_ += ' ';
        swallows_blanks_ = is_blank;
    }
    sheet_.check_length(shown_);
}

void OdsCell::add_blanks(std::size_t count) {
    constexpr std::size_t more_than_any = 1'000'000;
    shown_.append(std::min(count, more_than_any), ' ');
    swallows_blanks_ = false;
    sheet_.check_length(shown_);
}

void OdsCell::add_character(char c) {
    shown_ += c;
    swallows_blanks_ = c == '\n';
    sheet_.check_length(shown_);
}

bool OdsCell::shows_error() const {
    return is_error_ ||
           (is_formula_ && std::any_of(errors_shown.begin(), errors_shown.end(), [&](std::string_view error) {
                return shown_.compare(0, error.size(), error) == 0;
            }));
}

OdsCell::Content OdsCell::content() const {
    if (shows_error())
        return {SheetCellKind::error, shown_.empty() ? "an error" : shown_};
    if (is_formula_ && type_.empty() && shown_.empty())
        return {SheetCellKind::uncalculated, ""};
    if (!has_value_ || (type_ == "string" && has_paragraph_))
        return {SheetCellKind::value, shown_};
    return value_of_type();
}

OdsCell::Content OdsCell::value_of_type() const {
    if (type_ == "string")
        return {SheetCellKind::value, value_};
    if (type_ == "boolean")
        return {SheetCellKind::value, value_ == "true" ? "TRUE" : "FALSE"};
    if (type_ == "date")
        return {SheetCellKind::value, day_in(value_, shown_)};
    if (type_ != "time")
        return {SheetCellKind::value, number_text()};
    const auto time = time_in(value_);
    return time ? Content{SheetCellKind::value, *time} : Content{SheetCellKind::no_day, value_};
}

std::string OdsCell::number_text() const {
    const auto number = read_xml_number(value_);
    if (!number)
        throw Error("should be a number and is not");
    if (type_ == "percentage")
        return plain_text(*number * 100) + '%';
    return type_ == "currency" ? plain_text(*number) : shown_or_plain(*number, shown_);
}

} // namespace inkturn
