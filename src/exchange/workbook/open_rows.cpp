#include "exchange/workbook/open_rows.hpp"

#include "exchange/workbook/workbook.hpp"
#include "exchange/workbook/workbook_rows.hpp"

#include <istream>

namespace inkturn {

std::unique_ptr<Rows> open_rows(std::istream& in, const CsvOptions& options,
                                const std::optional<std::string>& sheet) {
    std::string start(workbook_mark_bytes, '\0');
    in.read(start.data(), static_cast<std::streamsize>(start.size()));
    start.resize(static_cast<std::size_t>(in.gcount()));
    if (is_workbook(start))
        return std::make_unique<WorkbookRows>(in, std::move(start), sheet);
    if (sheet)
        throw Error("--sheet names a sheet of a workbook (.xlsx, .ods), and this is none: leave it out");
    return std::make_unique<CsvReader>(in, options, std::move(start));
}

} // namespace inkturn
