#include "cli/class/class.hpp"
#include "cli/commands.hpp"
#include "cli/context.hpp"
#include "cli/output_file.hpp"
#include "cli/span_options.hpp"
#include "cli/student/timetable_on_file.hpp"

#include "inkturn/plan/plan.hpp"
#include "view/page/booklet.hpp"
#include "view/text/retries.hpp"
#include "view/text/text.hpp"

#include <iostream>
#include <map>
#include <tuple>
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

/// The pictures of questions, each read from the store once.
class PicturesOnFile {
  public:
    explicit PicturesOnFile(const Store& store) : store_(store) {}

    const std::vector<SharedPicture>& of(const Retry& retry, PictureContent content) {
        const auto [found, is_new] =
            read_.try_emplace(std::tuple(retry.paper->id(), retry.id.question, content));
        if (is_new)
            for (Picture& picture : store_.pictures_of(*retry.paper, retry.id.question, content))
                found->second.push_back(std::make_shared<const Picture>(std::move(picture)));
        return found->second;
    }

  private:
    const Store& store_;
    std::map<std::tuple<std::string, std::string, PictureContent>, std::vector<SharedPicture>> read_;
};

BookletItem item_of(PicturesOnFile& pictures, const Candidate& candidate, const Retry& retry) {
    return {retry, pictures.of(retry, PictureContent::question), pictures.of(retry, PictureContent::scheme),
            attempts_at(get_sitting(candidate, retry.id.sitting), retry.paper_question())};
}

Booklet booklet_of(const Context& context, const BookletOptions& options, const Store& store) {
    Booklet booklet{options.span.read(context), {}, options.large ? PrintSize::large : PrintSize::usual};
    PicturesOnFile pictures(store);
    for (const std::string& code : work_of_candidates(context, options, store)) {
        const Candidate candidate = store.candidate(code);
        const std::vector<Retry> retries = retries_on_file(store, candidate, context.date_today());
        BookletOfCandidate& own = booklet.candidates.emplace_back(BookletOfCandidate{code, {}});
        for (const Retry& retry : work_within(retries, booklet.span).retries)
            own.items.push_back(item_of(pictures, candidate, retry));
    }
    return booklet;
}

void run(const Context& context, const BookletOptions& options) {
    Store store = context.store_to_read();
    const Booklet booklet = booklet_of(context, options, store);
    write_output(context, options.output, to_html(booklet), OwnMark::html);
    if (options.output.file == "-")
        return;
    std::size_t retries = 0;
    std::size_t candidates = 0;
    for (const BookletOfCandidate& candidate : booklet.candidates) {
        retries += candidate.items.size();
        candidates += !candidate.items.empty();
    }
    if (retries == 0) {
        context.out << "Nothing is due (" << day_text(booklet.span) << "); the page says so.\nNext: inkturn "
                    << (options.of_class.empty() ? "plan" : "class retries" + class_words(options.of_class))
                    << '\n';
        return;
    }
    context.out << "Wrote " << counted_retries(retries) << " for " << count_text(candidates, "candidate")
                << ", " << day_text(booklet.span)
                << ".\nNext: open the file in a browser and print it on A4\n";
}

} // namespace

void add_booklet(Command& line) {
    auto options = std::make_shared<BookletOptions>();
    Command booklet =
        line.command("booklet", "A page to print: the questions to retry, with mark schemes at the end");
    options->span.add_to(booklet);
    add_class_option(booklet, options->of_class, "For each candidate in this class");
    booklet.flag("--all", options->all, "For each candidate on file");
    booklet.flag("--large", options->large,
                 "Large print: words at 18 points, pictures larger where they fit");
    options->output.add_to(booklet);
    booklet.closing(
        "Example:\n  inkturn booklet -o week.html\n  inkturn booklet --class tuesday --date 2026-12-01 -o "
        "tuesday.html\n"
        "'inkturn picture add' adds photographs of the questions.");
    booklet.runs(options, run);
}

} // namespace inkturn
