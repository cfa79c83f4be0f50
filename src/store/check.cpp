#include "inkturn/store/check.hpp"

#include "inkturn/store/awards.hpp"
#include "inkturn/store/boundary_sets.hpp"
#include "inkturn/store/calendar.hpp"
#include "inkturn/store/changes.hpp"
#include "inkturn/store/closed_classes.hpp"
#include "inkturn/store/desk.hpp"
#include "inkturn/store/drawn_papers.hpp"
#include "inkturn/store/facts.hpp"
#include "inkturn/store/printed_sets.hpp"
#include "inkturn/store/question_bank.hpp"
#include "inkturn/store/reading.hpp"
#include "inkturn/store/topic_lists.hpp"
#include "store/copy.hpp"
#include "store/soundness.hpp"
#include "store/state.hpp"

#include <map>
#include <set>

namespace inkturn {
namespace {

std::string without(const std::string& text, std::string_view beginning) {
    return text.substr(text.rfind(beginning, 0) == 0 ? beginning.size() : 0);
}

bool has_question(const Candidate& candidate, const Placement& placement) {
    for (const SittingRecord& record : candidate.sittings)
        if (record.id == placement.sitting)
            return record.paper->find_question(placement.question).has_value();
    return false;
}

std::vector<Placement> days_of_no_question(const Candidate& candidate) {
    std::vector<Placement> days;
    for (const Placement& placement : candidate.placements)
        if (!has_question(candidate, placement))
            days.push_back(placement);
    return days;
}

/// None of a candidate that can't be read.
std::vector<Placement> days_of_no_question(const Store& store, const std::string& code) {
    try {
        return days_of_no_question(store.candidate(code));
    } catch (const StoreError& error) {
        if (error.kind() != Error::Kind::damaged)
            throw;
        return {};
    }
}

/// Goes through a store and notes what can't be read or doesn't agree.
class Inspection {
  public:
    explicit Inspection(const Store& store) : store_(store) {}

    std::vector<StoreFault> found() {
        for (const std::string& code : store_.candidates())
            look("candidate " + code, [&] { look_at(code); });
        look("papers", [&] {
            for (const auto& paper : store_.papers())
                store_.pictures_of(*paper, paper->questions().front().label, PictureContent::question);
        });
        look("pictures", [&] { store_.pictures(); });
        look("drawn papers", [&] { DrawnPapers::copies(store_); });
        look("printed words", [&] { QuestionBank::words(store_); });
        look("printed sets", [&] { PrintedSets::all(store_); });
        look("lists of topics", [&] { TopicLists::all(store_); });
        look("exams", [&] { store_.exams(); });
        look("classes", [&] { store_.classes(); });
        look("facts", [&] { FactsOnFile::all(store_); });
        look("figures of closed classes", [&] { ClosedClasses::all(store_); });
        look("awards", [&] { AwardsOnFile::all(store_); });
        look("boundary sets", [&] { BoundarySets::all(store_); });
        look("changes that can be taken back", [&] { ChangesOnFile::list(store_); });
        return std::move(faults_);
    }

  private:
    template <typename Work>
    void look(const std::string& where, const Work& work) {
        try {
            work();
        } catch (const StoreError& error) {
            if (error.kind() != Error::Kind::damaged)
                throw;
            note(where, without(error.why(), "it is damaged: "));
        }
    }

    void note(const std::string& where, const std::string& what, bool can_be_repaired = false) {
        faults_.push_back({where + ": " + what, can_be_repaired});
    }

    void look_at(const std::string& code) {
        const Candidate candidate = store_.candidate(code);
        for (const SittingRecord& record : candidate.sittings)
            look_at(code, record);
        for (const Placement& placement : days_of_no_question(candidate))
            note("candidate " + code,
                 "a day is kept for question " + placement.question + ", which its paper doesn't have", true);
        Desk::scripts(store_, code);
        FactsOnFile::sheets(store_, code);
        CalendarOnFile::events(store_, code);
    }

    void look_at(const std::string& code, const SittingRecord& record) {
        std::map<std::string, int> turns;
        for (const Reattempt& reattempt : record.reattempts) {
            int& turn = turns[reattempt.question];
            if (reattempt.turn != ++turn)
                note("candidate " + code, "question " + reattempt.question + " of " + record.paper->id() +
                                              " has turn " + std::to_string(reattempt.turn) +
                                              " without turn " + std::to_string(turn));
            turn = reattempt.turn;
        }
    }

    const Store& store_;
    std::vector<StoreFault> faults_;
};

/// A foreign key: which columns of a table name which of another.
struct ForeignKey {
    std::string parent;
    std::string columns;        ///< `sitting, question, turn`
    std::string parent_columns; ///< likewise
};

std::vector<ForeignKey> foreign_keys(SQLite::Database& database, const std::string& table) {
    std::map<int, ForeignKey> keys;
    SQLite::Statement query(database, "SELECT id, k.\"table\", \"from\", coalesce(\"to\", (SELECT name FROM "
                                      "pragma_table_info(k.\"table\") WHERE pk = k.seq + 1)) "
                                      "FROM pragma_foreign_key_list(?) k ORDER BY id, seq");
    query.bind(1, table);
    while (query.executeStep()) {
        ForeignKey& key = keys[query.getColumn(0).getInt()];
        const std::string comma = key.columns.empty() ? "" : ", ";
        key.parent = query.getColumn(1).getString();
        key.columns += comma + query.getColumn(2).getString();
        key.parent_columns += comma + query.getColumn(3).getString();
    }
    std::vector<ForeignKey> found;
    for (auto& [id, key] : keys)
        found.push_back(std::move(key));
    return found;
}

/// Removes the table's rows that name rows which are not there.
void remove_loose_ends_of(SQLite::Database& database, const std::string& table) {
    for (const ForeignKey& key : foreign_keys(database, table))
        database.exec("DELETE FROM " + table + " WHERE (" + key.columns + ") NOT IN (SELECT " +
                      key.parent_columns + " FROM " + key.parent + ")");
}

/// What goes takes along what depends on it.
void remove_loose_ends(SQLite::Database& database) {
    std::set<std::string> tables;
    {
        SQLite::Statement query(database, "SELECT DISTINCT \"table\" FROM pragma_foreign_key_check");
        while (query.executeStep())
            tables.insert(query.getColumn(0).getString());
    }
    for (const std::string& table : tables)
        remove_loose_ends_of(database, table);
}

} // namespace

std::vector<StoreFault> faults_of(const Store& store) {
    const Reading whole(store);
    Store::State& state = *store.state_;
    std::vector<StoreFault> faults = state.guarded("checking", [&] {
        std::vector<StoreFault> found;
        for (const FileFault& fault : faults_of_file(*state.database, true))
            found.push_back({"the file: " + fault.what, fault.is_of_index});
        if (found.empty()) // or else what is read may be anything
            for (const std::string& end : loose_ends(*state.database))
                found.push_back({end, true});
        return found;
    });
    if (faults.empty())
        faults = Inspection(store).found();
    return faults;
}

Repaired repair_store(const std::string& file) {
    Store store = Store::open_to_repair(file);
    Repaired repaired{free_name(file + ".before-repair"), {}};
    store.state_->guarded("copying", [&] { copy_damaged_database(*store.state_->database, repaired.kept); });
    Store::Change change(store);
    change.repair();
    change.commit();
    repaired.left = faults_of(store);
    return repaired;
}

void Store::Change::repair() {
    State& state = this->state();
    state.changed("repairing", [&] {
        state.forgets_changes = true; // they are of rows as they were
        state.database->exec("REINDEX");
        remove_loose_ends(*state.database);
        state.forget();
        for (const std::string& code : store_.candidates())
            for (const Placement& placement : days_of_no_question(store_, code))
                state.remove_placement(placement.sitting, placement.question);
    });
}

} // namespace inkturn
