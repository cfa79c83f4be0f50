#include "inkturn/store/store.hpp"

#include "catch.hpp"
#include "days.hpp"
#include "inkturn/base/error.hpp"
#include "store/store_on_file.hpp"

#include <SQLiteCpp/Database.h>

#include <memory>
#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::StartsWith;

Paper example(const std::string& id = "made-up") {
    return Paper({id, "Made up \xC3\xA9", "pure", Seconds(1800), RetryBy::question},
                 {{"1a", Marks(3), "surds", "M1 A1 B1"},
                  {"1b", Marks(2), "", ""},
                  {"2", Marks(5), "integration", ""}});
}

Sitting sitting(int on, const std::string& line, int extra_time = 0) {
    return {day(on), ExtraTime(extra_time), parse_line(example(), line)};
}

struct OnFile : StoreOnFile {
    SittingId add(const std::string& candidate, const Sitting& sat) {
        return change([&](Store::Change& open) {
            if (!open.store().find_paper("made-up"))
                open.add_paper(example());
            return open.add_sitting(candidate, example(), sat);
        });
    }

    int rows(const std::string& table) const {
        SQLite::Database database(file, SQLite::OPEN_READONLY);
        return database.execAndGet("SELECT count(*) FROM " + table).getInt();
    }
};

Reattempt reattempt(const std::string& question, int turn, int on, const std::string& line) {
    const Paper paper = example();
    return {question, turn, day(on),
            parse_line(paper, paper.questions()[*paper.find_question(question)].parts, line)};
}

Retry with_day(SittingId id, const std::string& question, int on, bool now = true) {
    Retry retry;
    retry.id = {id, question, 1};
    retry.day = day(on);
    retry.day_is_new = now;
    return retry;
}

} // namespace

TEST_CASE("shares got at come back with their paper") {
    OnFile on;
    on.change([](Store::Change& store) {
        store.add_paper(Paper({"essay", "", "", {}, RetryBy::question, GotAt(80)},
                              {{"1", Marks(25), "", "", GotAt(1)}, {"2", Marks(25), "", ""}}));
        store.add_paper(example());
    });
    on.reopen();
    const auto essay = on.store.find_paper("essay");
    REQUIRE(essay);
    CHECK(essay->got_at() == GotAt(80));
    CHECK(essay->parts()[0].got_at == GotAt(1));
    CHECK_FALSE(essay->parts()[1].got_at.has_value());
    CHECK_FALSE(on.store.find_paper("made-up")->got_at().has_value());
}

TEST_CASE("a paper comes back from the store as it was put there") {
    OnFile on;
    on.change([](Store::Change& store) {
        store.add_paper(example());
        store.add_paper(Paper({"another", "", "", {}, RetryBy::part}, {{"A3c", Marks(500), "", ""}}));
    });
    on.reopen();
    const auto paper = on.store.find_paper("made-up");
    REQUIRE(paper);
    CHECK(paper->title() == "Made up \xC3\xA9");
    CHECK(paper->subject() == "pure");
    CHECK(paper->duration() == Seconds(1800));
    CHECK(paper->retry_by() == RetryBy::question);
    REQUIRE(paper->parts().size() == 3);
    CHECK(paper->parts()[0].label == "1a");
    CHECK(paper->parts()[0].topic == "surds");
    CHECK(paper->parts()[0].codes == "M1 A1 B1");
    CHECK(paper->parts()[2].max == Marks(5));

    const auto papers = on.store.papers();
    REQUIRE(papers.size() == 2);
    CHECK(papers[0]->id() == "another");
    CHECK_FALSE(papers[0]->duration().has_value());
    CHECK(papers[0]->retry_by() == RetryBy::part);
    CHECK(on.store.find_paper("made") == nullptr);
}

TEST_CASE("a paper's id is taken once") {
    OnFile on;
    Store::Change change(on.store);
    change.add_paper(example());
    CHECK_THROWS_WITH(change.add_paper(example()), StartsWith("paper made-up is already on file"));
}

TEST_CASE("a sitting comes back from the store as it was put there") {
    OnFile on;
    const SittingId second = on.add("K07", sitting(7, "1+1+1:slip - 0+0+5:recall", 25));
    const SittingId first = on.add("K07", sitting(0, "3 2 5"));
    on.reopen();
    const Candidate candidate = on.store.candidate("K07");
    CHECK(candidate.code == "K07");
    REQUIRE(candidate.sittings.size() == 2);
    CHECK(candidate.sittings[0].id == first);
    CHECK(candidate.sittings[1].id == second);
    CHECK(candidate.sittings[1].sitting.day == day(7));
    CHECK(candidate.sittings[1].sitting.extra_time.percent() == 25);
    CHECK(to_line(candidate.sittings[1].sitting.parts) == "1+1+1:slip - 0+0+5:recall");
    CHECK(candidate.sittings[0].paper->id() == "made-up");
    CHECK(on.store.papers_and_sittings()[0].sittings == 2);
    CHECK(on.store.candidate_of(first) == std::string("K07"));
    CHECK_FALSE(on.store.candidate_of(SittingId{999}).has_value());
}

TEST_CASE("candidates are kept apart and listed by code") {
    OnFile on;
    on.add("K09", sitting(0, "3 2 5"));
    on.add("K07", sitting(0, "3 2 4"));
    CHECK(on.store.candidates() == std::vector<std::string>{"K07", "K09"});
    CHECK(on.store.candidate("K07").sittings.size() == 1);
    CHECK(on.store.candidate("K08").sittings.empty());
    CHECK(on.store.candidate("K08' OR '1'='1").sittings.empty());
}

TEST_CASE("a candidate's code is checked before it is put on file") {
    OnFile on;
    CHECK_THROWS_AS(on.add(" K07", sitting(0, "3 2 5")), Error);
    CHECK(on.store.candidates().empty());
}

TEST_CASE("a candidate sits a paper once a day") {
    OnFile on;
    on.add("K07", sitting(0, "3 2 5"));
    CHECK_THROWS_WITH(on.add("K07", sitting(0, "3 2 4")),
                      StartsWith("candidate K07 already has a sitting of made-up on 2026-11-02 on file"));
    on.add("K09", sitting(0, "3 2 5"));
    const SittingId next = on.add("K07", sitting(1, "3 2 5"));
    Store::Change change(on.store);
    CHECK_THROWS_WITH(change.change_sitting(next, sitting(0, "3 2 5")),
                      StartsWith("there is another sitting of that paper on 2026-11-02"));
}

TEST_CASE("changing a sitting keeps what was recorded of its retries") {
    OnFile on;
    const SittingId id = on.add("K07", sitting(0, "3 1 4"));
    on.change([&](Store::Change& store) {
        store.add_reattempt(id, reattempt("1", 1, 15, "3 1:misread"));
        store.change_sitting(id, sitting(1, "2 1 5", 50));
    });
    on.reopen();
    const SittingRecord record = on.store.candidate("K07").sittings.at(0);
    CHECK(record.sitting.day == day(1));
    CHECK(record.sitting.extra_time.percent() == 50);
    CHECK(to_line(record.sitting.parts) == "2 1 5");
    REQUIRE(record.reattempts.size() == 1);
    CHECK(record.reattempts[0].day == day(15));
    CHECK(to_line(record.reattempts[0].parts) == "3 1:misread");
}

TEST_CASE("re-attempts come back with their turns ascending") {
    OnFile on;
    const SittingId id = on.add("K07", sitting(0, "0 0 0"));
    on.change([&](Store::Change& store) {
        for (int turn = 1; turn <= 11; ++turn)
            store.add_reattempt(id, reattempt("1", turn, 15 * turn, "0 0"));
        store.add_reattempt(id, reattempt("2", 1, 15, "5"));
    });
    on.reopen();
    const auto reattempts = on.store.candidate("K07").sittings.at(0).reattempts;
    REQUIRE(reattempts.size() == 12);
    for (std::size_t i = 0; i < 11; ++i)
        CHECK(reattempts[i].turn == static_cast<int>(i) + 1);
    CHECK(reattempts[11].question == "2");
}

TEST_CASE("a re-attempt that is undone is gone") {
    OnFile on;
    const SittingId id = on.add("K07", sitting(0, "0 0 0"));
    on.change([&](Store::Change& store) {
        store.add_reattempt(id, reattempt("1", 1, 15, "0 0"));
        store.add_reattempt(id, reattempt("2", 1, 15, "0"));
        store.remove_reattempt({id, "1", 1});
    });
    const auto reattempts = on.store.candidate("K07").sittings.at(0).reattempts;
    REQUIRE(reattempts.size() == 1);
    CHECK(reattempts[0].question == "2");
}

TEST_CASE("only days chosen now are kept, and a re-attempt ends them") {
    OnFile on;
    const SittingId id = on.add("K07", sitting(0, "0 0 0"));
    on.change([&](Store::Change& store) {
        store.keep_days({with_day(id, "1", 14), with_day(id, "2", 15, false)});
    });
    on.reopen();
    auto placements = on.store.candidate("K07").placements;
    REQUIRE(placements.size() == 1);
    CHECK(placements[0].sitting == id);
    CHECK(placements[0].question == "1");
    CHECK(placements[0].day == day(14));

    on.change([&](Store::Change& store) { store.keep_days({with_day(id, "1", 16), with_day(id, "2", 17)}); });
    CHECK(on.store.candidate("K07").placements.size() == 2);
    on.change([&](Store::Change& store) { store.add_reattempt(id, reattempt("1", 1, 16, "0 0")); });
    placements = on.store.candidate("K07").placements;
    REQUIRE(placements.size() == 1);
    CHECK(placements[0].question == "2");
}

TEST_CASE("taking back a re-attempt gives up the day of the turn that came of it") {
    OnFile on;
    const SittingId id = on.add("K07", sitting(0, "0 0 0"));
    on.change([&](Store::Change& store) {
        store.add_reattempt(id, reattempt("1", 1, 15, "0 0"));
        store.keep_days({with_day(id, "1", 30)});
        store.remove_reattempt({id, "1", 1});
    });
    CHECK(on.store.candidate("K07").placements.empty());
}

TEST_CASE("availability comes back as it was set, and is replaced whole") {
    OnFile on;
    Availability availability;
    for (std::size_t i = 0; i < 7; ++i)
        availability.week[i] = Seconds(600 * static_cast<int>(i));
    availability.dates = {{day(3), Seconds(0)}, {day(-3), Seconds(86400)}};
    on.change([&](Store::Change& store) { store.set_times("K07", stated(availability)); });
    on.reopen();
    CHECK(on.store.candidate("K07").availability.week == availability.week);
    CHECK(on.store.candidate("K07").availability.dates == availability.dates);
    CHECK(on.store.candidate("K09").availability.week == Availability{}.week);

    on.change([&](Store::Change& store) { store.set_times("K07", stated({})); });
    CHECK(on.store.candidate("K07").availability.dates.empty());
    CHECK(on.store.candidate("K07").availability.week == Availability{}.week);
}

TEST_CASE("exams come back by day, to every candidate") {
    OnFile on;
    const ExamId later = on.change([](Store::Change& store) {
        return store.add_exam({"Pure, paper 2", day(60), "pure"});
    });
    on.change([](Store::Change& store) { return store.add_exam({"All", day(30), ""}); });
    on.reopen();
    const auto exams = on.store.exams();
    REQUIRE(exams.size() == 2);
    CHECK(exams[0].exam.title == "All");
    CHECK(exams[1].id == later);
    CHECK(exams[1].exam.day == day(60));
    CHECK(exams[1].exam.subject == "pure");
    CHECK(on.store.candidate("K07").exams.size() == 2);
    on.change([&](Store::Change& store) { store.remove_exam(later); });
    CHECK(on.store.exams().size() == 1);
}

TEST_CASE("a mock comes back as one, and stays one on another day") {
    OnFile on;
    const ExamId mock = on.change([](Store::Change& store) {
        return store.add_exam({"Mock", day(30), "pure", true});
    });
    on.change([](Store::Change& store) { return store.add_exam({"Pure", day(60), "pure"}); });
    on.change([&](Store::Change& store) { store.move_exam(mock, day(40)); });
    on.reopen();
    const std::vector<Exam> exams = on.store.candidate("K07").exams;
    REQUIRE(exams.size() == 2);
    CHECK(exams[0].day == day(40));
    CHECK(exams[0].mock);
    CHECK_FALSE(exams[1].mock);
}

TEST_CASE("an id that was used is not used again") {
    OnFile on;
    const SittingId gone = on.add("K07", sitting(0, "3 2 5"));
    on.change([&](Store::Change& store) { store.remove_sitting(gone); });
    CHECK(on.add("K07", sitting(0, "3 2 5")) != gone);
}

TEST_CASE("a change that is not committed is undone completely") {
    OnFile on;
    const SittingId id = on.add("K07", sitting(0, "0 0 0"));
    {
        Store::Change change(on.store);
        change.add_paper(example("another"));
        change.add_sitting("K09", example("another"), sitting(0, "0 0 0"));
        change.add_reattempt(id, reattempt("1", 1, 15, "0 0"));
        change.add_exam({"All", day(30), ""});
        CHECK(on.store.find_paper("another") != nullptr);
    }
    CHECK(on.store.find_paper("another") == nullptr);
    CHECK(on.store.candidates() == std::vector<std::string>{"K07"});
    CHECK(on.store.candidate("K07").sittings.at(0).reattempts.empty());
    CHECK(on.store.exams().empty());
    // What was known of the rows taken back is forgotten too.
    on.add("K09", sitting(0, "0 0 0"));
    CHECK(on.store.candidate("K09").sittings.size() == 1);
}

TEST_CASE("a change ended by an exception is undone") {
    OnFile on;
    on.add("K07", sitting(0, "0 0 0"));
    CHECK_THROWS_AS(on.change([](Store::Change& store) {
        store.add_exam({"All", day(30), ""});
        return store.add_sitting("K07", example(), sitting(0, "3 2 5"));
    }),
                    Error);
    CHECK(on.store.exams().empty());
}

TEST_CASE("removing a sitting removes what hangs on it, removing a paper its sittings too") {
    OnFile on;
    const SittingId first = on.add("K07", sitting(0, "0 0 0"));
    const SittingId second = on.add("K07", sitting(1, "0 0 0"));
    on.change([&](Store::Change& store) {
        for (const SittingId id : {first, second}) {
            store.add_reattempt(id, reattempt("1", 1, 15, "0 0"));
            store.keep_days({with_day(id, "2", 15)});
        }
    });
    on.change([&](Store::Change& store) { store.remove_sitting(first); });
    CHECK(on.rows("sitting") == 1);
    CHECK(on.rows("reattempt") == 1);
    CHECK(on.rows("placement") == 1);
    on.change([&](Store::Change& store) { store.remove_paper("made-up"); });
    for (const char* const table : {"paper", "part", "sitting", "reattempt", "placement"}) {
        CAPTURE(table);
        CHECK(on.rows(table) == 0);
    }
    CHECK(on.store.find_paper("made-up") == nullptr);
    CHECK(on.store.candidate("K07").sittings.empty());
}

TEST_CASE("the bytes of what was removed are wiped from the file") {
    OnFile on;
    on.change([](Store::Change& store) {
        store.add_paper(Paper({"made-up", "A title that is told apart", "", {}, RetryBy::question},
                              {{"1", Marks(5), "a topic that is told apart", ""}}));
    });
    REQUIRE(bytes_of(on.file).find("told apart") != std::string::npos);
    on.change([](Store::Change& store) { store.remove_paper("made-up"); });
    CHECK(bytes_of(on.file).find("told apart") == std::string::npos);
}

TEST_CASE("what another program committed is seen") {
    OnFile on;
    Store other = Store::open_to_read(on.file);
    CHECK(other.candidates().empty());
    on.add("K07", sitting(0, "3 2 5"));
    CHECK(other.candidate("K07").sittings.size() == 1);
}

TEST_CASE("marks that don't fit their paper are reported as damage, with the file's name") {
    OnFile on;
    on.add("K07", sitting(0, "3 2 5"));
    SQLite::Database(on.file, SQLite::OPEN_READWRITE).exec("UPDATE sitting SET marks = '3 2 6'");
    CHECK_THROWS_WITH(on.store.candidate("K07"),
                      StartsWith("reading marks from '" + on.file + "': it is damaged: "));
    CHECK_THROWS_AS(on.store.candidate("K07"), StoreError);
}

TEST_CASE("days at both ends of what is accepted can be kept") {
    OnFile on;
    on.change([](Store::Change& store) {
        store.add_exam({"First", earliest_day, ""});
        return store.add_exam({"Last", latest_day, ""});
    });
    CHECK(on.store.exams()[0].exam.day == earliest_day);
    CHECK(on.store.exams()[1].exam.day == latest_day);
}
