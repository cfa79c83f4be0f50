#include "exchange/json/facts.hpp"

#include "catch.hpp"
#include "exchange/json/parsed.hpp"

#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;

constexpr Day today{date::year{2026} / date::November / 25};

const std::vector<Fact> facts{{FactId{3}, "sin x", "cos x", "derivatives", "pure"},
                              {FactId{5}, "tan x", "sec^2 x", "", ""},
                              {FactId{6}, "cos x", "-sin x", "", ""}};

Sheet sheet(int id, const std::vector<FactId>& fact_ids) {
    Sheet sheet = sheet_of(fact_ids, today);
    sheet.id = SheetId{id};
    return sheet;
}

} // namespace

TEST_CASE("a sheet is written with its answers only where it is filled") {
    CandidateSheet of{"K07", sheet(2, {FactId{3}, FactId{5}}), {facts[0], facts[1]}};
    CHECK(parsed(json_of(of, false)).dump() ==
          R"({"sheet":2,"candidate":"K07","date":"2026-11-25","asked_seconds":90,"log":null,"rows":[)"
          R"({"row":1,"fact":3,"prompt":"sin x","answer":null,"topic":"derivatives","subject":"pure"},)"
          R"({"row":2,"fact":5,"prompt":"tan x","answer":null,"topic":"","subject":""}]})");
    of.sheet.log = Sheet::Log{today, {2}};
    const Json filled = parsed(json_of(of, true));
    CHECK(filled["log"].dump() == R"({"date":"2026-11-25","missed":[2]})");
    CHECK(filled["rows"][1]["answer"] == "sec^2 x");
    CHECK(parsed(json_of(CandidateSheet{"me", sheet_of({}, today), {}}, false)).dump() ==
          R"({"sheet":null,"candidate":"me","date":"2026-11-25","asked_seconds":0,"log":null,"rows":[]})");
}

TEST_CASE("facts are written with how each fared last and when it comes back") {
    Sheet logged = sheet(1, {FactId{3}, FactId{5}});
    logged.log = Sheet::Log{today, {2}};
    const std::vector<Sheet> sheets{logged, sheet(2, {FactId{6}})};
    CHECK(parsed(json_of_facts("me", facts, sheets, facts_due(facts, sheets, {}, today))).dump() ==
          R"({"candidate":"me","facts":[)"
          R"({"fact":3,"prompt":"sin x","answer":"cos x","topic":"derivatives","subject":"pure",)"
          R"("asked":"2026-11-25","missed":false,"window":null,"left":null,"late":false},)"
          R"({"fact":5,"prompt":"tan x","answer":"sec^2 x","topic":"","subject":"",)"
          R"("asked":"2026-11-25","missed":true,"window":{"opens":"2026-12-09","closes":"2026-12-16"},)"
          R"("left":{"first":"2026-12-09","last":"2026-12-16"},"late":false},)"
          R"({"fact":6,"prompt":"cos x","answer":"-sin x","topic":"","subject":"",)"
          R"("asked":null,"missed":null,"window":null,)"
          R"("left":{"first":"2026-11-25","last":"2026-12-01"},"late":false}],)"
          R"("not_logged":[{"sheet":2,"date":"2026-11-25","rows":1}]})");
}
