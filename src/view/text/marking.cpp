#include "view/text/marking.hpp"

#include "inkturn/paper/codes.hpp"
#include "view/text/sittings.hpp"
#include "view/text/text.hpp"

#include <utility>
#include <vector>

namespace inkturn {
namespace {

using Align = Table::Align;
constexpr std::size_t further_indent = 2; ///< of the lines after the first

using Piece = std::pair<Marks, const char*>;

std::string clock_text_of(const PartOnClock& seen) {
    if (!seen.in_time && !seen.overtime)
        return "No time spent on it.";
    std::string text;
    if (seen.in_time)
        text = "In time " + length_text(seen.time.in_time);
    if (seen.overtime)
        text += (seen.in_time ? ", then overtime " : "Overtime ") + length_text(seen.time.overtime);
    return text + (seen.in_time && seen.overtime ? ", of " : " of ") + length_text(seen.allowance) + '.';
}

std::string so_far_text(const Part& part, const PartMarks& marks) {
    PartMarks by_ink = marks;
    by_ink.drop_by_code();
    return "So far " + to_text(by_ink) +
           (marks.by_code() ? " (" + codes_text(part, *marks.by_code()) + ")." : std::string("."));
}

/// The pieces above 0, joined by commas.
std::string list_text(const std::vector<Piece>& pieces) {
    std::string text;
    for (const auto& [marks, what] : pieces)
        if (marks > Marks(0))
            text += (text.empty() ? "" : ", ") + std::to_string(marks.count()) + " " + what;
    return text;
}

std::string cost_line(const std::string& what, Marks sum, const std::vector<Piece>& pieces) {
    if (sum == Marks(0))
        return what + " cost nothing.\n";
    return wrapped(what + " cost " + counted_marks(sum) + ": " + list_text(pieces) + ".",
                   text_width() - further_indent, further_indent) +
           '\n';
}

} // namespace

std::string marking_text(const Part& part, const PartOnClock* seen, const std::optional<PartMarks>& so_far,
                         std::size_t width) {
    std::string text = "Part " + part.label + ", " + counted_marks(part.max);
    text += part.codes.empty() ? "." : ": " + part.codes + ".";
    if (seen)
        text += " " + clock_text_of(*seen);
    if (so_far)
        text += " " + so_far_text(part, *so_far);
    return wrapped(text, width - further_indent, further_indent);
}

std::string inks_text(const PartMarks& marks) {
    if (!marks.attempted())
        return marks.is_set() ? "not attempted" : "not set";
    const std::string text = list_text(
        {{marks.in_time(), "in time"}, {marks.overtime(), "overtime"}, {marks.corrected(), "corrected"}});
    return text.empty() ? "nothing earned" : text;
}

std::string cost_text(const Cost& cost) {
    std::string text =
        cost_line("Pace", cost.pace(),
                  {{cost.overtime, "in overtime"},
                   {cost.unfinished, "unfinished"},
                   {cost.not_attempted, "not attempted"}}) +
        cost_line(
            "Knowledge", cost.knowledge(),
            {{cost.method, "to method"}, {cost.recall, "to recall"}, {cost.unstated, "without a reason"}});
    if (cost.slips() > Marks(0))
        text += cost_line("Slips", cost.slips(), {{cost.slip, "to slips"}, {cost.misread, "to misreading"}});
    return text;
}

std::string slow_text(const Clock& clock) {
    std::vector<std::string> items;
    for (const SlowPart& slow : slow_parts(clock)) {
        const ClockPart& part = clock.parts()[slow.part];
        items.push_back((items.empty() ? "Slow: part " : "part ") + part.label + " took " +
                        length_text(slow.worked) + " instead of " + length_text(part.allowance));
    }
    return wrapped_list(items, text_width() - further_indent, further_indent);
}

} // namespace inkturn
