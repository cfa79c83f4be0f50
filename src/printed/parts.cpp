#include "printed/parts.hpp"

#include "inkturn/base/number.hpp"

#include <algorithm>
#include <bitset>
#include <cmath>
#include <optional>
#include <set>
#include <string_view>
#include <utility>

namespace inkturn::printed {
namespace {

std::string not_found_before(const std::string& above, const std::string& part, const std::string& next) {
    return "part " + above + part + " was not found before part " + above + next;
}

enum class Kind : unsigned char { letter, roman };

/// A sub-part's letters at a line's start.
struct LetterToken {
    std::size_t line;
    std::string letters;
    LetterStyle style;
    Points left;
    Points right;
    Points line_left; ///< a scheme may have `1 (a)` and `(b)` below it at one edge
    bool follows;
    double worth;
    bool leads; ///< another label after it on the same line
    std::optional<int> letter{};
    std::optional<int> roman{};
};
using Tokens = std::vector<LetterToken>;

/// How likely letters in brackets are to be a label and not a word of the text.
double worth_of_letters(const Starts& starts, std::size_t line) {
    const std::string& rest = starts.label(line).rest;
    double worth = starts.follow_marks[line] ? 0.5 : 0;
    for (const std::string_view word : {"and ", "or ", "to ", "is ", "are ", "of ", "above", "for "})
        if (std::string_view(rest).substr(0, word.size()) == word)
            return worth - 1;
    if (!rest.empty() && rest.front() >= 'a' && rest.front() <= 'z')
        worth -= 0.3;
    return worth;
}

/// `(i)` is the ninth letter only where `(h)` comes before it and no `(ii)` comes next; `(v)` and `(x)`
/// likewise. `(2)` may be either kind, where the other one doesn't come before it.
void set_numbers(Tokens& tokens) {
    std::bitset<27> met;
    bool romans_met = false;
    for (std::size_t i = 0; i < tokens.size(); ++i) {
        LetterToken& token = tokens[i];
        if (token.style == LetterStyle::counted) {
            const auto number = read_whole_number(token.letters, 20);
            token.letter = met.any() ? std::nullopt : number;
            token.roman = romans_met && met.none() ? std::nullopt : number;
            continue;
        }
        token.roman = roman_number(token.letters);
        const auto letter = letter_number(token.letters);
        romans_met = romans_met || token.roman;
        const bool goes_on =
            token.roman && i + 1 < tokens.size() && roman_number(tokens[i + 1].letters) == *token.roman + 1;
        if (!letter || (token.roman && (!met[static_cast<std::size_t>(*letter - 1)] || goes_on)))
            continue;
        token.letter = letter;
        met.set(static_cast<std::size_t>(*letter));
    }
}

Tokens tokens_of(const Starts& starts, const QuestionLabels& question) {
    const auto& own = starts.label(question.line).number;
    Tokens tokens;
    for (std::size_t line = question.line; line < question.end; ++line) {
        const PrintedLabel& read = starts.label(line);
        const bool goes_on = !read.number || !own ||
                             (read.number->number == own->number && read.number->section == own->section);
        if (!goes_on)
            continue;
        for (const PrintedSubPart& sub_part : read.sub_parts) {
            if (!own && sub_part.style == LetterStyle::counted)
                continue; // questions are numbered so
            tokens.push_back({line, sub_part.letters, sub_part.style, sub_part.left - starts.shift_of(line),
                              sub_part.right - starts.shift_of(line),
                              starts.layout.lines[line].box.left - starts.shift_of(line), sub_part.follows,
                              worth_of_letters(starts, line), &sub_part != &read.sub_parts.back()});
        }
    }
    set_numbers(tokens);
    return tokens;
}

std::optional<int> number_of(const LetterToken& token, Kind kind) {
    return kind == Kind::letter ? token.letter : token.roman;
}

std::string letters_of(int number, Kind kind) {
    if (kind == Kind::letter)
        return std::string(1, static_cast<char>('a' + number - 1));
    return std::string(roman_letters(number));
}

/// The short form's letters.
std::string letters_of(const LetterToken& token, Kind kind) {
    return letters_of(number_of(token, kind).value(), kind);
}

/// Tokens of one kind that are labels one after another.
struct LetterRun {
    Kind kind;
    std::vector<std::size_t> tokens; ///< positions
    std::vector<std::size_t> others; ///< of the kind, not in the run
    double worth;
};

class SubParts {
  public:
    SubParts(const Starts& starts, QuestionLabels& question, Tokens tokens, std::vector<Doubt>& doubts)
        : starts_(starts), question_(question), doubts_(doubts), tokens_(std::move(tokens)) {}

    void find() {
        const Kind kind = upper_kind();
        const LetterRun upper = run(kind, 0, tokens_.size(), question_.end);
        if (is_list(upper, question_.end))
            question_.letters_unread = static_cast<int>(upper.tokens.size());
        if (!is_sound(upper, question_.end)) {
            doubt_first(upper, question_.label);
            return;
        }
        question_.labels.front().has_sub_parts = true;
        doubt(upper, question_.label);
        for (std::size_t i = 0; i < upper.tokens.size(); ++i)
            add(upper, i);
    }

  private:
    static Kind other(Kind kind) { return kind == Kind::letter ? Kind::roman : Kind::letter; }

    /// The kind that comes first in the question has the other under it.
    Kind upper_kind() const {
        for (const LetterToken& token : tokens_) {
            if (token.letter == 1)
                return Kind::letter;
            if (token.roman == 1)
                return Kind::roman;
        }
        return Kind::letter;
    }

    LetterRun run(Kind kind, std::size_t first, std::size_t end, std::size_t end_line) const {
        std::vector<Rung> rungs;
        std::vector<std::size_t> positions;
        for (std::size_t i = first; i < end; ++i) {
            const auto number = number_of(tokens_[i], kind);
            if (!number)
                continue;
            const LetterToken& token = tokens_[i];
            Rung rung{token.line, std::nullopt, *number, token.left, token.right, token.line_left};
            rung.style = static_cast<int>(token.style);
            rung.worth = token.worth;
            rungs.push_back(rung);
            positions.push_back(i);
        }
        const Chain chain = best_chain(rungs, starts_.marks, end_line);
        LetterRun run{kind, {}, {}, chain.worth};
        for (std::size_t i = 0; i < positions.size(); ++i)
            (std::binary_search(chain.rungs.begin(), chain.rungs.end(), i) ? run.tokens : run.others)
                .push_back(positions[i]);
        return run;
    }

    /// Whether none of the labels, or only the last of three or more, has marks.
    bool is_list(const LetterRun& run, std::size_t end_line) const {
        for (std::size_t i = 0; i < run.tokens.size(); ++i) {
            const bool is_last = i + 1 == run.tokens.size();
            const std::size_t next = is_last ? end_line : tokens_[run.tokens[i + 1]].line;
            if (starts_.marks[next] == starts_.marks[tokens_[run.tokens[i]].line])
                continue;
            if (!is_last || run.tokens.size() < 3)
                return false;
        }
        return !run.tokens.empty();
    }

    /// A single label is believed if it is beside another label, or where its text begins as one.
    bool is_sound(const LetterRun& run, std::size_t end_line) const {
        if (is_list(run, end_line))
            return false;
        if (run.tokens.size() != 1)
            return run.worth > 0 && !run.tokens.empty();
        const LetterToken& token = tokens_[run.tokens.front()];
        return run.worth > 0 && number_of(token, run.kind) == 1 &&
               (token.follows || token.leads || token.worth >= 0);
    }

    void add(const LetterRun& upper, std::size_t i) {
        const std::size_t token = upper.tokens[i];
        const bool is_last = i + 1 == upper.tokens.size();
        const std::size_t end = is_last ? tokens_.size() : upper.tokens[i + 1];
        const std::string label = question_.label + letters_of(tokens_[token], upper.kind);
        const std::size_t end_line = is_last ? question_.end : tokens_[end].line;
        const LetterRun lower = run(other(upper.kind), token + 1, end, end_line);
        const bool has_sub_parts = is_sound(lower, end_line);
        question_.labels.push_back({label, tokens_[token].line, has_sub_parts});
        if (!has_sub_parts) {
            doubt_first(lower, label);
            return;
        }
        doubt(lower, label);
        for (const std::size_t under : lower.tokens)
            question_.labels.push_back({label + letters_of(tokens_[under], lower.kind), tokens_[under].line});
    }

    std::size_t page_of(std::size_t token) const {
        return starts_.layout.page_of(starts_.layout.lines[tokens_[token].line]);
    }

    /// A second label after marks without a first one.
    void doubt_first(const LetterRun& run, const std::string& above) {
        if (run.tokens.empty())
            return;
        const LetterToken& token = tokens_[run.tokens.front()];
        if (number_of(token, run.kind) == 2 && token.style == LetterStyle::bracketed &&
            starts_.follow_marks[token.line] && token.worth > 0)
            doubts_.push_back({page_of(run.tokens.front()),
                               not_found_before(above, letters_of(1, run.kind), letters_of(2, run.kind))});
    }

    void doubt(const LetterRun& run, const std::string& above) {
        int expected = 1;
        for (const std::size_t token : run.tokens) {
            const int number = number_of(tokens_[token], run.kind).value();
            for (; expected < number; ++expected)
                doubts_.push_back({page_of(token), not_found_before(above, letters_of(expected, run.kind),
                                                                    letters_of(tokens_[token], run.kind))});
            expected = number + 1;
        }
        if (run.tokens.size() == 1)
            doubts_.push_back({page_of(run.tokens.front()),
                               "part " + above + letters_of(tokens_[run.tokens.front()], run.kind) +
                                   " is on its own: no part follows it"});
        for (const std::size_t token : run.others)
            if (tokens_[token].worth >= 0.5 && !tokens_[token].leads &&
                tokens_[token].style == tokens_[run.tokens.front()].style)
                doubts_.push_back({page_of(token), "(" + tokens_[token].letters +
                                                       ") is printed more than once where a part of " +
                                                       above + " could begin"});
    }

    const Starts& starts_;
    QuestionLabels& question_;
    std::vector<Doubt>& doubts_;
    Tokens tokens_;
};

} // namespace

void recognise_sub_parts(const Starts& starts, std::vector<QuestionLabels>& questions,
                         std::vector<Doubt>& doubts) {
    for (QuestionLabels& question : questions) {
        const Tokens all = tokens_of(starts, question);
        const std::size_t before = doubts.size();
        SubParts(starts, question, all, doubts).find();
        for (std::size_t i = before; i < doubts.size(); ++i)
            doubts[i].question = question.label;
        question.has_unread_after_marks = std::any_of(all.begin(), all.end(), [&](const LetterToken& token) {
            return token.style != LetterStyle::bare && !token.follows && starts.follow_marks[token.line] &&
                   std::none_of(question.labels.begin(), question.labels.end(),
                                [&](const LabelOnLine& label) { return label.line == token.line; });
        });
    }
}

} // namespace inkturn::printed
