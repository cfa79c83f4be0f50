#include "printed/cover.hpp"

#include "inkturn/base/number.hpp"
#include "printed/cover_words.hpp"
#include "printed/text_reader.hpp"
#include "printed/words.hpp"

#include <algorithm>
#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

namespace inkturn::printed {
namespace {

constexpr std::size_t max_cover_lines = 400; // a cover is a page or two
constexpr std::size_t near = 8;              // words

// In what follows `#` is a number in digits, `@` one in words too, and `%` a word for marks; `|` is between
// words of which one is there, `?` before what may be left out, `*` before what may come several times.

/// The marks of the whole paper.
struct TotalPrint {
    std::string_view print;
    bool is_after_paper = false; ///< counts where the paper is named before it
    bool is_alone = false;       ///< counts alone on its line
};
constexpr std::array<TotalPrint, 9> total_prints{{{"there are # %"},
                                                  {"# % altogether|available|overall"},
                                                  {"# % in all|total"},
                                                  {"worth|carries|has # %", true},
                                                  {"marked out of #"},
                                                  {"out of #", true},
                                                  {"% available #"},
                                                  {"# %", false, true},
                                                  {"% #", false, true}}};

constexpr std::string_view marks_of_each_print =
    "each|every|all question|questions carries|carry|is|are|has|have|earns ?worth @ %";

/// A choice of questions, after a word such as `answer`.
struct ChoicePrint {
    std::string_view print;
    std::size_t named; ///< numbers of questions in it; then comes how many are to be chosen, or one is
};
constexpr std::array<ChoicePrint, 4> choice_prints{
    {{"either ?question|q @ or ?question|q @", 2},
     {"question @ and any|only|exactly @ *other|others|more|out|of|the|these|following", 1},
     {"question @ and @ *other|others|more|out|of|the|these|following ?@ question|questions", 1},
     {"?any|only|exactly @ *other|others|more|out|of|the|these|following ?@ question|questions", 0}}};

bool begins_line(const CoverWords& words, std::size_t at) {
    return at == 0 || at >= words.size() || words[at - 1].line != words[at].line;
}
bool begins_piece(const CoverWords& words, std::size_t at) {
    return begins_line(words, at) || words[at - 1].piece != words[at].piece;
}

/// Reads words one after another.
class WordReader {
  public:
    WordReader(const CoverWords& words, std::size_t at) : words_(words), at_(at) {}

    std::size_t position() const { return at_; }

    template <typename List = std::initializer_list<std::string_view>>
    bool take(const List& list) {
        const bool is_next = is_one_of(text(), list) && at_ < words_.size();
        at_ += is_next ? 1U : 0U;
        return is_next;
    }

    /// What is printed so; its numbers are appended.
    bool take_print(std::string_view print, std::vector<int>& numbers) {
        for (TextReader pieces(print); !pieces.at_end(); pieces.take(' '))
            if (!take_piece(pieces.take_while([](char c) { return c != ' '; }), numbers))
                return false;
        return true;
    }

    std::optional<Seconds> take_duration() {
        const std::size_t from = at_;
        const auto hours = take_hours();
        if (hours && take_unit(words_for_hours))
            return std::chrono::minutes(*hours) + take_after_hours();
        at_ = from;
        const auto minutes = take_number();
        if (minutes && take_unit(words_for_minutes))
            return std::chrono::minutes(*minutes);
        at_ = from;
        return take_from_to();
    }

  private:
    std::string_view text() const { return at_ < words_.size() ? std::string_view(words_[at_].text) : ""; }

    bool take_piece(std::string_view piece, std::vector<int>& numbers) {
        switch (piece.front()) {
        case '#':
        case '@': {
            const auto number = piece == "#" ? take_digits() : take_number();
            numbers.insert(numbers.end(), number ? 1U : 0U, number.value_or(0));
            return number.has_value();
        }
        case '%':
            return (numbers.empty() || !begins_line(words_, at_)) && take(words_for_marks);
        case '?':
            take_piece(piece.substr(1), numbers);
            return true;
        case '*':
            while (take_piece(piece.substr(1), numbers)) {
            }
            return true;
        default:
            return take_one_of(piece);
        }
    }

    bool take_one_of(std::string_view alternatives) {
        for (TextReader reader(alternatives); !reader.at_end(); reader.take('|'))
            if (reader.take_while([](char c) { return c != '|'; }) == text()) {
                ++at_;
                return true;
            }
        return false;
    }

    /// Hours in minutes: `1`, `one`, `1.5`, `1:30`, `1½`, `1 1/2`, `two and a half`,
    /// `half an`, `three quarters of an`.
    std::optional<int> take_hours() {
        if (const auto minutes = take_clock(':'))
            return minutes;
        if (const auto minutes = take_clock('.', true))
            return minutes;
        if (const auto part = take_part()) {
            take({"of"});
            take({"an"});
            return 15 * *part;
        }
        const auto whole = take_number();
        if (!whole)
            return std::nullopt;
        const std::size_t after = at_;
        take({"and"});
        const auto part = take_part();
        if (!part)
            at_ = after;
        return 60 * *whole + 15 * part.value_or(0);
    }

    /// `1/2`, `half`, `a half`, `three quarters`, in quarters.
    std::optional<int> take_part() {
        const std::size_t from = at_;
        take({"a"});
        if (take({"half", "1/2"}))
            return 2;
        if (take({"quarter", "1/4"}))
            return 1;
        if (take({"3/4"}) || (take({"three"}) && take({"quarters"})))
            return 3;
        at_ = from;
        return std::nullopt;
    }

    std::optional<int> take_digits() {
        const auto number = read_whole_number(text(), 9999);
        at_ += number ? 1U : 0U;
        return number;
    }

    /// `3`, `three`, `forty five`.
    std::optional<int> take_number() {
        if (const auto number = take_digits())
            return number;
        if (take({"an"}))
            return 1;
        const auto ten = take_place(words_for_tens);
        const auto one = !ten || *ten > 0 ? take_place(words_to_twenty) : std::nullopt;
        if (!ten)
            return one ? std::optional<int>(*one + 1) : std::nullopt;
        return 10 * (*ten + 2) + (one && *one < 9 ? *one + 1 : 0);
    }

    /// The place in a list of the word that is next.
    template <typename List>
    std::optional<int> take_place(const List& list) {
        const auto found = std::find(list.begin(), list.end(), text());
        at_ += found == list.end() ? 0U : 1U;
        return found == list.end() ? std::nullopt : std::optional<int>(found - list.begin());
    }

    /// After the number; where others are beside its piece, at the start of what is below that.
    template <typename List>
    bool take_unit(const List& list) {
        constexpr Points same_left{3};
        const CoverWord& number = words_[at_ - 1];
        if ((number.piece == 0 || !begins_line(words_, at_)) && take(list))
            return true;
        for (std::size_t i = at_;
             begins_piece(words_, at_) && i < words_.size() && words_[i].line <= number.line + 1; ++i)
            if (words_[i].line > number.line && begins_piece(words_, i) &&
                abs(words_[i].left - number.left) < same_left)
                return is_one_of(words_[i].text, list);
        return false;
    }

    /// `and 30 minutes`, `30` at a line's end, `and a half`.
    Seconds take_after_hours() {
        const std::size_t after_hours = at_;
        take({"and"});
        if (const auto part = take_part())
            return *part * std::chrono::minutes(15);
        const bool is_same_line = at_ < words_.size() && words_[after_hours - 1].line == words_[at_].line;
        const auto minutes = is_same_line ? take_number() : std::nullopt;
        if (minutes && *minutes < 60 && (take(words_for_minutes) || take({"m"}) || begins_piece(words_, at_)))
            return std::chrono::minutes(*minutes);
        at_ = after_hours;
        return Seconds(0);
    }

    /// `09:15`, or as parts of an hour `1.75` and `1.5`, in minutes.
    std::optional<int> take_clock(char sign, bool is_decimal = false) {
        TextReader reader(text());
        const auto hours = read_whole_number(reader.take_while(is_digit, 2), 23);
        const bool is_split = reader.take(sign);
        const std::string_view digits = reader.take_while(is_digit, 2);
        const auto read = read_whole_number(digits, is_decimal ? 99 : 59);
        const bool is_tenths = is_decimal && digits.size() == 1;
        const int part = (is_tenths ? 10 : 1) * read.value_or(1);
        if (!hours || !is_split || !read || !reader.at_end() ||
            (is_decimal ? part % 25 != 0 : digits.size() != 2))
            return std::nullopt;
        ++at_;
        return 60 * *hours + (is_decimal ? part * 60 / 100 : part);
    }

    /// A time of day: `9.15`, `09:15`, with `am` or `pm`.
    std::optional<int> take_time_of_day() {
        auto time = take_clock(':');
        if (!time)
            time = take_clock('.');
        const bool is_afternoon = take({"pm"});
        take({"am", "noon"});
        return time && is_afternoon && *time < 12 * 60 ? *time + 12 * 60 : time;
    }

    /// `09:15 to 10:45`; without `am` and `pm` the second may be after noon.
    std::optional<Seconds> take_from_to() {
        take({"from"});
        const auto begin = take_time_of_day();
        take({"to", "until", "till", "\xE2\x80\x93", "\xE2\x80\x94"});
        const auto end = begin ? take_time_of_day() : std::nullopt;
        if (!end)
            return std::nullopt;
        return std::chrono::minutes(*end > *begin ? *end - *begin : *end + 12 * 60 - *begin);
    }

    const CoverWords& words_;
    std::size_t at_;
};

template <typename List = std::initializer_list<std::string_view>>
bool is_near_before(const CoverWords& words, std::size_t at, std::size_t reach, const List& list) {
    const auto end = words.begin() + static_cast<std::ptrdiff_t>(at);
    return std::any_of(end - static_cast<std::ptrdiff_t>(std::min(at, reach)), end,
                       [&](const CoverWord& word) { return is_one_of(word.text, list); });
}

/// `Reading time`, `after 5 minutes`: these count on the same line only, as a title may have such words,
/// and not before the time to work.
bool is_of_another_time(const CoverWords& words, std::size_t at) {
    for (std::size_t back = 1; back <= std::min(at, near) && words[at - back].line == words[at].line;
         ++back) {
        const std::string& word = words[at - back].text;
        if (is_one_of(word, {"working", "writing", "allowed", "duration"}))
            return false;
        if (is_one_of(word, {"reading", "extra", "including", "plus", "after", "before", "first", "last"}))
            return true;
    }
    return is_near_before(words, at, near, {"about", "spend", "approximately"});
}

/// Durations that are said to be the time, else those alone on a line or between wide blanks.
std::vector<CoverStatement<Seconds>> durations_in(const CoverWords& words) {
    std::vector<CoverStatement<Seconds>> said;
    std::vector<CoverStatement<Seconds>> alone;
    for (std::size_t i = 0; i < words.size(); ++i) {
        WordReader reader(words, i);
        const auto length = reader.take_duration();
        if (!length || *length <= Seconds(0) || *length > std::chrono::hours(24))
            continue;
        const bool is_advice = is_of_another_time(words, i);
        if (!is_advice &&
            (is_near_before(words, i, 5, words_for_time) || WordReader(reader).take(words_for_paper)))
            said.push_back({*length, words[i].line});
        else if (!is_advice && begins_piece(words, i) && begins_piece(words, reader.position()))
            alone.push_back({*length, words[i].line});
        i = reader.position() - 1;
    }
    return said.empty() ? alone : said;
}

/// The total that these words begin, such as `total mark for this paper is 75` or `total: 75 marks`.
std::optional<int> take_worded_total(const CoverWords& words, std::size_t& at) {
    bool of_marks = false;
    for (std::size_t i = at + 1; i < std::min(words.size(), at + 12); ++i) {
        const std::string& word = words[i].text;
        if (is_one_of(word, {"section", "question", "part", "each", "per", "time", "total"}))
            return std::nullopt;
        of_marks = of_marks || is_one_of(word, words_for_marks);
        const auto number = read_whole_number(word, 9999);
        if (!number)
            continue;
        const bool is_worded = i + 1 < words.size() && is_one_of(words[i + 1].text, words_for_marks);
        const bool is_last = begins_line(words, i + 1);
        const bool is_alone = i == at + 1 && is_last;
        if ((words[at].line != words[i].line && !is_last && !is_worded) ||
            (!of_marks && !is_worded && !is_alone))
            return std::nullopt;
        at = i + (is_worded ? 1 : 0);
        return number;
    }
    return std::nullopt;
}

/// A total printed in one of the ways that need no such word.
std::optional<int> take_plain_total(const CoverWords& words, std::size_t& at) {
    for (const TotalPrint& form : total_prints) {
        WordReader reader(words, at);
        std::vector<int> numbers;
        if (!reader.take_print(form.print, numbers) ||
            (form.is_after_paper && !is_near_before(words, at, near, words_for_paper)) ||
            (form.is_alone ? !begins_line(words, at) || !begins_line(words, reader.position())
                           : is_near_before(words, at, near,
                                            {"each", "every", "section", "question", "questions", "part"})))
            continue;
        at = reader.position() - 1;
        return numbers.front();
    }
    return std::nullopt;
}

std::vector<CoverStatement<int>> totals_in(const CoverWords& words) {
    std::vector<CoverStatement<int>> totals;
    for (std::size_t i = 0; i < words.size(); ++i) {
        const std::size_t line = words[i].line;
        const auto total = is_one_of(words[i].text, words_for_total_on_cover) ? take_worded_total(words, i)
                                                                              : take_plain_total(words, i);
        if (total.value_or(0) > 0)
            totals.push_back({*total, line});
    }
    return totals;
}

/// `Each question carries 2 marks`, `every question is worth one mark`.
std::optional<CoverStatement<int>> marks_of_each(const CoverWords& words) {
    std::vector<int> numbers;
    for (std::size_t i = 0; i < words.size(); ++i, numbers.clear())
        if (WordReader(words, i).take_print(marks_of_each_print, numbers))
            return CoverStatement<int>{numbers.front(), words[i].line};
    return std::nullopt;
}

/// `Section B` or `section 2` among the next few words.
std::optional<int> section_named(const CoverWords& words, std::size_t from) {
    for (std::size_t i = from; i + 1 < std::min(words.size(), from + near); ++i) {
        const std::string& name = words[i + 1].text;
        if (words[i].text == "section" && name.size() == 1)
            return is_digit(name.front()) ? name.front() - '0' : name.front() - 'a' + 1;
    }
    return std::nullopt;
}

/// What comes after `answer`.
std::optional<StatedChoice> choice_from(const CoverWords& words, std::size_t at) {
    for (const ChoicePrint& form : choice_prints) {
        WordReader reader(words, at + 1);
        std::vector<int> numbers;
        if (!reader.take_print(form.print, numbers))
            continue;
        StatedChoice choice{words[at].line, form.named == 2 ? 1 : numbers[form.named]};
        if (form.named == 2)
            choice.among = numbers;
        else
            choice.section = section_named(words, reader.position());
        if (form.named == 1)
            choice.besides = numbers.front();
        return choice.count > 0 ? std::optional<StatedChoice>(choice) : std::nullopt;
    }
    return std::nullopt;
}

} // namespace

std::vector<StatedChoice> read_choices(const Layout& layout) {
    const CoverWords words = cover_words(layout, layout.lines.size());
    std::vector<StatedChoice> choices;
    for (std::size_t i = 0; i < words.size(); ++i)
        if (is_one_of(words[i].text, {"answer", "attempt", "choose", "complete", "do"}))
            if (auto choice = choice_from(words, i))
                choices.push_back(*std::move(choice));
    return choices;
}

Cover read_cover(const Layout& layout, std::size_t end) {
    const CoverWords words = cover_words(layout, std::min(end, max_cover_lines));
    return {durations_in(words), totals_in(words), marks_of_each(words)};
}

} // namespace inkturn::printed
