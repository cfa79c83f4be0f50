#include "cli/commands.hpp"
#include "cli/context.hpp"
#include "cli/output_file.hpp"
#include "cli/terminal.hpp"

#include "exchange/document/document.hpp"
#include "view/text/text.hpp"

#include <iostream>
#include <optional>

namespace inkturn {
namespace {

/// Empty without any.
std::string pictures_text(const Document& document) {
    return document.pictures.empty() ? "" : ", with " + count_text(document.pictures.size(), "picture");
}

/// Empty where none were left out.
std::string left_out_text(std::size_t pictures) {
    return pictures == 0 ? ""
                         : text_line("Left out: " + count_text(pictures, "picture") +
                                     " of questions and mark schemes; --pictures takes " +
                                     (pictures == 1 ? "it" : "them") + " along.");
}

struct ExportOptions {
    OutputOptions output;
    bool pictures = false;
};

/// The document that was written.
Document written(const Context& context, const Store& store, const ExportOptions& options) {
    constexpr double gathered = 0.25; // of the time, about
    std::optional<ProgressLine> progress;
    progress.emplace(context.err, "inkturn: exporting", std::nullopt, context.quiet);
    const HowFar told = [&](double share) { progress->show_share(share); };
    Document document = document_of(store, options.pictures ? WithPictures::yes : WithPictures::no,
                                    part_of(told, 0, gathered));
    const std::string text = to_text(document, part_of(told, gathered, 1));
    if (options.output.file == "-")
        progress.reset(); // the same terminal may show both
    else
        progress->show_last("writing the file");
    write_output(context, options.output, text);
    return document;
}

void run(const Context& context, const ExportOptions& options) {
    const Store store = context.store_to_read();
    const Document document = written(context, store, options);
    if (options.output.file == "-")
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
                << (scripts > 0 ? ", " + sat + " and " + count_text(scripts, "script") + " still to mark"
                                : " and " + sat)
                << pictures_text(document) << ".\n"
                << left_out_text(options.pictures ? 0 : store.pictures().size())
                << "It holds candidates' marks: send it only to people entitled to see it.\n"
                << "Next, on the other store's computer: inkturn import FILE\n";
}

} // namespace

void add_export(Command& line) {
    auto options = std::make_shared<ExportOptions>();
    Command export_all = line.command("export", "Write everything on file, for another store to import");
    options->output.add_to(export_all);
    export_all.flag("--pictures", options->pictures, "Take the pictures of questions and mark schemes along");
    export_all.closing("Example:\n  inkturn export -o desk.json\n"
                       "For one candidate only: inkturn candidate export CODE -o FILE");
    export_all.runs(options, run);
}

} // namespace inkturn
