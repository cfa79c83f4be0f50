#include "inkturn/base/number.hpp"
#include "printed/label.hpp"
#include "printed/line.hpp"
#include "printed/marks.hpp"
#include "printed/text_reader.hpp"
#include "printed/words.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <utility>

namespace inkturn::printed {
namespace {

constexpr std::size_t max_running_lines = 4; // of a head or a foot
constexpr double outer_share = 0.2;          // of the page's height, in which a head or a foot stands
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

/// Whether the line could be a label, marks or a total.
bool is_content(const Line& line) {
    const PrintedLabel label = read_line_start(line);
    const auto marks = read_marks(line);
    return label.number || !label.sub_parts.empty() || (marks && !marks_forms[marks->form].is_bare()) ||
           read_total(line);
}

/// `7`, `- 7 -`, `Page 7`, `7 of 12`, `7/12`: the number of a page alone.
std::optional<int> page_number(const Line& line) {
    const std::string text = line.words.size() > 6 ? "" : lower_text(line);
    const std::size_t begin = text.rfind("page", 0) == 0 ? 4 : 0;
    if (text.find_first_not_of(" -|/of0123456789", begin) != std::string::npos)
        return std::nullopt;
    TextReader reader(std::string_view(text).substr(begin));
    reader.take_while([](char c) { return !is_digit(c); });
    return read_whole_number(reader.take_while(is_digit), 9999);
}

/// What stays the same from page to page, and a number that differs by 1 at most.
using Running = std::pair<std::string, long>;

/// The text with each number near its ends as one sign, but for a section's, and its height; of the number of
/// a page alone, how far it is from the page's position. Nothing where it could be something else as well.
std::vector<Running> running(const Line& line, std::size_t page) {
    constexpr Points same_place{4};
    std::vector<Running> what;
    if (const auto number = page_number(line))
        what.emplace_back("page " + std::to_string(*number - static_cast<int>(page)), 0);
    if (is_content(line))
        return what;
    const bool is_section = section_heading(line).has_value();
    std::string same;
    for (std::size_t i = 0; i < line.words.size() && same.size() <= max_repeated_text; ++i) {
        for (const char c : std::string_view(line.words[i]->text).substr(0, max_repeated_text)) {
            if (is_section || is_inner(line, i) || !is_digit(c))
                same += c;
            else if (same.empty() || same.back() != '#')
                same += '#';
        }
        same += ' ';
    }
    if (std::count_if(same.begin(), same.end(), is_letter) >= 3)
        what.emplace_back(std::move(same), std::lround(line.box.bottom / same_place));
    return what;
}

/// The outer lines of a page, from its upper edge or its lower one inwards.
std::vector<const Line*> outer_lines(const PrintedPage& page, const std::vector<Line>& lines, bool is_head) {
    std::vector<const Line*> outer;
    for (std::size_t i = 0; i < std::min(lines.size(), max_running_lines); ++i) {
        const Line& line = is_head ? lines[i] : lines[lines.size() - 1 - i];
        if (is_head ? line.box.bottom >= outer_share * page.height
                    : line.box.top <= (1 - outer_share) * page.height)
            break;
        outer.push_back(&line);
    }
    return outer;
}

/// What is at the upper or lower ends of all pages, and how often.
class Repeats {
  public:
    Repeats(const std::vector<PrintedPage>& pages, const std::vector<std::vector<Line>>& lines, bool is_head)
        : needed_(std::max<std::size_t>(2, pages.size() / 3)), is_head_(is_head) {
        for (std::size_t page = 0; page < pages.size(); ++page)
            for (const Line* const line : outer_lines(pages[page], lines[page], is_head))
                for (const Running& what : running(*line, page))
                    ++counts_[what];
    }

    /// How many of a page's outer lines are running ones or notices.
    std::size_t lines_of(const PrintedPage& page, const std::vector<Line>& lines,
                         std::size_t position) const {
        const std::vector<const Line*> outer = outer_lines(page, lines, is_head_);
        const auto end = std::find_if(outer.begin(), outer.end(), [&](const Line* line) {
            const std::vector<Running> all = running(*line, position);
            return std::none_of(all.begin(), all.end(),
                                [&](const Running& what) { return is_repeated(what); }) &&
                   !is_notice(*line);
        });
        return static_cast<std::size_t>(end - outer.begin());
    }

  private:
    bool is_repeated(Running what) const {
        std::size_t count = 0;
        --what.second;
        for (int i = 0; i < 3; ++i, ++what.second)
            if (const auto found = counts_.find(what); found != counts_.end())
                count += found->second;
        return count >= needed_;
    }

    std::size_t needed_;
    bool is_head_;
    std::map<Running, std::size_t> counts_;
};

} // namespace

bool is_notice(const Line& line) {
    if (line.words.size() > max_words_of_notice || ends_paper(line))
        return false;
    const std::string text = lower_text(line);
    if (text.size() > 4 && text.front() == '*' && text.back() == '*')
        return true; // under a bar code
    if (contains(text, "question") && contains(text, "continues"))
        return true;
    return !is_content(line) && // in two columns a notice may have text beside it
           (contains_one(text, words_of_notices) || (contains(text, "turn over") && line.words.size() <= 5));
}

std::vector<PageBody> without_running(const std::vector<PrintedPage>& pages,
                                      std::vector<std::vector<Line>> lines) {
    const Repeats heads(pages, lines, true);
    const Repeats feet(pages, lines, false);
    std::vector<PageBody> bodies;
    for (std::size_t page = 0; page < pages.size(); ++page) {
        std::vector<Line>& all = lines[page];
        const std::size_t first = heads.lines_of(pages[page], all, page);
        const std::size_t last = std::max(first, all.size() - feet.lines_of(pages[page], all, page));
        PageBody body{{}, Points(0), pages[page].height};
        for (std::size_t i = 0; i < all.size(); ++i) {
            if (i < first)
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
