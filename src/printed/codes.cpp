#include "printed/codes.hpp"

#include "printed/text_reader.hpp"

#include <string_view>

namespace inkturn::printed {
namespace {

constexpr double column_from = 0.35; // of the page's width: codes are to the right of the answers
constexpr std::size_t max_code_word_length = 24;
constexpr std::size_t max_letters_before = 3;
constexpr std::size_t max_letters_after = 4;

/// The codes joined in a word, such as M1 and A1 of `M1A1`; none where anything else is in it.
std::vector<std::string> codes_in(const std::string& text) {
    std::vector<std::string> codes;
    for (TextReader reader(text); !reader.at_end();) {
        std::string code(reader.take_while(is_lower));
        const std::string_view capitals = reader.take_while(is_upper);
        const std::string_view digits = reader.take_while(is_digit);
        const bool is_code = !capitals.empty() && capitals.back() != 'Q' && capitals.back() != 'O' &&
                             code.size() + capitals.size() <= max_letters_before && !digits.empty() &&
                             digits.size() <= 2 && digits.front() != '0';
        std::size_t letters_after = 0;
        code.append(capitals).append(digits);
        for (; is_lower(reader.at()) && !(reader.at() == 'd' && (reader.at(1) == 'M' || reader.at(1) == 'A'));
             ++letters_after)
            code += reader.take_while(is_lower, 1);
        if (!is_code || letters_after > max_letters_after)
            return {};
        codes.push_back(std::move(code));
    }
    return codes;
}

/// Codes side by side in a line.
struct Group {
    LineCodes read;
    bool stands_alone; ///< no text right after it, as there is in notes: `M1 for a sketch`
};

std::vector<Group> groups_of(const Line& line, std::size_t at, Points from) {
    std::vector<Group> groups;
    bool is_open = false;
    for (std::size_t i = 0; i < line.words.size(); ++i) {
        const std::string& word = line.words[i]->text;
        const std::string text = word.size() > max_code_word_length ? "" : letters_and_digits(word);
        const bool is_near = i > 0 && gap_before(line, i) < 2 * line.height;
        if (is_open && is_near && is_one_of(text, {"ft", "cao", "cso", "oe", "dep", "isw"})) {
            std::string& code = groups.back().read.codes.back();
            code += is_digit(code.back()) ? text : "";
            continue;
        }
        std::vector<std::string> codes = codes_in(text);
        if (codes.empty() || line.words[i]->box.left < from) {
            if (is_open && gap_before(line, i) < 0.7 * line.height && !text.empty())
                groups.back().stands_alone = false;
            is_open = false;
            continue;
        }
        if (!is_open || !is_near)
            groups.push_back({{at, {}}, true});
        is_open = true;
        auto& all = groups.back().read.codes;
        all.insert(all.end(), codes.begin(), codes.end());
    }
    return groups;
}

} // namespace

std::vector<LineCodes> recognise_codes(const Layout& layout) {
    std::vector<LineCodes> found;
    for (std::size_t i = 0; i < layout.lines.size(); ++i) {
        const Line& line = layout.lines[i];
        for (Group& group : groups_of(line, i, column_from * layout.regions[line.region].box.right))
            if (group.stands_alone)
                found.push_back(std::move(group.read));
    }
    return found;
}

} // namespace inkturn::printed
