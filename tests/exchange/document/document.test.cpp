#include "exchange/document/document.hpp"
#include "catch.hpp"
#include "exchange/document/example_export.hpp"
#include "exchange/document/world.hpp"
#include "inkturn/store/calendar.hpp"
#include "inkturn/store/change.hpp"

#include <algorithm>
#include <string>

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::Contains;

namespace {

Store store_of(const Document& document) {
    Store store = empty_store();
    change(store, [&](Store::Change& open) { REQUIRE(merge(open, document, {today}).conflicts.empty()); });
    return store;
}

} // namespace

TEST_CASE("an export is written as it is documented and read back as the same bytes") {
    CHECK(to_text(read_text(example())) == example());
    CHECK(text_of(store_of(read_text(example()))) == example());
}

TEST_CASE("the order and the layout of an export that is read do not matter") {
    Json json = example_json();
    for (const char* list : {"papers", "candidates", "exams", "classes"})
        std::reverse(json[list].begin(), json[list].end());
    json["candidates"][1]["sittings"][0]["marks"] = {
        {"2b", "2+0+1:slip"}, {"2a", "-:unfinished"}, {"1", "04"}};
    CHECK(to_text(read_text("\xEF\xBB\xBF\r\n" + json.dump())) == example());
}

TEST_CASE("an export of an empty store has empty lists") {
    CHECK(value_of(document_of(empty_store())).dump() ==
          R"({"format":"inkturn export","version":2,"papers":[],"candidates":[],"exams":[],"classes":[]})");
}

TEST_CASE("export, import into an empty store and export give the same bytes") {
    for (unsigned seed = 0; seed < 40; ++seed) {
        CAPTURE(seed);
        Random random(seed);
        Store store = empty_store();
        random.put(random.world(), seed % 2 == 0, store);
        const std::string text = text_of(store);
        CHECK(to_text(read_text(text)) == text);
        CHECK(text_of(store_of(read_text(text))) == text);
    }
}

TEST_CASE("an export does not depend on the order in which a store was filled") {
    for (unsigned seed = 0; seed < 10; ++seed) {
        CAPTURE(seed);
        const TwoStores stores(seed, true);
        CHECK(text_of(stores.one) == text_of(stores.other));
    }
}

TEST_CASE("an export of one candidate holds all that is theirs and nothing of another") {
    Store store = store_of(read_text(example()));
    const Document all = document_of(store);
    const Document one = document_of(store, "K07");
    REQUIRE(one.candidates.size() == 1);
    const Json json = value_of(one);
    CHECK(json["candidates"][0] == value_of(all)["candidates"][0]);
    CHECK(json["exams"] == value_of(all)["exams"]);
    CHECK(json["classes"] == Json({"12b"}));
    REQUIRE(json["papers"].size() == 1);
    CHECK(json["papers"][0]["paper"] == "drill-3");
    CHECK_THAT(json.dump(), !Contains("K08") && !Contains("pure-1") && !Contains("12a"));
    CHECK(to_text(document_of(store_of(read_text(to_text(one))), "K07")) == to_text(one));
}

TEST_CASE("candidates with nothing on file are left out of an export") {
    Store store = empty_store();
    change(store, [](Store::Change& open) {
        CalendarOnFile(open).keep("K09", {{"written", today, 0, false}});
    });
    REQUIRE(store.has_candidate("K09"));
    CHECK(document_of(store).candidates.empty());
    CHECK(document_of(store, "K09").candidates.empty());
    CHECK(document_of(store, "nobody").candidates.empty());
}

TEST_CASE("an exam that is on file twice is exported once") {
    Store store = empty_store();
    change(store, [](Store::Change& open) {
        open.add_exam({"Paper 1", today, "pure"});
        open.add_exam({"Paper 1", today, "pure"});
        open.add_exam({"Paper 1", today, ""});
    });
    CHECK(document_of(store).exams.size() == 2);
}

TEST_CASE("days on file for questions that are not open are left out of an export") {
    Store store = store_of(read_text(example()));
    const SittingRecord record = store.candidate("K07").sittings.at(0);
    change(store, [&](Store::Change& open) { open.keep_day({record.id, "1", today}); });
    CHECK(text_of(store) == example());
}

TEST_CASE("which marks were earned is exported with them") {
    Json document = example_json();
    Json& marks = document["candidates"][0]["sittings"][0]["marks"]["1"];
    for (const char* const text : {"2+1:slip:1101", "3:0111", "0:0"}) {
        marks = text;
        const Document read_back = read(document);
        CHECK(read_back.candidates[0].candidate.sittings[0].sitting.parts[0].by_code().has_value());
        CHECK_THAT(to_text(read_back), Contains("\"1\": \"" + std::string(text) + "\""));
    }
}
