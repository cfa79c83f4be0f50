#include "exchange/document/ratings.hpp"

#include "catch.hpp"
#include "exchange/document/values.hpp"
#include "inkturn/store/change.hpp"
#include "inkturn/store/plan.hpp"

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::Contains;

namespace {

Store with_rating(Understanding understanding, Day on) {
    Store store = empty_store();
    change(store, [&](Store::Change& open) {
        PlanOnFile(open).rate("K07", {"pure", "vectors", understanding, on});
    });
    return store;
}

std::string on_file(const Store& store) {
    std::string text;
    for (const TopicRating& rating : PlanOnFile::ratings(store, "K07"))
        text += rating.subject + " " + rating.topic + " " + std::string(name(rating.understanding)) + " " +
                iso(rating.day) + ";";
    return text;
}

} // namespace

TEST_CASE("ratings travel with their candidate, once") {
    const Store there = with_rating(Understanding::shaky, today - Days{3});
    const Json json = value_of(document_of(there));
    CHECK(json["candidates"][0]["topic_ratings"][0]["rating"] == "shaky");
    Store here = empty_store();
    CHECK(merge_into(here, there).ratings_added == 1);
    CHECK(on_file(here) == on_file(there));
    const Merge again = merge_into(here, there);
    CHECK(again.ratings_added + again.ratings_replaced == 0);
    CHECK(again.conflicts.empty());
}

TEST_CASE("of two ratings the later stays") {
    const Store later = with_rating(Understanding::sure, today);
    Store here = with_rating(Understanding::shaky, today - Days{3});
    CHECK(merge_into(here, later).ratings_replaced == 1);
    CHECK(on_file(here) == on_file(later));
    const Store earlier = with_rating(Understanding::shaky, today - Days{3});
    CHECK(merge_into(here, earlier).ratings_replaced == 0);
    CHECK(on_file(here) == on_file(later));
}

TEST_CASE("two ratings of one day that differ are a conflict, unless the file's replace what is on file") {
    const Store other = with_rating(Understanding::sure, today);
    Store here = with_rating(Understanding::shaky, today);
    const Merge merge = merge_into(here, other);
    REQUIRE(merge.conflicts.size() == 1);
    CHECK_THAT(merge.conflicts.front().what(), Contains("rated shaky here and sure in the file"));
    CHECK(merge_into(here, other, true).ratings_replaced == 1);
    CHECK(on_file(here) == on_file(other));
}

TEST_CASE("a rating that is none, twice there, or still to come is refused") {
    Json json = value_of(document_of(with_rating(Understanding::sure, today)));
    Json& ratings = json["candidates"][0]["topic_ratings"];
    const Json sound = ratings[0];
    ratings[0]["rating"] = "s";
    CHECK_THAT(refusal(json), Contains("topic_ratings[0]"));
    ratings[0] = sound;
    ratings.push_back(sound);
    CHECK_THAT(refusal(json), Contains("rated twice"));
    ratings.erase(1);
    ratings[0]["date"] = iso(today + Days{1});
    CHECK_THAT(refusal(json), Contains("topic_ratings[0].date"));
    ratings[0] = sound;
    ratings[0]["topic"] = "";
    CHECK_THAT(refusal(json), Contains("topic_ratings[0]"));
}
