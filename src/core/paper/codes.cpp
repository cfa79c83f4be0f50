#include "inkturn/paper/codes.hpp"

#include "inkturn/base/ascii.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"

#include <algorithm>
#include <array>

namespace inkturn {
namespace {

CodeKind kind_of(char last_letter) {
    switch (upper(last_letter)) {
    case 'M':
        return CodeKind::method;
    case 'A':
        return CodeKind::accuracy;
    case 'B':
        return CodeKind::independent;
    default:
        return CodeKind::other;
    }
}

/// Cuts off the front of the text what belongs to it, and returns that.
template <typename Belongs>
std::string_view take_while(std::string_view& text, const Belongs& belongs) {
    const auto end = std::find_if_not(text.begin(), text.end(), belongs);
    const std::string_view taken = text.substr(0, static_cast<std::size_t>(end - text.begin()));
    text.remove_prefix(taken.size());
    return taken;
}

std::optional<MarkCode> read_code(std::string_view text) {
    const std::string_view before = take_while(text, is_letter);
    const auto marks = read_whole_number(take_while(text, is_digit), max_part_marks.count());
    const std::string_view after = take_while(text, is_letter);
    if (before.empty() || !marks || !text.empty())
        return std::nullopt;
    return MarkCode{std::string(before), Marks(*marks), std::string(after), kind_of(before.back())};
}

std::string with_marks(const MarkCode& code, Marks marks) {
    return code.before + std::to_string(marks.count()) + code.after;
}

std::string written(const MarkCode& code) {
    return with_marks(code, code.marks);
}

bool follows_through(const MarkCode& code) {
    return lower_case(code.before + code.after).find("ft") != std::string::npos;
}

bool is_earned(std::uint32_t by_code, int mark) {
    return mark < max_marks_by_code.count() && (by_code >> static_cast<unsigned>(mark) & 1U) != 0;
}

/// The marks that each code earned; earned(i) says whether the i-th of the part's marks was.
template <typename Earned>
std::vector<Marks> marks_by_code(const std::vector<MarkCode>& codes, const Earned& earned) {
    std::vector<Marks> marks;
    int mark = 0;
    for (const MarkCode& code : codes) {
        Marks sum;
        for (const int end = mark + code.marks.count(); mark < end; ++mark)
            sum += Marks(earned(mark) ? 1 : 0);
        marks.push_back(sum);
    }
    return marks;
}

std::vector<Marks> marks_by_code(const std::vector<MarkCode>& codes, std::uint32_t by_code) {
    return marks_by_code(codes, [&](int mark) { return is_earned(by_code, mark); });
}

/// The nearest method code before each code; the count of codes where there is none.
std::vector<std::size_t> methods_before(const std::vector<MarkCode>& codes) {
    std::vector<std::size_t> methods;
    std::size_t nearest = codes.size();
    for (std::size_t i = 0; i < codes.size(); ++i) {
        methods.push_back(nearest);
        if (codes[i].kind == CodeKind::method && codes[i].marks > Marks(0))
            nearest = i;
    }
    return methods;
}

/// A code as typed. Without a blank between codes the letters may begin with the end of the code before.
struct TypedCode {
    std::string_view before;
    std::string_view digits;
    std::string_view after;
    bool is_joined = false;

    /// A number that is too long is still a number, above any code's marks.
    Marks marks() const {
        const int most = max_part_marks.count();
        return Marks(read_whole_number(digits, most).value_or(most + 1));
    }
    std::string text() const { return std::string(before).append(digits).append(after); }
};

std::vector<TypedCode> split_codes(std::string_view group) {
    const auto is_blank = [](char c) { return c == ' '; };
    std::vector<TypedCode> codes;
    for (take_while(group, is_blank); !group.empty(); take_while(group, is_blank)) {
        std::string_view word = take_while(group, [&](char c) { return !is_blank(c); });
        const std::string_view whole = word;
        std::string_view letters = take_while(word, is_letter);
        do {
            TypedCode code{letters, take_while(word, is_digit), "", letters.data() != whole.data()};
            if (letters.empty() || code.digits.empty())
                throw Error("'" + std::string(whole) +
                            "' is not a mark code: write letters and marks, such as M1 A0 B1");
            letters = take_while(word, is_letter);
            if (word.empty())
                code.after = letters;
            codes.push_back(code);
        } while (!word.empty());
    }
    return codes;
}

/// Reads what is typed against a mark scheme's codes, one phase after another.
class CodesMarking {
  public:
    explicit CodesMarking(const std::string& codes)
        : scheme_text_(codes),
          scheme_(parse_codes(codes)),
          unaided_(scheme_.size()),
          corrected_(scheme_.size()) {}

    /// `groups` are the codes typed for each phase.
    PartMarks read(std::string_view groups, Phase first, Marks max) {
        MarksByPhase earned;
        const std::array<Marks*, 3> phases{&earned.in_time, &earned.overtime, &earned.corrected};
        const auto start = static_cast<std::size_t>(first);
        for (std::size_t phase = start; phase < phases.size(); ++phase) {
            const std::size_t plus = groups.find('+');
            const std::vector<TypedCode> typed = split_codes(groups.substr(0, plus));
            std::vector<Marks>& by_code = phases[phase] == &earned.corrected ? corrected_ : unaided_;
            *phases[phase] = phase == start ? take_all(typed) : take_gains(typed, by_code);
            if (plus == std::string_view::npos) {
                PartMarks marks(earned, max);
                marks.state_by_code(earned_unaided(), max);
                return marks;
            }
            groups.remove_prefix(plus + 1);
        }
        throw Error("no ink comes after the corrected one: there is one + too many");
    }

  private:
    /// The first phase's marks: every code is named.
    Marks take_all(const std::vector<TypedCode>& typed) {
        Marks sum;
        for (std::size_t i = 0; i < scheme_.size(); ++i) {
            if (i >= typed.size() || !names(typed[i], i, i))
                refuse(typed, i);
            unaided_[i] = typed[i].marks();
            if (unaided_[i] > scheme_[i].marks)
                throw Error(typed[i].text() + " is more than the marks of " + written(scheme_[i]));
            sum += unaided_[i];
        }
        if (typed.size() > scheme_.size())
            refuse(typed, scheme_.size());
        return sum;
    }

    /// A later phase's marks: those codes are named that gained some.
    Marks take_gains(const std::vector<TypedCode>& typed, std::vector<Marks>& earned) {
        if (typed.empty())
            throw Error("after a + name the codes that gained marks, such as M1");
        Marks sum;
        std::size_t from = 0;
        for (const TypedCode& code : typed) {
            const std::size_t i = next_named(code, from);
            earned[i] += code.marks();
            sum += code.marks();
            from = i + 1;
        }
        return sum;
    }

    /// The position, at `from` or later, of the code that gains what is typed.
    std::size_t next_named(const TypedCode& typed, std::size_t from) const {
        check_in_scheme(typed, from);
        std::optional<std::size_t> too_low;
        for (std::size_t i = from; i < scheme_.size(); ++i) {
            if (!names(typed, i, from))
                continue;
            if (lost(i) >= std::max(typed.marks(), Marks(1)))
                return i;
            if (!too_low || lost(i) > lost(*too_low))
                too_low = i;
        }
        if (!too_low)
            throw out_of_order(typed);
        throw Error(typed.text() + " after a + is more than what " + written(scheme_[*too_low]) +
                    " had lost: " + std::to_string(lost(*too_low).count()));
    }

    /// Whether the letters typed are those of the code at `i`; `from` is the position after the code typed
    /// before.
    bool names(const TypedCode& typed, std::size_t i, std::size_t from) const {
        const auto spelled = [](std::string_view text, const std::string& code) {
            return text == code || text == lower_case(code);
        };
        if (!typed.after.empty() && !spelled(typed.after, scheme_[i].after))
            return false;
        if (spelled(typed.before, scheme_[i].before))
            return true;
        if (!typed.is_joined)
            return false;
        const std::string& joined = scheme_[from - 1].after;
        const std::size_t length = std::min(joined.size(), typed.before.size());
        return spelled(typed.before.substr(0, length), joined) &&
               spelled(typed.before.substr(length), scheme_[i].before);
    }

    Marks lost(std::size_t i) const { return scheme_[i].marks - unaided_[i] - corrected_[i]; }

    /// Says what is wrong with the first phase's code at `i`.
    [[noreturn]] void refuse(const std::vector<TypedCode>& typed, std::size_t i) const {
        if (i < typed.size())
            check_in_scheme(typed[i], i);
        if (typed.size() >= scheme_.size())
            throw out_of_order(typed[i]);
        const MarkCode& code = scheme_[i];
        throw Error(written(code) + " is not named: write " + with_marks(code, Marks(0)) +
                    (code.marks > Marks(1) ? " to " : " or ") + written(code));
    }

    void check_in_scheme(const TypedCode& typed, std::size_t from) const {
        for (std::size_t i = 0; i < scheme_.size(); ++i)
            if (names(typed, i, from))
                return;
        throw Error(typed.text() + " is not in the mark scheme: its codes are " + scheme_text_);
    }

    Error out_of_order(const TypedCode& typed) const {
        return Error(typed.text() + " is out of order, or appears too often: the mark scheme has " +
                     scheme_text_);
    }

    std::uint32_t earned_unaided() const {
        std::uint32_t bits = 0;
        unsigned first_mark = 0;
        for (std::size_t i = 0; i < scheme_.size(); ++i) {
            for (unsigned mark = 0; mark < static_cast<unsigned>(unaided_[i].count()); ++mark)
                bits |= 1U << (first_mark + mark);
            first_mark += static_cast<unsigned>(scheme_[i].marks.count());
        }
        return bits;
    }

    const std::string& scheme_text_;
    std::vector<MarkCode> scheme_;
    std::vector<Marks> unaided_;
    std::vector<Marks> corrected_;
};

} // namespace

std::vector<MarkCode> parse_codes(std::string_view codes) {
    std::vector<MarkCode> list;
    for (std::size_t start = codes.find_first_not_of(' '); start != std::string_view::npos;) {
        const std::size_t end = std::min(codes.find(' ', start), codes.size());
        const std::string_view text = codes.substr(start, end - start);
        auto code = read_code(text);
        if (!code)
            throw Error("'" + std::string(text) +
                        "' is not a mark code: write letters and marks, such as M1 A1 B2");
        list.push_back(std::move(*code));
        start = codes.find_first_not_of(' ', end);
    }
    return list;
}

Marks marks_of_codes(std::string_view codes) {
    Marks sum;
    for (const MarkCode& code : parse_codes(codes))
        sum += code.marks;
    return sum;
}

bool is_coded(std::string_view typed) {
    typed.remove_prefix(std::min(typed.find_first_not_of(' '), typed.size()));
    return !typed.empty() && is_letter(typed.front()) && !reason_named(typed) &&
           typed.substr(0, not_set_word.size()) != not_set_word;
}

PartMarks marks_from_codes(std::string_view typed, const Part& part, Phase first) {
    if (part.codes.empty())
        throw Error("part " + part.label + " has no codes on file: type its marks as numbers");
    if (part.max > max_marks_by_code)
        throw Error("part " + part.label + " has more than " + std::to_string(max_marks_by_code.count()) +
                    " marks: type them as numbers");
    try {
        const std::size_t colon = typed.find(':');
        PartMarks marks = CodesMarking(part.codes).read(typed.substr(0, colon), first, part.max);
        if (colon != std::string_view::npos)
            set_reason(marks, typed.substr(colon + 1), part.max);
        return marks;
    } catch (const Error& error) {
        throw error.within("part " + part.label + ", ");
    }
}

void check_by_code(const PartMarks& marks, const Part& part) {
    if (marks.by_code() && part.codes.empty())
        throw Error("marks '" + to_text(marks) +
                    "': the part has no codes on file, so leave out which of its marks were earned");
}

std::string codes_text(const Part& part, std::uint32_t by_code) {
    const std::vector<MarkCode> codes = parse_codes(part.codes);
    const std::vector<Marks> marks = marks_by_code(codes, by_code);
    std::string text;
    for (std::size_t i = 0; i < codes.size(); ++i)
        text += (i > 0 ? " " : "") + with_marks(codes[i], marks[i]);
    return text;
}

std::vector<std::string> accuracy_without_method(const Part& part, std::uint32_t by_code) {
    const std::vector<MarkCode> codes = parse_codes(part.codes);
    const std::vector<Marks> marks = marks_by_code(codes, by_code);
    const std::vector<std::size_t> methods = methods_before(codes);
    std::vector<std::string> without;
    for (std::size_t i = 0; i < codes.size(); ++i) {
        const bool earned = codes[i].kind == CodeKind::accuracy && marks[i] > Marks(0);
        if (earned && !follows_through(codes[i]) && methods[i] < codes.size() &&
            marks[methods[i]] == Marks(0))
            without.push_back(written(codes[i]));
    }
    return without;
}

std::optional<LostByCode> lost_by_code(const Part& part, const PartMarks& marks) {
    const std::vector<MarkCode> codes = parse_codes(part.codes);
    if (codes.empty())
        return std::nullopt;
    const bool one_kind = std::all_of(codes.begin(), codes.end(),
                                      [&](const MarkCode& code) { return code.kind == codes.front().kind; });
    if (!marks.by_code() && !one_kind && marks.unaided() != Marks(0) && marks.unaided() != part.max)
        return std::nullopt;
    const std::vector<Marks> earned =
        marks.by_code() ? marks_by_code(codes, *marks.by_code())
                        : marks_by_code(codes, [&](int mark) { return mark < marks.unaided().count(); });

    const std::vector<std::size_t> methods = methods_before(codes);
    LostByCode lost;
    for (std::size_t i = 0; i < codes.size(); ++i) {
        const Marks gone = codes[i].marks - earned[i];
        switch (codes[i].kind) {
        case CodeKind::method:
            lost.method += gone;
            break;
        case CodeKind::accuracy:
            lost.accuracy += gone;
            if (methods[i] < codes.size() && earned[methods[i]] == codes[methods[i]].marks)
                lost.accuracy_after_method += gone;
            break;
        case CodeKind::independent:
            lost.independent += gone;
            break;
        case CodeKind::other:
            lost.other += gone;
            break;
        }
    }
    return lost;
}

} // namespace inkturn
