#include "inkturn/paper/notes.hpp"

#include "catch.hpp"
#include "days.hpp"
#include "inkturn/store/desk.hpp"
#include "inkturn/store/store.hpp"
#include "refusal.hpp"
#include "store/store_on_file.hpp"

#include <SQLiteCpp/Database.h>

#include <string>

namespace {

using namespace inkturn;
using namespace inkturn::test;

const Paper& noted_paper() {
    static const Paper paper({"noted", "", "pure", std::nullopt, RetryBy::question},
                             {{"1a", Marks(3), "", ""}, {"1b", Marks(2), "", ""}, {"2", Marks(5), "", ""}});
    return paper;
}

/// K07 sat a paper and noted something on part 1b.
struct Noted : StoreOnFile {
    SittingId sitting{};

    Noted() {
        sitting = change([&](Store::Change& open) {
            open.add_paper(noted_paper());
            return open.add_sitting("K07", noted_paper(),
                                    {monday, {}, parse_line(noted_paper(), "1 1 5"), {}, {{"1b", "sign"}}});
        });
    }

    SittingRecord record() {
        reopen();
        return store.candidate("K07").sittings.at(0);
    }
    void retry(int turn, const Notes& notes) {
        change([&](Store::Change& open) {
            open.add_reattempt(sitting, {"1",
                                         turn,
                                         monday + Days{14 * turn},
                                         parse_line(noted_paper(), noted_paper().questions()[0].parts, "1 1"),
                                         {},
                                         notes});
        });
    }
    int rows() {
        reopen();
        SQLite::Database database(file);
        return database.execAndGet("SELECT (SELECT count(*) FROM sitting_note) + (SELECT count(*) FROM "
                                   "reattempt_note) + (SELECT count(*) FROM script_note)");
    }
};

} // namespace

TEST_CASE("notes on a sitting are read back, changed with it and removed with it") {
    Noted on;
    CHECK(on.record().sitting.notes == Notes{{"1b", "sign"}});
    Sitting sitting = on.record().sitting;
    sitting.notes = {{"1a", "caf\xc3\xa9"}, {"2", "it's \"quoted\""}};
    on.change([&](Store::Change& open) { open.change_sitting(on.sitting, sitting); });
    CHECK(on.record().sitting.notes == sitting.notes);
    on.change([&](Store::Change& open) { open.remove_sitting(on.sitting); });
    CHECK(on.rows() == 0);
}

TEST_CASE("notes on a re-attempt are read back and undone with it") {
    Noted on;
    on.retry(1, {{"1a", "again"}});
    on.retry(2, {{"1a", "third"}, {"1b", "time"}});
    const SittingRecord record = on.record();
    REQUIRE(record.reattempts.size() == 2);
    CHECK(record.reattempts[0].notes == Notes{{"1a", "again"}});
    CHECK(record.reattempts[1].notes == Notes{{"1a", "third"}, {"1b", "time"}});
    on.change([&](Store::Change& open) { open.remove_reattempt({on.sitting, "1", 2}); });
    CHECK(on.rows() == 2);
    CHECK(on.record().sitting.notes.size() == 1);
}

TEST_CASE("a note that fits no part, or is too long, is refused and nothing is stored") {
    Noted on;
    CHECK_FALSE(refusal_of([&] { on.retry(1, {{"2", "not of the question"}}); }).empty());
    CHECK_FALSE(refusal_of([&] { on.retry(1, {{"1a", std::string(201, 'x')}}); }).empty());
    Sitting sitting = on.record().sitting;
    sitting.notes = {{"9", "no such part"}};
    CHECK_FALSE(refusal_of([&] {
                    on.change([&](Store::Change& open) { open.change_sitting(on.sitting, sitting); });
                }).empty());
    CHECK(on.record().reattempts.empty());
    CHECK(on.rows() == 1);
}

TEST_CASE("notes on a script go with it into the sitting or the re-attempt, and with it off the desk") {
    Noted on;
    const auto write = [&](Script script, const std::string& line) {
        const Moment nine = script.day + std::chrono::hours{9};
        script.events = {{ClockEventKind::start, nine, 0},
                         {ClockEventKind::hand_in, nine + std::chrono::minutes{9}, 0}};
        script.notes = {{"1a", "on the desk"}};
        on.change([&](Store::Change& open) { Desk(open).add(script); });
        script.marks = parse_script_line(noted_paper(), script.positions, line);
        script.notes = {{"1a", "while marking"}};
        on.change([&](Store::Change& open) { Desk(open).keep_marks(script); });
        on.reopen();
        CHECK(Desk::find(on.store, script.id)->notes == script.notes);
        return script;
    };
    const auto paper = on.store.find_paper("noted");
    const Script again = write(blank_script("K07", paper, monday + Days{3}, {}), "3 2 4");
    on.change([&](Store::Change& open) { Desk(open).finish(again); });
    CHECK(on.store.candidate("K07").sittings.at(1).sitting.notes == again.notes);
    CHECK(on.rows() == 2);

    const Candidate candidate = on.store.candidate("K07");
    const RetryId id{candidate.sittings.at(1).id, "2", 1};
    Script retry = blank_script(candidate, id, monday + Days{20}, monday + Days{20});
    retry.events = {{ClockEventKind::start, retry.day + std::chrono::hours{9}, 0},
                    {ClockEventKind::hand_in, retry.day + std::chrono::hours{10}, 0}};
    retry.notes = {{"2", "the sketch"}};
    on.change([&](Store::Change& open) { Desk(open).add(retry); });
    CHECK(on.rows() == 3);
    on.change([&](Store::Change& open) { Desk(open).remove(retry.id); });
    CHECK(on.rows() == 2);
    on.change([&](Store::Change& open) { open.erase_candidate("K07"); });
    CHECK(on.rows() == 0);
}
