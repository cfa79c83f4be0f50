#include "exchange/csv/names.hpp"

#include "exchange/table/table.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/text.hpp"

#include <utility>

namespace inkturn {
namespace {

constexpr std::size_t max_name_length = 100;

class NameRows {
  public:
    NameRows(HeadedTable& table, std::map<std::string, std::string>& names) : table_(table), names_(names) {}

    void read() {
        const auto columns = table_.match({"candidate", "name"}, 2);
        if (!columns[0] || !columns[1])
            return;
        while (table_.next())
            read_row(*columns[0], *columns[1]);
        if (names_.empty() && table_.ragged_rows() == 0)
            table_.report_header("no names below the header: give each candidate a row");
    }

  private:
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
        HeadedTable table(rows, problems);
        NameRows(table, names).read();
    } catch (const UnreadableFile& error) {
        problems.add(error.problem());
    }
    return names;
}

} // namespace inkturn
