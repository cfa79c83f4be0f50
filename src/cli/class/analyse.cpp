#include "cli/class/class.hpp"
#include "cli/outlooks.hpp"

#include "exchange/json/analysis.hpp"
#include "exchange/json/comparison.hpp"
#include "inkturn/base/day_span.hpp"
#include "inkturn/base/error.hpp"
#include "view/text/analysis.hpp"
#include "view/text/comparison.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <iostream>

namespace inkturn {
namespace {

struct AnalyseOptions {
    std::string paper;
    std::string of_class;
    std::string date;
    std::string against;
    std::string against_date;
    std::string against_paper;
    bool latest = false;
    bool by_model = false;

    bool compares() const { return !against.empty() || !against_date.empty() || !against_paper.empty(); }
};

std::string name_of(const Paper& paper) {
    return paper.title().empty() ? paper.id() : paper.id() + " (" + visible(paper.title()) + ")";
}

using Eases = std::vector<std::optional<double>>;

/// How much easier each part was than others of its topic, by the marks of the class, or of all on file.
Eases eases_on_file(const Store& store, const AnalyseOptions& options, const Paper& paper) {
    const Outlooks outlooks(store, codes_of(store, options.of_class));
    const Outlook& outlook = outlooks.in(paper.subject());
    Eases eases;
    for (std::size_t part = 0; part < paper.parts().size(); ++part)
        eases.push_back(outlook.part_ease(paper.id(), part));
    return eases;
}

void print(const Context& context, const AnalyseOptions& options, const Paper& paper,
           const PaperAnalysis& analysis, const Eases& eases) {
    context.out << context.heading(name_of(paper))
                << (options.of_class.empty() ? "" : ", class " + visible(options.of_class)) << '\n';
    if (analysis.candidates == 0) {
        context.out << "Nobody has sat it yet.\nNext: inkturn class import FILE --paper " << paper.id()
                    << class_words(options.of_class) << '\n';
        return;
    }
    context.out << '\n'
                << paper_table(analysis) << '\n'
                << parts_table(paper, analysis) << '\n'
                << parts_key() << hardest_parts(paper, eases) << reasons(paper, analysis)
                << counted_lines(paper, analysis) << ran_out_lines(paper, analysis);
    const std::string said = readings(paper, analysis);
    if (!said.empty())
        context.out << '\n' << said;
    context.out << '\n'
                << wrapped(std::string("Each candidate's latest sitting counts") +
                               (analysis.others > 0 ? ", or the latest of the whole paper," : ",") +
                               " by unaided marks." +
                               (options.of_class.empty() ? ""
                                                         : " Sittings imported for another class alone count "
                                                           "only where there is none for this one."),
                           text_width())
                << "\nNext: inkturn class retries" << class_words(options.of_class) << '\n';
}

/// Those whose sittings are on one side.
struct SideTexts {
    std::string paper;
    std::string of_class;
    std::string date;

    bool operator==(const SideTexts& other) const {
        return paper == other.paper && of_class == other.of_class && date == other.date;
    }
};

std::vector<SittingOfPaper> on_days(std::vector<SittingOfPaper> sittings, DaySpan days) {
    sittings.erase(std::remove_if(sittings.begin(), sittings.end(),
                                  [&](const SittingOfPaper& sitting) { return !days.contains(sitting.day); }),
                   sittings.end());
    return sittings;
}

Side side_on_file(const Context& context, const Store& store, const SideTexts& texts, WhichSitting which) {
    const auto paper = Context::paper_on_file(store, texts.paper);
    std::vector<SittingOfPaper> sittings = store.sittings_of(*paper, class_named(texts.of_class));
    if (!texts.date.empty())
        sittings = on_days(std::move(sittings), parse_day_span(texts.date, context.date_today()));
    return {paper, one_each(*paper, sittings, which)};
}

/// The first thing in which the sides differ.
SideNames names_of(const SideTexts& a, const SideTexts& b) {
    if (a.of_class != b.of_class)
        return {a.of_class.empty() ? "all" : a.of_class, b.of_class.empty() ? "all" : b.of_class};
    if (a.date != b.date)
        return {a.date.empty() ? "all dates" : a.date, b.date.empty() ? "all dates" : b.date};
    return {a.paper, b.paper};
}

std::string title_of(const SideTexts& texts) {
    return visible(texts.paper) + ", " + class_title(texts.of_class) +
           (texts.date.empty() ? "" : ", " + visible(texts.date));
}

void print(const Context& context, const SideTexts& a, const SideTexts& b, const Comparison& comparison,
           bool latest) {
    const SideNames names = names_of(a, b);
    context.out << context.heading(wrapped(title_of(a) + ", against " + title_of(b), text_width(), 2))
                << "\n\n";
    if (comparison.parts.empty()) {
        context.out << text_line(
                           "There is nothing to compare: on one side nobody has sat a part that both have.")
                    << "Next: inkturn class analyse" << class_words(a.of_class) << ' '
                    << shell_argument(a.paper) << '\n';
        return;
    }
    context.out << comparison_findings(comparison, names) << '\n'
                << totals_table(comparison, names) << '\n'
                << "Parts that differ most, by facility:\n\n"
                << differing_parts_table(comparison, names) << '\n'
                << comparison_notes(comparison)
                << text_line(std::string("Each candidate's ") + (latest ? "latest" : "first") +
                             " sitting counts, of the whole paper if there is one.")
                << "Next: inkturn class topics" << class_words(a.of_class) << '\n';
}

void run_comparison(const Context& context, const AnalyseOptions& options, const Store& store) {
    const SideTexts a{options.paper, options.of_class, options.date};
    const SideTexts b{options.against_paper.empty() ? options.paper : options.against_paper,
                      options.against.empty() ? options.of_class : options.against,
                      options.against_date.empty() ? options.date : options.against_date};
    if (a == b)
        throw Error("both sides are the same sittings: name another class, date or paper after --against, "
                    "--against-date or --against-paper");
    const WhichSitting which = options.latest ? WhichSitting::latest : WhichSitting::first;
    const Side first = side_on_file(context, store, a, which);
    const Side second = side_on_file(context, store, b, which);
    const Comparison comparison = compare(first, second);
    context.answer([&] { return json_of(first, second, comparison); },
                   [&] { print(context, a, b, comparison, options.latest); });
}

void run_analysis(const Context& context, const AnalyseOptions& options, const Store& store) {
    const auto paper = Context::paper_on_file(store, options.paper);
    const PaperAnalysis analysis =
        analyse(*paper, store.latest_sittings(*paper, class_named(options.of_class)));
    const Eases eases =
        options.by_model ? eases_on_file(store, options, *paper) : Eases(paper->parts().size());
    context.answer([&] { return json_of(*paper, analysis, eases); },
                   [&] { print(context, options, *paper, analysis, eases); });
}

void run(const Context& context, const AnalyseOptions& options) {
    if (!options.compares() && (options.latest || !options.date.empty()))
        throw UsageError("--date and --latest are for a comparison: add --against, --against-date or "
                         "--against-paper");
    const Store store = context.store_to_read();
    if (options.compares())
        run_comparison(context, options, store);
    else
        run_analysis(context, options, store);
}

} // namespace

void add_class_analyse(Command& group) {
    auto options = std::make_shared<AnalyseOptions>();
    Command analyse_paper =
        group.command("analyse", "Statistics of a paper, or how two classes differ in it");
    analyse_paper.argument("PAPER", options->paper, "The paper's id").required();
    add_class_option(analyse_paper, options->of_class, "Only this class (all on file)");
    analyse_paper.option("--against", options->against, "CLASS", "Compare with this class");
    analyse_paper.option("--date", options->date, "D", "Compare sittings of this day, or of days D..D");
    analyse_paper.option("--against-date", options->against_date, "D", "with those of this one");
    analyse_paper.option("--against-paper", options->against_paper, "PAPER",
                         "Compare with this paper, by the labels of parts");
    analyse_paper.flag("--latest", options->latest, "Compare latest sittings, not first ones");
    analyse_paper.flag("--by-model", options->by_model,
                       "Also which parts were hard, with what the candidates can do allowed for");
    analyse_paper.json();
    analyse_paper.closing("Examples:\n"
                          "  inkturn class analyse pure-1 --class tuesday\n"
                          "  inkturn class analyse pure-1 --class tuesday --against friday\n"
                          "  inkturn class analyse pure-1 --date 2026-11-02 --against-date 2025-11-03");
    analyse_paper.runs(options, run);
}

} // namespace inkturn
