#if __has_include(<catch2/catch_all.hpp>)
#include <catch2/catch_all.hpp>
#else
#include <catch2/catch.hpp>
#endif

#include "document_stores.hpp"
#include "exchange/document_merge.hpp"
#include "inkturn/error.hpp"

#include <functional>

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::Contains;

namespace {

using Lines = std::vector<std::string>;

const Day sat_on = today - Days{60};

std::shared_ptr<const Paper> pure_1() {
    return std::make_shared<const Paper>(
        PaperHead{"pure-1", "Pure", "pure", Seconds(3600), RetryBy::question},
        std::vector<Part>{
            {"1", Marks(5), "surds", "M5"}, {"7a", Marks(3), "", ""}, {"7b", Marks(3), "", ""}});
}

Sitting sitting(const std::string& line, int extra_time = 0) {
    return {sat_on, ExtraTime(extra_time), parse_line(*pure_1(), line)};
}

Reattempt turn(int number, const std::string& line, int days_later) {
    return {"7", number, sat_on + Days{days_later}, parse_line(*pure_1(), {1, 2}, line)};
}

/// A store with a sitting of pure-1 by K07 and re-attempts of its question 7.
Store store_with(const Sitting& sitting, const std::vector<Reattempt>& turns = {}) {
    Store store = empty_store();
    change(store, [&](Store& open) {
        open.add_paper(*pure_1());
        const SittingId id = open.add_sitting("K07", *pure_1(), sitting);
        for (const Reattempt& reattempt : turns)
            open.add_reattempt(id, reattempt);
    });
    return store;
}

Store store_with_exam(Day day) {
    Store store = empty_store();
    change(store, [&](Store& open) { open.add_exam({"Paper 1", day, "pure"}); });
    return store;
}

Store store_with_availability(const Availability& availability) {
    Store store = empty_store();
    change(store, [&](Store& open) { open.set_availability("K07", availability); });
    return store;
}

std::string text_of(const Store& store) {
    return to_text(document_of(store));
}

/// As a command does it: stored only where there is no conflict.
Merge merge_into(Store& store, const Document& document, bool replace = false) {
    Store::Change change(store);
    Merge done = merge(store, document, {today, replace});
    if (done.conflicts.empty())
        change.commit();
    return done;
}

Merge merge_into(Store& store, const Store& other, bool replace = false) {
    return merge_into(store, document_of(other), replace);
}

/// The conflicts without --replace, after which the store is as it was.
Lines conflicts(Store here, const Store& in_file) {
    const std::string before = text_of(here);
    const Merge done = merge_into(here, in_file);
    CHECK(text_of(here) == before);
    return done.conflicts;
}

/// The same with --replace.
Lines conflicts_replacing(Store here, const Store& in_file) {
    const std::string before = text_of(here);
    const Merge done = merge_into(here, in_file, true);
    if (!done.conflicts.empty())
        CHECK(text_of(here) == before);
    return done.conflicts;
}

std::vector<std::string> turns_on_file(const Store& store) {
    std::vector<std::string> turns;
    const Candidate candidate = store.candidate("K07");
    for (const Reattempt& reattempt : candidate.sittings.at(0).reattempts)
        turns.push_back(std::to_string(reattempt.turn) + ": " + to_line(reattempt.parts));
    return turns;
}

std::optional<Day> day_on_file(const Store& store) {
    const Candidate candidate = store.candidate("K07");
    if (candidate.placements.empty())
        return std::nullopt;
    return candidate.placements.at(0).day;
}

void choose_day(Store& store, Day day) {
    const SittingId id = store.candidate("K07").sittings.at(0).id;
    change(store, [&](Store& open) { open.keep_day({id, "7", day}); });
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
        Random random(seed);
        const World world = random.world();
        Store one = empty_store();
        Store other = empty_store();
        random.put(world, false, one);
        random.put(world, false, other);
        const Document of_one = document_of(one);
        const Document of_other = document_of(other);

        const Merge into_one = merge_into(one, of_other);
        const Merge into_other = merge_into(other, of_one);
        REQUIRE(into_one.conflicts.empty());
        REQUIRE(into_other.conflicts.empty());
        CHECK(text_of(one) == text_of(other));
        scripts_finished += into_one.scripts_finished;
        scripts_completed += into_one.scripts_completed;
        clocks_taken += into_one.sittings_completed + into_one.reattempts_completed;
        plans_taken += into_one.relearned_added > 0 && into_one.plan_wishes_added > 0;
        sheets_logged += into_one.sheets_completed > 0 && into_one.facts_completed > 0;
        both_added += into_one.reattempts_added > 0 && into_other.reattempts_added > 0 &&
                      into_one.days_added > 0 && into_other.days_added > 0;
    }
    CHECK(both_added > 30);
    CHECK(scripts_finished > 20);
    CHECK(scripts_completed > 20);
    CHECK(clocks_taken > 20);
    CHECK(sheets_logged > 2);
    CHECK(plans_taken > 5);
}

TEST_CASE("what met before changes nothing when it meets again") {
    for (unsigned seed = 100; seed < 120; ++seed) {
        CAPTURE(seed);
        Random random(seed);
        const World world = random.world();
        Store one = empty_store();
        Store other = empty_store();
        random.put(world, false, one);
        random.put(world, false, other);
        const Document document = document_of(other);
        merge_into(one, document);
        const std::string once = text_of(one);
        const Merge again = merge_into(one, document);
        CHECK(text_of(one) == once);

        Json counts = json_of(again);
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
    CHECK(done.availabilities_added == world.availabilities.size());
    CHECK(done.relearned_added == world.relearned.size());
    CHECK(done.plan_wishes_added == world.wishes.size());
    CHECK(done.exams_added == 3);
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
    CHECK(done.days_added == days);
    CHECK(done.members_added == members);
}

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

TEST_CASE("papers of one id that differ are in conflict, and never replaced") {
    const auto other = [](const std::function<void(PaperHead&, std::vector<Part>&)>& alter) {
        const auto paper = pure_1();
        PaperHead head{paper->id(), paper->title(), paper->subject(), paper->duration(), paper->retry_by()};
        std::vector<Part> parts = paper->parts();
        alter(head, parts);
        Store store = empty_store();
        const Paper altered(head, parts);
        change(store, [&](Store& open) {
            open.add_paper(altered);
            open.add_sitting("K07", altered, {sat_on, {}, std::vector<PartMarks>(parts.size())});
        });
        return store;
    };
    const auto check = [](const Store& in_file, const std::string& differs) {
        const Lines expected{"paper pure-1: " + differs +
                             "; a paper is never replaced, so one of the two needs another id"};
        CHECK(conflicts(store_with(sitting("5 3 3")), in_file) == expected);
        CHECK(conflicts_replacing(store_with(sitting("5 3 3")), in_file) == expected);
    };
    check(other([](PaperHead& head, auto&) { head.title = "P1"; }),
          "the title is 'Pure' here, 'P1' in the file");
    check(other([](PaperHead& head, auto&) { head.subject = "mechanics"; }),
          "the subject is 'pure' here, 'mechanics' in the file");
    check(other([](PaperHead& head, auto&) { head.duration.reset(); }),
          "the duration is 1:00:00 here, not stated in the file");
    check(other([](PaperHead& head, auto&) { head.retry_by = RetryBy::part; }),
          "what it retries by is question here, part in the file");
    check(other([](PaperHead&, auto& parts) { parts[1].label = "7c"; }), "a part is 7a here, 7c in the file");
    check(other([](PaperHead&, auto& parts) { parts[2].max = Marks(4); }),
          "part 7b, marks is 3 here, 4 in the file");
    check(other([](PaperHead&, auto& parts) { parts[0].topic = "series"; }),
          "part 1, topic is 'surds' here, 'series' in the file");
    check(other([](PaperHead&, auto& parts) { parts[0].codes = "A5"; }),
          "part 1, codes is 'M5' here, 'A5' in the file");
    check(other([](PaperHead&, auto& parts) { parts.pop_back(); }),
          "the count of parts is 3 here, 2 in the file");
}

TEST_CASE("what one of two papers leaves open is taken from the other") {
    const Paper whole({"p", "Title", "pure", std::nullopt, RetryBy::question},
                      {{"1", Marks(2), "surds", "M1 A1"}, {"2", Marks(1), "series", "B1"}});
    const Paper bare({"p", "", "", std::nullopt, RetryBy::question},
                     {{"1", Marks(2), "", ""}, {"2", Marks(1), "", ""}});
    const Paper half({"p", "Title", "", std::nullopt, RetryBy::question},
                     {{"1", Marks(2), "surds", ""}, {"2", Marks(1), "", "B1"}});
    const Paper other_half({"p", "", "pure", std::nullopt, RetryBy::question},
                           {{"1", Marks(2), "", "M1 A1"}, {"2", Marks(1), "series", ""}});
    const auto store_of = [](const Paper& paper) {
        Store store = empty_store();
        change(store, [&](Store& open) {
            open.add_paper(paper);
            open.add_sitting("K07", paper, {sat_on, {}, std::vector<PartMarks>(2)});
        });
        return store;
    };
    const std::string expected = text_of(store_of(whole));
    const auto check = [&](const Paper& here, const Paper& in_file, bool completes) {
        Store store = store_of(here);
        const Merge done = merge_into(store, store_of(in_file));
        CHECK(done.conflicts.empty());
        CHECK(done.papers_completed == (completes ? 1 : 0));
        CHECK(done.papers_unchanged == (completes ? 0 : 1));
        CHECK(text_of(store) == expected);
    };
    check(bare, whole, true);
    check(whole, bare, false);
    check(half, other_half, true);
    check(other_half, half, true);
    check(whole, whole, false);
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

TEST_CASE("a sitting is not replaced where a re-attempt would hang in the air") {
    const Lines all =
        conflicts_replacing(store_with(sitting("5 3 2"), {turn(1, "1 1", 15)}), store_with(sitting("5 3 3")));
    REQUIRE(all.size() == 1);
    CHECK_THAT(all[0], Contains("candidate K07, pure-1 of 2026-09-26: ") &&
                           Contains("question 7 would no longer be missed"));
    // 7a alone was missed, and got in no turn; by the file 7b alone was, and turn 1 got it.
    const Lines got = conflicts_replacing(
        store_with(sitting("5 1 3"), {turn(1, "1 3", 15), turn(2, "1 3", 30)}), store_with(sitting("5 3 1")));
    REQUIRE(got.size() == 1);
    CHECK_THAT(got[0], Contains("candidate K07, pure-1 of 2026-09-26: ") &&
                           Contains("question 7 would be got before its retry 1q7t2 was recorded"));
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
        "together: turn 2 of question 7";
    const std::string remedy = "; correct one of the two";
    CHECK(conflicts(store_with(missed, {turn(1, "3 3", 15)}),
                    store_with(missed, {turn(1, "3 2", 15), turn(2, "3 3", 30)})) ==
          Lines{"candidate K07, pure-1 of 2026-09-26: question 7, turn 1: part 7b is 3 here, 2 in the file; "
                "--replace takes the file's",
                unfit + ": the question was got before" + remedy});
    CHECK(conflicts_replacing(store_with(missed, {turn(1, "3 2", 15), turn(2, "3 3", 30)}),
                              store_with(missed, {turn(1, "3 3", 15)})) ==
          Lines{unfit + ": the question was got before" + remedy});
    CHECK(conflicts_replacing(store_with(missed, {turn(1, "3 2", 15), turn(2, "3 3", 30)}),
                              store_with(missed, {turn(1, "3 2", 31)})) ==
          Lines{unfit +
                " on 2026-10-26: the question was missed on 2026-10-27; a re-attempt is not before that" +
                remedy});
}

TEST_CASE("a day chosen on file stays, and the file's is taken where there is none") {
    const Sitting missed = sitting("5 1 1");
    Store here = store_with(missed);
    Store in_file = store_with(missed);
    choose_day(in_file, today + Days{3});
    CHECK(merge_into(here, in_file).days_added == 1);
    CHECK(day_on_file(here) == today + Days{3});
    choose_day(here, today + Days{5});
    CHECK(merge_into(here, in_file).days_added == 0);
    CHECK(day_on_file(here) == today + Days{5});
}

TEST_CASE("a day chosen for a turn is no day for another one") {
    const Sitting missed = sitting("5 1 1");
    Store ahead = store_with(missed, {turn(1, "1 1", 15)});
    Store behind = store_with(missed);
    choose_day(behind, today + Days{3});
    CHECK(merge_into(ahead, behind).days_added == 0);
    CHECK(day_on_file(ahead) == std::nullopt);

    choose_day(ahead, today + Days{9});
    CHECK(merge_into(behind, ahead).days_added == 1);
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
        Lines{
            "candidate K07: the time on 2026-11-25 is that of its weekday here, 0:00 in the file; --replace "
            "takes the file's"});
    late.week[6] = Seconds(7200);
    CHECK(
        conflicts(store_with_availability(late), store_with_availability(early)) ==
        Lines{
            "candidate K07: the time on sun is 2:00:00 here, 0:00 in the file; --replace takes the file's"});
    CHECK(merge_into(here, store_with_availability(late), true).availabilities_replaced == 1);
    CHECK(here.candidate("K07").availability.dates == late.dates);

    Document without = document_of(here);
    without.candidates.at(0).candidate.availability = Availability();
    CHECK(merge_into(here, without, true).availabilities_replaced == 0);
    CHECK(here.candidate("K07").availability.week == late.week);
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
    change(here, [](Store& open) {
        open.add_class("12b");
        open.add_member("12b", "K01");
    });
    change(in_file, [](Store& open) {
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
    change(own, [](Store& open) {
        open.rename_candidate("K07", "me");
        open.add_class("12b");
        open.add_member("12b", "me");
    });
    {
        Store::Change change(school);
        const Merge done = merge(school, document_of(own), {today, false, "K07"});
        CHECK(done.conflicts.empty());
        CHECK(done.reattempts_added == 1);
        CHECK(done.candidates_added == 0);
        change.commit();
    }
    CHECK(school.candidates() == Lines{"K07"});
    CHECK(school.members("12b") == Lines{"K07"});
    CHECK(turns_on_file(school) == Lines{"1: 1 1"});

    Store::Change change(school);
    CHECK_THROWS_WITH(merge(school, document_of(own), {today, false, " K07"}),
                      Contains("no blanks at its ends"));
    CHECK_THROWS_WITH(merge(school, document_of(empty_store()), {today, false, "K07"}),
                      Contains("the file has 0 candidates"));
    Document two = document_of(own);
    two.candidates.push_back(two.candidates[0]);
    CHECK_THROWS_WITH(merge(school, two, {today, false, "K07"}), Contains("the file has 2 candidates"));
}

TEST_CASE("all conflicts are told") {
    Store here = store_with(sitting("5 1 1"), {turn(1, "1 2", 15)});
    Store in_file = store_with(sitting("5 1 2"), {turn(1, "1 1", 15), turn(2, "1 1", 30)});
    change(here, [](Store& open) { open.add_exam({"Mock", today + Days{1}, ""}); });
    change(in_file, [](Store& open) {
        open.add_exam({"Mock", today + Days{2}, ""});
        open.add_class("12b");
    });
    const Lines all = conflicts(std::move(here), in_file);
    REQUIRE(all.size() == 3);
    CHECK_THAT(all[0], Contains("exam 'Mock': it is on"));
    CHECK_THAT(all[1], Contains("part 7b is 1 here, 2 in the file"));
    CHECK_THAT(all[2], Contains("question 7, turn 1: part 7b is 2 here, 1 in the file"));
}
