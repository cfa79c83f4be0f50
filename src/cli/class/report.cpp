#include "cli/class/class.hpp"
#include "cli/data/boundary_options.hpp"
#include "cli/outlooks.hpp"
#include "cli/output_file.hpp"

#include "inkturn/grades/standing.hpp"
#include "view/page/class_report.hpp"
#include "view/text/analysis.hpp"
#include "view/text/text.hpp"

#include <iostream>

namespace inkturn {
namespace {

struct ClassReportOptions {
    std::string paper;
    std::string of_class;
    OutputOptions output;
};

std::vector<PartEarned> parts_of(const Paper& paper, const std::vector<std::vector<PartMarks>>& sittings) {
    std::vector<PartEarned> parts;
    for (std::size_t i = 0; i < paper.parts().size(); ++i) {
        PartEarned part{paper.parts()[i].label, paper.parts()[i].max, Marks(0), 0};
        for (const std::vector<PartMarks>& sitting : sittings)
            if (sitting[i].counts()) {
                part.earned += sitting[i].unaided();
                ++*part.counted;
            }
        if (part.counted >= PaperAnalysis::min_candidates_unnamed || sittings.empty())
            parts.push_back(std::move(part));
    }
    return parts;
}

/// A sentence that names the parts left out, or nothing.
std::string parts_withheld(const Paper& paper, const PaperAnalysis& analysis) {
    std::vector<std::string> labels;
    for (std::size_t i = 0; i < analysis.parts.size(); ++i)
        if (const std::size_t n = analysis.parts[i].candidates;
            n > 0 && n < PaperAnalysis::min_candidates_unnamed)
            labels.push_back(paper.parts()[i].label);
    return labels.empty() ? ""
                          : "Not shown: " + joined(labels, " and ") + ", which counted for fewer than " +
                                std::to_string(PaperAnalysis::min_candidates_unnamed) +
                                " candidates, as figures would give their marks away.";
}

void check_names_nobody(const Paper& paper, const PaperAnalysis& analysis) {
    if (analysis.candidates > 0 && analysis.candidates < PaperAnalysis::min_candidates_unnamed)
        throw Error("no page on " + paper.id() + " was written: it would rest on " +
                    count_text(analysis.candidates, "candidate") + ", and figures of fewer than " +
                    std::to_string(PaperAnalysis::min_candidates_unnamed) +
                    " give marks away though they name nobody. See inkturn class analyse " +
                    shell_argument(paper.id()));
}

/// Those out of `max`: others can't be put beside them.
std::vector<Marks> totals_of(const Paper& paper, const std::vector<std::vector<PartMarks>>& sittings,
                             Marks max) {
    std::vector<Marks> all;
    for (const std::vector<PartMarks>& sitting : sittings)
        if (const Totals sum = totals(paper, sitting); sum.max == max)
            all.push_back(sum.unaided());
    return all;
}

ReportTopics topics_of(const Store& store, const std::string& of_class, const std::string& subject) {
    const Outlooks outlooks(store, codes_of(store, of_class), of_class);
    const TopicsFound found =
        outlooks.topics_of(outlooks.with_marks(codes_of(store, of_class), subject), subject, {});
    return report_topics(found.topics, found.candidates);
}

ClassReport report_of(const Context& context, const ClassReportOptions& options, Store& store) {
    const auto paper = Context::paper_on_file(store, options.paper);
    const auto sittings = store.latest_sittings(*paper, class_named(options.of_class));
    const PaperAnalysis analysis = analyse(*paper, sittings);
    check_names_nobody(*paper, analysis);

    ClassReport report;
    report.paper = paper->id();
    report.paper_title = paper->title();
    report.subject = paper->subject();
    report.of_class = options.of_class;
    report.day = context.date_today();
    report.figures = paper_page_table(analysis);
    report.missing = {why_no_error(analysis), parts_withheld(*paper, analysis)};
    report.parts = parts_of(*paper, sittings);
    report.spread = {totals_of(*paper, sittings, analysis.max), analysis.max, {}};
    if (analysis.max == paper->marks())
        report.spread.bands = bands_for(*paper, sets_on_file(store));
    report.topics = topics_of(store, options.of_class, paper->subject());
    return report;
}

void run(const Context& context, const ClassReportOptions& options) {
    Store store = context.store_to_read();
    const ClassReport report = report_of(context, options, store);
    write_output(context, options.output, to_html(report), OwnMark::html);
    if (options.output.file != "-")
        context.out << "Wrote a report on " << report.paper
                    << (report.of_class.empty() ? "" : ", class " + visible(report.of_class)) << ": "
                    << count_text(report.spread.totals.size(), "candidate") << ", "
                    << count_text(report.topics.shown.size(), "topic")
                    << ".\nNext: open the file in a browser and print it on A4\n";
}

} // namespace

void add_class_report(Command& group) {
    auto options = std::make_shared<ClassReportOptions>();
    Command report =
        group.command("report", "A page to print: a paper's parts and totals, and the class's topics");
    report.argument("PAPER", options->paper, "The paper's id").required();
    add_class_option(report, options->of_class, "Only this class (all on file)");
    options->output.add_to(report);
    report.closing("Example:\n  inkturn class report pure-1 --class tuesday -o tuesday.html");
    report.runs(options, run);
}

} // namespace inkturn
