#include "exchange/csv/part_topics.hpp"

#include "exchange/csv/write.hpp"
#include "exchange/table/table.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/likeness.hpp"
#include "inkturn/base/number.hpp"
#include "inkturn/base/text.hpp"
#include "inkturn/paper/label.hpp"

#include <optional>
#include <sstream>
#include <utility>

namespace inkturn {
namespace {

/// Reads the rows of a table of parts and topics.
class PartTopicRows {
  public:
    PartTopicRows(HeadedTable& table, const PartTopicsContext& met) : table_(table), met_(met) {}

    std::vector<PartTopic> read() {
        const auto columns = table_.match({"paper", "part", "topic", "marks", "words", "says", "perhaps"}, 3);
        if (!columns[0] || !columns[1] || !columns[2])
            return {};
        paper_ = *columns[0];
        part_ = *columns[1];
        topic_ = *columns[2];
        marks_ = columns[3];
        while (table_.next())
            read_row();
        return std::move(topics_);
    }

  private:
    void read_row() {
        const Paper* paper = nullptr;
        const Part* part = nullptr;
        table_.in_cell(paper_, [&] { paper = &paper_on_file(without_blanks(table_.cell(paper_))); });
        if (paper)
            table_.in_cell(part_, [&] { part = &part_of(*paper); });
        if (!part)
            return;
        if (marks_ && !without_blanks(table_.cell(*marks_)).empty())
            table_.in_cell(*marks_, [&] { check_marks(*part); });
        PartTopic read{paper->id(), part->label, without_blanks(table_.cell(topic_))};
        if (read.topic.empty())
            return;
        const bool is_good = table_.in_cell(topic_, [&] {
            check_printable(read.topic, 200, "topic");
            check_is_visible(read.topic, "topic '" + read.topic + "'");
            if (read.topic != part->topic) // which may be older than the list
                read.topic = listed(paper->subject(), read.topic);
            check_is_new(read);
        });
        if (is_good)
            topics_.push_back(std::move(read));
    }

    const Paper& paper_on_file(const std::string& id) const {
        const auto found = met_.papers.find(id);
        if (found != met_.papers.end())
            return *found->second;
        std::vector<std::string> ids;
        for (const auto& [known, paper] : met_.papers)
            ids.push_back(known);
        const auto near = nearest_name(id, ids);
        throw Error("no paper '" + id + "' on file" + (near ? "; did you mean '" + *near + "'?" : ""));
    }

    const Part& part_of(const Paper& paper) const {
        const std::string label = parse_label(table_.cell(part_));
        const auto position = paper.find_part(label);
        if (!position)
            throw Error("paper " + paper.id() + " has no part " + label);
        return paper.part(*position);
    }

    void check_marks(const Part& part) const {
        const int marks =
            parse_whole_number(without_blanks(table_.cell(*marks_)), 1, max_part_marks.count(), "marks");
        if (Marks(marks) != part.max)
            throw Error("part " + part.label + " has " + std::to_string(part.max.count()) +
                        " marks on file, not " + std::to_string(marks) + ": is this row of another paper?");
    }

    std::string listed(const std::string& subject, const std::string& topic) const {
        const auto list = met_.lists.find(subject);
        if (list == met_.lists.end())
            return topic;
        const SpelledTopic spelled = list->second.spelled(topic);
        if (spelled.spelling == TopicSpelling::near)
            throw Error("'" + topic + "' is not in the list of topics; did you mean '" + spelled.listed +
                        "'?");
        if (spelled.spelling == TopicSpelling::unknown)
            throw Error("'" + topic + "' is not in the list of topics of " + subject);
        return spelled.listed;
    }

    void check_is_new(const PartTopic& read) {
        const auto [first, is_new] =
            first_.emplace(std::pair(read.paper, read.part), std::pair(read.topic, table_.line()));
        if (!is_new && first->second.first != read.topic)
            throw Error("part " + read.part + " of " + read.paper + " has another topic in " +
                        table_.row_text(first->second.second) + ": '" + first->second.first + "'");
    }

    HeadedTable& table_;
    const PartTopicsContext& met_;
    std::vector<PartTopic> topics_;
    std::map<std::pair<std::string, std::string>, std::pair<std::string, std::size_t>> first_;
    std::size_t paper_ = 0;
    std::size_t part_ = 0;
    std::size_t topic_ = 0;
    std::optional<std::size_t> marks_;
};

} // namespace

std::vector<std::vector<std::string>> cells_of(const std::vector<PartTopicRow>& rows) {
    std::vector<std::vector<std::string>> cells{
        {"paper", "part", "marks", "words", "topic", "says", "perhaps"}};
    for (const PartTopicRow& row : rows)
        cells.push_back({row.paper, row.part, std::to_string(row.marks.count()), row.words, row.topic,
                         row.says, row.perhaps});
    return cells;
}

std::string csv_of(const std::vector<PartTopicRow>& rows) {
    std::ostringstream text;
    CsvWriter csv(text);
    for (const std::vector<std::string>& cells : cells_of(rows)) {
        for (const std::string& cell : cells)
            csv.text(cell);
        csv.end_row();
    }
    return text.str();
}

std::vector<PartTopic> read_part_topic_rows(Rows& rows, const PartTopicsContext& met, ProblemList& problems) {
    try {
        HeadedTable table(rows, problems);
        return PartTopicRows(table, met).read();
    } catch (const UnreadableFile& error) {
        problems.add(error.problem());
        return {};
    }
}

} // namespace inkturn
