#include "inkturn/store/change.hpp"

#include "catch.hpp"
#include "days.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/store/boundary_sets.hpp"
#include "inkturn/store/desk.hpp"
#include "inkturn/store/drawn_papers.hpp"
#include "inkturn/store/facts.hpp"
#include "inkturn/store/plan.hpp"
#include "inkturn/store/reading.hpp"
#include "store/store_on_file.hpp"

#include <SQLiteCpp/Database.h>

#include <functional>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;

Paper example(const std::string& id = "made-up") {
    return Paper({id, "", "pure", std::nullopt, RetryBy::question},
                 {{"1a", Marks(4), "", "M1 A1 B2"}, {"1b", Marks(2), "", ""}, {"2", Marks(5), "", ""}});
}

Sitting sitting(const std::string& line, int on = 0) {
    return {day(on), {}, parse_line(example(), line)};
}

/// A paper, a sitting of it by K07 with a retry recorded, and a fact.
struct Filled : StoreOnFile {
    SittingId id{};
    FactId fact{};

    Filled() {
        change([&](Store::Change& open) {
            open.add_paper(example());
            id = open.add_sitting("K07", example(), sitting("3 1 4"));
            open.add_reattempt(id,
                               {"1", 1, day(14), {full_marks(Marks(4)), PartMarks({Marks(1)}, Marks(2))}});
            fact = FactsOnFile(open).add({FactId{}, "sin 30", "1/2", "", ""});
        });
    }

    /// What kind of Error the verb throws; nothing where it throws none. It leaves the file as it was, and
    /// the change it was tried in can be kept.
    std::optional<Error::Kind> refused(const std::function<void(Store::Change&)>& verb) {
        const std::string before = bytes_of(file);
        std::optional<Error::Kind> kind;
        change([&](Store::Change& open) {
            try {
                verb(open);
            } catch (const Error& error) {
                kind = error.kind();
            }
        });
        CHECK(bytes_of(file) == before);
        CHECK(Store::open(file).candidate("K07").sittings.size() == 1);
        return kind;
    }
};

using Verbs = std::vector<std::pair<std::string, std::function<void(Store::Change&)>>>;

void check_all(Filled& on, Error::Kind kind, const Verbs& verbs) {
    for (const auto& [name, verb] : verbs) {
        CAPTURE(name);
        CHECK(on.refused(verb) == kind);
    }
}

} // namespace

TEST_CASE("marks that don't fit the paper on file are not stored") {
    Filled on;
    const PartMarks nine = full_marks(Marks(9));
    PartMarks by_code({Marks(2)}, Marks(5));
    by_code.state_by_code(0b11U, Marks(5));
    const PartMarks slip({Marks(2)}, Marks(9), Reason::slip);
    const std::vector<PartMarks> whole = sitting("3 1 4").parts;
    const auto sat = [](std::vector<PartMarks> parts) { return Sitting{day(1), {}, std::move(parts)}; };
    const Paper larger({"made-up", "", "", {}, RetryBy::question}, {{"1a", Marks(9), "", ""}});
    const Sitting backwards{day(1), {}, whole, {{ClockEventKind::hand_in, day(1)}}};
    const Sitting beyond{day(1), {}, whole, {{ClockEventKind::start, day(1), 3}}};
    check_all(
        on, Error::Kind::invalid,
        {{"9 of 4",
          [&](auto& open) {
              open.add_sitting("K08", example(), sat({nine, whole[1], whole[2]}));
          }},
         {"a paper that is not the one on file",
          [&](auto& open) { open.add_sitting("K08", larger, sat({nine})); }},
         {"half the parts", [&](auto& open) { open.add_sitting("K08", example(), sat({whole[0]})); }},
         {"a part too many",
          [&](auto& open) {
              open.add_sitting("K08", example(), sat({whole[0], whole[1], whole[2], {}}));
          }},
         {"no parts", [&](auto& open) { open.change_sitting(on.id, sat({})); }},
         {"9 of 5",
          [&](auto& open) {
              open.change_sitting(on.id, sat({whole[0], whole[1], nine}));
          }},
         {"by code without codes",
          [&](auto& open) {
              open.change_sitting(on.id, sat({whole[0], whole[1], by_code}));
          }},
         {"a reason though all was earned",
          [&](auto& open) {
              open.change_sitting(on.id, sat({whole[0], slip, whole[2]}));
          }},
         {"a clock that ends before it starts", [&](auto& open) { open.change_sitting(on.id, backwards); }},
         {"a clock of another part", [&](auto& open) { open.change_sitting(on.id, beyond); }},
         {"a day before all days",
          [&](auto& open) {
              open.change_sitting(on.id, {earliest_day - Days{1}, {}, whole});
          }},
         {"a retry with half its parts",
          [&](auto& open) {
              open.add_reattempt(on.id, {"1", 2, day(30), {full_marks(Marks(4))}});
          }},
         {"a retry with 9 of 4",
          [&](auto& open) {
              open.add_reattempt(on.id, {"1", 2, day(30), {nine, whole[1]}});
          }},
         {"a retry of turn 0",
          [&](auto& open) {
              open.add_reattempt(on.id, {"2", 0, day(30), {whole[2]}});
          }},
         {"a candidate without a code",
          [&](auto& open) { open.add_sitting("", example(), sitting("3 1 4", 1)); }}});
}

TEST_CASE("a script that doesn't fit its paper is not put on file") {
    Filled on;
    const Script blank = blank_script("K07", on.store.find_paper("made-up"), day(3), {});
    const auto with = [&](const std::function<void(Script&)>& fault) {
        return [&blank, fault](Store::Change& open) {
            Script script = blank;
            fault(script);
            Desk(open).add(script);
        };
    };
    check_all(on, Error::Kind::invalid,
              {{"fewer marks than parts", with([](Script& script) { script.marks.pop_back(); })},
               {"fewer parts than the paper", with([](Script& script) {
                    script.marks.pop_back();
                    script.positions.pop_back();
                })},
               {"9 of 4", with([](Script& script) { script.marks[0] = full_marks(Marks(9)); })},
               {"a clock that never started", with([](Script& script) {
                    script.events = {{ClockEventKind::rest, day(3)}};
                })},
               {"a question that the paper doesn't have", with([&](Script& script) {
                    script.id = script_id(RetryId{on.id, "9", 1});
                })},
               {"another candidate's sitting", with([&](Script& script) {
                    script.candidate = "K08";
                    script.id = script_id(RetryId{on.id, "2", 1});
                    script.positions = {2};
                    script.marks.resize(1);
                })}});
    CHECK(on.refused(with([](Script& script) { script.paper.reset(); })) == Error::Kind::misused);
}

TEST_CASE("a script that isn't fully marked isn't finished, and what doesn't fit it isn't saved") {
    Filled on;
    Script script = blank_script("K07", on.store.find_paper("made-up"), day(3), {});
    on.change([&](Store::Change& open) { Desk(open).add(script); });
    Script marked = script;
    marked.marks[0] = full_marks(Marks(9));
    check_all(on, Error::Kind::misused, {{"finish", [&](auto& open) { Desk(open).finish(script); }}});
    check_all(on, Error::Kind::invalid,
              {{"keep_marks", [&](auto& open) { Desk(open).keep_marks(marked); }},
               {"change", [&](auto& open) { Desk(open).change(marked); }},
               {"add_event", [&](auto& open) {
                    Desk(open).add_event(script, {ClockEventKind::rest, day(3)});
                }}});
}

TEST_CASE("what is outside its range is not stored") {
    Filled on;
    Availability below;
    below.week[2] = Seconds(-1);
    Availability free;
    free.free_days = Days(7);
    Availability long_ago;
    long_ago.dates[earliest_day - Days{1}] = Seconds(0);
    const Fact blank{FactId{}, "", "x", "", ""};
    const BoundarySet rising{"June", "pure", Marks(10), {{"A", Marks(5)}, {"B", Marks(6)}}};
    check_all(
        on, Error::Kind::invalid,
        {{"less than no time", [&](auto& open) { open.set_times("K07", stated(below)); }},
         {"seven free days", [&](auto& open) { open.set_times("K07", stated(free)); }},
         {"a date before all days", [&](auto& open) { open.set_times("K07", stated(long_ago)); }},
         {"an exam without a title",
          [](auto& open) {
              open.add_exam({"", day(9), ""});
          }},
         {"an exam after all days",
          [](auto& open) {
              open.add_exam({"x", latest_day + Days{1}, ""});
          }},
         {"a picture without pixels",
          [](auto& open) {
              open.add_picture(example(), "1", PictureContent::question, {PictureKind::png, 0, 1, "x"});
          }},
         {"a picture without bytes",
          [](auto& open) {
              open.add_picture(example(), "1", PictureContent::question, {PictureKind::png, 1, 1, ""});
          }},
         {"a fact without a prompt", [&](auto& open) { FactsOnFile(open).add(blank); }},
         {"an empty sheet", [](auto& open) { FactsOnFile(open).add_sheet("K07", sheet_of({}, day(0))); }},
         {"a sheet that asks twice",
          [&](auto& open) {
              FactsOnFile(open).add_sheet("K07", sheet_of({on.fact, on.fact}, day(0)));
          }},
         {"rising boundaries", [&](auto& open) { BoundarySets(open).add(rising); }},
         {"planned work of no time",
          [](auto& open) {
              PlanOnFile(open).keep("K07", {{WorkPurpose::sit, "pure", "made-up", 0, day(1), Seconds(0)}});
          }},
         {"marking that takes less than no time",
          [](auto& open) {
              PlanOnFile(open).set_wishes("K07", {-1, {}});
          }},
         {"a topic without a name", [](auto& open) {
              PlanOnFile(open).add_relearned("K07", {"pure", "", day(0)});
          }}});
}

TEST_CASE("a change of what is not on file is refused") {
    Filled on;
    const Sitting sat = sitting("3 1 4", 1);
    const Script script = blank_script("K07", on.store.find_paper("made-up"), day(3), {});
    check_all(
        on, Error::Kind::not_found,
        {{"add_sitting", [&](auto& open) { open.add_sitting("K07", example("other"), sat); }},
         {"change_sitting", [&](auto& open) { open.change_sitting(SittingId{99}, sat); }},
         {"remove_sitting", [](auto& open) { open.remove_sitting(SittingId{99}); }},
         {"add_reattempt",
          [](auto& open) {
              open.add_reattempt(SittingId{99}, {"2", 1, day(9), {{}}});
          }},
         {"add_reattempt of no question",
          [&](auto& open) {
              open.add_reattempt(on.id, {"9", 1, day(9), {{}}});
          }},
         {"remove_reattempt",
          [&](auto& open) {
              open.remove_reattempt({on.id, "2", 1});
          }},
         {"remove_reattempt of turn 0",
          [&](auto& open) {
              open.remove_reattempt({SittingId{99}, "2", 0});
          }},
         {"keep_day",
          [](auto& open) {
              open.keep_day({SittingId{99}, "2", day(9)});
          }},
         {"keep_day of no question",
          [&](auto& open) {
              open.keep_day({on.id, "9", day(9)});
          }},
         {"complete_paper", [](auto& open) { open.complete_paper(example("other")); }},
         {"remove_paper", [](auto& open) { open.remove_paper("other"); }},
         {"add_picture",
          [](auto& open) {
              open.add_picture(example("other"), "1", PictureContent::question,
                               {PictureKind::png, 1, 1, "x"});
          }},
         {"add_picture of no question",
          [](auto& open) {
              open.add_picture(example(), "9", PictureContent::question, {PictureKind::png, 1, 1, "x"});
          }},
         {"remove_picture", [](auto& open) { open.remove_picture(PictureId{99}); }},
         {"rename_candidate", [](auto& open) { open.rename_candidate("K99", "K98"); }},
         {"erase_candidate", [](auto& open) { open.erase_candidate("K99"); }},
         {"add_member", [](auto& open) { open.add_member("friday", "K07"); }},
         {"remove_member", [](auto& open) { open.remove_member("friday", "K07"); }},
         {"remove_class", [](auto& open) { open.remove_class("friday"); }},
         {"move_exam", [](auto& open) { open.move_exam(ExamId{99}, day(9)); }},
         {"remove_exam", [](auto& open) { open.remove_exam(ExamId{99}); }},
         {"BoundarySets::remove", [](auto& open) { BoundarySets(open).remove(BoundarySetId{99}); }},
         {"Desk::change", [&](auto& open) { Desk(open).change(script); }},
         {"Desk::keep_marks", [&](auto& open) { Desk(open).keep_marks(script); }},
         {"Desk::remove", [](auto& open) { Desk(open).remove(script_id(SittingId{99})); }},
         {"Desk::finish", [&](auto& open) { Desk(open).finish(script); }},
         {"FactsOnFile::change",
          [](auto& open) {
              FactsOnFile(open).change({FactId{99}, "x", "y", "", ""});
          }},
         {"FactsOnFile::remove", [](auto& open) { FactsOnFile(open).remove(FactId{99}); }},
         {"FactsOnFile::add_sheet",
          [](auto& open) { FactsOnFile(open).add_sheet("K07", sheet_of({FactId{99}}, day(0))); }},
         {"FactsOnFile::keep_log", [](auto& open) { FactsOnFile(open).keep_log(SheetId{99}, std::nullopt); }},
         {"DrawnPapers::note_copy",
          [](auto& open) {
              DrawnPapers(open).note_copy({"made-up", "1"}, {"other", "1"});
          }},
         {"DrawnPapers::note_copy of no question", [](auto& open) {
              DrawnPapers(open).note_copy({"made-up", "9"}, {"made-up", "1"});
          }}});
}

TEST_CASE("reading what is not on file is refused") {
    Filled on;
    CHECK_THROWS_AS(on.store.pictures_of(example("other"), "1", PictureContent::question), Error);
    CHECK_THROWS_AS(on.store.sittings_of(example("other"), std::nullopt), Error);
}

TEST_CASE("what is on file stands in the way of another of its name, and of turns out of order") {
    Filled on;
    const std::vector<PartMarks> two{full_marks(Marks(5))};
    const std::vector<PartMarks> one(2);
    check_all(on, Error::Kind::conflict,
              {{"a paper", [](auto& open) { open.add_paper(example()); }},
               {"a sitting", [](auto& open) { open.add_sitting("K07", example(), sitting("3 1 4")); }},
               {"a fact",
                [](auto& open) {
                    FactsOnFile(open).add({FactId{}, "sin 30", "x", "", ""});
                }},
               {"a turn that was recorded",
                [&](auto& open) {
                    open.add_reattempt(on.id, {"1", 1, day(20), one});
                }},
               {"a turn left out",
                [&](auto& open) {
                    open.add_reattempt(on.id, {"1", 3, day(20), one});
                }},
               {"a turn before the last",
                [&](auto& open) {
                    open.add_reattempt(on.id, {"1", 2, day(13), one});
                }},
               {"a turn before the sitting",
                [&](auto& open) {
                    open.add_reattempt(on.id, {"2", 1, day(-1), two});
                }},
               {"a turn that others follow", [&](auto& open) {
                    open.remove_reattempt({on.id, "1", 0});
                }}});
}

TEST_CASE("a paper is completed only by its own parts, and keeps its codes") {
    Filled on;
    const auto completed = [](std::vector<Part> parts, RetryBy by = RetryBy::question,
                              std::optional<GotAt> got_at = {}) {
        return [parts, by, got_at](Store::Change& open) {
            open.complete_paper(Paper({"made-up", "T", "pure", std::nullopt, by, got_at}, parts));
        };
    };
    const Part first{"1a", Marks(4), "", "M1 A1 B2"};
    const Part second{"1b", Marks(2), "", ""};
    const Part third{"2", Marks(5), "", ""};
    check_all(on, Error::Kind::conflict,
              {{"a part less", completed({first, second})},
               {"another label", completed({first, second, {"3", Marks(5), "", ""}})},
               {"other marks", completed({first, second, {"2", Marks(6), "", ""}})},
               {"no codes", completed({{"1a", Marks(4), "", ""}, second, third})},
               {"retried by part", completed({first, second, third}, RetryBy::part)}});
    on.change(completed({{"1a", Marks(4), "surds", "M2 A2"}, second, third}));
    CHECK(on.store.find_paper("made-up")->parts()[0].codes == "M2 A2");

    const Part coded{"1a", Marks(4), "surds", "M2 A2"};
    const Part got_at_60{"1b", Marks(2), "", "", GotAt(60)};
    on.change(completed({coded, got_at_60, third}, RetryBy::question, GotAt(80)));
    const auto stated = on.store.find_paper("made-up");
    CHECK(stated->got_at() == GotAt(80));
    CHECK_FALSE(stated->parts()[0].got_at.has_value());
    CHECK(stated->parts()[1].got_at == GotAt(60));
    check_all(on, Error::Kind::conflict,
              {{"no share for the paper", completed({coded, got_at_60, third})},
               {"no share for the part", completed({coded, second, third}, RetryBy::question, GotAt(80))}});
    on.change(completed({coded, {"1b", Marks(2), "", "", GotAt(50)}, third}, RetryBy::question, GotAt(75)));
    CHECK(on.store.find_paper("made-up")->got_at() == GotAt(75));
    CHECK(on.store.find_paper("made-up")->parts()[1].got_at == GotAt(50));
}

TEST_CASE("a change begins in no other and in no reading, and is over when it is kept") {
    Filled on;
    const auto kind_of = [](const auto& work) {
        try {
            work();
        } catch (const Error& error) {
            return std::optional(error.kind());
        }
        return std::optional<Error::Kind>();
    };
    {
        Store::Change change(on.store);
        CHECK(kind_of([&] { Store::Change(on.store).commit(); }) == Error::Kind::misused);
        CHECK(kind_of([&] { on.store.compact(); }) == Error::Kind::misused);
        change.add_class("monday");
        change.commit();
        CHECK(kind_of([&] { change.add_class("tuesday"); }) == Error::Kind::misused);
        CHECK(kind_of([&] { Desk(change).remove(script_id(SittingId{1})); }) == Error::Kind::misused);
        CHECK(kind_of([&] { change.commit(); }) == Error::Kind::misused);
        Store::Change next(on.store);
        CHECK(kind_of([&] { change.add_class("tuesday"); }) == Error::Kind::misused);
    }
    {
        const Reading whole(on.store);
        CHECK(kind_of([&] { Store::Change(on.store).commit(); }) == Error::Kind::misused);
        CHECK(kind_of([&] { on.store.compact(); }) == Error::Kind::misused);
    }
    on.reopen();
    REQUIRE(on.store.classes().size() == 1);
    CHECK(on.store.classes()[0].name == "monday");
    CHECK_NOTHROW(on.store.compact());
}

TEST_CASE("a change of which a step failed halfway can't be kept") {
    Filled on;
    SQLite::Database(on.file, SQLite::OPEN_READWRITE)
        .exec("CREATE TRIGGER halfway BEFORE INSERT ON part WHEN NEW.position = 1 BEGIN SELECT RAISE(ABORT, "
              "'halfway'); END");
    const std::string before = bytes_of(on.file);
    {
        Store::Change change(on.store);
        CHECK_THROWS_AS(change.add_paper(example("other")), StoreError);
        CHECK_THROWS_AS(change.add_class("monday"), StoreError);
        CHECK_THROWS_AS(change.commit(), StoreError);
    }
    CHECK(bytes_of(on.file) == before);
    CHECK_FALSE(on.store.find_paper("other"));
    on.change([](Store::Change& open) { open.add_class("monday"); });
    CHECK(on.store.classes().size() == 1);
}

TEST_CASE("a change outlives the store that it was begun on") {
    Filled on;
    auto store = std::make_unique<Store>(Store::open(on.file));
    {
        Store::Change change(*store);
        *store = Store::open_to_read(on.folder.file("none"));
        change.add_class("monday");
        change.commit();
    }
    CHECK(on.store.classes().size() == 1);
}

TEST_CASE("a change goes by what other programs have stored since") {
    Filled on;
    CHECK(on.store.find_paper("made-up"));
    CHECK(on.store.candidate("K07").sittings.size() == 1);
    {
        Store other = Store::open(on.file);
        Store::Change change(other);
        change.remove_paper("made-up");
        change.add_paper(Paper({"made-up", "", "", {}, RetryBy::question}, {{"1", Marks(1), "", ""}}));
        change.commit();
    }
    Store::Change change(on.store);
    CHECK_THROWS_AS(change.add_sitting("K07", example(), sitting("3 1 4")), Error);
    CHECK_THROWS_AS(change.keep_day({on.id, "1", day(9)}), Error);
    CHECK(on.store.find_paper("made-up")->marks() == Marks(1));
}

TEST_CASE("a failure of the store names the operation and the file, and its kind sets it apart") {
    Filled on;
    SQLite::Database other(on.file, SQLite::OPEN_READWRITE);
    other.exec("UPDATE sitting SET marks = '3 1 9'");
    try {
        on.store.candidate("K07");
        FAIL("marks beyond the maximum were read");
    } catch (const StoreError& error) {
        CHECK(error.kind() == Error::Kind::damaged);
        CHECK(error.operation() == "reading marks from");
        CHECK(error.file() == on.file);
    }
    other.exec("BEGIN EXCLUSIVE");
    try {
        Store::open(on.file);
        FAIL("a store was opened that another program holds");
    } catch (const StoreError& error) {
        CHECK(error.kind() == Error::Kind::busy);
    }
}
