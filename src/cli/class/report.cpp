#include "cli/class/class.hpp"
#include "cli/data/boundary_options.hpp"
#include "cli/outlooks.hpp"
#include "cli/output_file.hpp"

#include "inkturn/statistics/analysis.hpp"
#include "inkturn/store/papers.hpp"
#include "view/page/class_report.hpp"
#include "view/page/sheet_size.hpp"
#include "view/text/text.hpp"

#include <iostream>
#include <set>

namespace inkturn {
namespace {

struct ClassReportOptions {
    std::string paper;
    std::string of_class;
    WhichSittingOptions sitting;
    OutputOptions output;
};

void check_names_nobody(const Paper& paper, const std::string& of_class, std::size_t candidates) {
    if (gives_marks_away(candidates))
        throw Error("no page on " + paper.id() + " was written: it would rest on " +
                    count_text(candidates, "candidate") + ", and figures of fewer than " +
                    std::to_string(PaperAnalysis::min_candidates_unnamed) +
                    " give marks away though they name nobody. See inkturn class analyse " +
                    shell_argument(paper.id()) + class_words(of_class));
}

/// Members of the class without a sitting on the side.
std::optional<ClassReport::NotSat> not_sat(const Store& store, const std::string& of_class,
                                           const Side& side) {
    if (of_class.empty())
        return std::nullopt;
    std::set<std::string> absent = PapersOnFile::absent(store, of_class, *side.paper);
    for (const SittingOfPaper& sitting : side.sittings)
        absent.erase(sitting.candidate);
    return ClassReport::NotSat{absent.size(),
                               store.members(of_class).size() - side.sittings.size() - absent.size()};
}

ReportTopics topics_of(const Context& context, const Store& store, const std::string& of_class,
                       const std::string& subject) {
    const Outlooks outlooks(context, store, codes_of(store, of_class), of_class);
    const TopicsFound found =
        outlooks.topics_of(outlooks.with_marks(codes_of(store, of_class), subject), subject, {});
    return report_topics(found.topics, found.candidates);
}

ClassReport report_of(const Context& context, const ClassReportOptions& options, Store& store) {
    const WhichSitting which = options.sitting.which();
    const auto paper = Context::paper_on_file(store, options.paper);
    ClassReport report{side_on_file(store, paper, options.of_class, which),
                       options.of_class,
                       context.date_today(),
                       {},
                       sets_on_file(store),
                       {},
                       which_counts(which, options.of_class)};
    if (const std::size_t others = sat_elsewhere(store, *paper, options.of_class).size(); others > 0)
        report.counts += " " + count_text(others, "sitting") + " of it at home or for another class " +
                         (others == 1 ? "doesn't" : "don't") + " count.";
    check_names_nobody(*paper, options.of_class, analyse(report.side).candidates);
    report.not_sat = not_sat(store, options.of_class, report.side);
    report.topics = topics_of(context, store, options.of_class, paper->subject());
    return report;
}

void run(const Context& context, const ClassReportOptions& options) {
    Store store = context.store_to_read();
    const ClassReport report = report_of(context, options, store);
    use_paper_size(context);
    write_output(context, options.output, to_html(report), OwnMark::html);
    if (options.output.file != "-")
        context.out << "Wrote a report on " << report.side.paper->id()
                    << (report.of_class.empty() ? "" : ", class " + visible(report.of_class)) << ": "
                    << count_text(report.side.sittings.size(), "candidate") << ", "
                    << count_text(report.topics.shown.size(), "topic")
                    << ".\nNext: open the file in a browser and print it on " << sheet_size_text() << '\n';
}

} // namespace

void add_class_report(Command& group) {
    auto options = std::make_shared<ClassReportOptions>();
    Command report =
        group.command("report", "A page to print: a paper's parts and totals, and the class's topics");
    report.argument("PAPER", options->paper, "The paper's id").required();
    add_class_looked_at(report, options->of_class, "Only this class (all on file)");
    options->sitting.add_to(report);
    options->output.add_to(report);
    report.closing("Example:\n  inkturn class report pure-1 --class tuesday -o tuesday.html");
    report.runs(options, run);
}

} // namespace inkturn
