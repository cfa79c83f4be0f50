#include "catch.hpp"
#include "exchange/document/document.hpp"
#include "exchange/document/example_export.hpp"
#include "exchange/document/stores.hpp"

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::StartsWith;

namespace {

/// What version 1 writes, and version 2 in its place.
const std::vector<std::pair<std::string, std::string>> renamed{
    {"\"version\": 1", "\"version\": 2"},
    {"\"days\": {", "\"kept_days\": {"},
    {"\"missed\": [", "\"missed_rows\": ["},
    {"\"plan\": {", "\"plan_wishes\": {"},
    {"\"relearned\": [", "\"relearned_topics\": ["},
    {"\"retries\": [", "\"reattempts\": ["}};

std::string with_all_replaced(std::string text, const std::string& what, const std::string& by) {
    for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + by.size()))
        text.replace(at, what.size(), by);
    return text;
}

std::string in_version_2(std::string text) {
    for (const auto& [one, two] : renamed) {
        REQUIRE(text.find(one) != std::string::npos);
        text = with_all_replaced(text, one, two);
    }
    return text;
}

std::string refusal(const std::string& text) {
    try {
        read_text(text);
    } catch (const Error& error) {
        return error.what();
    }
    return "";
}

} // namespace

TEST_CASE("an export of version 1 is read as the same content in version 2") {
    CHECK(to_text(read_text(example_1())) == in_version_2(example_1()));
    CHECK(to_text(read_text(in_version_2(example_1()))) == in_version_2(example_1()));
}

TEST_CASE("an export of version 1 is stored whole") {
    Store store = empty_store();
    CHECK(merge_into(store, read_text(example_1())).conflicts.empty());
    CHECK(text_of(store) == in_version_2(example_1()));
}

TEST_CASE("a version has its own keys and no others") {
    for (const auto& [one, two] : renamed) {
        if (one == renamed.front().first)
            continue;
        CAPTURE(two);
        CHECK(refusal(with_all_replaced(example_1(), one, two)) != "");
        CHECK(refusal(with_all_replaced(in_version_2(example_1()), two, one)) != "");
    }
}

TEST_CASE("what is wrong in version 1 is named by its keys there") {
    CHECK_THAT(refusal(with_all_replaced(example_1(), "\"2\": \"2026-11-20\"", "\"2\": \"20.11.\"")),
               StartsWith("candidates[0].sittings[0].days.2: "));
    CHECK_THAT(refusal(with_all_replaced(example_1(), "\"plan\"", "\"plan_wishes\"")),
               StartsWith("candidates[0].plan_wishes: the key is unknown"));
    CHECK_THAT(refusal(with_all_replaced(example_1(), "\"missed\"", "\"more\"")),
               StartsWith("candidates[0].sheets[0].log.more: the key is unknown"));
}
