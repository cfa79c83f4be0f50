#include "exchange/document/facts.hpp"

#include "exchange/document/difference.hpp"
#include "exchange/document/strict_json.hpp"

#include <algorithm>
#include <set>
#include <tuple>

namespace inkturn {
namespace {

std::pair<std::string, std::string> name_of(const Fact& fact) {
    return {fact.subject, fact.prompt};
}

std::vector<std::pair<int, FactId>> rows_of(const Sheet& sheet) {
    std::vector<std::pair<int, FactId>> rows;
    for (const Sheet::Row& row : sheet.rows)
        rows.emplace_back(row.number, row.fact);
    return rows;
}

bool ask_the_same(const Sheet& a, const Sheet& b) {
    return a.day == b.day && rows_of(a) == rows_of(b);
}

bool have_same_log(const Sheet& a, const Sheet& b) {
    if (!a.log || !b.log)
        return a.log.has_value() == b.log.has_value();
    return a.log->day == b.log->day && a.log->missed_rows == b.log->missed_rows;
}

/// Those not logged come first.
auto order(const Sheet& sheet) {
    return std::tuple(sheet.day, rows_of(sheet), sheet.log.has_value(), sheet.log ? sheet.log->day : Day(),
                      sheet.log ? sheet.log->missed_rows : std::vector<int>());
}

Json value_of(const Sheet& sheet, const std::vector<Fact>& facts) {
    Json log = nullptr;
    if (sheet.log)
        log = {{"date", iso(sheet.log->day)}, {"missed_rows", sheet.log->missed_rows}};
    Json rows = Json::array();
    for (const Sheet::Row& row : sheet.rows) {
        const Fact& fact = facts[static_cast<std::size_t>(row.fact) - 1];
        rows.push_back({{"row", row.number}, {"subject", fact.subject}, {"prompt", fact.prompt}});
    }
    return {{"date", iso(sheet.day)}, {"log", std::move(log)}, {"rows", std::move(rows)}};
}

Sheet::Log read_log(const JsonValue& value, const Sheet& sheet, Day today) {
    value.check_keys({"date", "missed_rows"});
    const JsonValue date = value.at("date");
    Sheet::Log log{read_past_day(date, today, "a sheet"), {}};
    if (log.day < sheet.day)
        date.refuse("a sheet can't be filled in before the day it was made for");
    value.at("missed_rows").each_element([&](const JsonValue& element) {
        const int number = element.whole_number(1, static_cast<int>(Sheet::max_rows));
        const bool is_there = std::any_of(sheet.rows.begin(), sheet.rows.end(),
                                          [&](const Sheet::Row& row) { return row.number == number; });
        if (!is_there)
            element.refuse("the sheet has no such row");
        if (!log.missed_rows.empty() && number <= log.missed_rows.back())
            element.refuse("the rows are not in order");
        log.missed_rows.push_back(number);
    });
    return log;
}

} // namespace

std::vector<Fact> exported_facts(std::vector<Fact> facts, std::map<FactId, FactId>& numbers) {
    std::sort(facts.begin(), facts.end(),
              [](const Fact& a, const Fact& b) { return name_of(a) < name_of(b); });
    std::int64_t number = 0;
    for (Fact& fact : facts) {
        const FactId id{++number};
        numbers[fact.id] = id;
        fact.id = id;
    }
    return facts;
}

std::vector<Sheet> exported_sheets(std::vector<Sheet> sheets, const std::map<FactId, FactId>& numbers) {
    for (Sheet& sheet : sheets) {
        sheet.id = {};
        for (Sheet::Row& row : sheet.rows)
            row.fact = numbers.at(row.fact);
    }
    std::sort(sheets.begin(), sheets.end(),
              [](const Sheet& a, const Sheet& b) { return order(a) < order(b); });
    return sheets;
}

void add_facts(const std::vector<Fact>& facts, Json& document) {
    for (const Fact& fact : facts)
        document["facts"].push_back({{"subject", fact.subject},
                                     {"prompt", fact.prompt},
                                     {"answer", fact.answer},
                                     {"topic", fact.topic}});
}

void add_sheets(const std::vector<Sheet>& sheets, const std::vector<Fact>& facts, Json& candidate) {
    for (const Sheet& sheet : sheets)
        candidate["sheets"].push_back(value_of(sheet, facts));
}

void FactsReader::read_facts(const JsonValue& value) {
    value.each_element([&](const JsonValue& element) {
        element.check_keys({"subject", "prompt", "answer", "topic"});
        Fact fact{FactId{}, element.at("prompt").text(), element.at("answer").text(),
                  element.at("topic").name(), element.at("subject").name()};
        element.checked([&] { check_fact(fact); });
        const auto name = name_of(fact);
        if (!facts_.emplace(name, std::move(fact)).second)
            element.refuse("the fact appears twice");
    });
    std::int64_t number = 0;
    for (auto& [name, fact] : facts_) {
        fact.id = FactId{++number};
        numbers_[name] = fact.id;
    }
}

Sheet FactsReader::read_sheet(const JsonValue& value, Day today) const {
    value.check_keys({"date", "log", "rows"});
    Sheet sheet{SheetId{}, read_past_day(value.at("date"), today, "a sheet"), {}, {}};
    std::set<FactId> known;
    value.at("rows").each_element([&](const JsonValue& row) {
        row.check_keys({"row", "subject", "prompt"});
        const auto fact = numbers_.find({row.at("subject").name(), row.at("prompt").text()});
        if (fact == numbers_.end())
            row.refuse("the fact is not among the document's facts");
        if (!known.insert(fact->second).second)
            row.refuse("the fact appears twice");
        const int number = row.at("row").whole_number(1, static_cast<int>(Sheet::max_rows));
        if (!sheet.rows.empty() && number <= sheet.rows.back().number)
            row.refuse("the rows are not in order");
        sheet.rows.push_back({number, fact->second});
    });
    if (sheet.rows.empty())
        value.refuse("a sheet asks at least one fact");
    const JsonValue log = value.at("log");
    if (!log.is_null())
        sheet.log = read_log(log, sheet, today);
    return sheet;
}

std::vector<Sheet> FactsReader::read_sheets(const JsonValue& value, Day today) const {
    std::vector<Sheet> sheets;
    value.each_element([&](const JsonValue& element) { sheets.push_back(read_sheet(element, today)); });
    std::sort(sheets.begin(), sheets.end(),
              [](const Sheet& a, const Sheet& b) { return order(a) < order(b); });
    return sheets;
}

std::vector<Fact> FactsReader::facts() const {
    std::vector<Fact> facts;
    for (const auto& [name, fact] : facts_)
        facts.push_back(fact);
    return facts;
}

void FactsMerge::take(const std::vector<Fact>& in_file) {
    if (in_file.empty())
        return;
    const std::vector<Fact> on_file = FactsOnFile::all(store_);
    std::map<std::pair<std::string, std::string>, const Fact*> by_name;
    for (const Fact& fact : on_file)
        by_name[name_of(fact)] = &fact;
    for (const Fact& fact : in_file) {
        const auto here = by_name.find(name_of(fact));
        take_fact(fact, here == by_name.end() ? nullptr : here->second);
    }
}

void FactsMerge::take_fact(const Fact& in_file, const Fact* here) {
    if (!here) {
        ids_here_[in_file.id] = on_file_.add(in_file);
        ++merge_.facts_added;
        return;
    }
    ids_here_[in_file.id] = here->id;
    switch (match_fact(*here, in_file)) {
    case FactMatch::unchanged:
        ++merge_.facts_unchanged;
        return;
    case FactMatch::completed:
        ++merge_.facts_completed;
        break;
    case FactMatch::contradicted:
        if (!options_.replace) {
            merge_.refuse("fact '" + in_file.prompt + "'" +
                          (in_file.subject.empty() ? "" : " of " + in_file.subject) + ": " +
                          *difference(*here, in_file) + "; --replace takes the file's");
            return;
        }
        ++merge_.facts_replaced;
        break;
    }
    on_file_.change(updated_fact(*here, in_file));
}

void FactsMerge::take(const std::string& code, const std::vector<Sheet>& in_file) {
    std::vector<Sheet> here = FactsOnFile::sheets(store_, code);
    std::vector<Sheet> left;
    const auto meets = [&](const Sheet& sheet, const auto& are_alike) {
        const auto same = std::find_if(here.begin(), here.end(), [&](const Sheet& other) {
            return ask_the_same(other, sheet) && are_alike(other, sheet);
        });
        std::optional<Sheet> met;
        if (same != here.end()) {
            met = std::move(*same);
            here.erase(same);
        }
        return met;
    };
    for (Sheet sheet : in_file) {
        for (Sheet::Row& row : sheet.rows)
            row.fact = ids_here_.at(row.fact);
        if (meets(sheet, have_same_log))
            ++merge_.sheets_unchanged;
        else
            left.push_back(std::move(sheet));
    }
    for (const Sheet& sheet : left) {
        if (const auto met = meets(sheet, [](const Sheet&, const Sheet&) { return true; })) {
            take_log(code, *met, sheet);
        } else {
            on_file_.add_sheet(code, sheet);
            ++merge_.sheets_added;
        }
    }
}

/// If only one of the two is filled in, that one counts.
void FactsMerge::take_log(const std::string& code, const Sheet& here, const Sheet& in_file) {
    if (!in_file.log) {
        ++merge_.sheets_unchanged;
    } else if (!here.log) {
        on_file_.keep_log(here.id, in_file.log);
        ++merge_.sheets_completed;
    } else if (options_.replace) {
        on_file_.keep_log(here.id, in_file.log);
        ++merge_.sheets_replaced;
    } else {
        merge_.refuse("candidate " + code + ", sheet " + to_text(here.id) + " of " + iso(here.day) +
                      ": what was missed, or when, differs from the file; --replace takes the "
                      "file's");
    }
}

} // namespace inkturn
