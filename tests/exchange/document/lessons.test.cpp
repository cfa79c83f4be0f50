#include "exchange/document/lessons.hpp"

#include "catch.hpp"
#include "exchange/document/values.hpp"
#include "inkturn/store/lessons.hpp"

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::Contains;

namespace {

Lesson example() {
    Lesson lesson{
        "vectors-1", today + Days{5},  std::chrono::hours{16}, Seconds(3600), "pure", {"series", "vectors"},
        8,           PlaceOrder::marks};
    lesson.asked = {{"K02", Moment{today}, {"vectors"}, "since the mock", PlaceState::confirmed},
                    {"K01", Moment{today} + Seconds(60), {}, "", PlaceState::asked}};
    return lesson;
}

Store store_with(const Lesson& lesson) {
    Store store = empty_store();
    change(store, [&](Store::Change& open) { LessonsOnFile(open).add(lesson); });
    return store;
}

Lesson on_file(const Store& store) {
    return *LessonsOnFile::find(store, "vectors-1");
}

} // namespace

TEST_CASE("lessons go along with who asked, and are read back") {
    const Store store = store_with(example());
    const Json json = value_of(document_of(store));
    CHECK(
        json["lessons"][0].dump() ==
        R"({"lesson":"vectors-1","date":"2026-11-30","start_seconds":57600,"duration_seconds":3600,)"
        R"("subject":"pure","topics":["series","vectors"],"places":8,"order":"marks","asked":[)"
        R"({"candidate":"K02","asked_at":"2026-11-25T00:00:00Z","topics":["vectors"],)"
        R"("remark":"since the mock","state":"confirmed"},)"
        R"({"candidate":"K01","asked_at":"2026-11-25T00:01:00Z","topics":[],"remark":null,"state":"asked"}]})");
    CHECK(to_text(read(json)) == text_of(store));
    Store other = empty_store();
    CHECK(merge_into(other, store).lessons_added == 1);
    CHECK(text_of(other) == text_of(store));
    CHECK(merge_into(other, store).lessons_unchanged == 1);
}

TEST_CASE("one candidate's export has what they asked for, and nobody else") {
    const Json json = value_of(document_of(store_with(example()), "K01"));
    CHECK(json["lessons"][0]["asked"].size() == 1);
    CHECK(json["lessons"][0]["asked"][0]["candidate"] == "K01");
    CHECK(json.dump().find("K02") == std::string::npos);
    CHECK(json["candidates"][0]["candidate"] == "K01");
    Store other = empty_store();
    Store::Change open(other);
    merge(open, document_of(store_with(example()), "K01"), {today, false, "me"});
    CHECK(on_file(other).asked.at(0).candidate == "me");
}

TEST_CASE("who asked in the document alone is added, and what differs is a conflict unless it replaces") {
    Lesson fewer = example();
    fewer.asked.pop_back();
    Store store = store_with(fewer);
    CHECK(merge_into(store, store_with(example())).lessons_completed == 1);
    CHECK(on_file(store).asked.size() == 2);

    Lesson other = example();
    other.asked[1].state = PlaceState::declined;
    const Merge refused = merge_into(store, store_with(other));
    REQUIRE(refused.conflicts.size() == 1);
    CHECK_THAT(refused.conflicts[0].what(), Contains("what candidate K01 asked for, or came of it, differs"));
    CHECK(on_file(store).asked[1].state == PlaceState::asked);
    CHECK(merge_into(store, store_with(other), true).lessons_replaced == 1);
    CHECK(on_file(store).asked[1].state == PlaceState::declined);

    other.day = today + Days{6};
    other.topics = {"series"};
    other.asked.clear();
    CHECK_THAT(merge_into(store, store_with(other)).conflicts.at(0).what(),
               Contains("its day, time, topics"));
    CHECK(merge_into(store, store_with(other), true).lessons_replaced == 1);
    CHECK(on_file(store).day == today + Days{6});
    CHECK(on_file(store).asked[0].topics.empty()); // no longer on vectors
}

TEST_CASE("a document with a lesson that can't be is refused, and says where") {
    const Json good = value_of(document_of(store_with(example())));
    const auto why = [&](auto spoil) {
        Json json = good;
        spoil(json["lessons"][0]);
        try {
            read(json);
        } catch (const Error& error) {
            return std::string(error.what());
        }
        return std::string();
    };
    CHECK_THAT(why([](Json& lesson) { lesson["places"] = 0; }), Contains("lessons[0].places"));
    CHECK_THAT(why([](Json& lesson) { lesson["order"] = "luck"; }), Contains("lessons[0].order"));
    CHECK_THAT(why([](Json& lesson) { lesson["topics"] = Json::array(); }), Contains("needs a topic"));
    CHECK_THAT(why([](Json& lesson) { lesson["asked"][0]["state"] = "gone"; }), Contains("asked[0].state"));
    CHECK_THAT(why([](Json& lesson) { lesson["asked"][0]["state"] = "attended"; }), Contains("after today"));
    CHECK_THAT(why([](Json& lesson) { lesson["asked"][1]["candidate"] = "K02"; }), Contains("appears twice"));
    CHECK_THAT(why([](Json& lesson) { lesson["asked"][0]["asked_at"] = "noon"; }), Contains("not a moment"));
    CHECK_THAT(why([](Json& lesson) { lesson["asked"][0]["topics"][0] = "surds"; }),
               Contains("is not on 'surds'"));
}
