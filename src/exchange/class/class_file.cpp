#include "exchange/class/class_file.hpp"

#include "exchange/class/class_roll.hpp"

namespace inkturn {

ClassFile read_class(Rows& rows, const ClassFileOptions& options, const PaperSource& papers) {
    ClassFile csv;
    try {
        HeadedTable table(rows, csv.problems);
        const bool is_long = table.find("part") || table.find("in_time");
        (is_long ? read_long_class : read_wide_class)(table, options, papers, csv);
    } catch (const UnreadableFile& error) {
        csv.problems.add(error.problem());
    }
    return csv;
}

} // namespace inkturn
