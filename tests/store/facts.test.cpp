#include "inkturn/store/facts.hpp"

#include "catch.hpp"
#include "inkturn/base/error.hpp"
#include "store/store_on_file.hpp"

#include <SQLiteCpp/Database.h>

#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::EndsWith;
using Texts = std::vector<std::string>;

constexpr Day day{date::year{2026} / date::November / 25};

Fact fact(const std::string& prompt, const std::string& answer = "a", const std::string& topic = "",
          const std::string& subject = "") {
    return {FactId{}, prompt, answer, topic, subject};
}

struct OnFile : StoreOnFile {
    FactId add(const Fact& fact) {
        return change([&](Store::Change& open) { return FactsOnFile(open).add(fact); });
    }

    SheetId add(const std::string& candidate, const std::vector<FactId>& facts) {
        return change([&](Store::Change& open) {
            return FactsOnFile(open).add_sheet(candidate, sheet_of(facts, day));
        });
    }

    void log(SheetId id, std::vector<int> missed) {
        change([&](Store::Change& open) {
            FactsOnFile(open).keep_log(id, Sheet::Log{day, std::move(missed)});
        });
    }

    void remove(FactId id) {
        change([&](Store::Change& open) { FactsOnFile(open).remove(id); });
    }

    /// `2 pure/derivatives: sin x = cos x`
    Texts facts() {
        Texts texts;
        for (const Fact& fact : FactsOnFile::all(store))
            texts.push_back(std::to_string(static_cast<std::int64_t>(fact.id)) + " " + fact.subject + "/" +
                            fact.topic + ": " + fact.prompt + " = " + fact.answer);
        return texts;
    }

    /// `3: 1=7 2=8!, logged 2026-11-25`: of sheet 3 row 2, fact 8, was missed.
    Texts sheets(const std::string& candidate) {
        Texts texts;
        for (const Sheet& sheet : FactsOnFile::sheets(store, candidate)) {
            std::string text = to_text(sheet.id) + ":";
            for (const Sheet::Row& row : sheet.rows)
                text += " " + std::to_string(row.number) + "=" +
                        std::to_string(static_cast<std::int64_t>(row.fact)) +
                        (sheet.is_missed(row.number) ? "!" : "");
            texts.push_back(text + (sheet.log ? ", logged " + iso(sheet.log->day) : ""));
        }
        return texts;
    }
};

} // namespace

TEST_CASE("facts come back whole, by subject, topic and number") {
    OnFile on;
    CHECK(on.facts().empty());
    on.add(fact("sin x", "cos x", "derivatives", "pure"));
    on.add(fact("\xE2\x88\xAB"
                "1/x",
                "ln |x| + c", "", "pure"));
    on.add(fact("sin x", "opposite / hypotenuse"));
    on.add(fact("cos x", "-sin x", "derivatives", "pure"));
    on.reopen();
    CHECK(on.facts() == Texts{"3 /: sin x = opposite / hypotenuse",
                              "2 pure/: \xE2\x88\xAB"
                              "1/x = ln |x| + c",
                              "1 pure/derivatives: sin x = cos x", "4 pure/derivatives: cos x = -sin x"});
}

TEST_CASE("a prompt is there once a subject") {
    OnFile on;
    on.add(fact("sin x", "cos x", "", "pure"));
    CHECK_THROWS_WITH(on.add(fact("sin x", "cos x", "", "pure")), "the fact 'sin x' of pure is on file");
    CHECK(on.facts().size() == 1);
}

TEST_CASE("answer and topic of a fact are changed, and a number is not given again") {
    OnFile on;
    on.add(fact("tan x", "sec x"));
    const FactId second = on.add(fact("cot x"));
    on.change([](Store::Change& open) {
        FactsOnFile(open).change({FactId{1}, "tan x", "sec^2 x", "derivatives", ""});
    });
    on.remove(second);
    CHECK(on.facts() == Texts{"1 /derivatives: tan x = sec^2 x"});
    CHECK(on.add(fact("csc x")) == FactId{3});
}

TEST_CASE("sheets come back with their rows and what was missed") {
    OnFile on;
    const FactId a = on.add(fact("a"));
    const FactId b = on.add(fact("b"));
    CHECK(on.sheets("K07").empty());
    const SheetId first = on.add("K07", {b, a});
    on.add("K08", {a});
    on.add("K07", {a});
    on.log(first, {2});
    on.reopen();
    CHECK(on.sheets("K07") == Texts{"1: 1=2 2=1!, logged 2026-11-25", "3: 1=1"});
    CHECK(on.sheets("K08") == Texts{"2: 1=1"});

    const auto found = FactsOnFile::find_sheet(on.store, first);
    REQUIRE(found);
    CHECK(found->candidate == "K07");
    CHECK(found->sheet.day == day);
    CHECK(found->sheet.is_missed(2));
    REQUIRE(found->facts.size() == 2);
    CHECK(found->facts[0].prompt == "b");
    CHECK_FALSE(FactsOnFile::find_sheet(on.store, SheetId{4}));
    CHECK(FactsOnFile::on_logged_sheets(on.store) == std::set<FactId>{a, b});
}

TEST_CASE("a log takes the place of another, and is taken back") {
    OnFile on;
    const SheetId id = on.add("me", {on.add(fact("a")), on.add(fact("b"))});
    on.log(id, {1});
    on.log(id, {2});
    CHECK(on.sheets("me") == Texts{"1: 1=1 2=2!, logged 2026-11-25"});
    on.change([&](Store::Change& open) { FactsOnFile(open).keep_log(id, std::nullopt); });
    CHECK(on.sheets("me") == Texts{"1: 1=1 2=2"});
    on.log(id, {});
    CHECK(on.sheets("me") == Texts{"1: 1=1 2=2, logged 2026-11-25"});
}

TEST_CASE("a fact goes with its rows; the others keep their numbers, and empty sheets go") {
    OnFile on;
    const FactId a = on.add(fact("a"));
    const FactId b = on.add(fact("b"));
    const FactId c = on.add(fact("c"));
    on.log(on.add("K07", {a, b, c}), {3});
    on.add("K08", {b});
    on.remove(b);
    CHECK(on.sheets("K07") == Texts{"1: 1=1 3=3!, logged 2026-11-25"});
    CHECK(on.sheets("K08").empty());
    CHECK(on.store.candidates() == Texts{"K07"});
}

TEST_CASE("a sheet keeps its candidate on file, goes with them, and its number is not given again") {
    OnFile on;
    const FactId a = on.add(fact("a"));
    on.add("K07", {a});
    on.change([](Store::Change& open) {
        open.add_class("tuesday");
        open.add_member("tuesday", "K07");
        open.remove_member("tuesday", "K07");
        open.rename_candidate("K07", "K70");
    });
    CHECK(on.store.candidates() == Texts{"K70"});
    CHECK(on.sheets("K70") == Texts{"1: 1=1"});
    on.change([](Store::Change& open) { open.erase_candidate("K70"); });
    CHECK(SQLite::Database(on.file).execAndGet("SELECT count(*) FROM sheet_fact").getInt() == 0);
    CHECK(SQLite::Database(on.file).execAndGet("SELECT count(*) FROM sheet").getInt() == 0);
    CHECK(on.facts().size() == 1);
    CHECK(on.add("K07", {a}) == SheetId{2});
}

TEST_CASE("a fact that can't be is a damaged store") {
    OnFile on;
    on.add(fact("a"));
    SQLite::Database(on.file, SQLite::OPEN_READWRITE).exec("UPDATE fact SET answer = ''");
    CHECK_THROWS_WITH(on.facts(), EndsWith("it is damaged: answer: give 1 to 300 characters, no blank at the "
                                           "ends"));
    CHECK_THROWS_AS(on.facts(), StoreError);
}
