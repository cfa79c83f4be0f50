#include "store/soundness.hpp"

#include "store/file.hpp"

#include <SQLiteCpp/Statement.h>

#include <algorithm>
#include <map>

namespace inkturn {

namespace {

bool holds(const std::string& text, const char* part) {
    return text.find(part) != std::string::npos;
}

/// The number after `page` in SQLite's words; empty if there is none.
std::string page_in(const std::string& text) {
    const std::size_t page = std::min(text.find("page "), text.find("Page "));
    if (page == std::string::npos)
        return {};
    const std::size_t begin = page + 5;
    return text.substr(begin, text.find_first_not_of("0123456789", begin) - begin);
}

/// What one line of an integrity check says, in plain words.
FileFault fault_in(const std::string& text) {
    if (holds(text, "missing from index") || holds(text, "# of entries in index"))
        return {"an index doesn't agree with its table", true};
    if (holds(text, "constraint failed in") || holds(text, "NULL value in") || holds(text, "value in"))
        return {"a row of " + text.substr(text.rfind(" in ") + 4) + " holds what it must not hold", false};
    const std::string page = page_in(text);
    return {page.empty() ? "it contradicts itself" : "page " + page + " is damaged", false};
}

} // namespace

std::vector<FileFault> faults_of_file(SQLite::Database& database, bool whole) {
    std::vector<FileFault> faults;
    const auto note = [&](FileFault fault) {
        if (std::find(faults.begin(), faults.end(), fault) == faults.end())
            faults.push_back(std::move(fault));
    };
    try {
        SQLite::Statement query(database, whole ? "PRAGMA integrity_check(10)" : "PRAGMA quick_check(10)");
        while (query.executeStep())
            if (const std::string text = query.getColumn(0).getString(); text != "ok")
                note(fault_in(text));
    } catch (const SQLite::Exception& failure) {
        if (kind_of(failure) != Error::Kind::damaged)
            throw;
        note({"some of it can't be read", false});
    }
    return faults;
}

std::vector<std::string> loose_ends(SQLite::Database& database) {
    std::map<std::string, int> rows;
    SQLite::Statement query(database, "PRAGMA foreign_key_check");
    while (query.executeStep())
        ++rows[query.getColumn(0).getString()];
    std::vector<std::string> ends;
    for (const auto& [table, count] : rows)
        ends.push_back(std::to_string(count) + (count == 1 ? " row of '" : " rows of '") + table +
                       (count == 1 ? "' belongs to nothing" : "' belong to nothing"));
    return ends;
}

std::string first_fault(SQLite::Database& database) {
    const std::vector<FileFault> faults = faults_of_file(database, false);
    if (!faults.empty()) // what is read then may be anything
        return faults.front().what;
    const std::vector<std::string> ends = loose_ends(database);
    return ends.empty() ? std::string() : ends.front();
}

std::optional<Day> day_checked(SQLite::Database& database) {
    SQLite::Statement query(database, "SELECT day FROM checked");
    if (!query.executeStep())
        return std::nullopt;
    return Day{Days{static_cast<Days::rep>(query.getColumn(0).getInt64())}};
}

void note_checked(SQLite::Database& database, Day day) {
    SQLite::Statement insert(database, "INSERT OR REPLACE INTO checked (id, day) VALUES (1, ?)");
    insert.bind(1, static_cast<std::int64_t>(day.time_since_epoch().count()));
    insert.exec();
}

} // namespace inkturn
