#include "printed/line.hpp"

#include "inkturn/base/text.hpp"
#include "inkturn/base/utf8.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

namespace inkturn::printed {
namespace {

constexpr std::size_t max_word_text = 80;

double height_of(const PrintedWord& word) {
    return word.box.bottom - word.box.top;
}
double middle_of(const PrintedWord& word) {
    return (word.box.top + word.box.bottom) / 2;
}

bool is_usable(const PrintedWord& word, const PrintedPage& page) {
    const PrintedBox& box = word.box;
    for (const double edge : {box.left, box.top, box.right, box.bottom})
        if (!std::isfinite(edge))
            return false;
    return !word.text.empty() && box.left <= box.right && box.top < box.bottom && box.right > 0 &&
           box.left < page.width && box.bottom > 0 && box.top < page.height &&
           height_of(word) < page.height / 4;
}

/// A word of several characters that is much higher than wide runs up or down the page. Three may be `ii.`.
bool is_turned(const PrintedWord& word) {
    return character_count(word.text) >= 4 && height_of(word) > 2 * (word.box.right - word.box.left);
}

/// What stands in the margins and runs along the page's side: words turned, and short ones in line with them
/// where no other word reaches into their column.
struct Margin {
    double left;
    double right;
    bool holds(const PrintedWord& word) const {
        return word.box.left >= left - 1 && word.box.right <= right + 1;
    }
    bool is_crossed_by(const PrintedWord& word) const {
        return !holds(word) && word.box.left < right && word.box.right > left;
    }
};

std::vector<Margin> margins_of(const Words& words, double width) {
    std::vector<Margin> margins;
    for (const bool is_left : {true, false}) {
        std::optional<Margin> margin;
        for (const PrintedWord* const word : words) {
            const bool is_outside = is_left ? word->box.right < 0.2 * width : word->box.left > 0.8 * width;
            if (!is_turned(*word) || !is_outside)
                continue;
            margin = margin ? Margin{std::min(margin->left, word->box.left),
                                     std::max(margin->right, word->box.right)}
                            : Margin{word->box.left, word->box.right};
        }
        if (margin && std::none_of(words.begin(), words.end(),
                                   [&](const PrintedWord* word) { return margin->is_crossed_by(*word); }))
            margins.push_back(*margin);
    }
    return margins;
}

double typical_height(Words words) {
    const auto half = words.begin() + static_cast<std::ptrdiff_t>(words.size() / 2);
    std::nth_element(words.begin(), half, words.end(), [](const PrintedWord* a, const PrintedWord* b) {
        return height_of(*a) < height_of(*b);
    });
    return height_of(**half);
}

void append_clusters(Words words, std::vector<Line>& lines) {
    std::sort(words.begin(), words.end(), [](const PrintedWord* a, const PrintedWord* b) {
        return middle_of(*a) < middle_of(*b) || (middle_of(*a) == middle_of(*b) && a->box.left < b->box.left);
    });
    double sum_of_middles = 0;
    bool is_open = false;
    for (const PrintedWord* const word : words) {
        Line* const last = is_open ? &lines.back() : nullptr;
        const double reach = 0.4 * std::min(height_of(*word), last ? last->height : 0);
        if (last && middle_of(*word) - sum_of_middles / static_cast<double>(last->words.size()) <= reach) {
            sum_of_middles += middle_of(*word);
            last->words.push_back(word);
            last->height = std::max(last->height, height_of(*word));
            last->box.top = std::min(last->box.top, word->box.top);
            last->box.bottom = std::max(last->box.bottom, word->box.bottom);
        } else {
            lines.push_back({{word}, word->box, height_of(*word)});
            sum_of_middles = middle_of(*word);
            is_open = true;
        }
    }
}

bool is_above(const Line& a, const Line& b) {
    return a.middle() < b.middle() || (a.middle() == b.middle() && a.box.left < b.box.left);
}

/// The line beside which a word stands by half its own height or half the line's.
Line* beside(std::vector<Line>& lines, const PrintedWord& word) {
    const auto after =
        std::lower_bound(lines.begin(), lines.end(), middle_of(word),
                         [](const Line& line, double middle) { return line.middle() < middle; });
    Line* best = nullptr;
    double most = 0;
    for (auto line = after - std::min<std::ptrdiff_t>(2, after - lines.begin());
         line != lines.end() && line - after < 2; ++line) {
        const double shared =
            std::min(line->box.bottom, word.box.bottom) - std::max(line->box.top, word.box.top);
        const double needed = 0.5 * std::min(line->box.bottom - line->box.top, height_of(word));
        if (shared >= needed && shared > most) {
            most = shared;
            best = &*line;
        }
    }
    return best;
}

/// Joins words to the lines that they stand beside; the others make lines of their own.
void join(const Words& words, std::vector<Line>& lines) {
    std::vector<std::pair<Line*, const PrintedWord*>> joined;
    Words alone;
    for (const PrintedWord* const word : words) {
        if (Line* const line = beside(lines, *word))
            joined.emplace_back(line, word);
        else
            alone.push_back(word);
    }
    for (const auto& [line, word] : joined)
        line->words.push_back(word);
    append_clusters(std::move(alone), lines);
    std::sort(lines.begin(), lines.end(), is_above);
}

void finish(Line& line) {
    std::sort(line.words.begin(), line.words.end(), [](const PrintedWord* a, const PrintedWord* b) {
        return a->box.left < b->box.left || (a->box.left == b->box.left && a->box.right < b->box.right);
    });
    line.box = line.words.front()->box;
    for (const PrintedWord* const word : line.words) {
        line.box.top = std::min(line.box.top, word->box.top);
        line.box.bottom = std::max(line.box.bottom, word->box.bottom);
        line.box.right = std::max(line.box.right, word->box.right);
    }
}

/// No-break blanks become blanks; what is longer than a word can be is cut.
void append_word(LineText& out, const PrintedWord& word) {
    if (!out.offsets.empty())
        out.text += ' ';
    out.offsets.push_back(out.text.size());
    const std::string_view text = std::string_view(word.text).substr(0, max_word_text);
    for (std::size_t i = 0; i < text.size(); ++i) {
        const bool no_break = text[i] == '\xC2' && i + 1 < text.size() && text[i + 1] == '\xA0';
        out.text += no_break ? ' ' : text[i];
        i += no_break ? 1 : 0;
    }
}

/// How many points or rules a word consists of; 0 where there is anything else in it.
std::size_t points_in(const PrintedWord& word) {
    const std::string_view text = std::string_view(word.text).substr(0, max_word_text);
    std::size_t points = 0;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const bool ellipsis = text.substr(i, 3) == "\xE2\x80\xA6";
        if (!ellipsis && text[i] != '.' && text[i] != '_')
            return 0;
        i += ellipsis ? 2 : 0;
        points += ellipsis ? 3 : 1;
    }
    return points;
}

} // namespace

Words upright_words(const PrintedPage& page) {
    Words words;
    if (!(page.width > 0 && page.height > 0 && std::isfinite(page.width) && std::isfinite(page.height)))
        return words;
    for (const PrintedWord& word : page.words)
        if (is_usable(word, page))
            words.push_back(&word);
    const std::vector<Margin> margins = margins_of(words, page.width);
    const auto is_aside = [&](const PrintedWord* word) {
        return is_turned(*word) || std::any_of(margins.begin(), margins.end(),
                                               [&](const Margin& margin) { return margin.holds(*word); });
    };
    words.erase(std::remove_if(words.begin(), words.end(), is_aside), words.end());
    return words;
}

std::vector<Line> lines_of(const Words& words) {
    std::vector<Line> lines;
    if (words.empty())
        return lines;
    const double typical = typical_height(words);
    Words small;
    Words ordinary;
    Words tall;
    for (const PrintedWord* const word : words) {
        const double height = height_of(*word);
        (height < 0.7 * typical ? small : height > 1.6 * typical ? tall : ordinary).push_back(word);
    }
    append_clusters(std::move(ordinary), lines);
    std::sort(lines.begin(), lines.end(), is_above);
    join(small, lines);
    join(tall, lines);
    for (Line& line : lines)
        finish(line);
    return lines;
}

std::size_t LineText::word_at(std::size_t offset) const {
    const auto after = std::upper_bound(offsets.begin(), offsets.end(), offset);
    return first + static_cast<std::size_t>(after - offsets.begin()) - 1;
}

LineText text_of_words(const Line& line, std::size_t first, std::size_t end) {
    LineText out;
    out.first = first;
    for (std::size_t i = first; i < end; ++i)
        append_word(out, *line.words[i]);
    return out;
}

LineText text_from_start(const Line& line, std::size_t max_words) {
    return text_of_words(line, 0, std::min(max_words, line.words.size()));
}

LineText text_to_end(const Line& line, std::size_t max_words) {
    return text_of_words(line, line.words.size() - std::min(max_words, line.words.size()), line.words.size());
}

double gap_before(const Line& line, std::size_t word) {
    return word == 0 || points_in(*line.words[word - 1]) > 2
               ? std::numeric_limits<double>::infinity()
               : line.words[word]->box.left - line.words[word - 1]->box.right;
}

bool is_answer_line(const Line& line) {
    std::size_t points = 0;
    for (const PrintedWord* const word : line.words) {
        const std::size_t more = points_in(*word);
        if (more == 0)
            return false;
        points += more;
    }
    return points >= 3;
}

Layout layout_of(const std::vector<PrintedPage>& pages, Columns columns) {
    std::vector<std::vector<Line>> lines;
    for (const PrintedPage& page : pages)
        lines.push_back(lines_of(upright_words(page)));
    return regions_of(pages, without_running(pages, std::move(lines)), columns);
}

} // namespace inkturn::printed
