#include "inkturn/paper/noted_entries.hpp"

#include "inkturn/base/error.hpp"
#include "inkturn/paper/label.hpp"

#include <algorithm>

namespace inkturn {
namespace {

bool is_word_letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || static_cast<unsigned char>(c) >= 0x80;
}

bool has_blank(std::string_view word) {
    return word.find(' ') != std::string_view::npos;
}

bool names_part(std::string_view word) {
    const std::size_t equals = word.find('=');
    return equals != std::string_view::npos && read_label(word.substr(0, equals));
}

/// A part and its marks without the `=` between them, as in `7b 2+1`.
bool is_part_and_marks(std::string_view word) {
    const std::size_t blank = word.find(' ');
    return blank != std::string_view::npos && read_label(word.substr(0, blank)) && blank + 1 < word.size() &&
           (word[blank + 1] == '-' || (word[blank + 1] >= '0' && word[blank + 1] <= '9'));
}

bool is_single_word(std::string_view word) {
    return word.size() > 1 && std::all_of(word.begin(), word.end(), is_word_letter) && !read_label(word);
}

bool is_note(std::string_view word, const std::vector<Entry>& before) {
    if (names_part(word))
        return false;
    if (has_blank(word))
        return !read_label(word) && !is_part_and_marks(word);
    return !before.empty() && before.back().marks.find(':') != std::string::npos && is_single_word(word);
}

[[noreturn]] void refuse_single_word(const std::string& word, const std::string& part) {
    std::string why = "'" + word + "': write PART=MARKS, or, if it is a note, --note ";
    throw Error(why.append(part).append(1, '=').append(word));
}

void put_note(Notes& notes, const std::string& part, const std::string& text) {
    if (!text.empty())
        check_note(part, text);
    if (!notes.emplace(part, text).second)
        throw Error("part " + part + " has two notes; put all of a note into one pair of quotes");
}

} // namespace

NotedEntries parse_noted_entries(const std::vector<std::string>& words) {
    NotedEntries typed;
    for (const std::string& word : words) {
        if (!is_note(word, typed.entries)) {
            if (!typed.entries.empty() && is_single_word(word))
                refuse_single_word(word, typed.entries.back().part);
            typed.entries.push_back(parse_entry(word));
            continue;
        }
        if (typed.entries.empty())
            throw Error("'" + word + "' is a note, which comes after the marks of its part");
        put_note(typed.notes, typed.entries.back().part, word);
    }
    return typed;
}

bool may_be_entry(std::string_view text) {
    const std::string_view marks = text.substr(0, text.find(':'));
    return names_part(text) || is_part_and_marks(text) || (!has_blank(text) && read_label(text)) ||
           (!marks.empty() && marks.find_first_not_of("0123456789+-") == std::string_view::npos);
}

void add_note(Notes& notes, std::string_view typed) {
    const std::size_t equals = typed.find('=');
    if (equals == std::string_view::npos)
        throw Error("note '" + std::string(typed) + "': write PART=TEXT, such as 7b='sign of cos'");
    put_note(notes, parse_label(typed.substr(0, equals)), std::string(typed.substr(equals + 1)));
}

} // namespace inkturn
