#include "printed/codes.hpp"

#include "inkturn/base/ascii.hpp"

#include <algorithm>
#include <array>
#include <string_view>

namespace inkturn::printed {
namespace {

constexpr double column_from = 0.35; // of the page's width: codes are to the right of the answers
constexpr std::size_t max_code_word_length = 24;
constexpr std::size_t max_letters_before = 3;
constexpr std::size_t max_letters_after = 4;

/// Letters and digits alone: stars, ticks and brackets round a code say nothing about its marks.
std::string bare(const PrintedWord& word) {
    std::string text;
    if (word.text.size() > max_code_word_length)
        return text;
    for (const char c : word.text)
        if (is_digit(c) || is_lower(c) || is_upper(c))
            text += c;
    return text;
}

/// The codes joined in a word, such as M1 and A1 of `M1A1`; none where anything else is in it.
std::vector<std::string> codes_in(const std::string& text) {
    std::vector<std::string> codes;
    for (std::size_t i = 0; i < text.size();) {
        const std::size_t from = i;
        while (i < text.size() && is_lower(text[i]))
            ++i;
        const std::size_t capital = i;
        while (i < text.size() && is_upper(text[i]))
            ++i;
        const std::size_t digits = i;
        while (i < text.size() && is_digit(text[i]))
            ++i;
        const std::size_t after = i;
        while (i < text.size() && is_lower(text[i]) && text.substr(i, 2) != "dM" && text.substr(i, 2) != "dA")
            ++i;
        const bool is_code = capital < digits && digits < after && after - digits <= 2 &&
                             text[digits] != '0' && digits - from <= max_letters_before &&
                             i - after <= max_letters_after && text[digits - 1] != 'Q' &&
                             text[digits - 1] != 'O';
        if (!is_code)
            return {};
        codes.push_back(text.substr(from, i - from));
    }
    return codes;
}

bool goes_on_with_code(const std::string& text) {
    constexpr std::array<std::string_view, 6> words{"ft", "cao", "cso", "oe", "dep", "isw"};
    return std::find(words.begin(), words.end(), text) != words.end();
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
        const std::string text = bare(*line.words[i]);
        const bool is_near = i > 0 && gap_before(line, i) < 2 * line.height;
        if (is_open && is_near && goes_on_with_code(text)) {
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
