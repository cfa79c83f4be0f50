#include "cli/class/class.hpp"
#include "cli/class/class_work.hpp"
#include "cli/names_of_candidates.hpp"
#include "cli/output_file.hpp"
#include "cli/span_options.hpp"

#include "inkturn/base/error.hpp"
#include "inkturn/retry/availability.hpp"
#include "inkturn/retry/turn_outcome.hpp"
#include "view/page/letters.hpp"
#include "view/page/sheet_size.hpp"
#include "view/text/retries.hpp"
#include "view/text/text.hpp"

#include <iostream>

namespace inkturn {
namespace {

struct LettersOptions {
    std::string of_class;
    SpanOptions span;
    std::string hand_in;
    std::string names;
    bool large = false;
    CsvOptionTexts csv;
    OutputOptions output;
};

Letter letter_to(const Candidate& candidate, std::vector<Retry> open, DaySpan span) {
    Letter letter{candidate.code, {}, {}};
    for (Retry& retry : work_within(std::move(open), span).retries) {
        auto attempts =
            attempts_at(get_sitting(candidate, retry.id.sitting), retry.paper->question(retry.question));
        letter.retries.push_back({std::move(retry), std::move(attempts)});
    }
    return letter;
}

/// Doubts a day for handing in that is a day off for the class, or for one of all.
void question_day_off(const Context& context, const LettersOptions& options, const Store& store, Day day) {
    std::vector<std::string> whose;
    for (const ClassOnFile& one : store.classes())
        if ((options.of_class.empty() || one.name == options.of_class) &&
            is_day_off(store.class_times(one.name).dates, day))
            whose.push_back("class " + visible(one.name));
    if (!whose.empty())
        context.question(day_text(day) + " is a day off for " + joined(whose, " and "), "Is that the day?",
                         "type the date again", false);
}

/// The last day of the letters, or as typed.
Day hand_in_day(const Context& context, const LettersOptions& options, const Store& store, DaySpan span) {
    if (options.hand_in.empty())
        return span.last;
    const Day day = context.date_ahead(options.hand_in, false);
    question_day_off(context, options, store, day);
    return day;
}

Letters letters_of(const Context& context, const LettersOptions& options, const Store& store) {
    const DaySpan span = options.span.read(context);
    Letters letters{span,
                    hand_in_day(context, options, store, span),
                    context.date_today(),
                    {},
                    options.large ? PrintSize::large : PrintSize::usual};
    if (letters.hand_in < letters.today)
        throw Error(options.hand_in.empty()
                        ? "the last day, " + iso(span.last) +
                              ", is before today: letters ask for work to come"
                        : "--hand-in " + iso(letters.hand_in) + " is before today: name a day to come");
    if (letters.hand_in < span.first)
        throw Error("--hand-in " + iso(letters.hand_in) + " is before " + iso(span.first) +
                    ", the first day of the letters: name a later day, or an earlier --from");
    const NamesOfCandidates names(context, options.names, options.csv, "no letter was written");
    names.say_whose(context, codes_of(store, options.of_class), options.of_class, "letter");
    each_of_class(context, store, options.of_class, [&](const Candidate& candidate, std::vector<Retry> open) {
        Letter letter = letter_to(candidate, std::move(open), span);
        letter.name = names.of(candidate.code);
        letters.letters.push_back(std::move(letter));
    });
    return letters;
}

/// What was written, and what was not.
struct LettersWritten {
    std::size_t letters = 0;
    std::size_t sides = 0;
    std::size_t shown = 0; ///< retries on them
    std::size_t all = 0;
    std::size_t later = 0;           ///< of those shown, after the day on which all are handed in
    std::optional<Day> last_close{}; ///< of the windows of those shown
};

LettersWritten counted_letters(const Letters& letters) {
    LettersWritten written;
    for (const Letter& letter : letters.letters) {
        const std::vector<std::vector<LetterRetry>> sides = sides_of(letter, letters);
        written.letters += !sides.empty();
        written.sides += sides.size();
        written.all += letter.retries.size();
        for (const std::vector<LetterRetry>& side : sides) {
            written.shown += side.size();
            for (const LetterRetry& one : side) {
                written.later += is_due_later(one.retry, letters.hand_in);
                if (one.retry.window)
                    written.last_close =
                        std::max(written.last_close, std::optional(one.retry.window->closes));
            }
        }
    }
    return written;
}

std::string due_later(const LettersWritten& written, Day hand_in) {
    const bool is_one = written.later == 1;
    return text_line(std::to_string(written.later) + " of them" + (is_one ? " is" : " are") +
                     " due later than " + day_text(hand_in) + ", as " +
                     (is_one ? "its window opens" : "their windows open") +
                     " after it; the letters say when. If all are to be in together, choose a later "
                     "--hand-in.");
}

/// How many are on the letters, of how many, and who has none.
void report_written(const Context& context, const LettersOptions& options, const Letters& letters) {
    const LettersWritten written = counted_letters(letters);
    if (written.letters == 0) {
        context.out << "Nothing is due (" << day_text(letters.span)
                    << "); the page says so.\nNext: inkturn class retries" << class_words(options.of_class)
                    << " --to +28d\n";
        return;
    }
    context.out << "Wrote " << count_text(written.letters, "letter") << " with "
                << counted_retries(written.shown)
                << (written.sides > written.letters ? " on " + count_text(written.sides, "side") : "") << ", "
                << day_text(letters.span) << ".\n";
    if (written.later > 0)
        context.out << due_later(written, letters.hand_in);
    if (!options.hand_in.empty() && written.last_close && *written.last_close < letters.hand_in)
        context.out << text_line("All are due before " + day_text(letters.hand_in) + ", the last on " +
                                 day_text(*written.last_close) + "; the letters give each its own day.");
    if (written.shown < written.all)
        context.out << written.all - written.shown << " more did not fit the sides; the letters say so.\n";
    if (const std::size_t none = letters.letters.size() - written.letters; none > 0)
        context.out << none << (none == 1 ? " candidate has" : " candidates have")
                    << " nothing to retry on these days, and no letter.\n";
    context.out << "Next: open the file in a browser and print it on " << sheet_size_text()
                << "; when the sheets are\n"
                   "back: inkturn class retries"
                << class_words(options.of_class) << " --sheet -o sheet.csv\n";
}

void run(const Context& context, const LettersOptions& options) {
    const Store store = context.store_to_read();
    const Letters letters = letters_of(context, options, store);
    use_paper_size(context);
    write_output(context, options.output, to_html(letters), OwnMark::html);
    if (options.output.file != "-")
        report_written(context, options, letters);
}

} // namespace

void add_class_letters(Command& group) {
    auto options = std::make_shared<LettersOptions>();
    Command letters = group.command("letters", "A page to print: what to retry by when, a side a candidate");
    add_class_looked_at(letters, options->of_class, "Only this class (all on file)");
    options->span.add_to(letters);
    letters.option("--hand-in", options->hand_in, "D",
                   "The day by which the letter says all are to be handed in (the last day)");
    letters.flag("--large", options->large, "Large print: words at 18 points, on as many sides as needed");
    add_names_option(letters, options->names, options->csv, "letters");
    options->output.add_to(letters);
    letters.closing("Example:\n  inkturn class letters --class tuesday --to +14d -o letters.html\n"
                    "Names are read for the letters alone and not stored. Delete the letters once\n"
                    "they are printed: pupils' marks are personal data.");
    letters.runs(options, run);
}

} // namespace inkturn
