#include "cli/names_of_candidates.hpp"

#include "exchange/csv/names.hpp"
#include "inkturn/base/likeness.hpp"
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
    : names_(names_in(context, file, csv, otherwise)), file_(file) {}

std::string NamesOfCandidates::of(const std::string& code) const {
    const auto name = names_.find(code);
    return name == names_.end() ? "" : name->second;
}

void NamesOfCandidates::say_whose(const Context& context, const std::vector<std::string>& codes,
                                  const std::string& of_class, const std::string& page) const {
    if (file_.empty())
        return;
    CodesAlike alike;
    std::vector<std::string> nameless;
    for (const std::string& code : codes) {
        alike.add(code);
        if (names_.count(code) == 0)
            nameless.push_back(visible(code));
    }
    std::vector<std::string> others;
    for (const auto& [code, name] : names_) {
        if (std::binary_search(codes.begin(), codes.end(), code))
            continue;
        const std::string* const meant = alike.find(code);
        others.push_back(visible(code + (meant ? " (is " + *meant + " meant?)" : "")));
    }
    const std::string file = "inkturn: " + visible(file_);
    if (!others.empty())
        context.err << message_line(file + " names people who are not " +
                                    (of_class.empty() ? "on file" : "in class " + visible(of_class)) +
                                    " and get no " + page + ": " + joined(others, ", "));
    if (!nameless.empty())
        context.err << message_line(file + " has no name for " + joined(nameless, ", ") + ": their " + page +
                                    "s have the code alone");
}

void add_names_option(Command& command, std::string& names, CsvOptionTexts& csv, const std::string& bearers) {
    command.option("--names", names, "FILE",
                   "CSV or workbook with a column of codes and one of names, to stand in the " + bearers);
    csv.add_to(command);
}

} // namespace inkturn
