#include "inkturn/store/facts.hpp"
#include "catch.hpp"
#include "exchange/document/merge.hpp"
#include "exchange/document/values.hpp"
#include "inkturn/store/change.hpp"

#include <functional>

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::Contains;

namespace {

Fact fact(const std::string& prompt, const std::string& answer = "a", const std::string& topic = "",
          const std::string& subject = "pure") {
    return {FactId{}, prompt, answer, topic, subject};
}

/// With facts b and a of pure, and a sheet of K07 that asks b, then a.
struct OnFile {
    Store store = empty_store();
    SheetId sheet{};

    explicit OnFile(const std::optional<Sheet::Log>& log = {}, const std::string& answer = "a") {
        change(store, [&](Store::Change& open) {
            FactsOnFile facts(open);
            const FactId b = facts.add(fact("b"));
            const FactId a = facts.add(fact("a", answer));
            sheet = facts.add_sheet("K07", sheet_of({b, a}, today - Days{3}));
            facts.keep_log(sheet, log);
        });
    }

    Merge take(const OnFile& other, bool replace = false) { return merge_into(store, other.store, replace); }
    Merge take(const Document& document, bool replace = false) {
        return merge_into(store, document, replace);
    }

    std::vector<Sheet> sheets() { return FactsOnFile::sheets(store, "K07"); }
    std::string text() { return text_of(store); }
};

Sheet::Log logged(int days_ago, std::vector<int> missed) {
    return {today - Days{days_ago}, std::move(missed)};
}

} // namespace

TEST_CASE("facts go along by subject and prompt, sheets with what was missed, and are read back") {
    OnFile on(logged(2, {2}));
    const Json json = value_of(document_of(on.store));
    CHECK(json["facts"].dump() == R"([{"subject":"pure","prompt":"a","answer":"a","topic":""},)"
                                  R"({"subject":"pure","prompt":"b","answer":"a","topic":""}])");
    CHECK(json["candidates"][0]["sheets"].dump() ==
          R"([{"date":"2026-11-22","log":{"date":"2026-11-23","missed":[2]},"rows":[)"
          R"({"row":1,"subject":"pure","prompt":"b"},{"row":2,"subject":"pure","prompt":"a"}]}])");
    CHECK(to_text(read(json)) == on.text());
}

TEST_CASE("a document without facts and sheets does not name them") {
    const Json json = value_of(document_of(empty_store()));
    CHECK_FALSE(json.contains("facts"));
    CHECK(read(json).facts.empty());
}

TEST_CASE("a candidate's own export holds the facts that their sheets ask and no other") {
    OnFile on;
    change(on.store, [](Store::Change& open) {
        FactsOnFile facts(open);
        facts.add_sheet("K08", sheet_of({facts.add(fact("c"))}, today));
        facts.add(fact("d"));
    });
    const Document document = document_of(on.store, "K07");
    REQUIRE(document.facts.size() == 2);
    CHECK(document.facts[1].prompt == "b");
    CHECK_THAT(to_text(document), !Contains("K08") && !Contains("\"c\"") && !Contains("\"d\""));
    CHECK(read(value_of(document)).candidates.at(0).sheets.size() == 1);
}

TEST_CASE("a fact is added, left, given a topic or in conflict") {
    OnFile here;
    Document document;
    document.facts = {fact("a"), fact("b", "a", "trig"), fact("c")};
    Merge done = here.take(document);
    CHECK(done.facts_unchanged == 1);
    CHECK(done.facts_completed == 1);
    CHECK(done.facts_added == 1);
    CHECK(FactsOnFile::all(here.store).back().topic == "trig");

    document.facts = {fact("a", "z"), fact("b", "a", "logs")};
    done = here.take(document);
    CHECK(done.conflicts ==
          std::vector<std::string>{
              "fact 'a' of pure: the answer is 'a' here, 'z' in the file; --replace takes the file's",
              "fact 'b' of pure: the topic is 'trig' here, 'logs' in the file; --replace takes the file's"});
    done = here.take(document, true);
    CHECK(done.facts_replaced == 2);
    CHECK(FactsOnFile::all(here.store).size() == 3);
    CHECK(here.sheets().size() == 1);
}

TEST_CASE("a sheet that was filled in elsewhere is logged here, once") {
    OnFile here;
    const OnFile there(logged(1, {1}));
    CHECK(here.take(there).sheets_completed == 1);
    REQUIRE(here.sheets().size() == 1);
    CHECK(here.sheets()[0].is_missed(1));
    CHECK(here.take(there).sheets_unchanged == 1);
    CHECK(here.take(OnFile()).sheets_unchanged == 1);
    CHECK(here.sheets()[0].log);
    CHECK(here.sheets().size() == 1);
}

TEST_CASE("a sheet that was filled in in two ways is a conflict, or the file's is taken") {
    OnFile here(logged(1, {1}));
    const OnFile missed_another(logged(1, {2}));
    CHECK(
        here.take(missed_another).conflicts ==
        std::vector<std::string>{"candidate K07, sheet 1 of 2026-11-22: what was missed, or when, is another "
                                 "here than in the file; --replace takes the file's"});
    CHECK(here.take(OnFile(logged(2, {1}))).conflicts.size() == 1);
    CHECK(here.sheets()[0].is_missed(1));
    CHECK(here.take(missed_another, true).sheets_replaced == 1);
    CHECK(here.sheets()[0].log->missed_rows == std::vector<int>{2});
}

TEST_CASE("sheets of the same facts and day meet one by one") {
    OnFile here(logged(1, {1}));
    OnFile there(logged(1, {1}));
    const auto again = [](OnFile& on) {
        change(on.store, [&](Store::Change& open) {
            FactsOnFile facts(open);
            Sheet sheet = FactsOnFile::sheets(store, "K07").front();
            sheet.log.reset();
            facts.add_sheet("K07", sheet);
        });
    };
    again(there);
    CHECK(here.take(there).sheets_added == 1);
    CHECK(here.take(there).sheets_unchanged == 2);
    CHECK(here.text() == there.text());
}

TEST_CASE("facts and sheets that a store would not take are refused with the way to them") {
    const Json good = value_of(document_of(OnFile(logged(2, {2})).store));
    const auto refusal = [&](const std::function<void(Json&, Json&)>& spoil) -> std::string {
        Json json = good;
        spoil(json["facts"], json["candidates"][0]["sheets"]);
        return test::refusal(json);
    };
    CHECK_THAT(refusal([](Json& facts, Json&) { facts[0]["answer"] = ""; }), Contains("facts[0]: answer"));
    CHECK_THAT(refusal([](Json& facts, Json&) { facts[1]["topic"] = "a\nb"; }), Contains("facts[1]: topic"));
    CHECK_THAT(refusal([](Json& facts, Json&) { facts.push_back(facts[0]); }),
               Contains("facts[2]: the fact is there twice"));
    CHECK_THAT(refusal([](Json& facts, Json&) { facts[0]["hint"] = ""; }), Contains("facts[0]"));
    CHECK_THAT(refusal([](Json& facts, Json&) { facts[0]["prompt"] = "z"; }),
               Contains("sheets[0].rows[1]: the fact is not among the document's facts"));
    CHECK_THAT(refusal([](Json&, Json& sheets) { sheets[0]["date"] = "2026-11-26"; }),
               Contains("sheets[0].date"));
    CHECK_THAT(refusal([](Json&, Json& sheets) { sheets[0]["log"]["date"] = "2026-11-26"; }),
               Contains("sheets[0].log.date"));
    CHECK_THAT(refusal([](Json&, Json& sheets) { sheets[0]["log"]["date"] = "2026-11-21"; }),
               Contains("sheets[0].log.date: a sheet is not filled in before"));
    CHECK_THAT(refusal([](Json&, Json& sheets) { sheets[0]["log"]["missed"] = {3}; }),
               Contains("sheets[0].log.missed[0]: the sheet has no such row"));
    CHECK_THAT(refusal([](Json&, Json& sheets) {
                   sheets[0]["log"]["missed"] = {2, 1};
               }),
               Contains("sheets[0].log.missed[1]"));
    CHECK_THAT(refusal([](Json&, Json& sheets) { sheets[0]["rows"] = Json::array(); }),
               Contains("sheets[0]: a sheet asks one fact at least"));
    CHECK_THAT(refusal([](Json&, Json& sheets) { sheets[0]["rows"][1]["row"] = 1; }),
               Contains("sheets[0].rows[1]: the rows are not in the order"));
    CHECK_THAT(refusal([](Json&, Json& sheets) { sheets[0]["rows"][1]["row"] = 21; }),
               Contains("sheets[0].rows[1].row"));
    CHECK_THAT(refusal([](Json&, Json& sheets) { sheets[0]["rows"][1]["prompt"] = "b"; }),
               Contains("sheets[0].rows[1]: the fact is there twice"));
    CHECK_THAT(refusal([](Json&, Json& sheets) { sheets[0]["sheet"] = 1; }), Contains("sheets[0]"));
    CHECK(refusal([](Json&, Json&) {}).empty());
}
