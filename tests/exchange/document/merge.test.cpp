#include "exchange/document/merge.hpp"
#include "catch.hpp"
#include "exchange/document/pure_1_on_file.hpp"
#include "exchange/document/world.hpp"
#include "exchange/json/parsed.hpp"
#include "inkturn/store/change.hpp"

#include <cstddef>
#include <string>

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::Contains;

namespace {

Store store_with_exam(Day day) {
    Store store = empty_store();
    change(store, [&](Store::Change& open) { open.add_exam({"Paper 1", day, "pure"}); });
    return store;
}

Store store_with_availability(const Availability& availability) {
    Store store = empty_store();
    change(store, [&](Store::Change& open) { open.set_times("K07", stated(availability)); });
    return store;
}

} // namespace

TEST_CASE("two stores that met both ways know the same") {
    std::size_t both_added = 0;
    std::size_t scripts_finished = 0;
    std::size_t scripts_completed = 0;
    std::size_t clocks_taken = 0;
    std::size_t sheets_logged = 0;
    std::size_t plans_taken = 0;
    for (unsigned seed = 0; seed < 48; ++seed) {
        CAPTURE(seed);
        TwoStores stores(seed, false);
        const Document of_one = document_of(stores.one);
        const Document of_other = document_of(stores.other);

        const Merge into_one = merge_into(stores.one, of_other);
        const Merge into_other = merge_into(stores.other, of_one);
        REQUIRE(into_one.conflicts.empty());
        REQUIRE(into_other.conflicts.empty());
        CHECK(text_of(stores.one) == text_of(stores.other));
        scripts_finished += into_one.scripts_finished;
        scripts_completed += into_one.scripts_completed;
        clocks_taken += into_one.sittings_completed + into_one.reattempts_completed;
        plans_taken += into_one.relearned_topics_added > 0 && into_one.plan_wishes_added > 0;
        sheets_logged += into_one.sheets_completed > 0 && into_one.facts_completed > 0;
        both_added += into_one.reattempts_added > 0 && into_other.reattempts_added > 0 &&
                      into_one.kept_days_added > 0 && into_other.kept_days_added > 0;
    }
    CHECK(both_added > 20);
    CHECK(scripts_finished > 20);
    CHECK(scripts_completed > 20);
    CHECK(clocks_taken > 15);
    CHECK(sheets_logged > 1);
    CHECK(plans_taken > 5);
}

TEST_CASE("what met before changes nothing when it meets again") {
    for (unsigned seed = 100; seed < 120; ++seed) {
        CAPTURE(seed);
        TwoStores stores(seed, false);
        const Document document = document_of(stores.other);
        merge_into(stores.one, document);
        const std::string once = text_of(stores.one);
        const Merge again = merge_into(stores.one, document);
        CHECK(text_of(stores.one) == once);

        Json counts = parsed(json_of(again));
        CHECK(counts["papers_unchanged"] == document.papers.size());
        CHECK(counts["exams_unchanged"] == document.exams.size());
        CHECK(counts["boundary_sets_unchanged"] == document.boundaries.size());
        CHECK(counts["facts_unchanged"] == document.facts.size());
        for (const char* unchanged : {"papers_unchanged", "sittings_unchanged", "reattempts_unchanged",
                                      "scripts_unchanged", "exams_unchanged", "boundary_sets_unchanged",
                                      "facts_unchanged", "sheets_unchanged", "left_out"})
            counts.erase(unchanged);
        for (const auto& [key, count] : counts.items()) {
            CAPTURE(key);
            CHECK((count == 0 || count == Json::array()));
        }
    }
}

TEST_CASE("a merge counts what it did") {
    Random random(7);
    const World world = random.world();
    Store store = empty_store();
    random.put(world, true, store);
    const Document document = document_of(store);
    Store fresh = empty_store();
    const Merge done = merge_into(fresh, document);
    CHECK(done.papers_added == world.papers.size());
    CHECK(done.candidates_added == document.candidates.size());
    CHECK(done.sittings_added == world.sittings.size());
    CHECK(done.availabilities_added == world.availabilities.size() + world.class_times.size());
    CHECK(done.relearned_topics_added == world.relearned.size());
    CHECK(done.plan_wishes_added == world.wishes.size());
    CHECK(done.exams_added == 5);
    CHECK(done.facts_added == world.facts.size());
    CHECK(done.sheets_added == world.sheets.size());
    CHECK(done.classes_added == world.classes.size());
    std::size_t reattempts = 0;
    std::size_t scripts = world.begun.size();
    std::size_t days = 0;
    std::size_t members = 0;
    for (const KnownSitting& sitting : world.sittings) {
        reattempts += sitting.reattempts.size();
        scripts += sitting.begun.size();
    }
    for (const ExportedCandidate& candidate : document.candidates)
        days += candidate.candidate.placements.size();
    for (const auto& [name, codes] : world.classes)
        members += codes.size();
    CHECK(done.reattempts_added == reattempts);
    CHECK(scripts > world.begun.size());
    CHECK(done.scripts_added == scripts);
    CHECK(done.left_out.empty());
    CHECK(done.kept_days_added == days);
    CHECK(done.members_added == members);
}

TEST_CASE("availability is taken where there is the default alone, else it is a conflict") {
    Availability early;
    early.week[0] = Seconds(1800);
    Availability late = early;
    late.dates[today] = Seconds(0);
    Store here = empty_store();
    CHECK(merge_into(here, store_with_availability(early)).availabilities_added == 1);
    CHECK(here.candidate("K07").availability.week == early.week);
    CHECK(
        conflicts(store_with_availability(early), store_with_availability(late)) ==
        Lines{"candidate K07: the time on 2026-11-25 is as on its weekday here, 0:00 in the file; --replace "
              "takes the file's"});
    late.week[6] = Seconds(7200);
    CHECK(
        conflicts(store_with_availability(late), store_with_availability(early)) ==
        Lines{
            "candidate K07: the time on sun is 2:00:00 here, 0:00 in the file; --replace takes the file's"});
    CHECK(merge_into(here, store_with_availability(late), true).availabilities_replaced == 1);
    CHECK(here.candidate("K07").availability.dates == late.dates);

    Document without = document_of(here);
    without.candidates.at(0).candidate.own_times = StatedTimes();
    CHECK(merge_into(here, without, true).availabilities_replaced == 0);
    CHECK(here.candidate("K07").availability.week == late.week);
}

TEST_CASE("exams and times of a class come with it, and another store's are in conflict") {
    const auto of_class = [](Day exam, Seconds monday) {
        Store store = empty_store();
        change(store, [&](Store::Change& open) {
            open.add_class("year 13");
            open.add_member("year 13", "K07");
            open.add_exam({"Paper 1", exam, "pure", false, "year 13"});
            StatedTimes times;
            times.week[0] = monday;
            open.set_class_times("year 13", times);
        });
        return store;
    };
    Store here = store_with_exam(today + Days{100});
    const Merge done = merge_into(here, of_class(today + Days{50}, Seconds(600)));
    CHECK(done.exams_added == 1);
    CHECK(done.availabilities_added == 1);
    CHECK(here.candidate("K07").exams.size() == 1); // it stands in place of everybody's
    CHECK(here.candidate("K07").exams[0].day == today + Days{50});
    CHECK(here.candidate("K07").availability.week[0] == Seconds(600));
    CHECK(here.candidate("K08").exams[0].day == today + Days{100});

    CHECK(conflicts(of_class(parse_day("2027-03-05", today), Seconds(600)),
                    of_class(parse_day("2027-03-12", today), Seconds(900))) ==
          Lines{"exam 'Paper 1' of pure for class year 13: it is on 2027-03-05 here, on 2027-03-12 in the "
                "file; --replace takes the file's",
                "class year 13: the time on mon is 10:00 here, 15:00 in the file; --replace takes the "
                "file's"});
    const Merge replaced = merge_into(here, of_class(today + Days{60}, Seconds(900)), true);
    CHECK(replaced.exams_moved == 1);
    CHECK(replaced.availabilities_replaced == 1);
    CHECK(here.class_times("year 13").week[0] == Seconds(900));
}

TEST_CASE("an exam on another day is a conflict, and moved where it is to be replaced") {
    const Day day = today + Days{100};
    Store here = store_with_exam(day);
    const Store in_file = store_with_exam(day + Days{7});
    CHECK(conflicts(store_with_exam(day), in_file) ==
          Lines{"exam 'Paper 1' of pure: it is on 2027-03-05 here, on 2027-03-12 in the file; --replace "
                "takes the "
                "file's"});
    CHECK(merge_into(here, in_file, true).exams_moved == 1);
    CHECK(text_of(here) == text_of(in_file));
}

TEST_CASE("an exam on another day that the file has too is another exam") {
    const Day day = today + Days{100};
    Store here = store_with_exam(day);
    Document document = document_of(here);
    document.exams.push_back({"Paper 1", day + Days{365}, "pure"});
    document.exams.push_back({"Paper 1", day, ""});
    const Merge done = merge_into(here, document);
    CHECK(done.conflicts.empty());
    CHECK(done.exams_unchanged == 1);
    CHECK(done.exams_added == 2);
    CHECK(here.exams().size() == 3);
}

TEST_CASE("an exam on file is moved once, and the file's other days are added") {
    const Day day = today + Days{100};
    Store here = store_with_exam(day);
    Document document;
    for (const int later : {7, 14})
        document.exams.push_back({"Paper 1", day + Days{later}, "pure"});
    const Merge done = merge_into(here, document, true);
    CHECK(done.exams_moved == 1);
    CHECK(done.exams_added == 1);
    CHECK(text_of(here) == to_text(document));
}

TEST_CASE("classes and their members are those of both") {
    Store here = empty_store();
    Store in_file = empty_store();
    change(here, [](Store::Change& open) {
        open.add_class("12b");
        open.add_member("12b", "K01");
    });
    change(in_file, [](Store::Change& open) {
        open.add_class("12b");
        open.add_class("empty");
        open.add_member("12b", "K01");
        open.add_member("12b", "K02");
    });
    const Merge done = merge_into(here, in_file);
    CHECK(done.classes_added == 1);
    CHECK(done.members_added == 1);
    CHECK(done.candidates_added == 1);
    CHECK(text_of(here) == text_of(in_file));
}

TEST_CASE("a document's only candidate is read under another code") {
    Store school = store_with(sitting("5 1 1"));
    Store own = store_with(sitting("5 1 1"), {turn(1, "1 1", 15)});
    change(own, [](Store::Change& open) {
        open.rename_candidate("K07", "me");
        open.add_class("12b");
        open.add_member("12b", "me");
    });
    {
        Store::Change change(school);
        const Merge done = merge(change, document_of(own), {today, false, "K07"});
        CHECK(done.conflicts.empty());
        CHECK(done.reattempts_added == 1);
        CHECK(done.candidates_added == 0);
        change.commit();
    }
    CHECK(school.candidates() == Lines{"K07"});
    CHECK(school.members("12b") == Lines{"K07"});
    CHECK(turns_on_file(school) == Lines{"1: 1 1"});

    Store::Change change(school);
    CHECK_THROWS_WITH(merge(change, document_of(own), {today, false, " K07"}),
                      Contains("no spaces at its ends"));
    CHECK_THROWS_WITH(merge(change, document_of(empty_store()), {today, false, "K07"}),
                      Contains("the file has 0 candidates"));
    Document two = document_of(own);
    two.candidates.push_back(two.candidates[0]);
    CHECK_THROWS_WITH(merge(change, two, {today, false, "K07"}), Contains("the file has 2 candidates"));
}

TEST_CASE("all conflicts are told") {
    Store here = store_with(sitting("5 1 1"), {turn(1, "1 2", 15)});
    Store in_file = store_with(sitting("5 1 2"), {turn(1, "1 1", 15), turn(2, "1 1", 30)});
    change(here, [](Store::Change& open) { open.add_exam({"Mock", today + Days{1}, ""}); });
    change(in_file, [](Store::Change& open) {
        open.add_exam({"Mock", today + Days{2}, ""});
        open.add_class("12b");
    });
    const Lines all = conflicts(std::move(here), in_file);
    REQUIRE(all.size() == 3);
    CHECK_THAT(all[0], Contains("exam 'Mock': it is on"));
    CHECK_THAT(all[1], Contains("part 7b is 1 here, 2 in the file"));
    CHECK_THAT(all[2], Contains("question 7, turn 1: part 7b is 2 here, 1 in the file"));
}
