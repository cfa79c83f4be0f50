#include "inkturn/store/question_bank.hpp"

#include "inkturn/base/text.hpp"
#include "store/state.hpp"

namespace inkturn {
namespace {

constexpr const char* reading_bank = "reading the papers from";
constexpr const char* changing_bank = "changing a paper in";

/// The first column of all rows.
std::set<std::string> ids_in(SQLite::Statement& query) {
    std::set<std::string> ids;
    while (query.executeStep())
        ids.insert(query.getColumn(0).getString());
    return ids;
}

} // namespace

std::set<std::string> QuestionBank::kept_unseen(const Store& store) {
    Store::State& state = *store.state_;
    return state.guarded(reading_bank, [&] {
        const auto query = state.prepared("SELECT code FROM paper WHERE keep_unseen");
        return ids_in(*query);
    });
}

std::set<std::string> QuestionBank::added_since(const Store& store, Day day) {
    Store::State& state = *store.state_;
    return state.guarded(reading_bank, [&] {
        const auto query = state.prepared("SELECT code FROM paper WHERE added >= ?");
        query->bind(1, day_number(day));
        return ids_in(*query);
    });
}

std::map<std::string, Day> QuestionBank::days_added(const Store& store) {
    Store::State& state = *store.state_;
    return state.guarded(reading_bank, [&] {
        std::map<std::string, Day> days;
        const auto query = state.prepared("SELECT code, added FROM paper WHERE added IS NOT NULL");
        while (query->executeStep())
            days.emplace(query->getColumn(0).getString(), day_of(query->getColumn(1).getInt64()));
        return days;
    });
}

std::map<std::string, PartWords> QuestionBank::words(const Store& store) {
    Store::State& state = *store.state_;
    return state.guarded(reading_bank, [&] {
        std::map<std::string, PartWords> words;
        const auto query = state.prepared(
            "SELECT code, label, words FROM part JOIN paper ON paper.id = part.paper WHERE words <> ''");
        while (query->executeStep())
            words[query->getColumn(0).getString()][query->getColumn(1).getString()] =
                query->getColumn(2).getString();
        return words;
    });
}

void QuestionBank::set_kept_unseen(const std::string& paper, bool kept) {
    Store::State& state = change_.state();
    state.changed(changing_bank, [&] {
        const auto update = state.prepared("UPDATE paper SET keep_unseen = ? WHERE code = ?");
        update->bind(1, kept ? 1 : 0);
        update->bind(2, paper);
        exec_found(update, "paper " + paper);
    });
}

void QuestionBank::set_added(const std::string& paper, Day day) {
    Store::State& state = change_.state();
    state.changed(changing_bank, [&] {
        check_day(day);
        const auto update = state.prepared("UPDATE paper SET added = ? WHERE code = ?");
        update->bind(1, day_number(day));
        update->bind(2, paper);
        exec_found(update, "paper " + paper);
    });
}

void QuestionBank::set_words(const std::string& paper, const PartWords& words) {
    Store::State& state = change_.state();
    state.changed(changing_bank, [&] {
        const std::int64_t row = state.paper_row_on_file(paper);
        for (const auto& [label, text] : words) {
            check_printable(text, max_part_words, "part " + label + ", words");
            const auto update = state.prepared("UPDATE part SET words = ? WHERE paper = ? AND label = ?");
            update->bind(1, text);
            update->bind(2, row);
            update->bind(3, label);
            exec_found(update, std::string("part ").append(label).append(" of paper ").append(paper));
        }
    });
}

} // namespace inkturn
