#include "inkturn/paper/paper.hpp"

#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"
#include "inkturn/base/text.hpp"
#include "inkturn/paper/codes.hpp"
#include "inkturn/paper/label.hpp"

#include <algorithm>
#include <numeric>

namespace inkturn {
namespace {

constexpr std::size_t max_id_length = 64;
constexpr std::size_t max_head_length = 200;
constexpr std::size_t max_group_length = 20;
constexpr std::size_t usual_parts = 4; ///< most questions have no more

void check_part(const Part& part) {
    if (part.max < Marks(1) || part.max > max_part_marks)
        throw Error("part " + part.label + ": a part has 1 to " + std::to_string(max_part_marks.count()) +
                    " marks, not " + std::to_string(part.max.count()));
    if (part.allowance && (*part.allowance < Seconds(1) || *part.allowance > std::chrono::hours(24)))
        throw Error("part " + part.label + ": a drawn part takes 1 second to a day");
    if (!part.topic.empty())
        check_printable(part.topic, max_head_length, "part " + part.label + ", topic");
    if (part.codes.empty())
        return;
    const Marks sum = marks_of_codes(part.codes);
    if (sum != part.max)
        throw Error("part " + part.label + ": the codes " + part.codes + " add up to " +
                    std::to_string(sum.count()) + ", but the part has " + std::to_string(part.max.count()));
}

std::vector<Question> each_part_alone(const std::vector<Part>& parts) {
    std::vector<Question> questions;
    for (std::size_t i = 0; i < parts.size(); ++i)
        questions.push_back({parts[i].label, {i}, parts[i].max});
    return questions;
}

std::vector<Question> parts_by_number(const std::vector<Part>& parts) {
    std::vector<Question> questions;
    for (std::size_t i = 0; i < parts.size(); ++i) {
        const std::string_view number = question_of(parts[i].label);
        auto question = std::find_if(questions.rbegin(), questions.rend(), [&](const Question& one) {
            return one.label == number;
        }); // mostly that of the part before
        if (question == questions.rend()) {
            questions.push_back({std::string(number), {}, Marks(0)});
            questions.back().parts.reserve(usual_parts);
            question = questions.rbegin();
        }
        question->parts.push_back(i);
        question->marks += parts[i].max;
    }
    return questions;
}

/// The choice of a question's parts.
const std::optional<QuestionChoice>& choice_of(const std::vector<Part>& parts, const Question& question) {
    const Part& first = parts[question.parts.front()];
    for (const std::size_t position : question.parts)
        if (parts[position].choice != first.choice)
            throw Error("question " + question.label + ": give all its parts the same choice, as " +
                        first.label + " and " + parts[position].label + " differ");
    return first.choice;
}

void check_choice(const ChoiceOfQuestions& choice) {
    const std::string which = "choice " + choice.choice.group + ": ";
    const Question& first = choice.questions.front();
    for (const Question& question : choice.questions)
        if (question.marks != first.marks)
            throw Error(which + "question " + first.label + " has " + std::to_string(first.marks.count()) +
                        " marks and question " + question.label + " " +
                        std::to_string(question.marks.count()) + ": they must be equal");
    if (choice.choice.count < 1 || choice.choice.count >= static_cast<int>(choice.questions.size()))
        throw Error(which + std::to_string(choice.choice.count) + " of " +
                    std::to_string(choice.questions.size()) +
                    (choice.questions.size() == 1 ? " question" : " questions") +
                    " can't be chosen: fewer must count than there are, and at least one");
}

std::vector<ChoiceOfQuestions> choices_among(const std::vector<Part>& parts) {
    std::vector<ChoiceOfQuestions> choices;
    if (std::none_of(parts.begin(), parts.end(), [](const Part& part) { return part.choice.has_value(); }))
        return choices;
    for (Question& question : parts_by_number(parts)) {
        const auto& choice = choice_of(parts, question);
        if (!choice)
            continue;
        const auto known = std::find_if(choices.begin(), choices.end(), [&](const ChoiceOfQuestions& other) {
            return other.choice.group == choice->group;
        });
        if (known == choices.end()) {
            choices.push_back({*choice, {std::move(question)}});
            continue;
        }
        if (known->choice.count != choice->count)
            throw Error("choice " + choice->group + ": " + std::to_string(known->choice.count) +
                        " count by question " + known->questions.front().label + ", " +
                        std::to_string(choice->count) + " by question " + question.label);
        known->questions.push_back(std::move(question));
    }
    std::for_each(choices.begin(), choices.end(), check_choice);
    return choices;
}

/// What one label names: a part, or else all that begin with it.
std::vector<std::size_t> named_by(const Paper& paper, std::string_view text) {
    const std::string label = parse_label(text);
    if (const auto part = paper.find_part(label))
        return {*part};
    std::vector<std::size_t> named;
    for (std::size_t i = 0; i < paper.parts().size(); ++i) {
        const std::string_view other = paper.parts()[i].label;
        if (question_of(other) == question_of(label) && other.substr(0, label.size()) == label)
            named.push_back(i);
    }
    if (named.empty())
        throw Error("paper " + paper.id() + " has no question or part " + label, Error::Kind::not_found,
                    Error::Remedy::show_paper, paper.id());
    return named;
}

} // namespace

std::string to_text(const QuestionChoice& choice) {
    return choice.group + " " + std::to_string(choice.count);
}

QuestionChoice parse_choice(std::string_view text) {
    const std::size_t blank = std::min(text.rfind(' '), text.size());
    const auto count =
        read_whole_number(text.substr(std::min(blank + 1, text.size())), static_cast<int>(Paper::max_parts));
    const std::string group(text.substr(0, std::min(text.find_last_not_of(' ', blank) + 1, blank)));
    if (group.empty() || !count || *count < 1)
        throw Error("choice '" + std::string(text) +
                    "': write a group and how many of its questions count, such as B 2");
    check_printable(group, max_group_length, "choice");
    return {group, *count};
}

std::string_view name(RetryBy by) noexcept {
    return by == RetryBy::question ? "question" : "part";
}

std::optional<RetryBy> retry_by_named(std::string_view name) noexcept {
    if (name == "question")
        return RetryBy::question;
    if (name == "part")
        return RetryBy::part;
    return std::nullopt;
}

std::vector<std::size_t> all_positions(const Paper& paper) {
    std::vector<std::size_t> positions(paper.parts().size());
    std::iota(positions.begin(), positions.end(), std::size_t{0});
    return positions;
}

std::vector<std::size_t> positions_named(const Paper& paper, std::string_view text) {
    std::vector<bool> is_named(paper.parts().size());
    for (std::string_view left = text;;) {
        const std::size_t comma = left.find(',');
        const std::string_view range = left.substr(0, comma);
        const std::size_t dash = range.find('-');
        const std::vector<std::size_t> from = named_by(paper, range.substr(0, dash));
        for (const std::size_t part : from)
            is_named[part] = true;
        const std::vector<std::size_t> to =
            dash == std::string_view::npos ? from : named_by(paper, range.substr(dash + 1));
        if (from.front() > to.back())
            throw Error(std::string(range.substr(0, dash)) + " comes after " +
                        std::string(range.substr(dash + 1)) + " in paper " + paper.id());
        for (std::size_t part = from.front(); dash != std::string_view::npos && part <= to.back(); ++part)
            is_named[part] = true;
        if (comma == std::string_view::npos)
            break;
        left.remove_prefix(comma + 1);
    }
    std::vector<std::size_t> positions;
    for (std::size_t i = 0; i < is_named.size(); ++i)
        if (is_named[i])
            positions.push_back(i);
    return positions;
}

GotAt got_at(const Paper& paper, const Part& part) {
    return part.got_at.value_or(paper.got_at().value_or(GotAt()));
}

Marks marks_lost(const Part& part, const PartMarks& marks) {
    return marks.counts() ? part.max - marks.unaided() : Marks(0);
}

bool is_missed(const Paper& paper, const Part& part, const PartMarks& marks) {
    const Marks unaided = marks.unaided();
    return marks.counts() && unaided < part.max &&
           unaided.count() * 100 < got_at(paper, part).percent() * part.max.count();
}

Paper completed(const Paper& paper, const Paper& other) {
    const auto stated = [](const std::string& here, const std::string& there) {
        return here.empty() ? there : here;
    };
    std::vector<Part> parts = paper.parts();
    for (Part& part : parts) {
        const auto position = other.find_part(part.label);
        if (!position || other.parts()[*position].max != part.max)
            continue;
        part.topic = stated(part.topic, other.parts()[*position].topic);
        part.codes = stated(part.codes, other.parts()[*position].codes);
        if (!part.got_at)
            part.got_at = other.parts()[*position].got_at;
    }
    return Paper({paper.id(), stated(paper.title(), other.title()), stated(paper.subject(), other.subject()),
                  paper.duration(), paper.retry_by(), paper.got_at() ? paper.got_at() : other.got_at(),
                  stated(paper.component(), other.component())},
                 std::move(parts));
}

void check_paper_id(std::string_view id) {
    const bool plain = std::all_of(id.begin(), id.end(), [](char c) {
        return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '.' || c == '_' || c == '-';
    });
    if (id.empty() || id.size() > max_id_length || !plain || id.front() == '-')
        throw Error("paper id '" + std::string(id) + "': use 1 to " + std::to_string(max_id_length) +
                    " lower-case letters, digits, '.', '_' and '-', not starting with '-'");
}

Paper::Paper(PaperHead head, std::vector<Part> parts) : head_(std::move(head)), parts_(std::move(parts)) {
    check_paper_id(head_.id);
    check_printable(head_.title, max_head_length, "title");
    check_printable(head_.subject, max_head_length, "subject");
    check_printable(head_.component, max_head_length, "component");
    if (head_.duration && (*head_.duration < Seconds(60) || *head_.duration > std::chrono::hours(24)))
        throw Error("paper " + head_.id + ": a stated duration is 1 to 1440 minutes");
    if (parts_.empty() || parts_.size() > max_parts)
        throw Error("paper " + head_.id + ": a paper has 1 to " + std::to_string(max_parts) + " parts, not " +
                    std::to_string(parts_.size()));
    part_positions_.reserve(parts_.size());
    for (std::size_t i = 0; i < parts_.size(); ++i) {
        parts_[i].label = parse_label(parts_[i].label);
        check_part(parts_[i]);
        if (!part_positions_.emplace(parts_[i].label, i).second)
            throw Error("part " + parts_[i].label + " appears twice: each part has one row");
        if (!parts_[i].choice)
            marks_ += parts_[i].max;
    }
    choices_ = choices_among(parts_);
    for (const ChoiceOfQuestions& choice : choices_)
        for (int i = 0; i < choice.choice.count; ++i)
            marks_ += choice.questions.front().marks;
    questions_ = head_.retry_by == RetryBy::part ? each_part_alone(parts_) : parts_by_number(parts_);
}

const Part& Paper::part(std::size_t position) const {
    if (position >= parts_.size())
        throw Error("paper " + head_.id + " has " + std::to_string(parts_.size()) + " parts",
                    Error::Kind::misused);
    return parts_[position];
}

const Question& Paper::question(std::size_t position) const {
    if (position >= questions_.size())
        throw Error("paper " + head_.id + " has " + std::to_string(questions_.size()) + " questions",
                    Error::Kind::misused);
    return questions_[position];
}

std::optional<std::size_t> Paper::find_part(std::string_view label) const {
    const auto found = part_positions_.find(std::string(label));
    if (found == part_positions_.end())
        return std::nullopt;
    return found->second;
}

std::optional<std::size_t> Paper::find_question(std::string_view label) const {
    const auto found = std::find_if(questions_.begin(), questions_.end(),
                                    [&](const Question& question) { return question.label == label; });
    if (found == questions_.end())
        return std::nullopt;
    return static_cast<std::size_t>(found - questions_.begin());
}

} // namespace inkturn
