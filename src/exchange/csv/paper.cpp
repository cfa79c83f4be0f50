#include "exchange/csv/paper.hpp"

#include "exchange/table/table.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"
#include "inkturn/paper/label.hpp"

#include <string>
#include <unordered_map>

namespace inkturn {
namespace {

/// Reads the rows of a paper's file, part by part.
class PaperRows {
  public:
    PaperRows(HeadedTable& table, std::vector<Part>& parts) : table_(table), parts_(parts) {
        const auto columns = table_.match({"part", "marks", "topic", "codes", "got_at", "choice"}, 2);
        whole_header_ = columns[0] && columns[1];
        label_ = columns[0].value_or(0);
        marks_ = columns[1].value_or(0);
        topic_ = columns[2];
        codes_ = columns[3];
        got_at_ = columns[4];
        choice_ = columns[5];
    }

    void read() {
        if (!whole_header_)
            return;
        while (table_.next()) {
            if (parts_.size() == Paper::max_parts) {
                table_.report_row("a paper has at most " + std::to_string(Paper::max_parts) + " parts");
                return;
            }
            read_row();
        }
        if (parts_.empty() && table_.ragged_rows() == 0)
            table_.report_header("no parts below the header: give each part a row");
    }

  private:
    void read_row() {
        Part part;
        const bool labelled = table_.in_cell(label_, [&] { read_label_of(part); });
        const bool marked = table_.in_cell(marks_, [&] {
            const std::string what = labelled ? "part " + part.label + ", marks" : "marks";
            part.max = Marks(parse_whole_number(table_.cell(marks_), 1, max_part_marks.count(), what));
        });
        if (labelled && marked)
            read_scheme(part);
        parts_.push_back(std::move(part));
    }

    void read_label_of(Part& part) {
        part.label = parse_label(table_.cell(label_));
        const auto [found, is_new] = lines_.emplace(part.label, table_.line());
        if (!is_new)
            throw Error("part " + part.label + " appears twice, first in " + table_.row_text(found->second) +
                        ": give each part one row");
    }

    void read_scheme(Part& part) {
        if (topic_) {
            Part on_topic{part.label, part.max, "", ""};
            if (table_.in_cell(*topic_, [&] {
                    on_topic.topic = name_in(table_.cell(*topic_));
                    check(on_topic);
                }))
                part.topic = std::move(on_topic.topic);
        }
        if (codes_) {
            Part coded{part.label, part.max, "", std::string(table_.cell(*codes_))};
            if (table_.in_cell(*codes_, [&] { check(coded); }))
                part.codes = std::move(coded.codes);
        }
        if (got_at_ && !table_.cell(*got_at_).empty())
            table_.in_cell(*got_at_, [&] { part.got_at = parse_got_at(table_.cell(*got_at_)); });
        if (choice_ && !table_.cell(*choice_).empty())
            table_.in_cell(*choice_, [&] { part.choice = parse_choice(table_.cell(*choice_)); });
    }

    /// Checks a part by the rules of a paper with this one part.
    static void check(const Part& part) { Paper(PaperHead{"paper", "", "", {}, {}}, {part}); }

    HeadedTable& table_;
    std::vector<Part>& parts_;
    std::unordered_map<std::string, std::size_t> lines_; ///< of the parts, by label
    bool whole_header_ = false;
    std::size_t label_ = 0;
    std::size_t marks_ = 0;
    std::optional<std::size_t> topic_;
    std::optional<std::size_t> codes_;
    std::optional<std::size_t> got_at_;
    std::optional<std::size_t> choice_;
};

} // namespace

std::vector<Part> read_paper_rows(Rows& rows, ProblemList& problems) {
    std::vector<Part> parts;
    try {
        HeadedTable table(rows, problems);
        PaperRows(table, parts).read();
    } catch (const UnreadableFile& error) {
        problems.add(error.problem());
    }
    return parts;
}

} // namespace inkturn
