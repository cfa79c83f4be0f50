#include "cli/class/class.hpp"
#include "cli/commands.hpp"
#include "cli/context.hpp"
#include "cli/output_file.hpp"
#include "cli/span_options.hpp"
#include "cli/student/pictures_on_file.hpp"
#include "cli/student/sets_on_file.hpp"
#include "cli/student/timetable_on_file.hpp"
#include "cli/terminal.hpp"

#include "inkturn/plan/plan.hpp"
#include "inkturn/plan/sittings_ahead.hpp"
#include "view/page/booklet.hpp"
#include "view/page/sheet_size.hpp"
#include "view/text/retries.hpp"
#include "view/text/text.hpp"

#include <iostream>
#include <utility>

namespace inkturn {
namespace {

struct BookletOptions {
    std::string of_class;
    bool all = false;
    bool large = false;
    SpanOptions span;
    OutputOptions output;
};

std::vector<std::string> work_of_candidates(const Context& context, const BookletOptions& options,
                                            const Store& store) {
    if (options.all || !options.of_class.empty())
        return codes_of(store, options.of_class);
    return {context.candidate_on_file(store).code};
}

Booklet booklet_of(const Context& context, const BookletOptions& options, const Store& store) {
    Booklet booklet{options.span.read(context), {}, options.large ? PrintSize::large : PrintSize::usual};
    PicturesOnFile pictures(store);
    const SetsOnFile sets(store);
    const std::vector<std::string> codes = work_of_candidates(context, options, store);
    ProgressLine progress(context.err, "inkturn: booklet", std::nullopt, context.quiet);
    for (const std::string& code : codes) {
        progress.show_piece("candidate", booklet.candidates.size() + 1, codes.size());
        const Candidate candidate = store.candidate(code);
        const Timetable made = timetable_on_file(store, candidate, context.date_today()).made;
        BookletOfCandidate& own = booklet.candidates.emplace_back(BookletOfCandidate{code, {}});
        for (const Retry& retry : work_within(retries_of(made), booklet.span).retries)
            own.items.push_back(pictures.item_of(candidate, retry));
        own.sets = sets.within(made, booklet.span, extra_time_ahead(candidate), pictures);
    }
    return booklet;
}

void run(const Context& context, const BookletOptions& options) {
    Store store = context.store_to_read();
    const Booklet booklet = booklet_of(context, options, store);
    use_paper_size(context);
    write_output(context, options.output, to_html(booklet), OwnMark::html);
    if (options.output.file == "-")
        return;
    std::size_t retries = 0;
    std::size_t sets = 0;
    std::size_t candidates = 0;
    for (const BookletOfCandidate& candidate : booklet.candidates) {
        retries += candidate.items.size();
        sets += candidate.sets.size();
        candidates += !candidate.is_empty();
    }
    if (candidates == 0) {
        context.out << "Nothing is due (" << day_text(booklet.span) << "); the page says so.\nNext: inkturn "
                    << (options.of_class.empty() ? "plan" + context.same_candidate()
                                                 : "class retries" + class_words(options.of_class))
                    << '\n';
        return;
    }
    context.out << "Wrote " << (retries > 0 ? counted_retries(retries) : "")
                << (retries > 0 && sets > 0 ? " and " : "")
                << (sets > 0 ? count_text(sets, "drawn paper") : "") << " for "
                << count_text(candidates, "candidate") << ", " << day_text(booklet.span)
                << ".\nNext: open the file in a browser and print it on " << sheet_size_text() << '\n';
}

} // namespace

void add_booklet(Command& line) {
    auto options = std::make_shared<BookletOptions>();
    Command booklet = line.command(
        "booklet", "A page to print: the questions to retry, and drawn papers to sit, with mark schemes");
    options->span.add_to(booklet);
    add_class_option(booklet, options->of_class, "For each candidate in this class");
    booklet.flag("--all", options->all, "For each candidate on file");
    booklet.flag("--large", options->large,
                 "Large print: words at 18 points, pictures larger where they fit");
    options->output.add_to(booklet);
    booklet.closing(
        "Examples:\n  inkturn booklet -o week.html\n  inkturn booklet --class tuesday --date 2026-12-01 -o "
        "tuesday.html\n"
        "'inkturn picture add' adds photographs of the questions.");
    booklet.runs(options, run);
}

} // namespace inkturn
