#include "catch.hpp"
#include "exchange/document/pure_1_on_file.hpp"
#include "exchange/document/values.hpp"
#include "inkturn/store/plan.hpp"

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::Contains;

namespace {

void wish(Store& store, const RetryRule& rule) {
    PlanWishes wishes;
    wishes.retries = rule;
    change(store, [&](Store::Change& open) { PlanOnFile(open).set_wishes("K07", wishes); });
}

Store store_with_exam(bool mock) {
    Store store = empty_store();
    change(store, [&](Store::Change& open) { open.add_exam({"Paper 1", today + Days{50}, "pure", mock}); });
    return store;
}

Store store_with_essay(std::optional<GotAt> of_paper, std::optional<GotAt> of_part) {
    const Paper essay({"essay", "", "", {}, RetryBy::question, of_paper},
                      {{"1", Marks(25), "", "", of_part}, {"2", Marks(25), "", ""}});
    Store store = empty_store();
    change(store, [&](Store::Change& open) {
        open.add_paper(essay);
        open.add_sitting("K07", essay, {sat_on, {}, parse_line(essay, "20 25")});
    });
    return store;
}

} // namespace

TEST_CASE("which misses make a retry goes along where it is not the default") {
    Store store = empty_store();
    wish(store, {Marks(2), false});
    const Json json = value_of(document_of(store));
    CHECK(json["candidates"][0]["plan_wishes"].dump() ==
          R"({"marking_percent":50,"papers":[],"missed_from":2,"slips":false})");
    CHECK(to_text(read(json)) == text_of(store));
    Store here = empty_store();
    CHECK(merge_into(here, store).plan_wishes_added == 1);
    CHECK(text_of(here) == text_of(store));

    wish(here, {Marks(3), false});
    CHECK(
        conflicts(std::move(here), store) ==
        Lines{"candidate K07: the fewest missed marks that make a retry is 3 here, 2 in the file; --replace "
              "takes the file's"});
    Store with_slips = empty_store();
    wish(with_slips, {Marks(2), true});
    CHECK(
        conflicts(std::move(with_slips), store) ==
        Lines{"candidate K07: whether slips alone make a retry is yes here, no in the file; --replace takes "
              "the file's"});
}

TEST_CASE("a rule for retries out of range is refused") {
    Store store = empty_store();
    wish(store, {Marks(500), false});
    const Json json = value_of(document_of(store));
    const auto refused = [&](const std::string& key, const Json& value) {
        Json other = json;
        other["candidates"][0]["plan_wishes"][key] = value;
        return refusal(other);
    };
    CHECK(refused("missed_from", 500).empty());
    CHECK(refused("missed_from", 1).empty());
    CHECK_THAT(refused("missed_from", 501), Contains("plan_wishes.missed_from") && Contains("1 to 500"));
    CHECK_THAT(refused("missed_from", 0), Contains("1 to 500"));
    CHECK_THAT(refused("slips", "off"), Contains("plan_wishes.slips: true or false is expected"));
    CHECK(refused("slips", true).empty());
}

TEST_CASE("re-attempts of questions that make no retry any more go along") {
    Store store = store_with(sitting("5 3 2"), {turn(1, "3 2", 15), turn(2, "3 2:slip", 30)});
    wish(store, {Marks(5), false});
    CHECK(to_text(read_text(text_of(store))) == text_of(store));
    Store here = store_with(sitting("5 3 2"));
    CHECK(merge_into(here, store).reattempts_added == 2);
    CHECK(turns_on_file(here) == turns_on_file(store));
}

TEST_CASE("a mock goes along, and is in conflict with an exam of its name") {
    const Store mock = store_with_exam(true);
    const Json json = value_of(document_of(mock));
    CHECK(json["exams"].dump() ==
          R"([{"title":"Paper 1","date":"2027-01-14","subject":"pure","mock":true}])");
    CHECK_FALSE(value_of(document_of(store_with_exam(false)))["exams"][0].contains("mock"));
    Store here = empty_store();
    CHECK(merge_into(here, mock).exams_added == 1);
    CHECK(here.exams()[0].exam.mock);
    CHECK(merge_into(here, mock).exams_unchanged == 1);
    CHECK(
        conflicts(store_with_exam(false), mock) ==
        Lines{"exam 'Paper 1' of pure: it is on 2027-01-14 here, a mock on 2027-01-14 in the file; --replace "
              "takes the file's"});
    Store exam = store_with_exam(false);
    CHECK(merge_into(exam, mock, true).exams_moved == 1);
    CHECK(text_of(exam) == text_of(mock));
    Json wrong = json;
    wrong["exams"][0]["mock"] = 1;
    CHECK_THAT(refusal(wrong), Contains("exams[0].mock: true or false is expected"));
}

TEST_CASE("shares got at go along where they are stated") {
    const Store essay = store_with_essay(GotAt(80), GotAt(60));
    const Json json = value_of(document_of(essay));
    CHECK(json["papers"][0]["got_at"] == 80);
    CHECK(json["papers"][0]["parts"][0]["got_at"] == 60);
    CHECK_FALSE(json["papers"][0]["parts"][1].contains("got_at"));
    CHECK_FALSE(value_of(document_of(store_with_essay({}, {})))["papers"][0].contains("got_at"));
    CHECK(to_text(read(json)) == text_of(essay));
    for (const int percent : {0, 101}) {
        Json wrong = json;
        wrong["papers"][0]["got_at"] = percent;
        CHECK_THAT(refusal(wrong), Contains("papers[0].got_at") && Contains("1 to 100"));
        wrong = json;
        wrong["papers"][0]["parts"][0]["got_at"] = percent;
        CHECK_THAT(refusal(wrong), Contains("parts[0].got_at") && Contains("1 to 100"));
    }
}

TEST_CASE("shares got at complete a paper on file, and two that differ are in conflict") {
    const Store essay = store_with_essay(GotAt(80), GotAt(60));
    Store bare = store_with_essay({}, {});
    CHECK(merge_into(bare, essay).papers_completed == 1);
    CHECK(text_of(bare) == text_of(essay));
    CHECK(merge_into(bare, store_with_essay({}, {})).papers_unchanged == 1);
    const std::string end = " in the file; a paper is never replaced: correct one of the two, or, if they "
                            "are two papers, give one another id with 'inkturn paper amend essay --id NEW'";
    CHECK(conflicts(store_with_essay(GotAt(70), GotAt(60)), essay) ==
          Lines{"paper essay: got-at is 70% here, 80%" + end});
    CHECK(conflicts(store_with_essay(GotAt(80), GotAt(50)), essay) ==
          Lines{"paper essay: part 1, got-at is 50% here, 60%" + end});
}
