#include "cli/class/class.hpp"

#include "exchange/json/analysis.hpp"
#include "inkturn/base/error.hpp"
#include "view/text/analysis.hpp"
#include "view/text/text.hpp"

#include <iostream>

namespace inkturn {
namespace {

struct AnalyseOptions {
    std::string paper;
    std::string of_class;
};

std::string name_of(const Paper& paper) {
    return paper.title().empty() ? paper.id() : paper.id() + " (" + visible(paper.title()) + ")";
}

void print(const Context& context, const AnalyseOptions& options, const Paper& paper,
           const PaperAnalysis& analysis) {
    context.out << context.heading(name_of(paper))
                << (options.of_class.empty() ? "" : ", class " + visible(options.of_class)) << '\n';
    if (analysis.candidates == 0) {
        context.out << "Nobody has sat it yet.\nNext: inkturn class import FILE --paper " << paper.id()
                    << '\n';
        return;
    }
    context.out << '\n'
                << paper_table(analysis) << '\n'
                << parts_table(paper, analysis) << '\n'
                << parts_key() << reasons(paper, analysis) << counted_lines(paper, analysis)
                << ran_out_lines(paper, analysis);
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
                << "\nNext: inkturn class retries\n";
}

void run(const Context& context, const AnalyseOptions& options) {
    const Store store = context.store_to_read();
    const auto paper = Context::paper_on_file(store, options.paper);
    const PaperAnalysis analysis =
        analyse(*paper, store.latest_sittings(*paper, class_named(options.of_class)));
    context.answer([&] { return json_of(*paper, analysis); },
                   [&] { print(context, options, *paper, analysis); });
}

} // namespace

void add_class_analyse(Command& group) {
    auto options = std::make_shared<AnalyseOptions>();
    Command analyse_paper = group.command("analyse", "Statistics of a paper, part by part");
    analyse_paper.argument("PAPER", options->paper, "The paper's id").required();
    add_class_option(analyse_paper, options->of_class, "Only this class (all on file)");
    analyse_paper.json();
    analyse_paper.closing("Example:\n  inkturn class analyse pure-1 --class tuesday");
    analyse_paper.runs(options, run);
}

} // namespace inkturn
