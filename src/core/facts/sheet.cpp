#include "inkturn/facts/sheet.hpp"

#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"
#include "inkturn/sitting/sitting.hpp"

#include <algorithm>
#include <set>
#include <tuple>

namespace inkturn {
namespace {

constexpr int max_number = 2'000'000'000;

std::set<FactId> facts_of(const Sheet& sheet) {
    std::set<FactId> facts;
    for (const Sheet::Row& row : sheet.rows)
        facts.insert(row.fact);
    return facts;
}

bool share_a_fact(const Sheet& a, const Sheet& b) {
    const std::set<FactId> facts = facts_of(a);
    return std::any_of(b.rows.begin(), b.rows.end(),
                       [&](const Sheet::Row& row) { return facts.count(row.fact) > 0; });
}

bool was_filled_in_after(const Sheet& later, const Sheet& sheet) {
    return later.log && later.log->day > sheet.log->day;
}

void check_rows(const Sheet& sheet, const std::vector<int>& missed) {
    std::set<int> known;
    for (const int number : missed) {
        const bool is_there = std::any_of(sheet.rows.begin(), sheet.rows.end(),
                                          [&](const Sheet::Row& row) { return row.number == number; });
        if (!is_there)
            throw Error("sheet " + to_text(sheet.id) + " has no row " + std::to_string(number),
                        Error::Kind::not_found, Error::Remedy::show_sheet, to_text(sheet.id));
        if (!known.insert(number).second)
            throw Error("row " + std::to_string(number) + " is there twice: name each row missed once");
    }
}

} // namespace

bool Sheet::is_missed(int row) const {
    return log && std::binary_search(log->missed_rows.begin(), log->missed_rows.end(), row);
}

Sheet sheet_of(const std::vector<FactId>& facts, Day day) {
    Sheet sheet{SheetId{}, day, {}, {}};
    for (const FactId fact : facts)
        sheet.rows.push_back({static_cast<int>(sheet.rows.size()) + 1, fact});
    return sheet;
}

const Sheet* find_open_sheet(const std::vector<Sheet>& sheets, const Sheet& same) {
    const std::set<FactId> fact_ids = facts_of(same);
    const auto found = std::find_if(sheets.rbegin(), sheets.rend(), [&](const Sheet& sheet) {
        return !sheet.log && facts_of(sheet) == fact_ids;
    });
    return found == sheets.rend() ? nullptr : &*found;
}

Sheet::Log take_log(const Sheet& sheet, std::vector<int> missed, Day day, Day today) {
    const std::string which = "sheet " + to_text(sheet.id);
    if (sheet.log)
        throw Error(which + " was logged on " + iso(sheet.log->day), Error::Kind::conflict,
                    Error::Remedy::undo_sheet_log, to_text(sheet.id));
    check_rows(sheet, missed);
    std::sort(missed.begin(), missed.end());
    Sheet::Log log{day, std::move(missed)};
    check_log(sheet, log);
    check_has_happened(day, today, "a sheet");
    return log;
}

void check_log_can_be_undone(const std::vector<Sheet>& of_candidate, const Sheet& sheet) {
    const std::string which = "sheet " + to_text(sheet.id);
    if (!sheet.log)
        throw Error(which + " is not logged; there is nothing to take back", Error::Kind::not_found);
    for (const Sheet& other : of_candidate)
        if (was_filled_in_after(other, sheet) && share_a_fact(other, sheet))
            throw Error(which + ": sheet " + to_text(other.id) + " asked the same again, on " +
                            iso(other.log->day),
                        Error::Kind::conflict, Error::Remedy::undo_sheet_log_first, to_text(other.id));
}

void check_sheet(const Sheet& sheet) {
    check_day(sheet.day);
    std::set<FactId> fact_ids;
    int last = 0;
    for (const Sheet::Row& row : sheet.rows) {
        if (row.number <= last || row.number > static_cast<int>(Sheet::max_rows))
            throw Error("a sheet's rows have numbers from 1 to " + std::to_string(Sheet::max_rows) +
                        ", each above the last");
        last = row.number;
        if (!fact_ids.insert(row.fact).second)
            throw Error("a sheet asks no fact twice");
    }
    if (fact_ids.empty())
        throw Error("a sheet asks one fact at least");
    if (sheet.log)
        check_log(sheet, *sheet.log);
}

void check_log(const Sheet& sheet, const Sheet::Log& log) {
    check_day(log.day);
    check_rows(sheet, log.missed_rows);
    if (!std::is_sorted(log.missed_rows.begin(), log.missed_rows.end()))
        throw Error("sheet " + to_text(sheet.id) + ": the rows missed ascend");
    if (log.day < sheet.day)
        throw Error("sheet " + to_text(sheet.id) + " on " + iso(log.day) + ": it was made for " +
                        iso(sheet.day) + "; it is not filled in before that",
                    Error::Kind::conflict);
}

std::map<FactId, LastRecall> last_recalls(const std::vector<Sheet>& of_candidate) {
    std::map<FactId, LastRecall> last;
    for (const Sheet& sheet : of_candidate) {
        if (!sheet.log)
            continue;
        for (const Sheet::Row& row : sheet.rows) {
            const LastRecall fact_ids{sheet.log->day, sheet.id, sheet.is_missed(row.number)};
            const auto [known, is_new] = last.emplace(row.fact, fact_ids);
            if (!is_new &&
                std::tie(known->second.day, known->second.sheet) < std::tie(fact_ids.day, fact_ids.sheet))
                known->second = fact_ids;
        }
    }
    return last;
}

std::string to_text(SheetId id) {
    return std::to_string(static_cast<std::int64_t>(id));
}

SheetId parse_sheet_id(const std::string& text) {
    return SheetId{parse_whole_number(text, 1, max_number, "sheet")};
}

} // namespace inkturn
