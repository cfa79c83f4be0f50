#include "exchange/class/class_file.hpp"

#include "exchange/class/class_heading.hpp"
#include "exchange/class/class_roll.hpp"
#include "inkturn/base/ascii.hpp"

#include <algorithm>

namespace inkturn {

namespace {

constexpr const char* no_header =
    "no line at the top is a header: one cell of it has to be candidate, code or student, the others dates "
    "and parts such as 7b";
constexpr const char* names_alone =
    "the header has no column that tells candidates apart: two may share a surname, and names are personal "
    "data; add a column candidate with a code for each";

} // namespace

std::vector<DoubtKind> doubts_about_class_file() {
    return {DoubtKind::encoding,      DoubtKind::subject,
            DoubtKind::new_class,     DoubtKind::new_paper,
            DoubtKind::date,          DoubtKind::max_row,
            DoubtKind::no_candidate,  DoubtKind::nothing_tried,
            DoubtKind::absent_remark, DoubtKind::sum,
            DoubtKind::column,        DoubtKind::code_like,
            DoubtKind::code_in_class, DoubtKind::scientific_code,
            DoubtKind::name,          DoubtKind::same_marks,
            DoubtKind::sat_before,    DoubtKind::absent_on_file,
            DoubtKind::extra_time};
}

ClassFile read_class(Rows& rows, const ClassFileOptions& options, const PaperSource& papers) {
    ClassFile file;
    file.doubts = FileDoubts(options.accepted, doubts_about_class_file());
    try {
        HeadedTable table(rows, file.problems, is_class_header, no_header,
                          {is_header_of_names_alone, names_alone});
        file.reading.rows_above = table.rows_above();
        if (table.find("part") || table.find("in_time")) {
            name_candidates(table);
            if (const auto codes = table.find("candidate"))
                file.reading.codes_headed_as_names = is_heading_of_names(table.written_name(*codes));
            read_long_class(table, options, papers, file);
        } else {
            read_wide_class(table, options, papers, file);
        }
        if (rows.encoding_is_doubtful())
            file.doubts.raise(DoubtKind::encoding, {0, 0, valid_utf8_doubt});
    } catch (const UnreadableFile& error) {
        file.problems.add(error.problem());
    }
    return file;
}

std::string why_not_in_order(std::string_view text) {
    std::size_t longest = 0; // of its numbers
    for (std::size_t digits = 0; !text.empty(); text.remove_prefix(1)) {
        digits = is_digit(text.front()) ? digits + 1 : 0;
        longest = std::max(longest, digits);
    }
    return longest < 4 ? "write the year with four digits, such as 2026"
                       : "no such day in the order that --date-order says";
}

} // namespace inkturn
