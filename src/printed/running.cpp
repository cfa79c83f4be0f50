#include "inkturn/base/ascii.hpp"
#include "inkturn/base/text.hpp"
#include "printed/label.hpp"
#include "printed/line.hpp"
#include "printed/marks.hpp"
#include "printed/text_reader.hpp"
#include "printed/words.hpp"

#include "inkturn/base/number.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <map>
#include <optional>

namespace inkturn::printed {
namespace {

constexpr std::size_t max_running_lines = 4; // of a head or a foot
constexpr double outer_share = 0.2;          // of the page's height, in which a head or a foot stands
constexpr Points same_place{4};
constexpr std::size_t max_words_of_notice = 14;
constexpr std::size_t max_repeated_text = 120; // that is compared

std::string lower_text(const Line& line) {
    return lower_case(text_from_start(line).text);
}

/// Numbers inside a longer line make it another sentence; at its ends they may count with the pages.
bool is_inner(const Line& line, std::size_t word) {
    constexpr std::size_t words_at_ends = 3;
    return word >= words_at_ends && word + words_at_ends < line.words.size();
}

/// Whether the line ends with marks or a total.
bool states_marks(const Line& line) {
    const auto marks = read_marks(line);
    return (marks && !marks_forms[marks->form].is_bare()) || read_total(line);
}

/// The text with each number near its ends as one sign, but for a section's: what stays the same from page to
/// page. Empty where it could be a label, marks or a total as well.
std::string repeated_text(const Line& line) {
    const PrintedLabel label = read_line_start(line);
    if (states_marks(line) || label.number || !label.sub_parts.empty())
        return "";
    const bool is_section = section_heading(line).has_value();
    std::string same;
    std::size_t letters = 0;
    for (std::size_t i = 0; i < line.words.size(); ++i) {
        const std::string_view text = std::string_view(line.words[i]->text).substr(0, max_repeated_text);
        for (const char c : text) {
            if (is_section || is_inner(line, i) || !is_digit(c))
                same += c;
            else if (same.empty() || same.back() != '#')
                same += '#';
            letters += is_lower(c) || is_upper(c) ? 1U : 0U;
        }
        same += ' ';
        if (same.size() > max_repeated_text)
            break;
    }
    return letters < 3 ? "" : same;
}

/// `7`, `- 7 -`, `Page 7`, `7 of 12`, `7/12`: the number of a page alone.
std::optional<int> page_number(const Line& line) {
    if (line.words.size() > 6)
        return std::nullopt;
    std::string text = lower_text(line);
    if (text.rfind("page", 0) == 0)
        text.erase(0, 4);
    const auto first = std::find_if(text.begin(), text.end(), is_digit);
    const auto end = std::find_if_not(first, text.end(), is_digit);
    const auto is_frame = [](char c) { return contains(" -|/of", std::string_view(&c, 1)) || is_digit(c); };
    if (!std::all_of(text.begin(), text.end(), is_frame))
        return std::nullopt;
    return read_whole_number(std::string(first, end), 9999);
}

enum class End : unsigned char { head, foot };

/// The outer lines of a page, from its edge inwards.
std::vector<const Line*> outer_lines(const PrintedPage& page, const std::vector<Line>& lines, End end) {
    std::vector<const Line*> outer;
    for (std::size_t i = 0; i < std::min(lines.size(), max_running_lines); ++i) {
        const Line& line = end == End::head ? lines[i] : lines[lines.size() - 1 - i];
        const bool is_outer = end == End::head ? line.box.bottom < outer_share * page.height
                                               : line.box.top > (1 - outer_share) * page.height;
        if (!is_outer)
            break;
        outer.push_back(&line);
    }
    return outer;
}

/// What is at the outer ends of all pages.
class Repeats {
  public:
    explicit Repeats(std::size_t pages) : needed_(std::max<std::size_t>(2, pages / 3)) {}

    void add(std::size_t page, const Line& line) {
        const std::string text = repeated_text(line);
        if (!text.empty())
            ++texts_[text][place(line)];
        if (const auto number = page_number(line))
            ++offsets_[*number - static_cast<int>(page)];
    }

    bool is_repeated(const Line& line) const {
        const auto found = texts_.find(repeated_text(line));
        if (found == texts_.end())
            return false;
        std::size_t count = 0;
        for (long at = place(line) - 1; at <= place(line) + 1; ++at)
            if (const auto there = found->second.find(at); there != found->second.end())
                count += there->second;
        return count >= needed_;
    }

    bool is_page_number(std::size_t page, const Line& line) const {
        const auto number = page_number(line);
        if (!number)
            return false;
        const auto found = offsets_.find(*number - static_cast<int>(page));
        return found != offsets_.end() && found->second >= needed_;
    }

  private:
    static long place(const Line& line) { return std::lround(line.box.bottom / same_place); }

    std::size_t needed_;
    std::map<std::string, std::map<long, std::size_t>> texts_;
    std::map<int, std::size_t> offsets_;
};

/// How many of the outer lines are running ones.
std::size_t running_lines(std::size_t page, const std::vector<const Line*>& outer, const Repeats& repeats) {
    const auto end = std::find_if(outer.begin(), outer.end(), [&](const Line* line) {
        return !repeats.is_page_number(page, *line) && !repeats.is_repeated(*line) && !is_notice(*line);
    });
    return static_cast<std::size_t>(end - outer.begin());
}

} // namespace

bool is_notice(const Line& line) {
    if (line.words.size() > max_words_of_notice || ends_paper(line))
        return false;
    const std::string text = lower_text(line);
    if (text.size() > 4 && text.front() == '*' && text.back() == '*')
        return true; // under a bar code
    if (contains(text, "question") && contains(text, "continues"))
        return true;
    const PrintedLabel label = read_line_start(line);
    if (label.number || !label.sub_parts.empty() || states_marks(line))
        return false; // in two columns a notice may have text beside it
    return contains_one(text, words_of_notices) || (contains(text, "turn over") && line.words.size() <= 5);
}

std::vector<PageBody> without_running(const std::vector<PrintedPage>& pages,
                                      std::vector<std::vector<Line>> lines) {
    constexpr std::array<End, 2> ends{End::head, End::foot};
    std::array<Repeats, 2> repeats{Repeats(pages.size()), Repeats(pages.size())};
    for (std::size_t page = 0; page < pages.size(); ++page)
        for (std::size_t end = 0; end < 2; ++end)
            for (const Line* const line : outer_lines(pages[page], lines[page], ends[end]))
                repeats[end].add(page, *line);

    std::vector<PageBody> bodies;
    for (std::size_t page = 0; page < pages.size(); ++page) {
        std::vector<Line>& all = lines[page];
        std::array<std::size_t, 2> count{};
        for (std::size_t end = 0; end < 2; ++end)
            count[end] = running_lines(page, outer_lines(pages[page], all, ends[end]), repeats[end]);
        PageBody body{{}, Points(0), pages[page].height};
        const std::size_t last = all.size() - std::min(count[1], all.size() - std::min(count[0], all.size()));
        for (std::size_t i = 0; i < all.size(); ++i) {
            if (i < count[0])
                body.top = std::max(body.top, all[i].box.bottom);
            else if (i >= last)
                body.bottom = std::min(body.bottom, all[i].box.top);
            else
                body.lines.push_back(std::move(all[i]));
        }
        bodies.push_back(std::move(body));
    }
    return bodies;
}

} // namespace inkturn::printed
