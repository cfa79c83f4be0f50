#include "inkturn/marks.hpp"

#include "inkturn/error.hpp"
#include "inkturn/label.hpp"
#include "inkturn/number.hpp"

#include <array>
#include <climits>
#include <tuple>

namespace inkturn {
namespace {

constexpr std::array<std::string_view, 5> reason_names{"method", "recall", "slip", "misread", "unfinished"};

Error bad_marks(std::string_view text, const std::string& why) {
    return Error("marks '" + std::string(text) + "': " + why);
}

/// One phase's marks. Too long a number is still a number: it is above any maximum.
Marks parse_phase(std::string_view digits, std::string_view whole, Marks max) {
    if (digits.empty() || digits.find_first_not_of("0123456789") != std::string_view::npos)
        throw bad_marks(whole,
                        "write - for not attempted, or whole numbers joined by + in the order of the inks, "
                        "such as 3, 2+1 or 2+1+3");
    const auto number = read_whole_number(digits, max.count());
    if (!number)
        throw bad_marks(whole, "above the maximum of " + std::to_string(max.count()));
    return Marks(*number);
}

void parse_phases(std::string_view text, std::string_view whole, Marks max, PartMarks& marks) {
    const std::array<Marks*, 3> phases{&marks.in_time, &marks.overtime, &marks.corrected};
    std::size_t start = 0;
    for (Marks* phase : phases) {
        const std::size_t plus = text.find('+', start);
        *phase = parse_phase(text.substr(start, plus - start), whole, max);
        if (plus == std::string_view::npos)
            return;
        start = plus + 1;
    }
    throw bad_marks(whole, "there are three inks at most");
}

Reason parse_reason(std::string_view text, std::string_view whole) {
    const auto reason = reason_named(text);
    if (!reason)
        throw bad_marks(whole, "'" + std::string(text) +
                                   "' is no reason; it is one of method, recall, slip, misread, unfinished");
    return *reason;
}

} // namespace

std::string_view name(Reason reason) noexcept {
    return reason_names[static_cast<std::size_t>(reason)];
}

std::optional<Reason> reason_named(std::string_view name) noexcept {
    for (std::size_t i = 0; i < reason_names.size(); ++i)
        if (reason_names[i] == name)
            return static_cast<Reason>(i);
    return std::nullopt;
}

bool operator==(const PartMarks& a, const PartMarks& b) {
    return a.attempted == b.attempted && a.in_time == b.in_time && a.overtime == b.overtime &&
           a.corrected == b.corrected && a.reason == b.reason;
}

PartMarks full_marks(Marks max) {
    return {true, max, Marks(0), Marks(0), std::nullopt};
}

PartMarks parse_part_marks(std::string_view text, Marks max) {
    const std::size_t colon = text.find(':');
    const std::string_view earned = text.substr(0, colon);
    PartMarks marks;
    if (earned == "-") {
        marks.attempted = false;
    } else if (earned.substr(0, 2) == "-+") {
        throw bad_marks(
            text, "a part not attempted has no other marks; if it was corrected later write it as 0+0+2");
    } else {
        marks.attempted = true;
        parse_phases(earned, text, max, marks);
    }
    const Marks sum = marks.own() + marks.corrected;
    if (sum > max)
        throw bad_marks(text, "the inks add up to " + std::to_string(sum.count()) +
                                  ", above the maximum of " + std::to_string(max.count()));
    if (colon != std::string_view::npos) {
        marks.reason = parse_reason(text.substr(colon + 1), text);
        if (marks.in_time == max)
            throw bad_marks(text, "every mark was earned in time: leave the reason out");
    }
    return marks;
}

void append_text(std::string& out, const PartMarks& marks) {
    if (!marks.attempted) {
        out += '-';
    } else {
        out += std::to_string(marks.in_time.count());
        if (marks.overtime != Marks(0) || marks.corrected != Marks(0))
            out += '+' + std::to_string(marks.overtime.count());
        if (marks.corrected != Marks(0))
            out += '+' + std::to_string(marks.corrected.count());
    }
    if (marks.reason)
        out.append(1, ':').append(name(*marks.reason));
}

std::string to_text(const PartMarks& marks) {
    std::string text;
    append_text(text, marks);
    return text;
}

Entry parse_entry(std::string_view text) {
    const std::size_t equals = text.find('=');
    if (equals == std::string_view::npos)
        throw Error("'" + std::string(text) + "': write PART=MARKS, such as 7b=3 or 7b=2+1:slip");
    Entry entry;
    entry.part = parse_label(text.substr(0, equals));
    const std::string_view rest = text.substr(equals + 1);
    const std::size_t colon = rest.find(':');
    const std::size_t slash = rest.substr(0, colon).find('/');
    if (slash == std::string_view::npos) {
        entry.marks = rest;
        return entry;
    }
    const std::string_view max =
        rest.substr(slash + 1, colon == std::string_view::npos ? colon : colon - slash - 1);
    entry.max =
        Marks(parse_whole_number(max, 1, most_marks_of_a_part.count(), "part " + entry.part + ", maximum"));
    entry.marks = rest.substr(0, slash);
    if (colon != std::string_view::npos)
        entry.marks += rest.substr(colon);
    return entry;
}

} // namespace inkturn
