#include "printed/line.hpp"

#include "inkturn/base/text.hpp"

#include <algorithm>
#include <limits>
#include <optional>
#include <utility>

namespace inkturn::printed {
namespace {

constexpr std::size_t max_word_text = 80;
constexpr std::size_t max_clusters_near = 12; // of words, that one is compared with

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

/// Takes away the numbers of every fifth or tenth line, where they are all that counts so at a page's left.
void remove_line_numbers(std::vector<Words>& pages) {
    int step = 0;
    for (const Words& words : pages) {
        const Words numbers = outer_numbers(words);
        const auto value = [&](std::size_t i) { return std::stoi(numbers[i]->text); };
        std::size_t counted = 2; // that differ by as much as the first two
        while (counted < numbers.size() && value(counted) - value(counted - 1) == value(1) - value(0))
            ++counted;
        if (numbers.size() > 2 && counted == numbers.size())
            step = std::max(step, value(1) - value(0));
    }
    if (step < 5) // questions may count in smaller steps
        return;
    for (Words& words : pages)
        for (const PrintedWord* const number : outer_numbers(words))
            if (std::stoi(number->text) % step == 0)
                words.erase(std::find(words.begin(), words.end(), number));
}

/// Words of about one height side by side, before small and tall ones join them.
struct Cluster {
    Words words;
    Points top; ///< on average, as is `bottom`
    Points bottom;

    Points height() const { return bottom - top; }
    Points shared_with(Points other_top, Points other_bottom) const {
        return std::min(bottom, other_bottom) - std::max(top, other_top);
    }
    void add(const PrintedWord& word) {
        const auto count = static_cast<double>(words.size());
        top = (count * top + word.box.top) / (count + 1);
        bottom = (count * bottom + word.box.bottom) / (count + 1);
        words.push_back(&word);
    }
};

/// Words that share most of the higher one's height, from top to bottom.
std::vector<Cluster> clusters_of(Words words) {
    constexpr double most = 0.6;
    std::sort(words.begin(), words.end(), [](const PrintedWord* a, const PrintedWord* b) {
        return std::make_pair(a->box.top + a->box.bottom, a->box.left) <
               std::make_pair(b->box.top + b->box.bottom, b->box.left);
    });
    std::vector<Cluster> clusters;
    for (const PrintedWord* const word : words) {
        const auto count = static_cast<std::ptrdiff_t>(std::min(clusters.size(), max_clusters_near));
        const auto end = clusters.rbegin() + count;
        const auto beside = std::find_if(clusters.rbegin(), end, [&](const Cluster& cluster) {
            const Points height = std::max(word->box.bottom - word->box.top, cluster.height());
            return cluster.shared_with(word->box.top, word->box.bottom) >= most * height;
        });
        if (beside == end)
            clusters.push_back({{}, word->box.top, word->box.bottom});
        (beside == end ? clusters.back() : *beside).add(*word);
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
        const bool is_larger = std::make_pair(other.words.size(), i) > std::make_pair(own.words.size(), at);
        const Points shared = other.shared_with(own.top, own.bottom);
        if (is_larger && shared >= 0.5 * std::min(own.height(), other.height()) && shared > most) {
            most = shared;
            best = i;
        }
    }
    return best;
}

Line line_of(const Cluster& cluster) {
    Line line{cluster.words, cluster.words.front()->box, cluster.height()};
    std::sort(line.words.begin(), line.words.end(), [](const PrintedWord* a, const PrintedWord* b) {
        return a->box.left < b->box.left || (a->box.left == b->box.left && a->box.right < b->box.right);
    });
    for (const PrintedWord* const word : line.words)
        line.box = {std::min(line.box.left, word->box.left), std::min(line.box.top, word->box.top),
                    std::max(line.box.right, word->box.right), std::max(line.box.bottom, word->box.bottom)};
    return line;
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

std::vector<Line> lines_of(const Words& words) {
    std::vector<Cluster> clusters = clusters_of(words);
    std::vector<std::optional<std::size_t>> joined;
    for (std::size_t i = 0; i < clusters.size(); ++i)
        joined.push_back(beside(clusters, i));
    for (std::size_t i = 0; i < clusters.size(); ++i) {
        std::size_t to = i;
        while (joined[to])
            to = *joined[to];
        const Words& own = clusters[i].words;
        if (to != i)
            clusters[to].words.insert(clusters[to].words.end(), own.begin(), own.end());
    }
    std::vector<Line> lines;
    for (std::size_t i = 0; i < clusters.size(); ++i)
        if (!joined[i])
            lines.push_back(line_of(clusters[i]));
    std::sort(lines.begin(), lines.end(), [](const Line& a, const Line& b) {
        return a.middle() < b.middle() || (a.middle() == b.middle() && a.box.left < b.box.left);
    });
    return lines;
}

std::size_t LineText::word_at(std::size_t offset) const {
    const auto after = std::upper_bound(offsets.begin(), offsets.end(), offset);
    return first + static_cast<std::size_t>(after - offsets.begin()) - 1;
}

LineText text_of_words(const Line& line, std::size_t first, std::size_t end) {
    LineText out;
    out.first = first;
    for (std::size_t i = first; i < end; ++i) {
        out.text += i > first ? " " : "";
        out.offsets.push_back(out.text.size());
        out.text += std::string_view(line.words[i]->text).substr(0, max_word_text);
    }
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
