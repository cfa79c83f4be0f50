#include "cli/csv_output.hpp"

#include <ostream>

namespace inkturn {

Option CsvOutput::add_to(Command& command, const std::string& help) {
    Option option = command.flag("--csv", csv, help);
    output.add_to(command, "The file to write the CSV to, which only you can read (standard output)");
    return option;
}

void CsvOutput::write(const Context& context, const std::string& text) const {
    if (output.file.empty())
        context.out << text;
    else
        write_output(context, output, text);
}

} // namespace inkturn
