#include "printed/part_words.hpp"

#include "inkturn/base/error.hpp"
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

bool is_printable(const std::string& word) {
    try {
        check_printable(word, PrintedPart::max_words, "word");
        return true;
    } catch (const Error&) {
        return false;
    }
}

/// Adds as many words as there is room for; false once there is none.
bool add_words(std::string& text, const std::vector<std::string>& words) {
    for (const std::string& word : words) {
        if (!is_printable(word))
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

/// Where the label after this one stands, or the question ends.
std::size_t end_of(const QuestionLabels& question, std::size_t label) {
    for (std::size_t next = label + 1; next < question.labels.size(); ++next)
        if (question.labels[next].line > question.labels[label].line)
            return question.labels[next].line;
    return question.end;
}

void read_words_of(PrintedPaper& paper, const Layout& layout, const QuestionLabels& question) {
    bool is_first = true;
    for (std::size_t i = 0; i < question.labels.size(); ++i) {
        const std::string& label = question.labels[i].label;
        const auto part = std::find_if(paper.parts.begin(), paper.parts.end(),
                                       [&](const PrintedPart& one) { return one.label == label; });
        if (part == paper.parts.end())
            continue;
        part->words = words_between(layout, is_first ? question.line : question.labels[i].line,
                                    end_of(question, i), label);
        is_first = false;
    }
}

} // namespace

void read_words(PrintedPaper& paper, const Layout& layout, const std::vector<QuestionLabels>& questions) {
    for (const QuestionLabels& question : questions)
        read_words_of(paper, layout, question);
}

} // namespace inkturn::printed
