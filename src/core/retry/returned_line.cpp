#include "inkturn/retry/returned_line.hpp"

#include "inkturn/base/ascii.hpp"
#include "inkturn/base/check_digits.hpp"
#include "inkturn/base/error.hpp"

#include <optional>

namespace inkturn {
namespace {

constexpr std::string_view hex_digits = "0123456789ABCDEF";
constexpr const char* copy_again = ": copy it again, from inkturn; to ;end";

[[noreturn]] void refuse_line(const std::string& why) {
    throw Error("the line " + why);
}

/// RFC 3986, 2.1, with fewer characters left as they are: `_` and `~` may be taken for a message's layout.
std::string percent_encoded(std::string_view text) {
    std::string encoded;
    for (const char c : text) {
        const auto byte = static_cast<unsigned char>(c);
        if (is_ascii(c) && (is_letter_or_digit(c) || c == '.' || c == '-'))
            encoded += c;
        else
            encoded.append({'%', hex_digits[byte >> 4U], hex_digits[byte & 15U]});
    }
    return encoded;
}

std::string percent_decoded(std::string_view text) {
    std::string decoded;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text[i] != '%') {
            decoded += text[i];
            continue;
        }
        const auto high = hex_digits.find(i + 1 < text.size() ? text[i + 1] : ' ');
        const auto low = hex_digits.find(i + 2 < text.size() ? text[i + 2] : ' ');
        if (high == std::string_view::npos || low == std::string_view::npos)
            refuse_line("has a code or an id that can't be read, '" + std::string(text) + "'" + copy_again);
        decoded += static_cast<char>(high * 16 + low);
        i += 2;
    }
    return decoded;
}

/// The text up to the next separator, which is taken off with it.
std::string_view take_field(std::string_view& text, char separator) {
    const std::size_t end = text.find(separator);
    const std::string_view field = text.substr(0, end);
    text = end == std::string_view::npos ? std::string_view() : text.substr(end + 1);
    return field;
}

std::string retry_text(const LineRetry& retry) {
    std::string text = to_text(retry.id) + "," + percent_encoded(retry.paper) + "," + iso(retry.day);
    for (const Entry& entry : retry.entries)
        text += "," + entry.part + "=" + entry.marks;
    return text;
}

LineRetry parse_line_retry(std::string_view text) {
    LineRetry retry;
    retry.id = parse_retry_id(take_field(text, ','));
    const std::string id = to_text(retry.id);
    retry.paper = percent_decoded(take_field(text, ','));
    const std::string_view day = take_field(text, ',');
    if (const auto read = read_iso_day(day))
        retry.day = *read;
    else
        throw Error("retry " + id + ": " + why_no_day(day));
    if (retry.paper.empty() || text.empty())
        refuse_line("names no " + std::string(retry.paper.empty() ? "paper" : "marks") + " for retry " + id +
                    copy_again);
    while (!text.empty())
        retry.entries.push_back(parse_entry(take_field(text, ',')));
    return retry;
}

/// What stands between the ends of a line that was neither cut nor changed, without its check digits.
std::string_view checked_content(std::string_view text) {
    const bool begins = text.substr(0, line_begins.size()) == line_begins;
    const bool ends =
        text.size() > line_ends.size() && text.substr(text.size() - line_ends.size()) == line_ends;
    if (!begins || !ends)
        refuse_line(std::string("is cut short at its ") + (begins ? "end" : "start") + copy_again);
    if (text.find(line_begins, 1) != std::string_view::npos)
        refuse_line(std::string("has another one within it") + copy_again);
    const std::string_view body = text.substr(0, text.size() - line_ends.size());
    const std::size_t last = body.rfind(';');
    const std::string_view stated = body.substr(last + 1);
    const std::string_view content = body.substr(0, last);
    std::string found;
    try {
        found = check_digits(content);
    } catch (const Error&) {
        refuse_line(std::string("holds a sign that no page puts there") + copy_again);
    }
    if (stated != found)
        refuse_line("was changed since the page made it: its check digits are '" + std::string(stated) +
                    "', and what it says has " + found + copy_again);
    return content.size() < line_begins.size() ? std::string_view() : content.substr(line_begins.size());
}

} // namespace

std::string start_of_line(std::string_view candidate) {
    return std::string(line_begins) + percent_encoded(candidate);
}

std::string start_of_retry(const Retry& retry) {
    return ";" + to_text(retry.id) + "," + percent_encoded(retry.paper->id());
}

bool is_unchanged(std::string_view line) {
    try {
        checked_content(line);
        return true;
    } catch (const Error&) {
        return false;
    }
}

std::string to_text(const ReturnedLine& line) {
    std::string text = start_of_line(line.candidate);
    for (const LineRetry& retry : line.retries)
        text += ";" + retry_text(retry);
    return text + ";" + check_digits(text) + std::string(line_ends);
}

ReturnedLine parse_returned_line(std::string_view text) {
    std::string_view content = checked_content(text);
    ReturnedLine line;
    line.candidate = percent_decoded(take_field(content, ';'));
    check_candidate_code(line.candidate);
    if (content.empty())
        refuse_line("names no retry: write marks on the page first");
    while (!content.empty())
        line.retries.push_back(parse_line_retry(take_field(content, ';')));
    return line;
}

} // namespace inkturn
