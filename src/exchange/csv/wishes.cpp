#include "exchange/csv/wishes.hpp"

#include "exchange/table/table.hpp"

#include <map>
#include <utility>

namespace inkturn {
namespace {

/// Reads the rows of a file of wishes.
class WishRows {
  public:
    WishRows(HeadedTable& table, const WishesFor& named, std::vector<Wish>& wishes)
        : table_(table), named_(named), wishes_(wishes) {}

    void read() {
        const auto columns = table_.match({"candidate", "topic"}, 2);
        if (!columns[0] || !columns[1])
            return;
        while (table_.next())
            read_row(*columns[0], *columns[1]);
        if (lines_.empty() && table_.ragged_rows() == 0)
            table_.report_header("no wishes below the header: give each wish a row");
    }

  private:
    void read_row(std::size_t candidate_column, std::size_t topic_column) {
        Wish wish{std::string(table_.cell(candidate_column)), std::string(table_.cell(topic_column))};
        if (named_.candidates.count(wish.candidate) == 0)
            table_.report(candidate_column,
                          "candidate '" + wish.candidate +
                              "' is not among those who can be seated: correct the code, or "
                              "leave the row out");
        if (!wish.topic.empty() && named_.topics.count(wish.topic) == 0)
            table_.report(topic_column, "nobody who can be seated has met the topic '" + wish.topic +
                                            "': write it as the paper does, or leave the cell empty for any");
        const auto [first, is_new] = lines_.emplace(std::pair(wish.candidate, wish.topic), table_.line());
        if (is_new)
            wishes_.push_back(std::move(wish));
        else
            table_.report_row("the wish is already in " + table_.row_text(first->second));
    }

    HeadedTable& table_;
    const WishesFor& named_;
    std::vector<Wish>& wishes_;
    std::map<std::pair<std::string, std::string>, std::size_t> lines_;
};

} // namespace

std::vector<Wish> read_wishes_rows(Rows& rows, const WishesFor& named, ProblemList& problems) {
    std::vector<Wish> wishes;
    try {
        HeadedTable table(rows, problems);
        WishRows(table, named, wishes).read();
    } catch (const UnreadableFile& error) {
        problems.add(error.problem());
    }
    return wishes;
}

} // namespace inkturn
