#include "fuzz/targets.hpp"

#include "inkturn/base/day.hpp"
#include "inkturn/base/day_span.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/moment.hpp"
#include "inkturn/base/time.hpp"
#include "inkturn/clock/clock_line.hpp"
#include "inkturn/clock/events.hpp"
#include "inkturn/desk/script.hpp"
#include "inkturn/paper/codes.hpp"
#include "inkturn/paper/label.hpp"
#include "inkturn/paper/noted_entries.hpp"

#include <string>
#include <vector>

namespace inkturn::fuzz {
namespace {

const Day today = Day(date::year{2026} / 11 / 25);

/// The words of a line, as a shell would hand them on.
std::vector<std::string> words_of(std::string_view line) {
    std::vector<std::string> words(1);
    for (const char c : line)
        if (c == '\n')
            words.emplace_back();
        else
            words.back() += c;
    return words;
}

template <typename Work>
void allowing_refusal(Work work) {
    try {
        work();
    } catch (const Error& error) {
        insist(*error.what() != '\0');
    }
}

void read_back(const PartMarks& marks, Marks max) {
    insist(marks.unaided() + marks.corrected() <= max);
    const std::string text = to_text(marks);
    insist(parse_part_marks(text, max) == marks && to_text(parse_part_marks(text, max)) == text);
}

} // namespace

void marks_entry(std::string_view input) {
    const Part part{"7b", Marks(6), "vectors", "M1 A1 M1 A1 B2"};
    for (const std::string& word : words_of(input)) {
        allowing_refusal([&] { read_back(parse_part_marks(word, part.max), part.max); });
        allowing_refusal([&] { read_back(marks_from_codes(word, part, Phase::in_time), part.max); });
        allowing_refusal([&] {
            const Entry entry = parse_entry(word);
            insist(read_label(entry.part) == entry.part);
        });
    }
    allowing_refusal([&] { parse_noted_entries(words_of(input)); });
    allowing_refusal([&] { parse_script_id(input); });
}

void dates(std::string_view input) {
    if (const auto day = read_iso_day(input))
        insist(iso(*day) == input);
    if (const auto moment = read_iso_moment(input))
        insist(iso(*moment) == input);
    allowing_refusal([&] {
        const Day day = parse_day(input, today);
        insist(read_iso_day(iso(day)) == day);
    });
    allowing_refusal([&] {
        const DaySpan span = parse_day_span(input, today);
        insist(span.first <= span.last);
    });
    allowing_refusal([&] {
        const Seconds time = parse_time_of_day(input);
        insist(parse_time_of_day(time_of_day_text(time)) == time);
    });
}

/// The first line is read as a clock line of the store too.
void events(std::string_view input) {
    std::vector<Problem> problems;
    const std::vector<ClockEvent> read = read_events(input, {"1", "2a", "2b"}, today, problems);
    const Paper paper(PaperHead{"pure-1", "", "", {}, {}},
                      {{"1", Marks(4), "", ""}, {"2a", Marks(6), "", ""}, {"2b", Marks(2), "", ""}});
    const std::vector<std::size_t> all{0, 1, 2};
    if (problems.empty())
        insist(to_line(parse_clock_line(paper, all, to_line(read, paper, all)), paper, all) ==
               to_line(read, paper, all));
    allowing_refusal([&] {
        const std::string_view line = input.substr(0, input.find('\n'));
        const std::string written = to_line(parse_clock_line(paper, all, line), paper, all);
        insist(to_line(parse_clock_line(paper, all, written), paper, all) == written);
    });
}

} // namespace inkturn::fuzz
