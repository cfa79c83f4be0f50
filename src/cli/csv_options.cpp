#include "cli/csv_options.hpp"

#include "cli/remedies.hpp"
#include "cli/terminal.hpp"
#include "exchange/workbook/open_rows.hpp"
#include "inkturn/base/error.hpp"
#include "view/text/text.hpp"

#include <optional>
#include <ostream>
#include <utility>

namespace inkturn {

void CsvOptionTexts::add_to(Command& command) {
    command.option("--delimiter", delimiter, "comma|semicolon|tab",
                   "Field separator, if the header doesn't settle it");
    command.option("--encoding", encoding, "utf-8|windows-1252", "For a file that isn't UTF-8");
    command.option("--sheet", sheet, "NAME", "The sheet of a workbook, if several have content");
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
        throw Error("--delimiter '" + delimiter + "': use comma, semicolon or tab");
    if (!encoding.empty() && encoding != "utf-8" && encoding != "windows-1252")
        throw Error("--encoding '" + encoding + "': use utf-8 or windows-1252");
    options.windows_1252 = encoding == "windows-1252";
    return options;
}

std::unique_ptr<Rows> CsvOptionTexts::rows_of(const InputFile& file,
                                              std::function<void(std::size_t bytes)> progress) const {
    return rows_of(file.stream(), std::move(progress));
}

std::unique_ptr<Rows> CsvOptionTexts::rows_of(std::istream& stream,
                                              std::function<void(std::size_t bytes)> progress) const {
    CsvOptions options = read();
    options.progress = std::move(progress);
    return open_rows(stream, options, sheet.empty() ? std::nullopt : std::optional(sheet));
}

std::string place_text(const Problem& problem) {
    if (!problem.cell.empty())
        return ", cell " + problem.cell;
    return (problem.line > 0 ? ", line " + std::to_string(problem.line) : "") +
           (problem.column > 0 ? ", column " + std::to_string(problem.column) : "");
}

std::string message_line(const std::string& text) {
    constexpr std::size_t indent = 2;
    return (stderr_is_terminal() ? wrapped(text, text_columns() - indent, indent) : text) + '\n';
}

void refuse_problems(const Context& context, const std::string& file, const ProblemList& problems,
                     const std::string& undone) {
    if (problems.empty())
        return;
    for (const Problem& problem : problems.items)
        context.err << message_line(visible(file) + place_text(problem) + ": " + visible(worded(problem)));
    if (problems.count > problems.items.size())
        context.err << "and " << problems.count - problems.items.size() << " more\n";
    throw Error(std::to_string(problems.count) + (problems.count == 1 ? " problem" : " problems") + " in " +
                file + "; " + undone);
}

void refuse_problems(const Context& context, const std::string& file, const std::vector<Problem>& problems,
                     const std::string& undone) {
    ProblemList list;
    for (const Problem& problem : problems)
        list.add(problem);
    refuse_problems(context, file, list, undone);
}

} // namespace inkturn
