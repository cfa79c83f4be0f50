#include "cli/class/row_of_marks.hpp"

#include "cli/desk/mark_answers.hpp"

#include "inkturn/base/error.hpp"
#include "view/text/text.hpp"

#include <sstream>

namespace inkturn {

std::vector<std::string> words_in(std::string_view line) {
    std::istringstream words{std::string(line)};
    std::vector<std::string> all;
    for (std::string word; words >> word;)
        all.push_back(word);
    return all;
}

RowOfMarks::RowOfMarks(const Paper& paper, const std::optional<std::vector<std::size_t>>& set)
    : paper_(paper), set_(set), places_(set ? *set : all_positions(paper)) {}

const Part& RowOfMarks::next_part() const {
    return paper_.part(places_.at(typed_.size()));
}

void RowOfMarks::take(const std::vector<std::string>& words) {
    if (words.size() > parts_left())
        throw Error(std::to_string(words.size()) + " marks for " + count_text(parts_left(), "part") +
                    ", from " + next_part().label + " on: type the line again");
    for (const std::string& word : words)
        take_one(word);
}

void RowOfMarks::take_one(const std::string& word) {
    const Part& part = next_part();
    const bool is_full = word_of(word) == AnswerWord::full;
    const std::string text = is_full ? std::to_string(part.max.count()) : word;
    try {
        read_marks(text, part, Phase::in_time);
    } catch (const Error& error) {
        throw Error("part " + part.label + " of " + std::to_string(part.max.count()) + ", '" + word +
                    "': " + error.what());
    }
    typed_.push_back({part.label, text, std::nullopt});
}

bool RowOfMarks::step_back() {
    if (typed_.empty())
        return false;
    typed_.pop_back();
    return true;
}

std::vector<std::string> RowOfMarks::doubtful_codes() const {
    if (typed_.empty() || !is_coded(typed_.back().marks))
        return {};
    const Part& part = paper_.part(places_[typed_.size() - 1]);
    const PartMarks marks = read_marks(typed_.back().marks, part, Phase::in_time);
    return marks.by_code() ? accuracy_without_method(part, *marks.by_code()) : std::vector<std::string>{};
}

std::vector<PartMarks> RowOfMarks::marks() const {
    return marks_from_entries(paper_, typed_, std::nullopt, set_);
}

} // namespace inkturn
