#include "exchange/csv/topic_list.hpp"

#include "exchange/table/table.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/likeness.hpp"
#include "inkturn/base/number.hpp"

#include <algorithm>
#include <map>
#include <optional>
#include <string>
#include <utility>

namespace inkturn {
namespace {

constexpr int max_order = 100'000;

/// Reads the rows of a list of topics.
class TopicRows {
  public:
    TopicRows(HeadedTable& table, const TopicList& on_file, ProblemList& problems)
        : table_(table), on_file_(on_file), problems_(problems) {}

    std::vector<ListedTopic> read() {
        const auto columns = table_.match({"topic", "order", "parent"}, 1);
        if (!columns[0])
            return {};
        while (table_.next())
            read_row(*columns[0], columns[1], columns[2]);
        if (ordered_.empty() && table_.ragged_rows() == 0)
            table_.report_header("no topics below the header: give each topic a row");
        report_parents();
        std::stable_sort(ordered_.begin(), ordered_.end(),
                         [](const auto& a, const auto& b) { return a.first < b.first; });
        std::vector<ListedTopic> topics;
        for (auto& [order, topic] : ordered_)
            topics.push_back(std::move(topic));
        return topics;
    }

  private:
    void read_row(std::size_t topic, std::optional<std::size_t> order, std::optional<std::size_t> parent) {
        ListedTopic listed{without_blanks(table_.cell(topic)),
                           parent ? without_blanks(table_.cell(*parent)) : ""};
        table_.in_cell(topic, [&] {
            const TopicList alone({{listed.topic}});
            check_is_new(listed.topic);
        });
        int place = max_order;
        if (order && !without_blanks(table_.cell(*order)).empty())
            table_.in_cell(*order, [&] {
                place = parse_whole_number(without_blanks(table_.cell(*order)), 1, max_order, "order");
            });
        if (!listed.parent.empty())
            parents_.emplace_back(
                listed.parent,
                table_.problem_in(*parent, "the parent '" + listed.parent + "' is no topic of this list"));
        ordered_.emplace_back(place, std::move(listed));
    }

    void check_is_new(const std::string& topic) {
        const auto [first, is_new] = lines_.emplace(likeness(topic), table_.line());
        if (!is_new)
            throw Error("the topic '" + topic + "' appears twice, first in " +
                        table_.row_text(first->second) + ": give each topic one row");
    }

    void report_parents() {
        for (auto& [parent, problem] : parents_)
            if (lines_.count(likeness(parent)) == 0 && !on_file_.find_alike(parent))
                problems_.add(std::move(problem));
    }

    HeadedTable& table_;
    const TopicList& on_file_;
    ProblemList& problems_;
    std::vector<std::pair<int, ListedTopic>> ordered_;
    std::vector<std::pair<std::string, Problem>> parents_; ///< what to say if there is no such topic
    std::map<std::string, std::size_t> lines_;             ///< by how the topic is spelled
};

} // namespace

std::vector<ListedTopic> read_topic_rows(Rows& rows, const TopicList& on_file, ProblemList& problems) {
    try {
        HeadedTable table(rows, problems);
        return TopicRows(table, on_file, problems).read();
    } catch (const UnreadableFile& error) {
        problems.add(error.problem());
        return {};
    }
}

} // namespace inkturn
