#pragma once

#include "inkturn/retry/candidate.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

/// A re-attempt as a line has it.
struct LineRetry {
    RetryId id;
    std::string paper; ///< id
    Day day;
    std::vector<Entry> entries; ///< PART=MARKS[:REASON]; none states a maximum
};

/// What a page for the phone gives to copy back, on one line of printable ASCII without blanks:
/// `inkturn;K07;12q7,pure-1,2026-12-09,7a=3,7b=2+1:slip;95;end`. Before the word `end` stand the check digits
/// of all that comes before them, see check_digits(). In the code and in ids whatever is no ASCII letter,
/// digit, `.` or `-` is written as `%` and two hexadecimal digits a byte.
struct ReturnedLine {
    std::string candidate;
    std::vector<LineRetry> retries;
};

constexpr std::string_view line_begins = "inkturn;";
constexpr std::string_view line_ends = ";end";

/// `inkturn;K07`: what a line of the candidate begins with.
std::string start_of_line(std::string_view candidate);
/// `;12q7,pure-1`: what comes before the day of a re-attempt.
std::string start_of_retry(const Retry& retry);

/// Whether a line is whole, and its check digits those of what it says.
bool is_unchanged(std::string_view line);

/// The whole line. Throws Error for marks that no line can hold.
std::string to_text(const ReturnedLine& line);

/// Throws an Error that says what became of the line: cut, changed, or made by no page of ours. Whether its
/// candidate and retries are on file is not looked at.
ReturnedLine parse_returned_line(std::string_view text);

} // namespace inkturn
