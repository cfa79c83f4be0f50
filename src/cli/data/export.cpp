#include "cli/commands.hpp"
#include "cli/context.hpp"
#include "cli/output_file.hpp"

#include "exchange/document/document.hpp"
#include "view/text/text.hpp"

#include <iostream>

namespace inkturn {
namespace {

void run(const Context& context, const OutputOptions& options) {
    const Document document = document_of(context.store_to_read());
    write_output(context, options, to_text(document));
    if (options.file == "-")
        return;
    std::size_t sittings = 0;
    std::size_t scripts = 0;
    for (const ExportedCandidate& exported : document.candidates) {
        sittings += exported.candidate.sittings.size();
        scripts += exported.scripts.size();
    }
    const std::string sat = count_text(sittings, "sitting");
    context.out << "Wrote " << count_text(document.papers.size(), "paper") << ", "
                << count_text(document.candidates.size(), "candidate")
                << (scripts > 0 ? ", " + sat + " and " + count_text(scripts, "script") + " not marked through"
                                : " and " + sat)
                << ".\nIt holds marks of candidates: send it to nobody who may not see them.\n"
                << "Next, where the other store is: inkturn import FILE\n";
}

} // namespace

void add_export(Command& line) {
    auto options = std::make_shared<OutputOptions>();
    Command export_all = line.command("export", "Write everything on file for another store to take in");
    options->add_to(export_all);
    export_all.closing("Example:\n  inkturn export -o desk.json\n"
                       "For one candidate alone: inkturn candidate export CODE -o FILE");
    export_all.runs(options, run);
}

} // namespace inkturn
