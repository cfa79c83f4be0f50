#include "cli/class/class.hpp"
#include "cli/outlooks.hpp"

#include "exchange/json/analysis.hpp"
#include "exchange/json/comparison.hpp"
#include "inkturn/base/day_span.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/store/closed_classes.hpp"
#include "view/text/analysis.hpp"
#include "view/text/comparison.hpp"
#include "view/text/findings.hpp"
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
    std::string against_closed;
    WhichSittingOptions sitting;
    bool by_model = false;

    bool compares() const { return !(against + against_date + against_paper + against_closed).empty(); }
};

std::string name_of(const Paper& paper) {
    return paper.title().empty() ? paper.id() : paper.id() + " (" + visible(paper.title()) + ")";
}

using Eases = std::vector<std::optional<double>>;

/// How much easier each part was than others of its topic, by the marks of the class, or of all on file.
Eases eases_on_file(const Context& context, const Store& store, const AnalyseOptions& options,
                    const Paper& paper) {
    const Outlooks outlooks(context, store, codes_of(store, options.of_class), options.of_class);
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
    const WhichSitting which = options.sitting.which();
    if (analysis.candidates == 0) {
        context.out << "Nobody has sat it yet.\nNext: inkturn class import FILE --paper " << paper.id()
                    << class_words(options.of_class) << '\n';
        return;
    }
    if (const auto findings = find_findings(paper, analysis))
        context.out << '\n' << finding_lines(finding_texts(paper, analysis, *findings));
    context.out << '\n'
                << paper_table(analysis) << '\n'
                << parts_table(paper, analysis) << '\n'
                << parts_key() << hardest_parts(paper, eases) << reasons(paper, analysis)
                << counted_lines(paper, analysis) << ran_out_lines(paper, analysis);
    const std::string said = readings(paper, analysis);
    if (!said.empty())
        context.out << '\n' << said;
    context.out << '\n'
                << wrapped(which_counts(which, options.of_class), text_width())
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

Side side_of(const Context& context, const Store& store, const SideTexts& texts, WhichSitting which) {
    const std::optional<DaySpan> days =
        texts.date.empty() ? std::nullopt : std::optional(parse_day_span(texts.date, context.date_today()));
    return side_on_file(store, Context::paper_on_file(store, texts.paper), texts.of_class, which, days);
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

void print(const Context& context, const SideTexts& a, const SideTexts& b, const std::string& title_of_b,
           const Comparison& comparison, WhichSitting which) {
    const SideNames names = names_of(a, b);
    context.out << context.heading(wrapped(title_of(a) + ", against " + title_of_b, text_width(), 2))
                << "\n\n";
    if (comparison.parts.empty()) {
        context.out << text_line("There is nothing to compare: on one side nobody has sat a part that both "
                                 "have, with the same marks and topic.")
                    << "Next: inkturn class analyse" << class_words(a.of_class) << ' '
                    << shell_argument(a.paper) << '\n';
        return;
    }
    context.out << comparison_findings(comparison, names) << '\n';
    if (!comparison.closed)
        context.out << totals_table(comparison, names) << '\n';
    context.out << "Parts that differ most, by facility:\n\n"
                << differing_parts_table(comparison, names) << '\n'
                << comparison_notes(comparison)
                << wrapped(which_counts(which, a.of_class.empty() ? b.of_class : a.of_class), text_width())
                << '\n'
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
    const WhichSitting which = options.sitting.which();
    const Side first = side_of(context, store, a, which);
    const Side second = side_of(context, store, b, which);
    const Comparison comparison = compare(first, second);
    context.answer([&] { return json_of(first, second, comparison, which); },
                   [&] { print(context, a, b, title_of(b), comparison, which); });
}

/// What is kept of the class that was closed last under this name.
ClosedClassFigures figures_kept(const Store& store, const std::string& paper, const std::string& name) {
    const std::vector<ClosedClassFigures> all = ClosedClasses::of(store, paper);
    const auto found = std::find_if(all.rbegin(), all.rend(),
                                    [&](const ClosedClassFigures& one) { return one.of_class == name; });
    if (found != all.rend())
        return *found;
    std::vector<std::string> names;
    for (const ClosedClassFigures& one : all)
        names.push_back(one.of_class);
    throw Error("no figures of a closed class " + name + " are kept for paper " + paper +
                    meant(name, names,
                          names.empty() ? "'inkturn class close' keeps them"
                                        : "there are those of " + joined(names, " and ")),
                Error::Kind::not_found);
}

/// By parts alone: that is what is kept.
void run_against_closed(const Context& context, const AnalyseOptions& options, const Store& store) {
    if (!(options.against + options.against_date).empty())
        throw UsageError("use --against-closed without --against and --against-date");
    const SideTexts a{options.paper, options.of_class, options.date};
    const SideTexts b{options.against_paper.empty() ? options.paper : options.against_paper,
                      options.against_closed == options.of_class ? "closed" : options.against_closed, ""};
    const WhichSitting which = options.sitting.which();
    const Side first = side_of(context, store, a, which);
    const auto paper = Context::paper_on_file(store, b.paper);
    const ClosedClassFigures closed = figures_kept(store, b.paper, options.against_closed);
    const Comparison comparison = compare(first, closed, *paper);
    context.answer([&] { return json_of(first, closed, comparison, which); },
                   [&] {
                       print(context, a, b,
                             visible(b.paper) + ", class " + visible(closed.of_class) + " (closed on " +
                                 day_text(closed.day) + ")",
                             comparison, which);
                   });
}

/// A class that was closed has no sittings to compare.
void check_is_open(const Store& store, const AnalyseOptions& options) {
    if (options.against.empty() || store.has_class(options.against))
        return;
    for (const ClosedClassFigures& closed : ClosedClasses::all(store))
        if (closed.of_class == options.against)
            throw Error("class " + options.against + " was closed: use --against-closed " +
                        shell_word(options.against) + " for the figures kept of it");
}

void run_analysis(const Context& context, const AnalyseOptions& options, const Store& store) {
    const WhichSitting which = options.sitting.which();
    const Side side = side_of(context, store, {options.paper, options.of_class, options.date}, which);
    const Paper& paper = *side.paper;
    const PaperAnalysis analysis = analyse(side);
    const Eases eases =
        options.by_model ? eases_on_file(context, store, options, paper) : Eases(paper.parts().size());
    context.answer([&] { return json_of(paper, analysis, eases, which); },
                   [&] { print(context, options, paper, analysis, eases); });
}

void run(const Context& context, const AnalyseOptions& options) {
    const Store store = context.store_to_read();
    check_is_open(store, options);
    if (!options.against_closed.empty())
        run_against_closed(context, options, store);
    else if (options.compares())
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
    add_class_looked_at(analyse_paper, options->of_class, "Only this class (all on file)");
    analyse_paper.option("--against", options->against, "CLASS", "Compare with this class");
    analyse_paper.option("--date", options->date, "D", "Only sittings of this day, or of days D..D");
    analyse_paper.option("--against-date", options->against_date, "D",
                         "Compare with those of this day, or of days D..D");
    analyse_paper.option("--against-paper", options->against_paper, "PAPER",
                         "Compare with this paper, by the labels of parts");
    analyse_paper.option("--against-closed", options->against_closed, "CLASS",
                         "Compare with the figures kept of a class that was closed");
    options->sitting.add_to(analyse_paper);
    analyse_paper.flag("--by-model", options->by_model,
                       "Also which parts were hard, with what the candidates can do allowed for");
    analyse_paper.json();
    analyse_paper.closing("Examples:\n"
                          "  inkturn class analyse pure-1 --class tuesday\n"
                          "  inkturn class analyse pure-1 --class tuesday --against friday\n"
                          "  inkturn class analyse pure-1 --date 2026-11-02 --against-date 2025-11-03\n"
                          "  inkturn class analyse pure-1 --class tuesday --against-closed tuesday");
    analyse_paper.runs(options, run);
}

} // namespace inkturn
