#include "printed/cover.hpp"

#include "inkturn/base/ascii.hpp"
#include "inkturn/base/number.hpp"

#include <algorithm>
#include <array>
#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

namespace inkturn::printed {
namespace {

constexpr std::size_t max_cover_lines = 400; // a cover is a page or two
constexpr std::size_t near = 8;              // words
constexpr double cover_blank = 1.8;          // of a line's height

struct CoverWord {
    std::string text;
    std::size_t line;
    std::size_t piece; ///< of its line: wide blanks divide it
};
using CoverWords = std::vector<CoverWord>;

enum class Sort : unsigned char { digits, letters, other };

Sort sort_of(char c) {
    if (is_digit(c))
        return Sort::digits;
    return is_lower(c) || !is_ascii(c) ? Sort::letters : Sort::other;
}

/// `1½` becomes `1 1/2`; anything else beyond ASCII stays a letter.
std::string with_fractions(std::string text) {
    constexpr std::array<std::pair<std::string_view, std::string_view>, 3> signs{
        {{"\xC2\xBC", " 1/4 "}, {"\xC2\xBD", " 1/2 "}, {"\xC2\xBE", " 3/4 "}}};
    for (const auto& [sign, fraction] : signs)
        for (std::size_t at = text.find(sign); at != std::string::npos; at = text.find(sign))
            text.replace(at, sign.size(), fraction);
    return text;
}

/// Runs of letters and of digits; `1.5` and `1/2` are one piece.
void append_tokens(CoverWords& tokens, const std::string& text, std::size_t line, std::size_t piece) {
    for (std::size_t i = 0; i < text.size();) {
        const Sort sort = sort_of(text[i]);
        const std::size_t from = i;
        const auto joins = [&](std::size_t at) {
            return (text[at] == '.' || text[at] == '/') && at + 1 < text.size() &&
                   sort_of(text[at + 1]) == Sort::digits;
        };
        while (i < text.size() && (sort_of(text[i]) == sort || (sort == Sort::digits && joins(i))))
            ++i;
        if (sort != Sort::other)
            tokens.push_back({text.substr(from, i - from), line, piece});
    }
}

void append_line(CoverWords& tokens, const Line& line, std::size_t position) {
    constexpr std::size_t max_duration_words = 40;
    std::size_t piece = 0;
    std::string text;
    for (std::size_t word = 0; word < std::min(max_duration_words, line.words.size()); ++word) {
        if (word > 0 && gap_before(line, word) > cover_blank * line.height) {
            append_tokens(tokens, with_fractions(lower_case(std::move(text))), position, piece++);
            text.clear();
        }
        text += text_of_words(line, word, word + 1).text + ' ';
    }
    append_tokens(tokens, with_fractions(lower_case(std::move(text))), position, piece);
}

bool is_one_of(std::string_view text, std::initializer_list<std::string_view> words) {
    return std::find(words.begin(), words.end(), text) != words.end();
}

bool share_line(const CoverWord& a, const CoverWord& b) {
    return a.line == b.line;
}
bool share_piece(const CoverWord& a, const CoverWord& b) {
    return a.line == b.line && a.piece == b.piece;
}
bool begins_line(const CoverWords& tokens, std::size_t at) {
    return at == 0 || !share_line(tokens[at - 1], tokens[at]);
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
class DurationReader {
  public:
    DurationReader(const CoverWords& tokens, std::size_t at) : tokens_(tokens), at_(at) {}

    std::size_t position() const { return at_; }

    bool take(std::initializer_list<std::string_view> words) {
        if (at_ >= tokens_.size() || !is_one_of(tokens_[at_].text, words))
            return false;
        ++at_;
        return true;
    }

    /// Quarters of a whole: `1`, `one`, `1.5`, `1½`, `1 1/2`, `half`.
    std::optional<int> take_quarters() {
        constexpr std::array<std::string_view, 6> decimals{"1.25", "1.5", "1.75", "2.25", "2.5", "2.75"};
        constexpr std::array<int, 6> in_quarters{5, 6, 7, 9, 10, 11};
        for (std::size_t i = 0; i < decimals.size(); ++i)
            if (take({decimals[i]}))
                return in_quarters[i];
        const auto whole = take_whole();
        const auto part = take_part();
        return whole || part ? std::optional<int>(4 * whole.value_or(0) + part.value_or(0)) : std::nullopt;
    }

    /// `1/2`, `half`, `a half`, in quarters.
    std::optional<int> take_part() {
        const std::size_t from = at_;
        take({"a"});
        if (take({"half", "1/2"}))
            return 2;
        if (take({"quarter", "1/4"}))
            return 1;
        if (take({"3/4"}))
            return 3;
        at_ = from;
        return std::nullopt;
    }

    std::optional<int> take_whole() {
        if (at_ >= tokens_.size())
            return std::nullopt;
        auto whole = read_whole_number(tokens_[at_].text, 9999);
        if (!whole)
            whole = is_one_of(tokens_[at_].text, {"one", "an"}) ? std::optional<int>(1)
                    : tokens_[at_].text == "two"                ? std::optional<int>(2)
                    : tokens_[at_].text == "three"              ? std::optional<int>(3)
                                                                : std::nullopt;
        if (whole)
            ++at_;
        return whole;
    }

    std::optional<Seconds> take_duration() {
        const std::size_t from = at_;
        const auto quarters = take_quarters();
        if (quarters && take({"hour", "hours", "hr", "hrs", "h"}))
            return *quarters * std::chrono::minutes(15) + take_after_hours();
        at_ = from;
        const auto minutes = take_whole();
        if (minutes && take({"minute", "minutes", "min", "mins"}))
            return std::chrono::minutes(*minutes);
        at_ = from;
        return std::nullopt;
    }

  private:
    /// `and 30 minutes`, `30` at a line's end, `and a half`.
    Seconds take_after_hours() {
        const std::size_t after_hours = at_;
        take({"and"});
        if (const auto part = take_part())
            return *part * std::chrono::minutes(15);
        const auto minutes = take_whole();
        if (minutes && *minutes < 60 &&
            (take({"minute", "minutes", "min", "mins", "m"}) || ends_piece(tokens_, at_)))
            return std::chrono::minutes(*minutes);
        at_ = after_hours;
        return Seconds(0);
    }

    const CoverWords& tokens_;
    std::size_t at_;
};

bool is_near_before(const CoverWords& tokens, std::size_t at, std::size_t reach,
                    std::initializer_list<std::string_view> words) {
    for (std::size_t i = at - std::min(at, reach); i < at; ++i)
        if (is_one_of(tokens[i].text, words))
            return true;
    return false;
}

/// `Reading time`, `after 5 minutes`: these count on the same line only, as a title may have such words.
bool is_of_another_time(const CoverWords& tokens, std::size_t at) {
    std::size_t in_line = 0;
    while (in_line < std::min(at, near) && share_line(tokens[at - in_line - 1], tokens[at]))
        ++in_line;
    return is_near_before(tokens, at, near, {"about", "spend", "approximately"}) ||
           is_near_before(tokens, at, in_line, {"reading", "extra", "after", "before", "first", "last"});
}

/// Durations that are said to be the time, else those alone on a line or between wide blanks.
std::vector<CoverStatement<Seconds>> durations_in(const CoverWords& tokens) {
    std::vector<CoverStatement<Seconds>> said;
    std::vector<CoverStatement<Seconds>> alone;
    for (std::size_t i = 0; i < tokens.size(); ++i) {
        DurationReader reader(tokens, i);
        const auto length = reader.take_duration();
        if (!length || *length <= Seconds(0) || *length > std::chrono::hours(24))
            continue;
        const bool is_advice = is_of_another_time(tokens, i);
        if (!is_advice &&
            is_near_before(tokens, i, 5, {"time", "duration", "allowed", "have", "lasts", "length"}))
            said.push_back({*length, tokens[i].line});
        else if (!is_advice && begins_piece(tokens, i) && ends_piece(tokens, reader.position()))
            alone.push_back({*length, tokens[i].line});
        i = reader.position() - 1;
    }
    return said.empty() ? alone : said;
}

bool is_marks_word(std::string_view text) {
    return is_one_of(text, {"mark", "marks", "point", "points"});
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

/// `There are 75 marks`, or `Marks: 75` and `75 marks` alone on a line.
std::optional<int> plain_total(const CoverWords& tokens, std::size_t at) {
    if (at + 1 >= tokens.size() || tokens[at].line != tokens[at + 1].line)
        return std::nullopt;
    const bool whole_line = begins_line(tokens, at) && ends_line(tokens, at + 2);
    if (is_marks_word(tokens[at].text) && whole_line)
        return read_whole_number(tokens[at + 1].text, 9999);
    if (is_marks_word(tokens[at + 1].text) &&
        (whole_line || (is_near_before(tokens, at, 1, {"are"}) && is_near_before(tokens, at, 2, {"there"}))))
        return read_whole_number(tokens[at].text, 9999);
    return std::nullopt;
}

std::vector<CoverStatement<int>> totals_in(const CoverWords& tokens) {
    std::vector<CoverStatement<int>> totals;
    for (std::size_t i = 0; i < tokens.size(); ++i) {
        const bool is_anchor = is_one_of(tokens[i].text, {"total", "maximum", "max", "full"});
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
        DurationReader reader(tokens, i + 3);
        reader.take({"worth"});
        const auto count = reader.take_whole();
        const std::size_t after = reader.position();
        if (count && after < tokens.size() && is_marks_word(tokens[after].text))
            return CoverStatement<int>{*count, tokens[i].line};
    }
    return std::nullopt;
}

} // namespace

Cover read_cover(const Layout& layout, std::size_t end) {
    CoverWords tokens;
    for (std::size_t i = 0; i < std::min(end, max_cover_lines); ++i)
        append_line(tokens, layout.lines[i], i);
    return {durations_in(tokens), totals_in(tokens), marks_of_each(tokens)};
}

} // namespace inkturn::printed
