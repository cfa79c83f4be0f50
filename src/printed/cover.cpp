#include "printed/cover.hpp"

#include "inkturn/base/number.hpp"
#include "printed/cover_words.hpp"
#include "printed/text_reader.hpp"
#include "printed/words.hpp"

#include <algorithm>
#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

namespace inkturn::printed {
namespace {

constexpr std::size_t max_cover_lines = 400; // a cover is a page or two
constexpr std::size_t near = 8;              // words

bool share_line(const CoverWord& a, const CoverWord& b) {
    return a.line == b.line;
}
bool share_piece(const CoverWord& a, const CoverWord& b) {
    return a.line == b.line && a.piece == b.piece;
}
bool ends_line(const CoverWords& tokens, std::size_t end) {
    return end >= tokens.size() || !share_line(tokens[end], tokens[end - 1]);
}
bool begins_piece(const CoverWords& tokens, std::size_t at) {
    return at == 0 || !share_piece(tokens[at - 1], tokens[at]);
}
bool ends_piece(const CoverWords& tokens, std::size_t end) {
    return end >= tokens.size() || !share_piece(tokens[end], tokens[end - 1]);
}

/// Reads tokens one after another.
class WordReader {
  public:
    WordReader(const CoverWords& tokens, std::size_t at) : tokens_(tokens), at_(at) {}

    std::size_t position() const { return at_; }

    template <typename List = std::initializer_list<std::string_view>>
    bool take(const List& words) {
        if (at_ >= tokens_.size() || !is_one_of(tokens_[at_].text, words))
            return false;
        ++at_;
        return true;
    }

    /// Hours in minutes: `1`, `one`, `1.5`, `1:30`, `1½`, `1 1/2`, `two and a half`,
    /// `half an`, `three quarters of an`.
    std::optional<int> take_hours() {
        if (const auto minutes = take_clock(':'))
            return minutes;
        if (const auto minutes = take_decimal())
            return minutes;
        if (const auto part = take_part()) {
            take({"of"});
            take({"an"});
            return 15 * *part;
        }
        const auto whole = take_whole();
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

    /// `3`, `three`, `forty five`.
    std::optional<int> take_whole() {
        if (at_ >= tokens_.size())
            return std::nullopt;
        if (const auto number = read_whole_number(tokens_[at_].text, 9999)) {
            ++at_;
            return number;
        }
        if (take({"an"}))
            return 1;
        const auto ten = take_place(words_for_tens);
        const auto one = !ten || *ten > 0 ? take_place(words_to_twenty) : std::nullopt;
        if (!ten)
            return one ? std::optional<int>(*one + 1) : std::nullopt;
        return 10 * (*ten + 2) + (one && *one < 9 ? *one + 1 : 0);
    }

    std::optional<Seconds> take_duration() {
        const std::size_t from = at_;
        const auto hours = take_hours();
        if (hours && take_unit(words_for_hours))
            return std::chrono::minutes(*hours) + take_after_hours();
        at_ = from;
        const auto minutes = take_whole();
        if (minutes && take_unit(words_for_minutes))
            return std::chrono::minutes(*minutes);
        at_ = from;
        return take_from_to();
    }

  private:
    /// After the number; where others are beside its piece, at the start of what is below that.
    template <typename List>
    bool take_unit(const List& words) {
        const CoverWord& number = tokens_[at_ - 1];
        const bool is_next = number.piece == 0 || !ends_line(tokens_, at_);
        return (is_next && take(words)) || (ends_piece(tokens_, at_) && has_below(number, words));
    }

    template <typename List>
    bool has_below(const CoverWord& above, const List& words) const {
        constexpr Points same_left{3};
        for (std::size_t i = at_; i < tokens_.size() && tokens_[i].line <= above.line + 1; ++i)
            if (tokens_[i].line > above.line && begins_piece(tokens_, i) &&
                abs(tokens_[i].left - above.left) < same_left)
                return is_one_of(tokens_[i].text, words);
        return false;
    }

    /// `and 30 minutes`, `30` at a line's end, `and a half`.
    Seconds take_after_hours() {
        const std::size_t after_hours = at_;
        take({"and"});
        if (const auto part = take_part())
            return *part * std::chrono::minutes(15);
        const bool is_same_line = at_ < tokens_.size() && share_line(tokens_[after_hours - 1], tokens_[at_]);
        const auto minutes = is_same_line ? take_whole() : std::nullopt;
        if (minutes && *minutes < 60 && (take(words_for_minutes) || take({"m"}) || ends_piece(tokens_, at_)))
            return std::chrono::minutes(*minutes);
        at_ = after_hours;
        return Seconds(0);
    }

    /// `09:15` in minutes.
    std::optional<int> take_clock(char between) {
        const auto [hours, minutes, digits] = numbers_beside(between);
        if (digits != 2 || hours > 23 || minutes > 59)
            return std::nullopt;
        ++at_;
        return 60 * hours + minutes;
    }

    /// `1.75` hours in minutes.
    std::optional<int> take_decimal() {
        const auto [hours, part, digits] = numbers_beside('.');
        const int hundredths = digits == 1 ? 10 * part : part;
        if (digits == 0 || hours > 24 || hundredths % 25 != 0)
            return std::nullopt;
        ++at_;
        return 60 * hours + hundredths * 60 / 100;
    }

    struct TwoNumbers {
        int first = 0;
        int second = 0;
        std::size_t digits = 0; ///< of the second; 0 where there are no two
    };

    /// What is before and after a sign in the next token: one or two digits there.
    TwoNumbers numbers_beside(char between) const {
        const std::string_view text = at_ < tokens_.size() ? std::string_view(tokens_[at_].text) : "";
        const std::size_t sign = text.find(between);
        const auto first = read_whole_number(text.substr(0, sign), 99);
        if (!first || sign == std::string_view::npos)
            return {};
        const auto second = read_whole_number(text.substr(sign + 1), 99);
        const std::size_t digits = text.size() - sign - 1;
        return second && digits <= 2 ? TwoNumbers{*first, *second, digits} : TwoNumbers{};
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
        const std::size_t from = at_;
        take({"from"});
        const auto begin = take_time_of_day();
        take({"to", "until", "till", "\xE2\x80\x93", "\xE2\x80\x94"});
        const auto end = begin ? take_time_of_day() : std::nullopt;
        if (!end) {
            at_ = from;
            return std::nullopt;
        }
        return std::chrono::minutes(*end > *begin ? *end - *begin : *end + 12 * 60 - *begin);
    }

    /// The place in a list of the word that is next.
    template <typename List>
    std::optional<int> take_place(const List& list) {
        const auto found =
            at_ < tokens_.size() ? std::find(list.begin(), list.end(), tokens_[at_].text) : list.end();
        if (found == list.end())
            return std::nullopt;
        ++at_;
        return static_cast<int>(found - list.begin());
    }

    const CoverWords& tokens_;
    std::size_t at_;
};

bool is_token(const CoverWords& tokens, std::size_t at, std::initializer_list<std::string_view> words) {
    return at < tokens.size() && is_one_of(tokens[at].text, words);
}

template <typename List = std::initializer_list<std::string_view>>
bool is_near_before(const CoverWords& tokens, std::size_t at, std::size_t reach, const List& words) {
    for (std::size_t i = at - std::min(at, reach); i < at; ++i)
        if (is_one_of(tokens[i].text, words))
            return true;
    return false;
}

/// `Reading time`, `after 5 minutes`: these count on the same line only, as a title may have such words,
/// and not before the time to work.
bool is_of_another_time(const CoverWords& tokens, std::size_t at) {
    for (std::size_t back = 1; back <= std::min(at, near) && share_line(tokens[at - back], tokens[at]);
         ++back) {
        const std::string& word = tokens[at - back].text;
        if (is_one_of(word, {"working", "writing", "allowed", "duration"}))
            return false;
        if (is_one_of(word, {"reading", "extra", "including", "plus", "after", "before", "first", "last"}))
            return true;
    }
    return is_near_before(tokens, at, near, {"about", "spend", "approximately"});
}

/// Durations that are said to be the time, else those alone on a line or between wide blanks.
std::vector<CoverStatement<Seconds>> durations_in(const CoverWords& tokens) {
    std::vector<CoverStatement<Seconds>> said;
    std::vector<CoverStatement<Seconds>> alone;
    for (std::size_t i = 0; i < tokens.size(); ++i) {
        WordReader reader(tokens, i);
        const auto length = reader.take_duration();
        if (!length || *length <= Seconds(0) || *length > std::chrono::hours(24))
            continue;
        const bool is_advice = is_of_another_time(tokens, i);
        if (!is_advice && (is_near_before(tokens, i, 5, words_for_time) ||
                           is_token(tokens, reader.position(), {"paper", "exam", "examination", "test"})))
            said.push_back({*length, tokens[i].line});
        else if (!is_advice && begins_piece(tokens, i) && ends_piece(tokens, reader.position()))
            alone.push_back({*length, tokens[i].line});
        i = reader.position() - 1;
    }
    return said.empty() ? alone : said;
}

bool is_marks_word(std::string_view text) {
    return is_one_of(text, words_for_marks);
}

/// The total that these words begin, such as `total mark for this paper is 75` or `total: 75 marks`.
std::optional<int> total_from(const CoverWords& tokens, std::size_t at) {
    bool of_marks = false;
    for (std::size_t i = at + 1; i < std::min(tokens.size(), at + 12); ++i) {
        const std::string& word = tokens[i].text;
        if (is_one_of(word, {"section", "question", "part", "each", "per", "time", "total"}))
            return std::nullopt;
        if (const auto number = read_whole_number(word, 9999)) {
            if (!share_line(tokens[at], tokens[i]) && !ends_line(tokens, i + 1) &&
                !(i + 1 < tokens.size() && is_marks_word(tokens[i + 1].text)))
                return std::nullopt;
            const bool is_worded = i + 1 < tokens.size() && is_marks_word(tokens[i + 1].text);
            const bool is_alone = i == at + 1 && ends_line(tokens, i + 1);
            return of_marks || is_worded || is_alone ? number : std::nullopt;
        }
        of_marks = of_marks || is_marks_word(word);
    }
    return std::nullopt;
}

/// Whether the number of marks here is said to be the paper's: `there are 75 marks`, `75 marks in all`, `this
/// paper is worth 75 marks`, `marked out of 75`, `marks available: 75`.
bool is_of_paper(const CoverWords& tokens, std::size_t at) {
    const bool is_worded = at + 1 < tokens.size() && share_line(tokens[at], tokens[at + 1]) &&
                           is_marks_word(tokens[at + 1].text);
    const bool has_paper = is_near_before(tokens, at, near, {"paper", "exam", "examination", "test"});
    if (is_near_before(tokens, at, near, {"each", "every", "section", "question", "questions", "part"}))
        return false;
    return (is_worded && is_near_before(tokens, at, 1, {"are"}) &&
            is_near_before(tokens, at, 2, {"there"})) ||
           (is_worded &&
            (is_token(tokens, at + 2, {"altogether", "available", "overall"}) ||
             (is_token(tokens, at + 2, {"in"}) && is_token(tokens, at + 3, {"all", "total"})))) ||
           (is_worded && has_paper && is_near_before(tokens, at, 1, {"worth", "carries", "has"})) ||
           (is_near_before(tokens, at, 1, {"of"}) && is_near_before(tokens, at, 2, {"out"}) &&
            (has_paper || is_near_before(tokens, at, 3, {"marked"}))) ||
           (is_near_before(tokens, at, 1, {"available"}) && is_near_before(tokens, at, 2, {"marks"}));
}

/// A total that needs no word for it; `Marks: 75` and `75 marks` alone on a line too.
std::optional<int> plain_total(const CoverWords& tokens, std::size_t at) {
    const auto number = read_whole_number(tokens[at].text, 9999);
    if (number && is_of_paper(tokens, at))
        return number;
    if (at + 1 >= tokens.size() || !share_line(tokens[at], tokens[at + 1]) ||
        (at > 0 && share_line(tokens[at - 1], tokens[at])) || !ends_line(tokens, at + 2))
        return std::nullopt;
    if (is_marks_word(tokens[at].text))
        return read_whole_number(tokens[at + 1].text, 9999);
    return is_marks_word(tokens[at + 1].text) ? number : std::nullopt;
}

std::vector<CoverStatement<int>> totals_in(const CoverWords& tokens) {
    std::vector<CoverStatement<int>> totals;
    for (std::size_t i = 0; i < tokens.size(); ++i) {
        const bool is_anchor = is_one_of(tokens[i].text, words_for_total_on_cover);
        const auto total = is_anchor ? total_from(tokens, i) : plain_total(tokens, i);
        if (!total || *total == 0)
            continue;
        totals.push_back({*total, tokens[i].line});
        while (i + 1 < tokens.size() && !read_whole_number(tokens[i].text, 9999))
            ++i;
        if (i + 1 < tokens.size() && is_marks_word(tokens[i + 1].text))
            ++i;
    }
    return totals;
}

/// `Each question carries 2 marks`, `every question is worth one mark`.
std::optional<CoverStatement<int>> marks_of_each(const CoverWords& tokens) {
    for (std::size_t i = 0; i + 3 < tokens.size(); ++i) {
        if (!is_one_of(tokens[i].text, {"each", "every", "all"}) ||
            !is_one_of(tokens[i + 1].text, {"question", "questions"}) ||
            !is_one_of(tokens[i + 2].text, {"carries", "carry", "is", "are", "has", "have", "earns"}))
            continue;
        WordReader reader(tokens, i + 3);
        reader.take({"worth"});
        const auto count = reader.take_whole();
        const std::size_t after = reader.position();
        if (count && after < tokens.size() && is_marks_word(tokens[after].text))
            return CoverStatement<int>{*count, tokens[i].line};
    }
    return std::nullopt;
}

/// `Section B` or `section 2` among the next few words.
std::optional<int> section_named(const CoverWords& tokens, std::size_t from) {
    for (std::size_t i = from; i + 1 < std::min(tokens.size(), from + near); ++i) {
        const std::string& name = tokens[i + 1].text;
        if (tokens[i].text == "section" && name.size() == 1)
            return is_digit(name.front()) ? name.front() - '0' : name.front() - 'a' + 1;
    }
    return std::nullopt;
}

/// What comes after `answer`.
std::optional<StatedChoice> choice_from(const CoverWords& tokens, std::size_t at) {
    WordReader reader(tokens, at + 1);
    StatedChoice choice{tokens[at].line, 1};
    if (reader.take({"either"})) {
        for (int i = 0; i < 2; ++i) {
            reader.take({"question", "q"});
            const auto number = reader.take_whole();
            if (!number || (i == 0 && !reader.take({"or"})))
                return std::nullopt;
            choice.among.push_back(*number);
        }
        return choice;
    }
    if (reader.take({"question"})) {
        choice.besides = reader.take_whole();
        if (!choice.besides || !reader.take({"and"}))
            return std::nullopt;
    }
    const bool is_any = reader.take({"any", "only", "exactly"});
    const auto count = reader.take_whole();
    while (reader.take({"other", "others", "more", "out", "of", "the", "these", "following"})) {
    }
    reader.take_whole(); // `three out of five`
    const bool is_of_questions = reader.take({"question", "questions"}) || (is_any && choice.besides);
    if (!count || *count < 1 || !is_of_questions)
        return std::nullopt;
    choice.count = *count;
    choice.section = section_named(tokens, reader.position());
    return choice;
}

} // namespace

std::vector<StatedChoice> read_choices(const Layout& layout) {
    const CoverWords tokens = cover_words(layout, layout.lines.size());
    std::vector<StatedChoice> choices;
    for (std::size_t i = 0; i < tokens.size(); ++i)
        if (is_one_of(tokens[i].text, {"answer", "attempt", "choose", "complete", "do"}))
            if (auto choice = choice_from(tokens, i))
                choices.push_back(*std::move(choice));
    return choices;
}

Cover read_cover(const Layout& layout, std::size_t end) {
    const CoverWords tokens = cover_words(layout, std::min(end, max_cover_lines));
    return {durations_in(tokens), totals_in(tokens), marks_of_each(tokens)};
}

} // namespace inkturn::printed
