#include "catch.hpp"
#include "exchange/document/merge.hpp"
#include "exchange/document/pure_1_on_file.hpp"
#include "inkturn/store/change.hpp"

#include <optional>
#include <string>
#include <utility>
#include <vector>

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::Contains;

namespace {

std::optional<Day> day_on_file(const Store& store) {
    const Candidate candidate = store.candidate("K07");
    if (candidate.placements.empty())
        return std::nullopt;
    return candidate.placements.at(0).day;
}

void choose_day(Store& store, Day day) {
    const SittingId id = store.candidate("K07").sittings.at(0).id;
    change(store, [&](Store::Change& open) { open.keep_day({id, "7", day}); });
}

} // namespace

TEST_CASE("sittings that differ in which marks were earned are in conflict, and can be replaced") {
    const Store in_file = store_with(sitting("3:111 3 3"));
    CHECK(
        conflicts(store_with(sitting("3:00111 3 3")), in_file) ==
        Lines{
            "candidate K07, pure-1 of 2026-09-26: part 1 is 3:00111 here, 3:111 in the file; --replace takes "
            "the file's"});
    Store replaced = store_with(sitting("3:00111 3 3"));
    CHECK(merge_into(replaced, in_file, true).conflicts.empty());
    CHECK(text_of(replaced) == text_of(in_file));
    CHECK(conflicts(store_with(sitting("3 3 3")), in_file).size() == 1);
}

TEST_CASE("sittings that differ are in conflict unless they are to be replaced") {
    CHECK(conflicts(store_with(sitting("5 3 2+1")), store_with(sitting("5 3 2+1:slip"))) ==
          Lines{"candidate K07, pure-1 of 2026-09-26: part 7b is 2+1 here, 2+1:slip in the file; --replace "
                "takes the file's"});
    CHECK(
        conflicts(store_with(sitting("5 3 3")), store_with(sitting("5 3 3", 25))) ==
        Lines{"candidate K07, pure-1 of 2026-09-26: extra time is 0% here, 25% in the file; --replace takes "
              "the file's"});

    Store here = store_with(sitting("5 3 2"), {turn(1, "1 1", 15)});
    const Store in_file = store_with(sitting("5 1 3", 25));
    const Merge done = merge_into(here, in_file, true);
    CHECK(done.sittings_replaced == 1);
    CHECK(done.sittings_unchanged == 0);
    const SittingRecord record = here.candidate("K07").sittings.at(0);
    CHECK(to_line(record.sitting.parts) == "5 1 3");
    CHECK(record.sitting.extra_time.percent() == 25);
    CHECK(turns_on_file(here) == Lines{"1: 1 1"});
}

TEST_CASE("a sitting is not replaced if a re-attempt would have nothing to follow") {
    const Lines all =
        conflicts_replacing(store_with(sitting("5 3 2"), {turn(1, "1 1", 15)}), store_with(sitting("5 3 3")));
    REQUIRE(all.size() == 1);
    CHECK_THAT(all[0], Contains("candidate K07, pure-1 of 2026-09-26: ") &&
                           Contains("question 7 would no longer be missed"));
    // 7a alone was missed, and got in no turn; by the file 7b alone was, and turn 1 lost 7a anew.
    CHECK(conflicts_replacing(store_with(sitting("5 1 3"), {turn(1, "1 3", 15), turn(2, "1 3", 30)}),
                              store_with(sitting("5 3 1")))
              .empty());
}

TEST_CASE("a conflict that undoing a re-attempt would settle says which one") {
    Store here = store_with(sitting("5 3 2"), {turn(1, "1 1", 15)});
    const Merge done = merge_into(here, store_with(sitting("5 3 3")), true);
    REQUIRE(done.conflicts.size() == 1);
    CHECK(done.conflicts[0].remedy() == Error::Remedy::undo_retry_first);
    CHECK(done.conflicts[0].about() == "1q7");
}

TEST_CASE("further turns of the file are added, and further turns on file stay") {
    const Sitting missed = sitting("5 1 1");
    const std::vector<Reattempt> one{turn(1, "1 1", 15)};
    const std::vector<Reattempt> three{turn(1, "1 1", 15), turn(2, "3 2", 30), turn(3, "3 3", 45)};
    Store behind = store_with(missed, one);
    Store ahead = store_with(missed, three);

    const Merge stays = merge_into(ahead, behind);
    CHECK(stays.reattempts_unchanged == 1);
    CHECK(stays.reattempts_added == 0);
    CHECK(turns_on_file(ahead) == Lines{"1: 1 1", "2: 3 2", "3: 3 3"});
    const Merge follows = merge_into(behind, ahead);
    CHECK(follows.reattempts_unchanged == 1);
    CHECK(follows.reattempts_added == 2);
    CHECK(turns_on_file(behind) == Lines{"1: 1 1", "2: 3 2", "3: 3 3"});
}

TEST_CASE("re-attempts that differ are in conflict unless they are to be replaced") {
    const Sitting missed = sitting("5 1 1");
    CHECK(
        conflicts(store_with(missed, {turn(1, "1 2", 15)}), store_with(missed, {turn(1, "1 2:slip", 15)})) ==
        Lines{
            "candidate K07, pure-1 of 2026-09-26: question 7, turn 1: part 7b is 2 here, 2:slip in the file; "
            "--replace takes the file's"});
    CHECK(
        conflicts(store_with(missed, {turn(1, "1 2", 15)}), store_with(missed, {turn(1, "1 2", 16)})) ==
        Lines{
            "candidate K07, pure-1 of 2026-09-26: question 7, turn 1: the day is 2026-10-11 here, 2026-10-12 "
            "in the file; --replace takes the file's"});

    Store here = store_with(missed, {turn(1, "1 2", 15), turn(2, "0 0", 30)});
    const Merge done = merge_into(here, store_with(missed, {turn(1, "2 2", 16)}), true);
    CHECK(done.reattempts_replaced == 1);
    CHECK(turns_on_file(here) == Lines{"1: 2 2", "2: 0 0"});
}

TEST_CASE("a turn that can't follow is a conflict that says so") {
    const Sitting missed = sitting("5 1 1");
    const std::string unfit =
        "candidate K07, pure-1 of 2026-09-26: what is here and what is in the file don't fit "
        "together; correct one of the two: turn 2 of question 7";
    CHECK(conflicts(store_with(missed, {turn(1, "3 3", 15)}),
                    store_with(missed, {turn(1, "3 2", 15), turn(2, "3 3", 30)})) ==
          Lines{"candidate K07, pure-1 of 2026-09-26: question 7, turn 1: part 7b is 3 here, 2 in the file; "
                "--replace takes the file's",
                unfit + ": the question was secured before"});
    CHECK(conflicts_replacing(store_with(missed, {turn(1, "3 2", 15), turn(2, "3 3", 30)}),
                              store_with(missed, {turn(1, "3 3", 15)})) ==
          Lines{unfit + ": the question was secured before"});
    CHECK(
        conflicts_replacing(store_with(missed, {turn(1, "3 2", 15), turn(2, "3 3", 30)}),
                            store_with(missed, {turn(1, "3 2", 31)})) ==
        Lines{unfit +
              " on 2026-10-26: the question was missed on 2026-10-27; a re-attempt can't come before that"});
}

TEST_CASE("a day chosen on file stays, and the file's is taken if there is none") {
    const Sitting missed = sitting("5 1 1");
    Store here = store_with(missed);
    Store in_file = store_with(missed);
    choose_day(in_file, today + Days{3});
    CHECK(merge_into(here, in_file).kept_days_added == 1);
    CHECK(day_on_file(here) == today + Days{3});
    choose_day(here, today + Days{5});
    CHECK(merge_into(here, in_file).kept_days_added == 0);
    CHECK(day_on_file(here) == today + Days{5});
}

TEST_CASE("a day chosen for a turn does not count for another") {
    const Sitting missed = sitting("5 1 1");
    Store ahead = store_with(missed, {turn(1, "1 1", 15)});
    Store behind = store_with(missed);
    choose_day(behind, today + Days{3});
    CHECK(merge_into(ahead, behind).kept_days_added == 0);
    CHECK(day_on_file(ahead) == std::nullopt);

    choose_day(ahead, today + Days{9});
    CHECK(merge_into(behind, ahead).kept_days_added == 1);
    CHECK(day_on_file(behind) == today + Days{9});
}

TEST_CASE("a day chosen stays when a re-attempt before its turn is replaced") {
    const Sitting missed = sitting("5 1 1");
    Store here = store_with(missed, {turn(1, "1 1", 15)});
    Store in_file = store_with(missed, {turn(1, "1 2", 15)});
    choose_day(here, today + Days{3});
    choose_day(in_file, today + Days{5});
    CHECK(merge_into(here, in_file, true).reattempts_replaced == 1);
    CHECK(day_on_file(here) == today + Days{3});
}

TEST_CASE("a note on one side alone is taken, and two that differ are in conflict") {
    const auto noted = [](const Notes& of_sitting, const Notes& of_turn) {
        Sitting sat = sitting("5 1 1");
        sat.notes = of_sitting;
        Reattempt again = turn(1, "1 2", 15);
        again.notes = of_turn;
        return store_with(sat, {again});
    };
    const auto notes_of = [](const Store& store) {
        const SittingRecord record = store.candidate("K07").sittings.at(0);
        return std::pair(record.sitting.notes, record.reattempts.at(0).notes);
    };
    const Store in_file = noted({{"1", "one"}, {"7a", "file"}}, {{"7b", "again"}});
    Store here = noted({{"7b", "here"}}, {});
    const Merge taken = merge_into(here, in_file);
    CHECK(taken.conflicts.empty());
    CHECK(taken.sittings_completed == 1);
    CHECK(taken.reattempts_completed == 1);
    CHECK(notes_of(here) ==
          std::pair(Notes{{"1", "one"}, {"7a", "file"}, {"7b", "here"}}, Notes{{"7b", "again"}}));
    CHECK(merge_into(here, in_file).sittings_unchanged == 1);

    CHECK(conflicts(noted({{"7a", "here"}}, {}), in_file) ==
          Lines{"candidate K07, pure-1 of 2026-09-26: part 7a, the note is 'here' here, 'file' in the file; "
                "--replace takes the file's"});
    CHECK(conflicts(noted({}, {{"7b", "here"}}), in_file).size() == 1);
    Store replaced = noted({{"7a", "here"}, {"7b", "stays"}}, {{"7a", "stays"}, {"7b", "here"}});
    CHECK(merge_into(replaced, in_file, true).conflicts.empty());
    CHECK(notes_of(replaced) == std::pair(Notes{{"1", "one"}, {"7a", "file"}, {"7b", "stays"}},
                                          Notes{{"7a", "stays"}, {"7b", "again"}}));
}
