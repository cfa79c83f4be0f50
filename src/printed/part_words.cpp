#include "printed/part_words.hpp"

#include "inkturn/base/text.hpp"
#include "inkturn/base/utf8.hpp"
#include "printed/text_reader.hpp"

#include <algorithm>
#include <string>

namespace inkturn::printed {
namespace {

/// The words that a line has after a label, each piece of which may stand there once.
std::vector<std::string> words_after(const Line& line, std::string label) {
    std::vector<std::string> words;
    for (const PrintedWord* const word : line.words) {
        const std::string piece = letters_and_digits(word->text);
        const std::size_t place = label.find(piece);
        if (!words.empty() || label.empty() || place == std::string::npos)
            words.push_back(word->text);
        else if (!piece.empty())
            label.erase(0, place + piece.size());
    }
    return words;
}

/// Adds as many words as there is room for; false once there is none.
bool add_words(std::string& text, const std::vector<std::string>& words) {
    for (const std::string& word : words) {
        if (has_control_character(word) || character_count(word) > PrintedPart::max_words)
            continue;
        if (character_count(text) + character_count(word) + 1 > PrintedPart::max_words)
            return false;
        text += (text.empty() ? "" : " ") + word;
    }
    return true;
}

std::string words_between(const Layout& layout, std::size_t line, std::size_t end, const std::string& label) {
    std::string text;
    for (bool has_room = true; has_room && line < std::min(end, layout.lines.size()); ++line)
        if (!is_answer_line(layout.lines[line]))
            has_room = add_words(text, words_after(layout.lines[line], text.empty() ? label : ""));
    return text;
}

} // namespace

void read_words(PrintedPaper& paper, const Layout& layout, const std::vector<QuestionLabels>& questions) {
    for (const QuestionLabels& question : questions) {
        bool is_first = true;
        for (std::size_t i = 0; i < question.labels.size(); ++i) {
            const auto& [label, line, has_sub_parts] = question.labels[i];
            const auto part = find_label(paper.parts, label) - paper.parts.cbegin();
            if (part == static_cast<std::ptrdiff_t>(paper.parts.size()))
                continue;
            paper.parts[static_cast<std::size_t>(part)].words =
                words_between(layout, is_first ? question.line : line, question.end_of(i), label);
            is_first = false;
        }
    }
}

} // namespace inkturn::printed
