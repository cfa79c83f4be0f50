#pragma once

#include "exchange/class/class_file.hpp"
#include "exchange/csv/csv.hpp"
#include "problems.hpp"

#include <sstream>
#include <string>
#include <vector>

namespace inkturn::test {

/// On file: `pure-1` with the parts 1 (5 marks), 2a (4) and 7b (6).
inline std::shared_ptr<const Paper> paper_on_file(const std::string& id) {
    if (id != "pure-1")
        return nullptr;
    return std::make_shared<const Paper>(
        PaperHead{id, "", "", {}, {}},
        std::vector<Part>{{"1", Marks(5), "", ""}, {"2a", Marks(4), "", ""}, {"7b", Marks(6), "", ""}});
}

inline Day day(int year, unsigned month, unsigned of_month) {
    return Day(date::year{year} / static_cast<int>(month) / static_cast<int>(of_month));
}

/// Today is 25 November 2026; nothing else is chosen.
inline ClassFileOptions no_options() {
    return {{}, {}, day(2026, 11, 25)};
}

inline ClassFile read_class(const std::string& text, const ClassFileOptions& options,
                            const CsvOptions& csv = {}) {
    std::istringstream in(text);
    CsvReader rows(in, csv);
    return read_class(rows, options, paper_on_file);
}

inline std::vector<std::string> problems(const ClassFile& csv) {
    return texts_of(csv.problems.items);
}

/// The only one; else how many there are.
inline std::string only_problem(const ClassFile& csv) {
    return csv.problems.count == 1 ? problems(csv)[0] : std::to_string(csv.problems.count) + " problems";
}

/// Such as "3 2+1 -", by the paper's parts.
inline std::string marks_of(const ClassSitting& sitting) {
    std::string text;
    for (const PartMarks& marks : sitting.parts)
        text += (text.empty() ? "" : " ") + to_text(marks);
    return text;
}

} // namespace inkturn::test
