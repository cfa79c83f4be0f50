#pragma once

#include "inkturn/base/time.hpp"
#include "inkturn/paper/got_at.hpp"
#include "inkturn/paper/marks.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

namespace inkturn {

/// A group of questions of which any so many count.
struct QuestionChoice {
    std::string group;
    int count; ///< of its questions count: 1 or more, fewer than there are

    friend bool operator==(const QuestionChoice& a, const QuestionChoice& b) {
        return a.group == b.group && a.count == b.count;
    }
    friend bool operator!=(const QuestionChoice& a, const QuestionChoice& b) { return !(a == b); }
};

/// `B 2`: the group, then how many count. parse_choice() throws Error.
std::string to_text(const QuestionChoice& choice);
QuestionChoice parse_choice(std::string_view text);

/// One marked piece of a paper.
struct Part {
    std::string label; ///< short form, see label.hpp
    Marks max;         ///< 1 to max_part_marks
    std::string topic; ///< empty: none stated
    std::string
        codes; ///< the mark scheme's, such as `M1 A1 B1`, adding up to max, see codes.hpp; empty: none stated
    std::optional<GotAt> got_at{}; ///< nothing: the paper's
    std::optional<QuestionChoice>
        choice{}; ///< alike for all parts of a question; nothing: its marks always count
    std::optional<Seconds>
        allowance{}; ///< of a drawn part, by its source's rule, 1 s to a day; nothing: by its marks
};

/// The parts that share a leading number, or one part alone where the paper retries by part: what one
/// retry asks for.
struct Question {
    std::string label;
    std::vector<std::size_t> parts; ///< positions in Paper::parts(), ascending
    Marks marks;
};

/// What a choice is made from.
struct ChoiceOfQuestions {
    QuestionChoice choice;
    std::vector<Question> questions; ///< of equal marks, by number even where the paper retries by part
};

enum class RetryBy : std::uint8_t { question, part };

std::string_view name(RetryBy by) noexcept;
std::optional<RetryBy> retry_by_named(std::string_view name) noexcept;

/// What is known of a paper besides its parts.
struct PaperHead {
    std::string id;                  ///< lower-case letters, digits, `.`, `_`, `-`
    std::string title;               ///< empty: none
    std::string subject;             ///< empty: none
    std::optional<Seconds> duration; ///< as the paper states it; nothing: the rule of 72 s a mark
    RetryBy retry_by = RetryBy::question;
    std::optional<GotAt> got_at{}; ///< nothing: a part is got with all of its marks
    std::string component{};       ///< of an award, see award.hpp; empty: none
};

/// A list of parts with marks, checked: 1 to 500 parts, labels unique, no part without marks, codes that
/// add up, choices between questions of equal marks. It does not change once it is made.
class Paper {
  public:
    static constexpr std::size_t max_parts = 500;

    /// Labels may come in any form that read_label() takes. Throws Error.
    Paper(PaperHead head, std::vector<Part> parts);

    const PaperHead& head() const { return head_; }
    const std::string& id() const { return head_.id; }
    const std::string& title() const { return head_.title; }
    const std::string& subject() const { return head_.subject; }
    std::optional<Seconds> duration() const { return head_.duration; }
    RetryBy retry_by() const { return head_.retry_by; }
    std::optional<GotAt> got_at() const { return head_.got_at; }
    const std::string& component() const { return head_.component; }

    const std::vector<Part>& parts() const { return parts_; }
    /// What counts in a sitting of the whole paper: of a choice, as many of its questions as count.
    Marks marks() const { return marks_; }
    const std::vector<ChoiceOfQuestions>& choices() const { return choices_; } ///< by first question

    /// What retries of this paper ask for, in the order of their first parts.
    const std::vector<Question>& questions() const { return questions_; }

    /// The one at this position. Throws Error where there is none.
    const Part& part(std::size_t position) const;
    const Question& question(std::size_t position) const;

    /// The position of the part with this short label.
    std::optional<std::size_t> find_part(std::string_view label) const;
    /// The position in questions() of the one with this label.
    std::optional<std::size_t> find_question(std::string_view label) const;

  private:
    PaperHead head_;
    std::vector<Part> parts_;
    std::vector<Question> questions_;
    std::vector<ChoiceOfQuestions> choices_;
    std::unordered_map<std::string, std::size_t> part_positions_;
    Marks marks_;
};

/// The positions of all its parts, ascending.
std::vector<std::size_t> all_positions(const Paper& paper);

/// The positions of the parts that the text names, ascending: parts, questions and ranges of them, joined by
/// commas (`1-3,7`, `2a`, `4b-6`). Throws Error.
std::vector<std::size_t> positions_named(const Paper& paper, std::string_view text);

/// The share from which a part of the paper counts as got: the part's own, else the paper's, else all of it.
GotAt got_at(const Paper& paper, const Part& part);

/// Unaided marks short of the part's maximum; none where it doesn't count.
Marks marks_lost(const Part& part, const PartMarks& marks);

/// Whether a part counts and its unaided marks are below that share. A part of a paper marked by levels may
/// lose marks and not be missed.
bool is_missed(const Paper& paper, const Part& part, const PartMarks& marks);

/// The paper with any title, subject, component, topics, codes and shares got at that it leaves unstated
/// taken from another paper, part by part.
Paper completed(const Paper& paper, const Paper& other);

/// Throws Error where the text can't be a paper's id.
void check_paper_id(std::string_view id);

} // namespace inkturn
