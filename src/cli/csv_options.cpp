#include "cli/csv_options.hpp"

#include "inkturn/base/error.hpp"
#include "view/text/text.hpp"

#include <ostream>

namespace inkturn {

void CsvOptionTexts::add_to(Command& command) {
    command.option("--delimiter", delimiter, "comma|semicolon|tab",
                   "What parts the fields, where the header leaves it open");
    command.option("--encoding", encoding, "utf-8|windows-1252", "For a file that is not UTF-8");
}

CsvOptions CsvOptionTexts::read() const {
    CsvOptions options;
    if (delimiter == "comma" || delimiter == ",")
        options.delimiter = ',';
    else if (delimiter == "semicolon" || delimiter == ";")
        options.delimiter = ';';
    else if (delimiter == "tab" || delimiter == "\t")
        options.delimiter = '\t';
    else if (!delimiter.empty())
        throw Error("--delimiter '" + delimiter + "': say comma, semicolon or tab");
    if (!encoding.empty() && encoding != "utf-8" && encoding != "windows-1252")
        throw Error("--encoding '" + encoding + "': say utf-8 or windows-1252");
    options.windows_1252 = encoding == "windows-1252";
    return options;
}

void refuse_problems(const Context& context, const std::string& file, const ProblemList& problems,
                     const std::string& undone) {
    if (problems.empty())
        return;
    for (const Problem& problem : problems.items) {
        context.err << visible(file);
        if (problem.line > 0)
            context.err << ", line " << problem.line;
        if (problem.column > 0)
            context.err << ", column " << problem.column;
        context.err << ": " << visible(problem.message) << '\n';
    }
    if (problems.count > problems.items.size())
        context.err << "and " << problems.count - problems.items.size() << " more\n";
    throw Error(std::to_string(problems.count) + (problems.count == 1 ? " problem" : " problems") + " in " +
                file + "; " + undone);
}

void refuse_problems(const Context& context, const std::string& file, const std::vector<Problem>& problems,
                     const std::string& undone) {
    ProblemList list;
    for (const Problem& problem : problems)
        list.add(problem.line, problem.column, problem.message);
    refuse_problems(context, file, list, undone);
}

} // namespace inkturn
