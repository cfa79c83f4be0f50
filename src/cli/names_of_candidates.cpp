#include "cli/names_of_candidates.hpp"

#include "exchange/csv/names.hpp"
#include "view/text/text.hpp"

#include <algorithm>

namespace inkturn {
namespace {

std::map<std::string, std::string> names_in(const Context& context, const std::string& file,
                                            const CsvOptionTexts& csv, const std::string& otherwise) {
    if (file.empty())
        return {};
    const InputFile input(file, context);
    ProblemList problems;
    const auto rows = csv.rows_of(input);
    std::map<std::string, std::string> names = read_names_rows(*rows, problems);
    refuse_problems(context, input.name(), problems, otherwise);
    return names;
}

} // namespace

NamesOfCandidates::NamesOfCandidates(const Context& context, const std::string& file,
                                     const CsvOptionTexts& csv, const std::string& otherwise)
    : names_(names_in(context, file, csv, otherwise)), given_(!file.empty()) {}

std::string NamesOfCandidates::of(const std::string& code) const {
    const auto name = names_.find(code);
    return name == names_.end() ? "" : name->second;
}

std::string NamesOfCandidates::said(const std::vector<PageOfCandidate>& pages) const {
    const auto without = std::count_if(pages.begin(), pages.end(),
                                       [&](const PageOfCandidate& page) { return of(page.code).empty(); });
    if (!given_ || without == 0)
        return "";
    return text_line(std::to_string(without) + (without == 1 ? " has" : " have") +
                     " no name in the file, and " + (without == 1 ? "bears" : "bear") + " the code alone.");
}

void add_names_option(Command& command, std::string& names, CsvOptionTexts& csv, const std::string& bearers) {
    command.option("--names", names, "FILE",
                   "CSV or workbook with the columns candidate,name: the " + bearers + " bear names too");
    csv.add_to(command);
}

} // namespace inkturn
