#include "inkturn/paper/paper.hpp"

#include "inkturn/base/error.hpp"
#include "inkturn/base/text.hpp"
#include "inkturn/paper/codes.hpp"
#include "inkturn/paper/label.hpp"

#include <algorithm>
#include <numeric>

namespace inkturn {
namespace {

constexpr std::size_t max_id_length = 64;
constexpr std::size_t max_head_length = 200;

void check_part(const Part& part) {
    if (part.max < Marks(1) || part.max > max_part_marks)
        throw Error("part " + part.label + ": a part has 1 to " + std::to_string(max_part_marks.count()) +
                    " marks, not " + std::to_string(part.max.count()));
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
    std::unordered_map<std::string_view, std::size_t> positions;
    for (std::size_t i = 0; i < parts.size(); ++i) {
        const std::string_view number = question_of(parts[i].label);
        const auto [found, is_new] = positions.try_emplace(number, questions.size());
        if (is_new)
            questions.push_back({std::string(number), {}, Marks(0)});
        Question& question = questions[found->second];
        question.parts.push_back(i);
        question.marks += parts[i].max;
    }
    return questions;
}

} // namespace

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

GotAt got_at(const Paper& paper, const Part& part) {
    return part.got_at.value_or(paper.got_at().value_or(GotAt()));
}

bool is_missed(const Paper& paper, const Part& part, const PartMarks& marks) {
    const Marks unaided = marks.unaided();
    return unaided < part.max && unaided.count() * 100 < got_at(paper, part).percent() * part.max.count();
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
                  paper.duration(), paper.retry_by(), paper.got_at() ? paper.got_at() : other.got_at()},
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
    if (head_.duration && (*head_.duration < Seconds(60) || *head_.duration > std::chrono::hours(24)))
        throw Error("paper " + head_.id + ": a stated duration is 1 to 1440 minutes");
    if (parts_.empty() || parts_.size() > max_parts)
        throw Error("paper " + head_.id + ": a paper has 1 to " + std::to_string(max_parts) + " parts, not " +
                    std::to_string(parts_.size()));
    for (std::size_t i = 0; i < parts_.size(); ++i) {
        parts_[i].label = parse_label(parts_[i].label);
        check_part(parts_[i]);
        if (!part_positions_.emplace(parts_[i].label, i).second)
            throw Error("part " + parts_[i].label + " appears twice: each part has one row");
        marks_ += parts_[i].max;
    }
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
