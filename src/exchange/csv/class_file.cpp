#include "exchange/csv/class_file.hpp"

#include "exchange/csv/class_roll.hpp"

namespace inkturn {

ClassCsv read_class_csv(std::istream& in, const ClassCsvOptions& options, const PaperSource& papers) {
    ClassCsv csv;
    try {
        CsvTable table(in, options.csv, csv.problems);
        const bool is_long = table.find("part") || table.find("in_time");
        (is_long ? read_long_class : read_wide_class)(table, options, papers, csv);
    } catch (const CsvError& error) {
        csv.problems.add(error.problem());
    }
    return csv;
}

} // namespace inkturn
