#include "exchange/class/class_roll.hpp"

#include "exchange/class/class_heading.hpp"
#include "exchange/table/table.hpp"

#include "inkturn/base/error.hpp"
#include "inkturn/base/long_ago.hpp"
#include "inkturn/base/number.hpp"
#include "inkturn/base/text.hpp"
#include "inkturn/retry/candidate.hpp"

#include <algorithm>
#include <utility>

namespace inkturn {

std::size_t ClassRoll::candidate(std::size_t column) {
    code_ = without_blanks(table_.cell(column));
    const auto [found, is_new] = candidates_.try_emplace(code_, csv_.candidates.size());
    if (is_new) {
        Problem at = table_.problem_in(column, {});
        csv_.candidates.push_back(code_);
        csv_.places.push_back({at.line, at.column, std::move(at.cell)});
    }
    if (is_new || code_.empty()) {
        try {
            table_.check_has_value(column);
            check_candidate_code(code_);
        } catch (const Error& error) {
            table_.report(column, error.what());
        }
    }
    return found->second;
}

void ClassRoll::extra_time(std::size_t column, std::size_t candidate) {
    std::string text = plain_cell(table_.cell(column));
    if (!text.empty() && text.back() == '%')
        text.pop_back();
    if (text.empty() || text == "-")
        return;
    const auto percent = read_whole_number(text, ExtraTime::max_percent);
    if (!percent) {
        table_.report(column, "extra time is a whole number of percent, 0 to " +
                                  std::to_string(ExtraTime::max_percent) +
                                  "; leave the cell blank if none is stated");
        return;
    }
    const auto [found, is_new] = csv_.extra_times.try_emplace(
        candidate, ExtraTimeInFile{ExtraTime(*percent), table_.problem_in(column, {})});
    if (!is_new && found->second.extra.percent() != *percent)
        table_.report(column, "candidate " + csv_.candidates[candidate] + " has " + std::to_string(*percent) +
                                  "% extra time here and " + std::to_string(found->second.extra.percent()) +
                                  "% in " + table_.row_text(found->second.at.line) + ": they must agree");
}

std::optional<Day> ClassRoll::read_day(std::string_view text) {
    if (const auto day = read_plain_day(text))
        return day;
    return options_.date_order ? read_day_in_order(text, *options_.date_order) : orders_.read(text);
}

std::optional<Day> ClassRoll::day(std::size_t column) {
    const std::string_view text = trimmed(table_.cell(column));
    const auto day = read_day(text);
    if (!day) {
        const std::string advice =
            !has_date_shape(text) || read_iso_day(text) ? "write dates as year-month-day, such as 2026-11-25"
            : options_.date_order                       ? why_not_in_order(text)
                                  : "say which of the numbers is the day: use --date-order dmy, mdy or ymd";
        faults_.add(
            column, CellFault::date,
            [&] {
                const bool is_ordered = has_date_shape(text) && text.find('-') != 4;
                return table_.problem_in(column, is_ordered ? "'" + std::string(text) + "': " + advice
                                                            : why_no_day(text));
            },
            [&] { return "are like " + std::string(text) + ": " + advice; });
        return std::nullopt;
    }
    if (*day > options_.today) {
        faults_.add(
            column, CellFault::late,
            [&] {
                return table_.problem_in(column, "the sitting on " + iso(*day) + " is after today, " +
                                                     iso(options_.today) + ": correct its date");
            },
            [&] { return "are like " + iso(*day) + ", after today, " + iso(options_.today); });
        return std::nullopt;
    }
    if (*day < options_.today - Days{365})
        doubt_if_old(*day, table_.problem_in(column, {}));
    return day;
}

void ClassRoll::doubt_if_old(Day day, Problem at) {
    if (!is_long_ago(day, options_.today) || !days_doubted_.insert(day).second)
        return;
    at.message = long_ago_text(day);
    csv_.doubts.raise(DoubtKind::date, std::move(at));
}

ClassRoll::Found ClassRoll::sitting(std::size_t candidate, std::size_t paper, Day day) {
    if (2 * csv_.sittings.size() >= slots_.size())
        widen();
    Slot key{static_cast<std::uint32_t>(candidate), static_cast<std::uint32_t>(paper),
             day.time_since_epoch().count(), static_cast<std::uint32_t>(csv_.sittings.size())};
    Slot& slot = slot_of(key);
    const bool is_new = slot.sitting == no_sitting;
    if (is_new) {
        slot = key;
        csv_.sittings.push_back({candidate, paper, day, {}, table_.line()});
    }
    return {slot.sitting, is_new};
}

/// The slot of this candidate, paper and day, or the free one for it.
ClassRoll::Slot& ClassRoll::slot_of(const Slot& key) {
    constexpr std::uint64_t odd = 0x9E3779B97F4A7C15; // 2^64 over the golden ratio
    std::uint64_t mixed = (std::uint64_t(key.candidate) << 32 | key.paper) * odd;
    mixed = ((mixed ^ mixed >> 32) + static_cast<std::uint32_t>(key.day)) * odd;
    for (auto i = static_cast<std::size_t>(mixed >> 32);; ++i) {
        Slot& slot = slots_[i & (slots_.size() - 1)];
        const bool same = slot.candidate == key.candidate && slot.paper == key.paper && slot.day == key.day;
        if (same || slot.sitting == no_sitting)
            return slot;
    }
}

void ClassRoll::widen() {
    const std::vector<Slot> narrower = std::move(slots_);
    slots_.assign(std::max<std::size_t>(64, 2 * narrower.size()), Slot{});
    for (const Slot& slot : narrower)
        if (slot.sitting != no_sitting)
            slot_of(slot) = slot;
}

namespace {

/// The marks of `3/4` or `3/4:slip` without the maximum, which must be the part's.
std::string without_max(std::string_view text, Marks max) {
    const std::size_t slash = text.find('/');
    const std::size_t end = std::min(text.find(':'), text.size());
    if (slash >= end)
        return std::string(text);
    if (read_whole_number(text.substr(slash + 1, end - slash - 1), max_part_marks.count()) != max.count())
        throw Error("marks '" + std::string(text) + "': the part has a maximum of " +
                    std::to_string(max.count()) + ", so write marks out of that");
    return std::string(text.substr(0, slash)) + std::string(text.substr(end));
}

} // namespace

PartMarks parse_cell_marks(std::string_view text, Marks max) {
    const PartMarks marks = parse_part_marks(without_max(text, max), max);
    if (marks.by_code())
        throw Error("marks '" + std::string(text) + "': only a reason may follow them");
    return marks;
}

void add_marks_fault(CellFaults& faults, const HeadedTable& table, std::size_t column,
                     const std::string& message, Marks max) {
    const std::string written(trimmed(table.cell(column)));
    const std::string plain = plain_cell(written);
    const auto add = [&](CellFault kind, const std::string& first, const std::string& many) {
        faults.add(
            column, kind, [&] { return table.problem_in(column, first); }, [&] { return many; });
    };
    if (is_fraction(plain.substr(0, plain.find(':'))))
        add(CellFault::fraction, "marks '" + written + "': " + whole_marks_only,
            "are like " + written + "; " + whole_marks_only);
    else if (is_absence_word(plain))
        add(CellFault::absence,
            "'" + written +
                "' among marks: write - for a part that was not attempted; for one who was absent write it "
                "in "
                "every cell",
            "are like " + written + " among marks; write - for a part that was not attempted");
    else if (plain.empty())
        add(CellFault::empty, message,
            "are empty; write - where a part was not attempted, not-set where it was not set");
    else if (plain.find('/') < plain.find(':'))
        add(CellFault::out_of, message,
            "are like " + written + ", where the maximum is " + std::to_string(max.count()));
    else if (const auto number = read_whole_number(plain, max_part_marks.count() * 100);
             number && Marks(*number) > max)
        add(CellFault::above, message,
            "are like " + written + ", above the maximum of " + std::to_string(max.count()));
    else
        add(CellFault::marks, message, "are like '" + written + "', which are not marks");
}

void name_candidates(HeadedTable& table) {
    std::vector<std::string_view> headings;
    for (std::size_t column = 0; column < table.names().size(); ++column)
        headings.push_back(trimmed(table.written_name(column)));
    if (const auto column = column_of_candidates(headings))
        table.rename(*column, "candidate");
}

bool leaves_out_row(const std::string& name, Problem at, FileDoubts& doubts,
                    std::vector<std::string>& left_out) {
    const bool is_certain = names_who_marked(name);
    if (!is_certain) {
        at.message = "the row '" + name + "' may not be a candidate's";
        doubts.raise(DoubtKind::no_candidate, std::move(at));
    }
    if (!is_certain && doubts.is_otherwise(DoubtKind::no_candidate))
        return false;
    if (is_certain || !doubts.is_open(DoubtKind::no_candidate))
        left_out.push_back(name);
    return true;
}

std::string short_list(const std::vector<std::string_view>& labels) {
    constexpr std::size_t max_named = 10;
    std::string list;
    for (std::size_t i = 0; i < labels.size() && i < max_named; ++i)
        list.append(i == 0 ? "" : ", ").append(labels[i]);
    if (labels.size() > max_named)
        list += " and " + std::to_string(labels.size() - max_named) + " more";
    return list;
}

} // namespace inkturn
