#include "exchange/csv/wishes.hpp"

#include "exchange/csv/write.hpp"
#include "exchange/table/table.hpp"
#include "inkturn/base/ascii.hpp"
#include "inkturn/base/date_orders.hpp"
#include "inkturn/base/text.hpp"
#include "inkturn/retry/candidate.hpp"

#include <algorithm>
#include <map>
#include <utility>

namespace inkturn {
namespace {

constexpr std::string_view any_topic = "any topic";

/// The texts between semicolons, without blanks at their ends or empty ones.
std::vector<std::string> listed(std::string_view cell) {
    std::vector<std::string> texts;
    while (!cell.empty()) {
        const std::size_t end = std::min(cell.find(';'), cell.size());
        if (const std::string_view text = trimmed(cell.substr(0, end)); !text.empty())
            texts.emplace_back(text);
        cell.remove_prefix(std::min(end + 1, cell.size()));
    }
    return texts;
}

bool is_tick(std::string_view cell) {
    const std::string text = lower_case(trimmed(cell));
    return !text.empty() && text != "-" && text != "no" && text != "n" && text != "0";
}

template <typename Value>
void sort_once(std::vector<Value>& values) {
    std::sort(values.begin(), values.end());
    values.erase(std::unique(values.begin(), values.end()), values.end());
}

/// Reads the rows of a file of wishes.
class WishRows {
  public:
    WishRows(HeadedTable& table, const WishesFor& named) : table_(table), named_(named) {}

    std::vector<Wish> read() {
        const bool has_topics = table_.find("topic") || table_.find("topics");
        if (has_topics ? find_columns_of_list() : find_columns_of_form())
            while (table_.next())
                read_row();
        if (lines_.empty() && table_.ragged_rows() == 0 && is_whole_)
            table_.report_header(has_topics ? "no wishes below the header: give each wish a row"
                                            : "nobody ticked anything: this form is blank");
        for (Wish& wish : wishes_)
            finish(wish);
        return std::move(wishes_);
    }

  private:
    bool find_columns_of_list() {
        if (const auto topics = table_.find("topics"))
            table_.rename(*topics, "topic");
        if (const auto remark = table_.find("remark"))
            table_.rename(*remark, "remarks");
        const auto columns = table_.match({"candidate", "topic", "dates", "asked", "remarks"}, 2);
        candidate_ = columns[0];
        topic_ = columns[1];
        dates_ = columns[2];
        asked_ = columns[3];
        remarks_ = columns[4];
        return is_whole_ = candidate_ && topic_;
    }

    /// Each other column is a topic or a date.
    bool find_columns_of_form() {
        const auto columns =
            table_.match({"candidate", "asked", "remarks"}, 1, [&](std::size_t column) { take_box(column); });
        candidate_ = columns[0];
        asked_ = columns[1];
        remarks_ = columns[2];
        if (candidate_ && topic_boxes_.empty() && !any_topic_ && is_whole_)
            table_.report_header(
                "no column is a topic: name one 'topic', or give each topic a column to tick");
        return is_whole_ = is_whole_ && candidate_ && (!topic_boxes_.empty() || any_topic_);
    }

    void take_box(std::size_t column) {
        const std::string name(trimmed(table_.written_name(column)));
        if (lower_case(name) == any_topic)
            any_topic_ = column;
        else if (const auto day = read_day(name))
            date_boxes_.emplace_back(column, *day);
        else if (named_.topics.count(name) > 0)
            topic_boxes_.emplace_back(column, name);
        else {
            is_whole_ = false;
            table_.report(column,
                          "column '" + name +
                              "' is neither a topic of a paper on file nor a date such as 2026-12-05");
        }
    }

    void read_row() {
        if (topic_)
            read_wish();
        else
            read_ticks();
    }

    void read_wish() {
        const std::string candidate(trimmed(table_.cell(*candidate_)));
        if (!check_candidate(candidate))
            return;
        std::vector<std::string> topics = listed(table_.cell(*topic_));
        if (topics.empty())
            topics.emplace_back();
        for (const std::string& topic : topics) {
            if (!topic.empty() && named_.topics.count(topic) == 0)
                table_.report(*topic_, "no paper on file has the topic '" + topic +
                                           "': write it as the paper does, or leave the cell empty for any");
            const auto [first, is_new] = lines_.emplace(std::pair(candidate, topic), table_.line());
            if (is_new)
                take_topic(wish_of(candidate), topic);
            else
                table_.report_row("the wish is already in " + table_.row_text(first->second));
        }
        read_rest(wish_of(candidate));
        if (dates_)
            for (const std::string& text : listed(table_.cell(*dates_)))
                table_.in_cell(*dates_, [&] { wish_of(candidate).dates.push_back(day_in(text)); });
    }

    void read_ticks() {
        const std::string candidate(trimmed(table_.cell(*candidate_)));
        const auto ticked = [&](const auto& box) { return is_tick(table_.cell(box.first)); };
        const bool any = std::any_of(topic_boxes_.begin(), topic_boxes_.end(), ticked) ||
                         std::any_of(date_boxes_.begin(), date_boxes_.end(), ticked) ||
                         (any_topic_ && is_tick(table_.cell(*any_topic_))) ||
                         (remarks_ && !trimmed(table_.cell(*remarks_)).empty());
        if (!any || !check_candidate(candidate))
            return;
        const auto [first, is_new] = lines_.emplace(std::pair(candidate, ""), table_.line());
        if (!is_new) {
            table_.report_row("the candidate is already in " + table_.row_text(first->second));
            return;
        }
        Wish& wish = wish_of(candidate);
        for (const auto& box : topic_boxes_)
            if (ticked(box))
                wish.topics.push_back(box.second);
        if (any_topic_ && is_tick(table_.cell(*any_topic_)))
            wish.topics.clear();
        for (const auto& box : date_boxes_)
            if (ticked(box))
                wish.dates.push_back(box.second);
        read_rest(wish);
    }

    bool check_candidate(const std::string& candidate) {
        if (named_.others.count(candidate) > 0) {
            table_.report(*candidate_, "candidate '" + candidate +
                                           "' is not among those who can be seated: correct the code, or "
                                           "leave the row out");
            return false;
        }
        return table_.in_cell(*candidate_, [&] { check_candidate_code(candidate); });
    }

    void take_topic(Wish& wish, const std::string& topic) {
        if (topic.empty())
            any_.insert(wish.candidate);
        else
            wish.topics.push_back(topic);
    }

    void read_rest(Wish& wish) {
        if (asked_)
            table_.in_cell(*asked_, [&] { read_asked(trimmed(table_.cell(*asked_)), wish); });
        if (remarks_)
            table_.in_cell(*remarks_, [&] {
                const std::string remark(trimmed(table_.cell(*remarks_)));
                check_printable(remark, 200, "remark");
                if (!remark.empty())
                    wish.remark = wish.remark.empty() ? remark : wish.remark + "; " + remark;
            });
    }

    /// `2026-11-25`, or with a time of day after a blank.
    void read_asked(std::string_view text, Wish& wish) {
        if (text.empty())
            return;
        const std::size_t blank = text.rfind(' ');
        const bool has_time =
            blank != std::string_view::npos && text.find(':', blank) != std::string_view::npos;
        wish.asked_on = day_in(std::string(trimmed(text.substr(0, has_time ? blank : text.size()))));
        if (has_time)
            wish.asked_time = parse_time_of_day(trimmed(text.substr(blank)));
    }

    std::optional<Day> read_day(std::string_view text) {
        const auto day = read_plain_day(text);
        return day ? day : orders_.read(text);
    }

    Day day_in(const std::string& text) {
        const auto day = read_day(text);
        if (!day)
            throw Error(why_no_day(text));
        return *day;
    }

    Wish& wish_of(const std::string& candidate) {
        for (Wish& wish : wishes_)
            if (wish.candidate == candidate)
                return wish;
        return wishes_.emplace_back(Wish{candidate});
    }

    void finish(Wish& wish) const {
        sort_once(wish.topics);
        sort_once(wish.dates);
        if (any_.count(wish.candidate) > 0)
            wish.topics.clear();
    }

    HeadedTable& table_;
    DateOrders orders_;
    const WishesFor& named_;
    std::vector<Wish> wishes_;
    std::set<std::string> any_; ///< who named no topic in a row
    std::map<std::pair<std::string, std::string>, std::size_t> lines_;
    std::optional<std::size_t> candidate_;
    std::optional<std::size_t> topic_;
    std::optional<std::size_t> dates_;
    std::optional<std::size_t> asked_;
    std::optional<std::size_t> remarks_;
    std::optional<std::size_t> any_topic_;
    std::vector<std::pair<std::size_t, std::string>> topic_boxes_;
    std::vector<std::pair<std::size_t, Day>> date_boxes_;
    bool is_whole_ = true;
};

} // namespace

std::vector<Wish> read_wishes_rows(Rows& rows, const WishesFor& named, ProblemList& problems) {
    std::vector<Wish> wishes;
    try {
        HeadedTable table(rows, problems);
        wishes = WishRows(table, named).read();
    } catch (const UnreadableFile& error) {
        problems.add(error.problem());
    }
    return wishes;
}

void write_request_form(std::ostream& out, const std::vector<std::string>& candidates,
                        const std::vector<std::string>& topics, const std::vector<Day>& dates) {
    CsvWriter csv(out);
    csv.text("candidate").text("asked");
    for (const std::string& topic : topics)
        csv.text(topic);
    csv.text(any_topic);
    for (const Day day : dates)
        csv.text(iso(day));
    csv.text("remarks").end_row();
    for (const std::string& candidate : candidates) {
        csv.text(candidate);
        for (std::size_t box = 0; box < topics.size() + dates.size() + 3; ++box)
            csv.text("");
        csv.end_row();
    }
}

} // namespace inkturn
