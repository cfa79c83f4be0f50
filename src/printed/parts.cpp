#include "printed/parts.hpp"

#include "inkturn/base/number.hpp"
#include "printed/text_reader.hpp"

#include <algorithm>
#include <bitset>
#include <cmath>
#include <optional>
#include <set>
#include <string_view>
#include <utility>

namespace inkturn::printed {
namespace {

enum class Kind : unsigned char { letter, roman };

/// A sub-part's letters at a line's start.
struct LetterToken {
    Rung rung; ///< without its number
    const PrintedSubPart* read;
    bool leads; ///< another label after it on the same line
    std::optional<int> letter{};
    std::optional<int> roman{};
};
using Tokens = std::vector<LetterToken>;

/// How likely letters in brackets are to be a label and not a word of the text.
double worth_of_letters(const Starts& starts, std::size_t line) {
    const std::string& rest = starts.label(line).rest;
    const double worth = starts.follow_marks[line] ? 0.5 : 0;
    if (begins_with_one(rest, {"and ", "or ", "to ", "is ", "are ", "of ", "above", "for "}))
        return worth - 1;
    return !rest.empty() && is_lower(rest.front()) ? worth - 0.3 : worth;
}

/// `(i)` is the ninth letter only where `(h)` comes before it and no `(ii)` comes next; `(v)` and `(x)`
/// likewise. `(2)` may be either kind, where the other one doesn't come before it.
void set_numbers(Tokens& tokens) {
    std::bitset<27> met;
    bool romans_met = false;
    for (std::size_t i = 0; i < tokens.size(); ++i) {
        LetterToken& token = tokens[i];
        if (token.read->style == LetterStyle::counted) {
            const auto number = read_whole_number(token.read->letters, 20);
            token.letter = met.any() ? std::nullopt : number;
            token.roman = romans_met && met.none() ? std::nullopt : number;
            continue;
        }
        token.roman = roman_number(token.read->letters);
        const auto letter = letter_number(token.read->letters);
        romans_met = romans_met || token.roman;
        const bool goes_on = token.roman && i + 1 < tokens.size() &&
                             roman_number(tokens[i + 1].read->letters) == *token.roman + 1;
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
        if (read.number && own &&
            (read.number->number != own->number || read.number->section != own->section))
            continue;
        for (const PrintedSubPart& sub_part : read.sub_parts) {
            if (!own && sub_part.style == LetterStyle::counted)
                continue; // questions are numbered so
            Rung rung = starts.rung(line, sub_part.left, sub_part.right, starts.layout.lines[line].box.left);
            rung.style = static_cast<int>(sub_part.style);
            rung.worth = worth_of_letters(starts, line);
            rung.token = tokens.size();
            tokens.push_back({rung, &sub_part, &sub_part != &read.sub_parts.back()});
        }
    }
    set_numbers(tokens);
    return tokens;
}

std::string letters_of(int number, Kind kind) {
    if (kind == Kind::letter)
        return std::string(1, static_cast<char>('a' + number - 1));
    return std::string(roman_letters(number));
}

class SubParts {
  public:
    SubParts(const Starts& starts, QuestionLabels& question, const Tokens& tokens, std::vector<Doubt>& doubts)
        : starts_(starts), question_(question), tokens_(tokens), doubts_(doubts) {}

    void find() { find(upper_kind(), 0, 0, tokens_.size(), question_.end); }

  private:
    /// The kind that comes first in the question has the other under it.
    Kind upper_kind() const {
        const auto first = std::find_if(tokens_.begin(), tokens_.end(), [](const LetterToken& token) {
            return token.letter == 1 || token.roman == 1;
        });
        return first == tokens_.end() || first->letter == 1 ? Kind::letter : Kind::roman;
    }

    /// The labels of a kind among some tokens, under the label at a position.
    void find(Kind kind, std::size_t under, std::size_t first, std::size_t end, std::size_t end_line) {
        const std::string above = question_.labels[under].label;
        const Chain chain = chain_of(kind, first, end, end_line);
        if (under == 0 && is_list(chain))
            question_.letters_unread = static_cast<int>(chain.rungs.size());
        if (!is_sound(chain)) {
            doubt_first(chain, kind, above);
            return;
        }
        question_.labels[under].has_sub_parts = true;
        doubt(chain, kind, above);
        for (std::size_t i = 0; i < chain.rungs.size(); ++i) {
            const Rung& rung = chain.rungs[i];
            question_.labels.push_back({above + letters_of(rung.number, kind), rung.line});
            if (under == 0)
                find(kind == Kind::letter ? Kind::roman : Kind::letter, question_.labels.size() - 1,
                     rung.token + 1, i + 1 < chain.rungs.size() ? chain.rungs[i + 1].token : tokens_.size(),
                     chain.end_of(i));
        }
    }

    Chain chain_of(Kind kind, std::size_t first, std::size_t end, std::size_t end_line) const {
        std::vector<Rung> rungs;
        for (std::size_t i = first; i < end; ++i)
            if (const auto number = kind == Kind::letter ? tokens_[i].letter : tokens_[i].roman) {
                rungs.push_back(tokens_[i].rung);
                rungs.back().number = *number;
            }
        return best_chain(rungs, starts_.marks, end_line);
    }

    /// Whether none of the labels, or only the last of three or more, has marks.
    bool is_list(const Chain& chain) const {
        const std::size_t count = chain.rungs.size();
        for (std::size_t i = 0; i < count; ++i)
            if (chain.has_marks(starts_.marks, i) && (i + 1 < count || count < 3))
                return false;
        return count > 0;
    }

    /// A single label is believed if it is beside another label, or where its text begins as one.
    bool is_sound(const Chain& chain) const {
        if (chain.rungs.empty() || chain.worth <= 0 || is_list(chain))
            return false;
        const Rung& first = chain.rungs.front();
        const LetterToken& token = tokens_[first.token];
        return chain.rungs.size() > 1 ||
               (first.number == 1 && (token.read->follows || token.leads || first.worth >= 0));
    }

    void doubt(const Rung& at, std::string message) {
        doubts_.push_back({starts_.layout.page_of(at.line), std::move(message), question_.label});
    }

    void doubt_missing(const Rung& before, int number, Kind kind, const std::string& above) {
        doubt(before, "part " + above + letters_of(number, kind) + " was not found before part " + above +
                          letters_of(before.number, kind));
    }

    /// A second label after marks without a first one.
    void doubt_first(const Chain& chain, Kind kind, const std::string& above) {
        if (chain.rungs.empty())
            return;
        const Rung& first = chain.rungs.front();
        if (first.number == 2 && tokens_[first.token].read->style == LetterStyle::bracketed &&
            starts_.follow_marks[first.line] && first.worth > 0)
            doubt_missing(first, 1, kind, above);
    }

    void doubt(const Chain& chain, Kind kind, const std::string& above) {
        for (const Gap& gap : gaps_in(chain))
            for (int number = gap.first; number <= gap.last; ++number)
                doubt_missing(gap.before, number, kind, above);
        const Rung& first = chain.rungs.front();
        if (chain.rungs.size() == 1)
            doubt(first,
                  "part " + above + letters_of(first.number, kind) + " is on its own: no part follows it");
        for (const Rung& rung : chain.others)
            if (rung.worth >= 0.5 && !tokens_[rung.token].leads && rung.style == first.style)
                doubt(rung, "(" + tokens_[rung.token].read->letters +
                                ") is printed more than once where a part of " + above + " could begin");
    }

    const Starts& starts_;
    QuestionLabels& question_;
    const Tokens& tokens_;
    std::vector<Doubt>& doubts_;
};

} // namespace

void recognise_sub_parts(const Starts& starts, std::vector<QuestionLabels>& questions,
                         std::vector<Doubt>& doubts) {
    for (QuestionLabels& question : questions) {
        const Tokens all = tokens_of(starts, question);
        SubParts(starts, question, all, doubts).find();
        question.has_unread_after_marks = std::any_of(all.begin(), all.end(), [&](const LetterToken& token) {
            return token.read->style != LetterStyle::bare && !token.read->follows &&
                   starts.follow_marks[token.rung.line] &&
                   std::none_of(question.labels.begin(), question.labels.end(),
                                [&](const LabelOnLine& label) { return label.line == token.rung.line; });
        });
    }
}

} // namespace inkturn::printed
