#include "printed/line.hpp"

#include "inkturn/base/ascii.hpp"
#include "inkturn/base/text.hpp"
#include "inkturn/base/utf8.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

namespace inkturn::printed {
namespace {

constexpr std::size_t max_word_text = 80;
constexpr std::size_t max_clusters_near = 12; // of words, that one is compared with

Points height_of(const PrintedWord& word) {
    return word.box.bottom - word.box.top;
}
Points middle_of(const PrintedWord& word) {
    return (word.box.top + word.box.bottom) / 2;
}

bool is_usable(const PrintedWord& word, const PrintedPage& page) {
    const PrintedBox& box = word.box;
    for (const Points edge : {box.left, box.top, box.right, box.bottom})
        if (!std::isfinite(edge.value()))
            return false;
    return !word.text.empty() && box.left <= box.right && box.top < box.bottom && box.right > Points(0) &&
           box.left < page.width && box.bottom > Points(0) && box.top < page.height &&
           height_of(word) < page.height / 4;
}

constexpr Points unprinted{17}; // at a page's edges: farther out than printers reach

/// Crop marks at the sides, and what is beside them above and below.
bool is_unprinted(const PrintedWord& word, const PrintedPage& page) {
    return is_crop_mark(word, page) || word.box.top < unprinted || word.box.bottom > page.height - unprinted;
}

/// A word of several characters that is much higher than wide runs up or down the page. Three may be `ii.`.
bool is_turned(const PrintedWord& word) {
    return character_count(word.text) >= 4 && height_of(word) > 2 * (word.box.right - word.box.left);
}

/// What is in the margins and runs along the page's side: words turned, and short ones in line with them
/// where no other word reaches into their column.
struct Margin {
    Points left;
    Points right;
    bool holds(const PrintedWord& word) const {
        constexpr Points slack{1};
        return word.box.left >= left - slack && word.box.right <= right + slack;
    }
    bool is_crossed_by(const PrintedWord& word) const {
        return !holds(word) && word.box.left < right && word.box.right > left;
    }
};

std::vector<Margin> margins_of(const Words& words, Points width) {
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

bool is_number(const PrintedWord& word) {
    return word.text.size() < 5 && word.text.find_first_not_of("0123456789") == std::string::npos;
}

/// Numbers left of all other words of a page, from top to bottom.
Words outer_numbers(const Words& words) {
    Points left{std::numeric_limits<double>::infinity()};
    for (const PrintedWord* const word : words)
        if (!is_number(*word))
            left = std::min(left, word->box.left);
    Words numbers;
    for (const PrintedWord* const word : words)
        if (is_number(*word) && word->box.right < left)
            numbers.push_back(word);
    std::sort(numbers.begin(), numbers.end(),
              [](const PrintedWord* a, const PrintedWord* b) { return a->box.top < b->box.top; });
    return numbers;
}

/// From the first number of a page to the next; 0 where they don't count so on.
int step_of(const Words& numbers) {
    if (numbers.size() < 3)
        return 0;
    const int step = std::stoi(numbers[1]->text) - std::stoi(numbers[0]->text);
    for (std::size_t i = 0; i < numbers.size(); ++i)
        if (std::stoi(numbers[i]->text) != std::stoi(numbers[0]->text) + static_cast<int>(i) * step)
            return 0;
    return step;
}

/// Takes away the numbers of every fifth or tenth line.
void remove_line_numbers(std::vector<Words>& pages) {
    int step = 0;
    for (const Words& words : pages)
        step = std::max(step, step_of(outer_numbers(words)));
    if (step < 5) // questions may count in smaller steps
        return;
    for (Words& words : pages)
        for (const PrintedWord* const number : outer_numbers(words))
            if (std::stoi(number->text) % step == 0)
                words.erase(std::find(words.begin(), words.end(), number));
}

/// Words of about one height side by side, before small and tall ones join them.
struct Cluster {
    Line line;
    Points top; ///< on average, as is `bottom`
    Points bottom;
};

Points height_shared(const Cluster& a, Points top, Points bottom) {
    return std::min(a.bottom, bottom) - std::max(a.top, top);
}

void add(Cluster& cluster, const PrintedWord& word) {
    const auto count = static_cast<double>(cluster.line.words.size());
    cluster.top = (count * cluster.top + word.box.top) / (count + 1);
    cluster.bottom = (count * cluster.bottom + word.box.bottom) / (count + 1);
    cluster.line.words.push_back(&word);
}

/// Words that share most of the higher one's height, from top to bottom.
std::vector<Cluster> clusters_of(Words words) {
    constexpr double most = 0.6;
    std::sort(words.begin(), words.end(), [](const PrintedWord* a, const PrintedWord* b) {
        return middle_of(*a) < middle_of(*b) || (middle_of(*a) == middle_of(*b) && a->box.left < b->box.left);
    });
    std::vector<Cluster> clusters;
    for (const PrintedWord* const word : words) {
        Cluster* best = nullptr;
        for (std::size_t i = clusters.size(); i-- > 0 && clusters.size() - i <= max_clusters_near;) {
            const Points height = std::max(height_of(*word), clusters[i].bottom - clusters[i].top);
            if (height_shared(clusters[i], word->box.top, word->box.bottom) >= most * height) {
                best = &clusters[i];
                break;
            }
        }
        if (best) {
            add(*best, *word);
            continue;
        }
        clusters.push_back({{}, word->box.top, word->box.bottom});
        add(clusters.back(), *word);
    }
    return clusters;
}

/// The cluster of more words that this one shares half of the smaller height with; the most, if several.
std::optional<std::size_t> beside(const std::vector<Cluster>& clusters, std::size_t at) {
    const Cluster& own = clusters[at];
    std::optional<std::size_t> best;
    Points most;
    const std::size_t first = at - std::min(at, max_clusters_near);
    for (std::size_t i = first; i < std::min(clusters.size(), at + max_clusters_near); ++i) {
        const Cluster& other = clusters[i];
        const bool is_larger = other.line.words.size() > own.line.words.size() ||
                               (other.line.words.size() == own.line.words.size() && i > at);
        const Points shared = height_shared(other, own.top, own.bottom);
        const Points needed = 0.5 * std::min(own.bottom - own.top, other.bottom - other.top);
        if (i != at && is_larger && shared >= needed && shared > most) {
            most = shared;
            best = i;
        }
    }
    return best;
}

bool is_above(const Line& a, const Line& b) {
    return a.middle() < b.middle() || (a.middle() == b.middle() && a.box.left < b.box.left);
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

/// What is longer than a word can be is cut.
void append_word(LineText& out, const PrintedWord& word) {
    if (!out.offsets.empty())
        out.text += ' ';
    out.offsets.push_back(out.text.size());
    out.text += std::string_view(word.text).substr(0, max_word_text);
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

bool is_crop_mark(const PrintedWord& word, const PrintedPage& page) {
    const bool is_beside = word.box.left < unprinted || word.box.right > page.width - unprinted;
    return is_beside && std::none_of(word.text.begin(), word.text.end(),
                                     [](char c) { return is_letter_or_digit(c) || !is_ascii(c); });
}

Words upright_words(const PrintedPage& page) {
    Words words;
    for (const PrintedWord& word : page.words)
        if (is_usable(word, page) && !is_unprinted(word, page))
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
    std::vector<Cluster> clusters = clusters_of(words);
    std::vector<std::optional<std::size_t>> joined;
    for (std::size_t i = 0; i < clusters.size(); ++i) {
        clusters[i].line.height = clusters[i].bottom - clusters[i].top;
        joined.push_back(beside(clusters, i));
    }
    std::vector<Words> more(clusters.size());
    for (std::size_t i = 0; i < clusters.size(); ++i) {
        std::size_t to = i;
        while (joined[to])
            to = *joined[to];
        if (to != i)
            more[to].insert(more[to].end(), clusters[i].line.words.begin(), clusters[i].line.words.end());
    }
    std::vector<Line> lines;
    for (std::size_t i = 0; i < clusters.size(); ++i) {
        if (joined[i])
            continue;
        Words& own = clusters[i].line.words;
        own.insert(own.end(), more[i].begin(), more[i].end());
        finish(clusters[i].line);
        lines.push_back(std::move(clusters[i].line));
    }
    std::sort(lines.begin(), lines.end(), is_above);
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

Points gap_before(const Line& line, std::size_t word) {
    return word == 0 || points_in(*line.words[word - 1]) > 2
               ? Points(std::numeric_limits<double>::infinity())
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
    std::vector<Words> words;
    for (const PrintedPage& page : pages)
        words.push_back(upright_words(page));
    remove_line_numbers(words);
    std::vector<std::vector<Line>> lines;
    for (const Words& page : words)
        lines.push_back(lines_of(page));
    return regions_of(pages, without_running(pages, std::move(lines)), columns);
}

} // namespace inkturn::printed
