#include "exchange/csv/names.hpp"

#include "exchange/class/class_heading.hpp"
#include "exchange/table/table.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/text.hpp"

#include <algorithm>
#include <optional>
#include <string_view>
#include <utility>
#include <vector>

namespace inkturn {
namespace {

constexpr std::size_t max_name_length = 100;
constexpr const char* no_names_header =
    "no line at the top is a header: one cell of it has to be candidate, code or student, another one name";

bool is_names_header(const std::vector<std::string_view>& cells) {
    return is_class_header(cells) || std::find(cells.begin(), cells.end(), "candidate") != cells.end();
}

class NameRows {
  public:
    NameRows(HeadedTable& table, std::map<std::string, std::string>& names) : table_(table), names_(names) {}

    void read() {
        name_columns();
        const auto columns = table_.match({"candidate", "name"}, 2, [](std::size_t) {});
        if (!columns[0] || !columns[1])
            return;
        while (table_.next())
            read_row(*columns[0], *columns[1]);
        if (names_.empty() && table_.ragged_rows() == 0)
            table_.report_header("no names below the header: give each candidate a row");
    }

  private:
    /// The columns of codes and of names by any usual heading; a name may stand under `student` beside
    /// `code`.
    void name_columns() {
        std::optional<std::size_t> codes = table_.find("candidate");
        std::optional<std::size_t> people;
        std::optional<std::size_t> names = table_.find("name");
        for (std::size_t i = 0; i < table_.names().size(); ++i) {
            const std::string_view heading = table_.written_name(i);
            const ColumnKind kind = read_heading(heading).kind;
            if (!codes && is_heading_of_codes(heading))
                codes = i;
            else if (!people && kind == ColumnKind::candidate && codes != i)
                people = i;
            else if (!names && kind == ColumnKind::person && !is_heading_of_codes(heading))
                names = i;
        }
        if (!codes && people)
            table_.rename(*people, "candidate");
        else if (!names && people)
            table_.rename(*people, "name");
        if (codes)
            table_.rename(*codes, "candidate");
        if (names)
            table_.rename(*names, "name");
    }

    void read_row(std::size_t code_column, std::size_t name_column) {
        const std::string code = without_blanks(table_.cell(code_column));
        const std::string name = without_blanks(table_.cell(name_column));
        if (code.empty())
            table_.report(code_column, "the row names no candidate: write the code");
        table_.in_cell(name_column, [&] {
            if (name.empty())
                throw Error("candidate " + code + " has no name here: write it, or leave the row out");
            check_printable(name, max_name_length, "a name");
        });
        const auto [first, is_new] = lines_.emplace(code, table_.line());
        if (!is_new)
            table_.report(code_column, "candidate " + code + " is already in " +
                                           table_.row_text(first->second) + ": leave one out");
        names_.emplace(code, name);
    }

    HeadedTable& table_;
    std::map<std::string, std::string>& names_;
    std::map<std::string, std::size_t> lines_;
};

} // namespace

std::map<std::string, std::string> read_names_rows(Rows& rows, ProblemList& problems) {
    std::map<std::string, std::string> names;
    try {
        HeadedTable table(rows, problems, is_names_header, no_names_header);
        NameRows(table, names).read();
    } catch (const UnreadableFile& error) {
        problems.add(error.problem());
    }
    return names;
}

} // namespace inkturn
