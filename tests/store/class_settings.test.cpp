#include "catch.hpp"
#include "days.hpp"
#include "dice.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/store/changes.hpp"
#include "inkturn/store/collected.hpp"
#include "inkturn/store/papers.hpp"
#include "inkturn/store/plan.hpp"
#include "papers.hpp"
#include "store/older_layout.hpp"
#include "store/store_on_file.hpp"

#include <SQLiteCpp/Database.h>

#include <map>
#include <optional>
#include <random>
#include <set>
#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;
using Codes = std::vector<std::string>;

const Paper example = paper_of({3, 5, 4});

Paper paper_called_own() {
    return Paper({"own-1", "", "", std::nullopt, RetryBy::question}, {{"1", Marks(4), "", ""}});
}

struct InClasses : StoreOnFile {
    InClasses() {
        change([](Store::Change& open) {
            open.add_paper(example);
            for (const char* name : {"tuesday", "friday"})
                open.add_class(name);
            open.add_member("tuesday", "K01");
            open.add_member("tuesday", "K02");
            open.add_member("friday", "K02");
            open.add_member("friday", "K03");
        });
    }

    SittingId sit(const std::string& candidate, int on, const std::string& line) {
        return change([&](Store::Change& open) {
            return open.add_sitting(candidate, example, {day(on), {}, parse_line(example, line)});
        });
    }

    Codes exams_of(const std::string& code) const {
        Codes titles;
        for (const Exam& exam : store.candidate(code).exams)
            titles.push_back(exam.title);
        return titles;
    }
};

Exam exam_for(const std::string& of_class, int on, const std::string& title) {
    return {title, day(on), "", false, of_class};
}

/// The days of a candidate's retries, by their id.
std::map<std::string, std::optional<Day>> retry_days(const Store& store, const std::string& code) {
    std::map<std::string, std::optional<Day>> days;
    for (const Retry& retry : open_retries(store.candidate(code), day(2)))
        days[to_text(retry.id)] = retry.day;
    return days;
}

} // namespace

TEST_CASE("an exam of a class counts for its members alone, as long as they are members") {
    InClasses on;
    on.change([](Store::Change& open) {
        open.add_exam(exam_for("", 60, "everybody"));
        open.add_exam(exam_for("tuesday", 50, "tuesday's"));
        open.add_exam(exam_for("friday", 40, "friday's"));
    });
    on.reopen();
    CHECK(on.exams_of("K01") == Codes{"tuesday's", "everybody"});
    CHECK(on.exams_of("K02") == Codes{"friday's", "tuesday's", "everybody"});
    CHECK(on.exams_of("K03") == Codes{"friday's", "everybody"});
    CHECK(on.exams_of("me") == Codes{"everybody"});
    CHECK(on.store.exams().size() == 3);
    CHECK(on.store.exams().front().exam.of_class == "friday");

    on.change([](Store::Change& open) {
        open.remove_member("tuesday", "K01");
        open.add_member("friday", "K01");
    });
    CHECK(on.exams_of("K01") == Codes{"friday's", "everybody"});
    on.change([](Store::Change& open) { open.remove_class("friday"); });
    CHECK(on.exams_of("K02") == Codes{"tuesday's", "everybody"});
    CHECK(on.store.exams().size() == 2);
    Store::Change change(on.store);
    CHECK_THROWS_AS(change.add_exam(exam_for("friday", 40, "friday's")), Error);
}

TEST_CASE("a class's exam stands in place of everybody's of the same name for its members alone") {
    InClasses on;
    on.change([](Store::Change& open) {
        open.add_exam(exam_for("", 60, "Paper 1"));
        open.add_exam(exam_for("tuesday", 67, "Paper 1"));
    });
    REQUIRE(on.store.candidate("K01").exams.size() == 1);
    CHECK(on.store.candidate("K01").exams[0].day == day(67));
    REQUIRE(on.store.candidate("K03").exams.size() == 1);
    CHECK(on.store.candidate("K03").exams[0].day == day(60));
}

TEST_CASE("the times of a class count for members who have set none of their own") {
    InClasses on;
    StatedTimes times;
    times.week[0] = Seconds(600);
    times.dates[day(3)] = Seconds(0);
    StatedTimes own;
    own.dates[day(3)] = Seconds(1200);
    on.change([&](Store::Change& open) {
        open.set_class_times("tuesday", times);
        open.set_times("K02", own);
    });
    on.reopen();
    CHECK(on.store.class_times("tuesday") == times);
    CHECK(on.store.class_times("friday").is_empty());
    CHECK(on.store.candidate("K01").availability.time_set(day(0)) == Seconds(600));
    CHECK(on.store.candidate("K01").availability.time_set(day(3)) == Seconds(0));
    CHECK(on.store.candidate("K01").own_times.is_empty());
    CHECK(on.store.candidate("K02").availability.time_set(day(0)) == Seconds(600));
    CHECK(on.store.candidate("K02").availability.time_set(day(3)) == Seconds(1200));
    CHECK(on.store.candidate("K02").own_times == own);
    CHECK(on.store.candidate("K03").availability.week == Availability().week);

    on.change([](Store::Change& open) {
        open.set_class_times("tuesday", {});
        open.set_times("K02", {});
    });
    CHECK(on.store.candidate("K01").availability.week == Availability().week);
    CHECK(on.store.candidate("K02").availability.dates.empty());
    CHECK_THROWS_AS(on.store.class_times("monday"), Error);
}

TEST_CASE("times and exams of a class are taken back with the change that set them") {
    InClasses on;
    StatedTimes times;
    times.week[0] = Seconds(600);
    times.dates[day(3)] = Seconds(0);
    on.reopen();
    on.change([&](Store::Change& open) {
        open.set_class_times("tuesday", times);
        open.add_exam(exam_for("tuesday", 50, "tuesday's"));
    });
    const auto last = ChangesOnFile::find_last(on.store);
    REQUIRE(last);
    CHECK(last->records.size() == 3);
    ChangesOnFile::take_back(on.store, last->id);
    CHECK(on.store.class_times("tuesday").is_empty());
    CHECK(on.exams_of("K01").empty());
    ChangesOnFile::bring_back(on.store, last->id);
    CHECK(on.store.class_times("tuesday") == times);
    CHECK(on.exams_of("K01") == Codes{"tuesday's"});
}

TEST_CASE("setting an exam or times for a class moves no day of a candidate outside it") {
    for (unsigned seed = 1; seed <= 40; ++seed) {
        std::mt19937 dice(seed);
        StoreOnFile on;
        Codes codes;
        on.change([&](Store::Change& open) {
            open.add_paper(example);
            open.add_class("A");
            open.add_class("B");
            for (int i = 0; i < 8; ++i) {
                codes.push_back("K0" + std::to_string(i));
                open.add_sitting(codes.back(), example,
                                 {day(pick(dice, 0, 2)),
                                  {},
                                  parse_line(example, std::to_string(pick(dice, 0, 2)) + " " +
                                                          std::to_string(pick(dice, 0, 4)) + " 1")});
                for (const char* name : {"A", "B"})
                    if (pick(dice, 0, 1) == 1)
                        open.add_member(name, codes.back());
            }
            open.add_exam({"Paper 1", day(pick(dice, 10, 60)), "", false});
        });
        std::map<std::string, std::map<std::string, std::optional<Day>>> before;
        for (const std::string& code : codes)
            before[code] = retry_days(on.store, code);
        StatedTimes times;
        times.week.fill(Seconds(600 * pick(dice, 0, 3)));
        times.dates[day(pick(dice, 3, 30))] = Seconds(0);
        on.change([&](Store::Change& open) {
            open.add_exam(
                {pick(dice, 0, 1) == 1 ? "Paper 1" : "Paper 2", day(pick(dice, 4, 40)), "", false, "A"});
            open.set_class_times("A", times);
        });
        bool any_moved = false;
        for (const std::string& code : codes) {
            const auto classes = on.store.classes_of(code);
            const bool is_inside = !classes.empty() && classes.front() == "A";
            any_moved = any_moved || retry_days(on.store, code) != before[code];
            if (!is_inside)
                CHECK(retry_days(on.store, code) == before[code]);
        }
        if (seed == 1)
            CHECK(any_moved); // or nothing was held against it
    }
}

TEST_CASE("candidates are listed with what they have on file, all or those of a class") {
    InClasses on;
    on.sit("K02", 0, "1 1 1");
    on.sit("K02", 9, "2 2 2");
    on.change([](Store::Change& open) { open.set_extra_time("K03", ExtraTime(25)); });
    const auto all = on.store.listed_candidates(std::nullopt);
    REQUIRE(all.size() == 3);
    CHECK(all[0].code == "K01");
    CHECK(all[0].sittings == 0);
    CHECK_FALSE(all[0].latest);
    CHECK_FALSE(all[0].extra_time);
    CHECK(all[1].sittings == 2);
    CHECK(all[1].latest == day(9));
    CHECK(all[1].classes == Codes{"friday", "tuesday"});
    CHECK(all[2].extra_time->percent() == 25);
    const auto listed = on.store.listed_candidates("tuesday");
    REQUIRE(listed.size() == 2);
    CHECK(listed[1].sittings == 2);
    CHECK_THROWS_AS(on.store.listed_candidates("monday"), Error);
}

TEST_CASE("a candidate in a class has the sittings that count for the class") {
    InClasses on;
    const SittingId own = on.sit("K02", 0, "1 1 1");
    const SittingId other = on.sit("K02", 9, "2 2 2");
    CHECK(on.store.candidate_in("tuesday", "K02").sittings.size() == 2);
    on.change([&](Store::Change& open) { open.keep_for_class("friday", other); });
    CHECK(on.store.candidate_in("tuesday", "K02").sittings.size() == 2); // none was imported for tuesday
    on.change([&](Store::Change& open) { open.keep_for_class("tuesday", own); });
    REQUIRE(on.store.candidate_in("tuesday", "K02").sittings.size() == 1);
    CHECK(on.store.candidate_in("tuesday", "K02").sittings[0].id == own);
    REQUIRE(on.store.sittings_of(example, "tuesday").size() == 1);
    CHECK(on.store.sittings_of(example, "tuesday")[0].day == day(0));
    CHECK(on.store.sittings_of(example, "friday").size() == 1);
    CHECK(on.store.sittings_of(example, std::nullopt).size() == 2);
    CHECK(on.store.candidate("K02").sittings.size() == 2);
}

TEST_CASE("a store of version 12 keeps its weeks and exams, which are for everybody") {
    const TempFolder folder;
    const std::string file = folder.file("twelve");
    {
        Store store = Store::open(file);
        Store::Change change(store);
        change.add_class("tuesday");
        change.add_member("tuesday", "K01");
        change.commit();
    }
    SQLite::Database(file, SQLite::OPEN_READWRITE)
        .exec(std::string(drop_since_12) +
              "DROP TABLE week;"
              "CREATE TABLE week (candidate INTEGER PRIMARY KEY REFERENCES candidate ON DELETE CASCADE, "
              "mon INTEGER NOT NULL, tue INTEGER NOT NULL, wed INTEGER NOT NULL, thu INTEGER NOT NULL, "
              "fri INTEGER NOT NULL, sat INTEGER NOT NULL, sun INTEGER NOT NULL, "
              "free_days INTEGER NOT NULL DEFAULT 1) STRICT;"
              "INSERT INTO week SELECT id, 600, 0, 1200, 3600, 3600, 3600, 60, 2 FROM candidate;"
              "INSERT INTO exam (title, day, subject, mock) VALUES ('Paper 1', 20900, 'pure', 0);"
              "PRAGMA user_version = 12;");
    Store store = Store::open(file);
    const Candidate candidate = store.candidate("K01");
    CHECK(candidate.own_times.week[0] == Seconds(600));
    CHECK(candidate.own_times.week[1] == Seconds(0));
    CHECK(candidate.availability.week[6] == Seconds(60));
    CHECK(candidate.availability.free_days == Days(2));
    REQUIRE(candidate.exams.size() == 1);
    CHECK(candidate.exams[0].of_class.empty());
    CHECK(store.class_times("tuesday").is_empty());
    Store::Change change(store);
    change.add_exam({"Paper 2", day(200), "", false, "tuesday"});
    change.commit();
    CHECK(store.candidate("K01").exams.size() == 2);
}

TEST_CASE("a class's papers are those that were imported for it, whoever of its members sat others") {
    InClasses on;
    const SittingId id = on.sit("K01", 0, "1 1 1");
    on.change([](Store::Change& open) { open.add_paper(paper_called_own()); });
    REQUIRE(PapersOnFile::in_class(on.store, "tuesday").size() == 1);
    CHECK(PapersOnFile::in_class(on.store, "tuesday")[0].sat == 1);
    CHECK_FALSE(PapersOnFile::in_class(on.store, "tuesday")[0].is_set);
    CHECK(PapersOnFile::in_class(on.store, "friday").empty());
    CHECK(PapersOnFile::of_class(on.store, "tuesday").empty()); // one of two
    CHECK(PapersOnFile::begun(on.store) == PaperIds{example.id()});
    on.change([&](Store::Change& open) { open.keep_for_class("tuesday", id); });
    CHECK(PapersOnFile::of_class(on.store, "tuesday") == PaperIds{example.id()});
    on.change([](Store::Change& open) { open.remove_member("tuesday", "K01"); });
    CHECK(PapersOnFile::of_class(on.store, "tuesday") == PaperIds{example.id()}); // it stays the class's
    CHECK_THROWS_AS(PapersOnFile::in_class(on.store, "monday"), Error);
}

TEST_CASE("who was absent from a paper on a day is kept until they sat it, and goes with the class") {
    InClasses on;
    const auto absent = [&](const char* of_class) {
        return PapersOnFile::absent(on.store, of_class, example, day(0));
    };
    on.change([](Store::Change& open) {
        PapersOnFile papers(open);
        for (const char* code : {"K01", "K02", "K02"})
            papers.note_absent("tuesday", example, day(0), code);
        papers.note_absent("tuesday", example, day(1), "K02");
    });
    CHECK(absent("tuesday") == std::set<std::string>{"K01", "K02"});
    CHECK(absent("friday").empty());
    CHECK(PapersOnFile::absent(on.store, "tuesday", example) == std::set<std::string>{"K01", "K02"});
    CHECK(PapersOnFile::absent(on.store, "friday", example).empty());
    CHECK(PapersOnFile::absent(on.store, std::nullopt, example).size() == 2);
    CHECK(PapersOnFile::ids(on.store) == std::vector<std::string>{example.id()});
    on.change(
        [](Store::Change& open) { PapersOnFile(open).forget_absent("tuesday", example, day(0), "K02"); });
    CHECK(absent("tuesday") == std::set<std::string>{"K01"});
    on.change([](Store::Change& open) { open.remove_class("tuesday"); });
    on.change([](Store::Change& open) { open.add_class("tuesday"); });
    CHECK(absent("tuesday").empty());
}

TEST_CASE("a store of version 13 gets tables for what was collected and for who was absent") {
    InClasses on;
    on.sit("K01", 0, "1 1 1");
    SQLite::Database(on.file, SQLite::OPEN_READWRITE)
        .exec(std::string(drop_since_13) + "PRAGMA user_version = 13");
    Store store = Store::open(on.file);
    CHECK(PapersOnFile::absent(store, "tuesday", example, day(0)).empty());
    CHECK(CollectedFiles::records(store, "K01").empty());
    CHECK(store.candidate("K01").sittings.size() == 1);
}
