#include "core/printed_cover.hpp"

#include "inkturn/number.hpp"

#include <algorithm>
#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>

namespace inkturn::printed {
namespace {

constexpr std::size_t most_lines = 400; // a cover is a page or two
constexpr std::size_t near = 8;         // words

struct Token {
    std::string text;
    std::size_t line;
};
using Tokens = std::vector<Token>;

enum class Sort : unsigned char { digits, letters, other };

Sort sort_of(char c) {
    if (c >= '0' && c <= '9')
        return Sort::digits;
    return (c >= 'a' && c <= 'z') || static_cast<unsigned char>(c) >= 0x80 ? Sort::letters : Sort::other;
}

/// `1½` becomes `1 half`; anything else beyond ASCII stays a letter.
std::string with_halves(std::string text) {
    constexpr std::string_view half = "\xC2\xBD";
    for (std::size_t at = text.find(half); at != std::string::npos; at = text.find(half))
        text.replace(at, half.size(), " half ");
    return text;
}

/// Runs of letters and of digits; `1.5` and `1/2` are one piece.
void append_tokens(Tokens& tokens, const std::string& text, std::size_t line) {
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
            tokens.push_back({text.substr(from, i - from), line});
    }
}

bool is_one_of(std::string_view text, std::initializer_list<std::string_view> words) {
    return std::find(words.begin(), words.end(), text) != words.end();
}

/// Reads tokens one after another.
class Reader {
  public:
    Reader(const Tokens& tokens, std::size_t at) : tokens_(tokens), at_(at) {}

    std::size_t position() const { return at_; }

    bool take(std::initializer_list<std::string_view> words) {
        if (at_ >= tokens_.size() || !is_one_of(tokens_[at_].text, words))
            return false;
        ++at_;
        return true;
    }

    /// Halves of a whole: `1`, `one`, `1.5`, `1½`, `1 1/2`, `half`.
    std::optional<int> take_halves() {
        std::optional<int> halves;
        if (const auto whole = take_whole())
            halves = 2 * *whole;
        else if (take({"1.5"}))
            return 3;
        else if (take({"2.5"}))
            return 5;
        if (take({"half", "1/2"}))
            return halves.value_or(0) + 1;
        return halves;
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
        const auto halves = take_halves();
        if (halves && take({"hour", "hours", "hr", "hrs", "h"})) {
            Seconds length = *halves * std::chrono::minutes(30);
            const std::size_t after_hours = at_;
            take({"and"});
            const auto minutes = take_whole();
            if (minutes && *minutes < 60 && take({"minute", "minutes", "min", "mins", "m"}))
                length += std::chrono::minutes(*minutes);
            else
                at_ = after_hours;
            return length;
        }
        at_ = from;
        const auto minutes = take_whole();
        if (minutes && take({"minute", "minutes", "min", "mins"}))
            return std::chrono::minutes(*minutes);
        at_ = from;
        return std::nullopt;
    }

  private:
    const Tokens& tokens_;
    std::size_t at_;
};

bool is_near_before(const Tokens& tokens, std::size_t at, std::size_t reach,
                    std::initializer_list<std::string_view> words) {
    for (std::size_t i = at - std::min(at, reach); i < at; ++i)
        if (is_one_of(tokens[i].text, words))
            return true;
    return false;
}

bool begins_line(const Tokens& tokens, std::size_t at) {
    return at == 0 || tokens[at - 1].line != tokens[at].line;
}
bool ends_line(const Tokens& tokens, std::size_t end) {
    return end >= tokens.size() || tokens[end].line != tokens[end - 1].line;
}

/// Durations that are said to be the time, else those alone on a line.
std::vector<Stated<Seconds>> durations_in(const Tokens& tokens) {
    std::vector<Stated<Seconds>> said;
    std::vector<Stated<Seconds>> alone;
    for (std::size_t i = 0; i < tokens.size(); ++i) {
        Reader reader(tokens, i);
        const auto length = reader.take_duration();
        if (!length || *length <= Seconds(0) || *length > std::chrono::hours(24))
            continue;
        const bool is_advice = is_near_before(
            tokens, i, near,
            {"about", "spend", "reading", "approximately", "extra", "after", "before", "first", "last"});
        if (!is_advice &&
            is_near_before(tokens, i, 5, {"time", "duration", "allowed", "have", "lasts", "length"}))
            said.push_back({*length, tokens[i].line});
        else if (!is_advice && begins_line(tokens, i) && ends_line(tokens, reader.position()))
            alone.push_back({*length, tokens[i].line});
        i = reader.position() - 1;
    }
    return said.empty() ? alone : said;
}

bool is_marks_word(std::string_view text) {
    return text == "mark" || text == "marks";
}

/// The total that these words begin, such as `total mark for this paper is 75` or `total: 75 marks`.
std::optional<int> total_from(const Tokens& tokens, std::size_t at) {
    bool of_marks = false;
    for (std::size_t i = at + 1; i < std::min(tokens.size(), at + 12); ++i) {
        const std::string& word = tokens[i].text;
        if (is_one_of(word, {"section", "question", "part", "each", "per", "time", "total"}))
            return std::nullopt;
        if (const auto number = read_whole_number(word, 9999)) {
            const bool is_worded = i + 1 < tokens.size() && is_marks_word(tokens[i + 1].text);
            const bool is_alone = i == at + 1 && ends_line(tokens, i + 1);
            return of_marks || is_worded || is_alone ? number : std::nullopt;
        }
        of_marks = of_marks || is_marks_word(word);
    }
    return std::nullopt;
}

/// `There are 75 marks`, or `Marks: 75` and `75 marks` alone on a line.
std::optional<int> plain_total(const Tokens& tokens, std::size_t at) {
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

std::vector<Stated<int>> totals_in(const Tokens& tokens) {
    std::vector<Stated<int>> totals;
    for (std::size_t i = 0; i < tokens.size(); ++i) {
        const bool is_anchor = is_one_of(tokens[i].text, {"total", "maximum", "max"});
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

} // namespace

Cover read_cover(const Layout& layout, std::size_t end) {
    Tokens tokens;
    for (std::size_t i = 0; i < std::min(end, most_lines); ++i)
        append_tokens(tokens, with_halves(lower_case(text_from_start(layout.lines[i], 40).text)), i);
    return {durations_in(tokens), totals_in(tokens)};
}

} // namespace inkturn::printed
