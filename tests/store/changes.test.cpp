#include "inkturn/store/changes.hpp"

#include "catch.hpp"
#include "days.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/store/boundary_sets.hpp"
#include "inkturn/store/calendar.hpp"
#include "inkturn/store/desk.hpp"
#include "inkturn/store/facts.hpp"
#include "inkturn/store/plan.hpp"
#include "inkturn/store/reading.hpp"
#include "inkturn/store/steering.hpp"
#include "papers.hpp"
#include "refusal.hpp"
#include "store/store_on_file.hpp"

#include <SQLiteCpp/SQLiteCpp.h>

#include <functional>
#include <map>
#include <string>
#include <vector>

namespace {

using Catch::Matchers::Contains;
using namespace inkturn;
using namespace inkturn::test;

const Moment noon{monday + Seconds{12 * 3600}};

/// Every row of every table that a change is made of, as text.
std::string rows_of(const std::string& file) {
    SQLite::Database database(file, SQLite::OPEN_READONLY);
    SQLite::Statement tables(database,
                             "SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT IN "
                             "('change', 'calendar_event', 'checked', 'sqlite_sequence') ORDER BY name");
    std::string text;
    while (tables.executeStep()) {
        const std::string table = tables.getColumn(0).getString();
        SQLite::Statement rows(database, "SELECT * FROM " + table + " ORDER BY 1, 2");
        while (rows.executeStep()) {
            text += table;
            for (int i = 0; i < rows.getColumnCount(); ++i)
                text += "|" + rows.getColumn(i).getString();
            text += '\n';
        }
    }
    return text;
}

struct Kept : StoreOnFile {
    /// As another run of the program would.
    void run(const std::string& command, const std::function<void(Store::Change&)>& work, Moment at = noon) {
        store = Store::open(file, {command, at});
        change(work);
    }
    std::string rows() const { return rows_of(file); }
    void undo() { ChangesOnFile::take_back(store, ChangesOnFile::find_last(store).value().id); }
    void redo() { ChangesOnFile::bring_back(store, ChangesOnFile::find_taken_back(store).value().id); }

    /// The commands of the changes kept, the latest first; those taken back in brackets.
    std::string commands() const {
        std::string text;
        for (const ChangeOnFile& one : ChangesOnFile::list(store))
            text += (text.empty() ? "" : " ") +
                    (one.taken_back ? "(" + one.occasion.command + ")" : one.occasion.command);
        return text;
    }

    SittingId log(const std::string& command, const std::string& code = "K07", Moment at = noon) {
        SittingId id{};
        run(
            command,
            [&](Store::Change& open) {
                const auto paper = paper_of("pure-a", {4, 5});
                if (!open.store().find_paper("pure-a"))
                    open.add_paper(*paper);
                const int sat = static_cast<int>(open.store().candidate(code).sittings.size());
                id = open.add_sitting(code, *paper, {day(sat), {}, parse_line(*paper, "3 5")});
                open.keep_day({id, "1", day(14)});
            },
            at);
        return id;
    }
};

using Steps = std::vector<std::pair<std::string, std::function<void(Store::Change&)>>>;

/// One of each kind of change, each on what is there by then.
Steps one_of_each() {
    const auto paper = paper_of("pure-a", {4, 5});
    const RetryId retry{SittingId{1}, "1", 1};
    const auto scored = [paper](const std::string& line) {
        return Sitting{monday, {}, parse_line(*paper, line)};
    };
    return {
        {"paper add", [=](auto& open) { open.add_paper(*paper); }},
        {"log", [=](auto& open) { open.add_sitting("K07", *paper, scored("3 5")); }},
        {"a day kept",
         [](auto& open) {
             open.keep_day({SittingId{1}, "1", day(14)});
         }},
        {"another day",
         [](auto& open) {
             open.keep_day({SittingId{1}, "1", day(15)});
         }},
        {"amend", [=](auto& open) { open.change_sitting(SittingId{1}, scored("2+1 5")); }},
        {"retry",
         [](auto& open) {
             open.add_reattempt(SittingId{1}, {"1", 1, day(15), {full_marks(Marks(4))}});
         }},
        {"retry --undo", [=](auto& open) { open.remove_reattempt(retry); }},
        {"retry --drop",
         [](auto& open) {
             SteeringOnFile(open).steer(SteeredRetry{SittingId{1}, "1", {{}, LetGo{monday, "no"}}});
         }},
        {"days",
         [](auto& open) {
             Availability time;
             time.free_days = Days(2);
             time.dates[day(4)] = Seconds(600);
             open.set_times("K07", stated(time));
         }},
        {"exam add",
         [](auto& open) {
             open.add_exam({"Pure", day(60), "pure"});
         }},
        {"exam move", [](auto& open) { open.move_exam(ExamId{1}, day(61)); }},
        {"exam remove", [](auto& open) { open.remove_exam(ExamId{1}); }},
        {"plan",
         [](auto& open) {
             PlanOnFile plan(open);
             plan.set_wishes("K07", {20, {{"pure", {8, monday}}}});
             plan.keep("K07", {{WorkPurpose::sit, "pure", "pure-a", 0, day(2), Seconds(60)}});
             plan.set_planned_for("K07", monday);
         }},
        {"plan again",
         [](auto& open) {
             PlanOnFile(open).keep("K07", {{WorkPurpose::recall, "", "1", 0, day(3), Seconds(60)}});
         }},
        {"topics relearned",
         [](auto& open) {
             PlanOnFile(open).add_relearned("K07", {"pure", "vectors", monday});
         }},
        {"class add",
         [](auto& open) {
             open.add_class("tuesday");
             open.add_member("tuesday", "K07");
             open.add_member("tuesday", "K09");
         }},
        {"class remove", [](auto& open) { open.remove_class("tuesday"); }},
        {"facts",
         [](auto& open) {
             FactsOnFile facts(open);
             const FactId fact = facts.add({FactId{}, "sin 30", "1/2", "", ""});
             facts.add_sheet("K07", sheet_of({fact}, monday));
         }},
        {"boundaries",
         [](auto& open) {
             BoundarySets(open).add({"spring", "pure", Marks(9), {{"A", Marks(7)}, {"B", Marks(5)}}});
         }},
        {"sit",
         [](auto& open) {
             Script script = blank_script("K08", open.store().find_paper("pure-a"), day(3), {});
             script.events = {{ClockEventKind::start, day(3), 0},
                              {ClockEventKind::hand_in, day(3) + Seconds{60}, 0}};
             Desk(open).add(script);
         }},
        {"picture",
         [=](auto& open) {
             open.add_picture(*paper, "1", PictureContent::question, {PictureKind::png, 1, 1, "\x89PNG"});
         }},
        {"sitting remove", [](auto& open) { open.remove_sitting(SittingId{1}); }},
        {"paper remove", [](auto& open) { open.remove_paper("pure-a"); }},
    };
}

} // namespace

TEST_CASE("every kind of change is taken back to the beginning, and brought back to the end") {
    Kept on;
    std::vector<std::string> states{on.rows()};
    for (const auto& [name, step] : one_of_each()) {
        CAPTURE(name);
        on.run(name, step);
        states.push_back(on.rows());
        REQUIRE(states.back() != states.end()[-2]);
    }
    for (std::size_t i = states.size() - 1; i > 0; --i) {
        CAPTURE(i);
        on.undo();
        REQUIRE(on.rows() == states[i - 1]);
    }
    CHECK_FALSE(ChangesOnFile::find_last(on.store));
    for (std::size_t i = 1; i < states.size(); ++i) {
        on.redo();
        REQUIRE(on.rows() == states[i]);
    }
    CHECK_FALSE(ChangesOnFile::find_taken_back(on.store));
}

TEST_CASE("a change is listed with the command, the moment and what it changed") {
    Kept on;
    on.log("log pure-a 1=3");
    on.run(
        "sitting remove 1", [](Store::Change& open) { open.remove_sitting(SittingId{1}); },
        noon + Seconds{5});
    const auto changes = ChangesOnFile::list(on.store);
    REQUIRE(changes.size() == 2);
    CHECK(changes[0].occasion.command == "sitting remove 1");
    CHECK(changes[0].occasion.at == noon + Seconds{5});
    CHECK(changes[1].occasion.command == "log pure-a 1=3");
    const auto text = [](const ChangeOnFile& change) {
        std::string all;
        for (const RecordsChanged& one : change.records)
            all += one.kind + " +" + std::to_string(one.added) + " -" + std::to_string(one.removed) + " ~" +
                   std::to_string(one.changed) + "; ";
        return all + (change.moved_plan ? "plan" : "");
    };
    CHECK(text(changes[1]) == "paper +1 -0 ~0; part +2 -0 ~0; candidate +1 -0 ~0; sitting +1 -0 ~0; plan");
    CHECK(text(changes[0]) == "candidate +0 -1 ~0; sitting +0 -1 ~0; plan");
    CHECK(ChangesOnFile::list(on.store, 1).size() == 1);
}

TEST_CASE("a table that is added has to be counted among the records of a change") {
    const Kept on;
    SQLite::Database database(on.file, SQLite::OPEN_READWRITE);
    const std::map<std::string, std::string> with{{"sheet_fact", "sheet"},
                                                  {"copied_question", "paper"},
                                                  {"class_sitting", "sitting"},
                                                  {"lesson_topic", "lesson"},
                                                  {"topic_wanted", "place_asked"}};
    SQLite::Statement tables(
        database, "SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT IN "
                  "('change', 'calendar_event', 'checked', 'collected_record', 'sqlite_sequence')");
    std::size_t count = 0;
    while (tables.executeStep())
        count += with.count(tables.getColumn(0).getString()) == 0;
    CHECK(count == 41); // 38 kinds and the three tables of the plan, in src/store/changes.cpp
}

TEST_CASE("a new change drops those that were taken back") {
    Kept on;
    on.log("a");
    on.log("b");
    on.log("c");
    on.undo();
    on.undo();
    CHECK(on.commands() == "(c) (b) a");
    on.redo();
    CHECK(on.commands() == "(c) b a");
    on.log("d");
    CHECK(on.commands() == "d b a");
    CHECK_FALSE(ChangesOnFile::find_taken_back(on.store));
}

TEST_CASE("only the last change is taken back, and only the one taken back last brought back") {
    Kept on;
    on.log("a");
    on.log("b");
    const auto changes = ChangesOnFile::list(on.store);
    const std::string before = on.rows();
    const auto kind_of = [](const auto& work) {
        try {
            work();
        } catch (const Error& error) {
            return std::optional(error.kind());
        }
        return std::optional<Error::Kind>();
    };
    CHECK(kind_of([&] { ChangesOnFile::take_back(on.store, changes[1].id); }) == Error::Kind::conflict);
    CHECK(kind_of([&] { ChangesOnFile::bring_back(on.store, changes[0].id); }) == Error::Kind::conflict);
    CHECK(on.rows() == before);
    CHECK(on.commands() == "b a");
    {
        Store::Change change(on.store);
        CHECK(kind_of([&] { ChangesOnFile::take_back(on.store, changes[0].id); }) == Error::Kind::misused);
    }
    {
        const Reading reading(on.store);
        CHECK(kind_of([&] { ChangesOnFile::take_back(on.store, changes[0].id); }) == Error::Kind::misused);
    }
    CHECK(on.rows() == before);
    on.undo();
    CHECK(on.commands() == "(b) a");
}

TEST_CASE("what another program changed since is not overwritten") {
    Kept on;
    on.log("a");
    SQLite::Database other(on.file, SQLite::OPEN_READWRITE);
    SECTION("in a row that the change made") {
        other.exec("UPDATE sitting SET marks = '0 0'");
    }
    SECTION("in a row that hangs on one of the change's") {
        other.exec("INSERT INTO placement (sitting, question, day) VALUES (1, '2', 20782)");
    }
    SECTION("in a row that is gone") {
        other.exec("DELETE FROM placement");
    }
    const std::string before = on.rows();
    CHECK_THROWS_WITH(on.undo(), Contains("another program changed it; nothing was changed"));
    CHECK(on.rows() == before);
    CHECK(on.commands() == "a");
    CHECK_FALSE(SQLite::Statement(other, "PRAGMA foreign_key_check").executeStep());
}

TEST_CASE("foreign keys hold again after a change was taken back") {
    Kept on;
    on.log("a");
    on.log("b");
    on.undo();
    on.change([](Store::Change& open) { open.remove_paper("pure-a"); });
    CHECK(on.rows().empty());
}

TEST_CASE("all that is changed until a store is closed is one change") {
    Kept on;
    on.log("a");
    on.change([](Store::Change& open) { open.add_class("tuesday"); });
    on.change([](Store::Change& open) {
        open.change_sitting(SittingId{1}, {day(1), {}, parse_line(*paper_of("pure-a", {4, 5}), "1 1")});
    });
    CHECK(on.commands() == "a");
    on.undo();
    CHECK(on.rows().empty());
    on.redo();
    CHECK(on.store.has_class("tuesday"));
    CHECK(to_line(on.store.candidate("K07").sittings.at(0).sitting.parts) == "1 1");
}

TEST_CASE("what one store changes around another's change stays apart from it") {
    Kept on;
    Store first = Store::open(on.file, {"first", noon});
    const auto add_class = [&](const std::string& name) {
        Store::Change change(first);
        change.add_class(name);
        change.commit();
    };
    add_class("monday");
    on.run("second", [](Store::Change& open) { open.add_class("tuesday"); });
    add_class("friday");
    CHECK(on.commands() == "first second first");
}

TEST_CASE("a change that changes nothing, or is changed back, is not kept") {
    Kept on;
    on.log("a");
    const std::string bytes = bytes_of(on.file);
    on.run("b", [](Store::Change&) {});
    CHECK(bytes_of(on.file) == bytes);
    on.run("c", [](Store::Change& open) { open.add_class("tuesday"); });
    on.change([](Store::Change& open) { open.remove_class("tuesday"); });
    CHECK(on.commands() == "a");
    on.change([](Store::Change& open) { open.add_class("tuesday"); });
    CHECK(on.commands() == "c a");
}

TEST_CASE("changes are kept for two days, and the last 20 for as long as it takes") {
    Kept on;
    constexpr Seconds two_days{49 * 3600};
    for (int i = 0; i < 25; ++i)
        on.log("old", "K07", noon);
    SECTION("to the second") {
        on.log("new", "K07", noon + two_days);
        CHECK(ChangesOnFile::list(on.store).size() == 26);
        on.log("newer", "K07", noon + two_days + Seconds{1});
        CHECK(ChangesOnFile::list(on.store).size() == 20);
    }
    SECTION("with a clock that was set back") {
        on.log("new", "K07", noon - Seconds{1000});
        CHECK(ChangesOnFile::list(on.store).size() == 26);
    }
}

TEST_CASE("large changes are kept for a day") {
    Kept on;
    constexpr Seconds a_day{25 * 3600};
    on.log("small");
    const auto paper = on.store.find_paper("pure-a");
    on.run("large", [&](Store::Change& open) {
        open.add_picture(*paper, "1", PictureContent::question,
                         {PictureKind::png, 1, 1, std::string(16'000'000, 'x')});
    });
    on.log("today", "K07", noon + a_day);
    CHECK(on.commands() == "today large small");
    on.log("tomorrow", "K07", noon + a_day + Seconds{1});
    CHECK(on.commands() == "tomorrow today");
}

TEST_CASE("what calendars were written with stays, and so does who it was written for") {
    Kept on;
    on.log("a");
    on.run("calendar", [](Store::Change& open) {
        CalendarOnFile(open).keep("K07", {{"x", monday, 0, false}});
    });
    CHECK(on.commands() == "a");
    on.undo();
    CHECK(on.store.candidates() == std::vector<std::string>{"K07"});
    CHECK(on.store.candidate("K07").sittings.empty());
    CHECK(CalendarOnFile::events(on.store, "K07").size() == 1);
    on.redo();
    CHECK(on.store.candidate("K07").sittings.size() == 1);
    on.undo();
    on.run("cancelled", [](Store::Change& open) {
        CalendarOnFile(open).keep("K07", {{"x", monday, 1, true}});
    });
    on.redo();
    on.undo();
    CHECK(on.store.candidates().empty());
}

TEST_CASE("erasing or renaming a candidate drops what could be taken back") {
    Kept on;
    on.log("log --candidate Osprey", "Osprey");
    on.log("log --candidate Kestrel", "Kestrel");
    SECTION("erased") {
        on.run("candidate erase Osprey", [](Store::Change& open) { open.erase_candidate("Osprey"); });
    }
    SECTION("renamed") {
        on.run("candidate rename Osprey K01",
               [](Store::Change& open) { open.rename_candidate("Osprey", "K01"); });
    }
    CHECK(on.commands().empty());
    on.store.compact();
    CHECK(bytes_of(on.file).find("Osprey") == std::string::npos);
    CHECK(bytes_of(on.file).find("Kestrel") != std::string::npos);
    on.log("b");
    CHECK(on.commands() == "b");
}

TEST_CASE("someone no longer on file is known by the changes that tell of them until those are forgotten") {
    Kept on;
    const SittingId id = on.log("a", "Osprey");
    CHECK(ChangesOnFile::tell_of(on.store, "Osprey"));
    on.run("b", [&](Store::Change& open) { open.remove_sitting(id); });
    CHECK_FALSE(on.store.has_candidate("Osprey"));
    CHECK(ChangesOnFile::tell_of(on.store, "Osprey"));
    CHECK_FALSE(ChangesOnFile::tell_of(on.store, "Kestrel"));
    on.change([](Store::Change& open) { open.forget_changes(); });
    on.store.compact();
    CHECK_FALSE(ChangesOnFile::tell_of(on.store, "Osprey"));
    CHECK(bytes_of(on.file).find("Osprey") == std::string::npos);
}

TEST_CASE("first days are recorded as SQLite records other rows") {
    const auto kept = [](auto keep) {
        Kept on_file;
        on_file.run("log", [&](Store::Change& open) {
            const auto paper = paper_of("pure-a", {4, 5});
            open.add_paper(*paper);
            Retry retry;
            retry.id = {open.add_sitting("K07", *paper, {monday, {}, parse_line(*paper, "3 5")}), "1", 1};
            retry.day = day(14);
            retry.day_is_new = true;
            (open.*keep)({retry});
        });
        SQLite::Database database(on_file.file, SQLite::OPEN_READONLY);
        return database.execAndGet("SELECT hex(changeset) FROM change").getString();
    };
    CHECK(kept(&Store::Change::keep_first_days) == kept(&Store::Change::keep_days));
}

TEST_CASE("first days are taken back and brought back, also where the same change moves or removes them") {
    Kept kept;
    kept.run("paper add", [&](Store::Change& open) { open.add_paper(*paper_of("pure-a", {4, 5, 6})); });
    const std::string before = kept.rows();
    const auto later = GENERATE(0, 1, 2, 3);
    kept.run("class import", [&](Store::Change& open) {
        const auto paper = open.store().find_paper("pure-a");
        std::vector<Retry> retries;
        for (int i = 0; i < 3; ++i) {
            const SittingId id =
                open.add_sitting("K0" + std::to_string(i), *paper, {monday, {}, parse_line(*paper, "3 4 5")});
            for (const char* question : {"1", "2", "3"}) {
                Retry retry;
                retry.id = {id, question, 1};
                retry.day = day(14 + i);
                retry.day_is_new = true;
                retries.push_back(retry);
            }
        }
        open.keep_first_days(retries);
        if (later == 1)
            open.keep_day({retries[4].id.sitting, "2", day(20)});
        if (later == 2)
            open.add_reattempt(retries[0].id.sitting, {"1", 1, day(15), {full_marks(Marks(4))}});
        if (later == 3)
            open.remove_sitting(retries[8].id.sitting);
    });
    const std::string after = kept.rows();
    kept.undo();
    CHECK(kept.rows() == before);
    kept.redo();
    CHECK(kept.rows() == after);
}

TEST_CASE("a change of which a step failed leaves no record") {
    Kept on;
    on.log("a");
    on.store = Store::open(on.file, {"b", noon});
    {
        Store::Change change(on.store);
        change.add_class("tuesday");
    }
    CHECK(on.commands() == "a");
    on.change([](Store::Change& open) { open.add_class("friday"); });
    CHECK(on.commands() == "b a");
    on.undo();
    CHECK(on.store.classes().empty());
}
