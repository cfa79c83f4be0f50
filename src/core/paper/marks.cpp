#include "inkturn/paper/marks.hpp"

#include "inkturn/base/ascii.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"
#include "inkturn/paper/label.hpp"

#include <array>
#include <bitset>
#include <charconv>
#include <climits>
#include <tuple>
#include <vector>

namespace inkturn {
namespace {

// A store's marks are read by the million.
static_assert(sizeof(PartMarks) <= 20);

Error bad_marks(std::string_view text, const std::string& why) {
    return Error("marks '" + std::string(text) + "': " + why);
}

Error every_mark_in_time() {
    return Error("every mark was earned in time: leave the reason out");
}

void check_earned(std::uint32_t by_code, const PartMarks& marks, Marks max) {
    if (max > max_marks_by_code)
        throw Error("which marks were earned can be said only of parts of at most " +
                    std::to_string(max_marks_by_code.count()) + " marks");
    if (!marks.attempted())
        throw Error("a part not attempted can't have earned marks");
    const std::bitset<32> earned(by_code);
    if (earned.count() != static_cast<std::size_t>(marks.unaided().count()))
        throw Error("the codes earn " + std::to_string(earned.count()) +
                    " marks, the inks before the corrections " + std::to_string(marks.unaided().count()));
    if ((earned >> static_cast<std::size_t>(max.count())).any())
        throw Error("the codes earn a mark above the maximum of " + std::to_string(max.count()));
}

/// One phase's marks. A number that is too long is still a number, above any maximum.
Marks parse_phase(std::string_view digits, std::string_view whole, Marks max) {
    if (digits.empty() || digits.find_first_not_of("0123456789") != std::string_view::npos)
        throw bad_marks(whole, "write - for not attempted, not-set for what was not set, or whole numbers "
                               "joined by + in the order of the inks, "
                               "such as 3, 2+1 or 2+1+3");
    const auto number = read_whole_number(digits, max.count());
    if (!number)
        throw bad_marks(whole, "above the maximum of " + std::to_string(max.count()));
    return Marks(*number);
}

/// Reads the numbers; a refusal shows all that was typed.
MarksByPhase parse_phases(std::string_view numbers, std::string_view whole, Marks max) {
    MarksByPhase earned;
    const std::array<Marks*, 3> phases{&earned.in_time, &earned.overtime, &earned.corrected};
    std::size_t start = 0;
    for (Marks* phase : phases) {
        const std::size_t plus = numbers.find('+', start);
        *phase = parse_phase(numbers.substr(start, plus - start), whole, max);
        if (plus == std::string_view::npos)
            return earned;
        start = plus + 1;
    }
    throw bad_marks(whole, "there are at most three inks");
}

std::uint32_t parse_earned(std::string_view digits, std::string_view whole, const PartMarks& marks,
                           Marks max) {
    if (max > max_marks_by_code)
        throw bad_marks(whole, "which marks were earned can be said only of parts of at most " +
                                   std::to_string(max_marks_by_code.count()) + " marks");
    if (digits.empty() || digits.size() > static_cast<std::size_t>(max.count()) ||
        digits.find_first_not_of("01") != std::string_view::npos)
        throw bad_marks(whole, "after the last colon give a reason, or 0 or 1 for each of the " +
                                   std::to_string(max.count()) + " marks in the mark scheme's order");
    if (!marks.attempted())
        throw bad_marks(whole, "a part not attempted can't have earned marks");
    std::bitset<32> earned;
    for (std::size_t i = 0; i < digits.size(); ++i)
        earned[i] = digits[i] == '1';
    if (earned.count() != static_cast<std::size_t>(marks.unaided().count()))
        throw bad_marks(whole, std::string(digits) + " earns " + std::to_string(earned.count()) +
                                   ", the inks before the corrections " +
                                   std::to_string(marks.unaided().count()));
    return static_cast<std::uint32_t>(earned.to_ulong());
}

/// Reads `[REASON][:EARNED]`: a reason does not begin with a digit.
void parse_endings(std::string_view text, std::string_view whole, Marks max, PartMarks& marks) {
    if (text.empty() || text.front() < '0' || text.front() > '9') {
        const std::size_t colon = text.find(':');
        try {
            set_reason(marks, text.substr(0, colon), max);
        } catch (const Error& error) {
            throw error.within("marks '" + std::string(whole) + "': ");
        }
        if (colon == std::string_view::npos)
            return;
        text.remove_prefix(colon + 1);
    }
    marks.state_by_code(parse_earned(text, whole, marks, max), max);
}

void append_count(std::string& out, Marks marks) {
    std::array<char, 8> digits{};
    const auto end = std::to_chars(digits.data(), digits.data() + digits.size(), marks.count()).ptr;
    out.append(digits.data(), end);
}

/// Zeros at the end are left out.
void append_earned(std::string& out, std::uint32_t by_code) {
    out += ':';
    do {
        out += (by_code & 1U) != 0 ? '1' : '0';
        by_code >>= 1U;
    } while (by_code != 0);
}

} // namespace

PartMarks::PartMarks(const MarksByPhase& earned, Marks max)
    : attempted_(true), has_by_code_(false), counting_(Counting::counts), earned_(earned) {
    check_within(max);
}

PartMarks PartMarks::not_set() {
    PartMarks marks;
    marks.counting_ = Counting::not_set;
    return marks;
}

void PartMarks::count_as_chosen(bool chosen) {
    if (!is_set())
        throw Error("a part that was not set can't be chosen", Error::Kind::misused);
    counting_ = chosen ? Counting::counts : Counting::not_chosen;
}

PartMarks::PartMarks(const MarksByPhase& earned, Marks max, std::optional<Reason> reason)
    : PartMarks(earned, max) {
    if (reason)
        state_reason(*reason, max);
}

void PartMarks::check_within(Marks max) const {
    const std::int64_t sum = std::int64_t{earned_.in_time.count()} + earned_.overtime.count() +
                             std::int64_t{earned_.corrected.count()};
    if (sum > max.count())
        throw Error("the inks add up to " + std::to_string(sum) + ", above the maximum of " +
                    std::to_string(max.count()));
    if (reason_ && earned_.in_time == max)
        throw every_mark_in_time();
    if (has_by_code_)
        check_earned(by_code_, *this, max);
}

void PartMarks::state_reason(Reason reason, Marks max) {
    if (!is_set())
        throw Error("a part that was not set loses no marks: leave the reason out");
    if (earned_.in_time == max)
        throw every_mark_in_time();
    reason_ = reason;
    check_within(max);
}

void PartMarks::state_by_code(std::uint32_t by_code, Marks max) {
    check_earned(by_code, *this, max);
    by_code_ = by_code;
    has_by_code_ = true;
}

bool operator==(const PartMarks& a, const PartMarks& b) {
    return a.attempted_ == b.attempted_ && a.is_set() == b.is_set() && a.in_time() == b.in_time() &&
           a.overtime() == b.overtime() && a.corrected() == b.corrected() && a.reason_ == b.reason_ &&
           a.by_code() == b.by_code();
}

PartMarks full_marks(Marks max) {
    return PartMarks({max, Marks(0), Marks(0)}, max);
}

PartMarks parse_part_marks(std::string_view text, Marks max) {
    if (const auto in_time = read_whole_number(text, max.count())) // most are in time alone
        return PartMarks({Marks(*in_time), Marks(0), Marks(0)}, max);
    const std::size_t colon = text.find(':');
    const std::string_view earned = text.substr(0, colon);
    if (earned.substr(0, 2) == "-+")
        throw bad_marks(
            text, "a part not attempted has no other marks; if it was corrected later, write it as 0+0+2");
    PartMarks marks;
    if (earned == not_set_word) {
        marks = PartMarks::not_set();
    } else if (earned != "-") {
        const MarksByPhase phases = parse_phases(earned, text, max);
        try {
            marks = PartMarks(phases, max);
        } catch (const Error& error) {
            throw error.within("marks '" + std::string(text) + "': ");
        }
    }
    if (colon != std::string_view::npos)
        parse_endings(text.substr(colon + 1), text, max, marks);
    return marks;
}

void set_reason(PartMarks& marks, std::string_view reason, Marks max) {
    marks.state_reason(parse_reason(reason), max);
}

void append_text(std::string& out, const PartMarks& marks) {
    if (!marks.is_set()) {
        out += not_set_word;
    } else if (!marks.attempted()) {
        out += '-';
    } else {
        append_count(out, marks.in_time());
        if (marks.overtime() != Marks(0) || marks.corrected() != Marks(0))
            append_count(out += '+', marks.overtime());
        if (marks.corrected() != Marks(0))
            append_count(out += '+', marks.corrected());
    }
    if (marks.reason())
        out.append(1, ':').append(name(*marks.reason()));
    if (marks.by_code())
        append_earned(out, *marks.by_code());
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
    entry.max = Marks(parse_whole_number(max, 1, max_part_marks.count(), "part " + entry.part + ", maximum"));
    entry.marks = rest.substr(0, slash);
    if (colon != std::string_view::npos)
        entry.marks += rest.substr(colon);
    return entry;
}

} // namespace inkturn
