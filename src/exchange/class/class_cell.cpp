#include "exchange/class/class_cell.hpp"

#include "inkturn/base/ascii.hpp"
#include "inkturn/base/number.hpp"
#include "inkturn/base/text.hpp"
#include "inkturn/paper/marks.hpp"

#include <algorithm>
#include <array>
#include <tuple>

namespace inkturn {
namespace {

/// The dashes that word processors make of a hyphen, and the minus sign.
std::size_t dash_length(std::string_view text) {
    for (const std::string_view dash :
         {"\xE2\x80\x90", "\xE2\x80\x91", "\xE2\x80\x92", "\xE2\x80\x93", "\xE2\x80\x94", "\xE2\x88\x92"})
        if (text.substr(0, dash.size()) == dash)
            return dash.size();
    return 0;
}

/// Where the digits and the point of a number such as 4.0 or 2,5 at the start end; 0 where there is none.
std::size_t decimal_length(std::string_view text) {
    std::size_t point = 0;
    while (point < text.size() && is_digit(text[point]))
        ++point;
    if (point == 0 || point == text.size() || (text[point] != '.' && text[point] != ','))
        return 0;
    std::size_t end = point + 1;
    while (end < text.size() && is_digit(text[end]))
        ++end;
    return end == point + 1 ? 0 : end;
}

bool is_whole(std::string_view decimal) {
    const std::size_t point = decimal.find_first_of(".,");
    return decimal.find_first_not_of('0', point + 1) == std::string_view::npos;
}

} // namespace

std::string plain_cell(std::string_view written) {
    std::string plain;
    for (std::size_t i = 0; i < written.size();) {
        const std::string_view rest = written.substr(i);
        const bool in_number = !plain.empty() && is_digit(plain.back());
        if (const std::size_t blank = blank_length(rest)) {
            i += blank;
        } else if (const std::size_t dash = dash_length(rest)) {
            plain += '-';
            i += dash;
        } else if (const std::size_t decimal = in_number ? 0 : decimal_length(rest)) {
            plain += rest.substr(0, is_whole(rest.substr(0, decimal)) ? rest.find_first_of(".,") : decimal);
            i += decimal;
        } else {
            plain += lower(written[i++]);
        }
    }
    return plain;
}

bool is_absence_word(std::string_view plain) {
    constexpr std::array<std::string_view, 8> words{"abs", "absent", "a",    "n/a",
                                                    "na",  "ab",     "abs.", "absence"};
    return std::find(words.begin(), words.end(), plain) != words.end();
}

std::optional<int> stated_maximum(std::string_view plain) {
    if (plain.size() > 1 && plain.front() == '/')
        return read_whole_number(plain.substr(1), max_part_marks.count());
    const bool is_bracketed = plain.size() > 2 && plain.front() == '[' && plain.back() == ']';
    return is_bracketed ? read_whole_number(plain.substr(1, plain.size() - 2), max_part_marks.count())
                        : std::nullopt;
}

namespace {

bool has_whole(std::string_view text, std::string_view word) {
    const auto is_end = [&](std::size_t at) { return at >= text.size() || !is_letter(text[at]); };
    for (std::size_t at = text.find(word); at != std::string_view::npos; at = text.find(word, at + 1))
        if ((at == 0 || is_end(at - 1)) && is_end(at + word.size()))
            return true;
    return false;
}

template <typename Known>
bool has_any_of(const Known& known, std::string_view remark) {
    const std::string words = lower_case(std::string(remark));
    return std::any_of(known.begin(), known.end(),
                       [&](std::string_view word) { return has_whole(words, word); });
}

} // namespace

bool says_absent(std::string_view remark) {
    constexpr std::array<std::string_view, 3> known{"absent", "absence", "abs"};
    return has_any_of(known, remark);
}

bool may_say_absent(std::string_view remark) {
    constexpr std::array<std::string_view, 14> known{
        "ill",         "illness",    "sick",    "sickness", "unwell", "medical", "hospital",
        "did not sit", "didn't sit", "not sat", "trip",     "away",   "no show", "not present"};
    return says_absent(remark) || has_any_of(known, remark);
}

bool is_fraction(std::string_view plain) {
    constexpr std::array<std::string_view, 3> vulgar{"\xC2\xBD", "\xC2\xBC", "\xC2\xBE"}; // 1/2, 1/4, 3/4
    for (const std::string_view sign : vulgar)
        if (contains(plain, sign))
            return true;
    return !plain.empty() && decimal_length(plain) == plain.size() && !is_whole(plain);
}

void CellFaults::report(const std::vector<std::string>& names, ProblemList& problems) const {
    for (const auto& [key, fault] : faults_) {
        if (fault.count <= max_listed) {
            for (const Problem& problem : fault.first)
                problems.add(problem);
            continue;
        }
        Problem problem = fault.first.front();
        problem.message = std::to_string(fault.count) + " cells under " + names[key.first] + " " +
                          fault.many + "; first here";
        problems.add(std::move(problem));
    }
    if (faults_.empty())
        return;
    std::stable_sort(problems.items.begin(), problems.items.end(), [](const Problem& a, const Problem& b) {
        return std::tie(a.line, a.column) < std::tie(b.line, b.column);
    });
}

} // namespace inkturn
