#include "exchange/class/retried_lines.hpp"

#include "catch.hpp"
#include "exchange/class/retried_import.hpp"
#include "exchange/document/stores.hpp"
#include "inkturn/retry/returned_line.hpp"
#include "inkturn/store/change.hpp"
#include "problems.hpp"

#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::Contains;

const Paper pure_1({"pure-1", "", "", std::nullopt, RetryBy::question},
                   {{"1", Marks(3), "", ""}, {"2a", Marks(4), "", ""}, {"2b", Marks(6), "", ""}});

/// K05 (sitting 1) and K06 (sitting 2) missed both questions 16 days ago.
Store store_of_two() {
    Store store = empty_store();
    change(store, [](Store::Change& open) {
        open.add_paper(pure_1);
        open.add_sitting("K05", pure_1, {today - Days{16}, ExtraTime(), parse_line(pure_1, "1 1 2")});
        open.add_sitting("K06", pure_1, {today - Days{16}, ExtraTime(), parse_line(pure_1, "0 4 1")});
    });
    return store;
}

LineRetry done(const std::string& id, const std::vector<std::string>& entries, Day on = today) {
    LineRetry retry{parse_retry_id(id), "pure-1", on, {}};
    for (const std::string& entry : entries)
        retry.entries.push_back(parse_entry(entry));
    return retry;
}

const std::string of_k05 =
    to_text(ReturnedLine{"K05", {done("1q1", {"1=3"}), done("1q2", {"2a=4", "2b=4+1:slip"})}});
const std::string of_k06 = to_text(ReturnedLine{"K06", {done("2q1", {"1=2"})}});

ClassRetried read(const std::string& text, const std::optional<std::string>& of_candidate = {}) {
    RetriedOptions options{{{}, today, {}, {}}, {}, of_candidate};
    return read_class_retried(store_of_two(), std::string_view(text), options);
}

std::vector<std::string> problems(const std::string& text,
                                  const std::optional<std::string>& of_candidate = {}) {
    return texts_of(read(text, of_candidate).problems.items);
}

} // namespace

TEST_CASE("lines of several candidates are re-attempts, whatever message stands around them") {
    const ClassRetried retried =
        read("Here you are\r\n  " + of_k05 + "\r\n\r\n[9 Dec, 17:02] Sam: " + of_k06 + " thanks!\n");
    CHECK(retried.problems.empty());
    CHECK(retried.rows == 2);
    REQUIRE(retried.added.size() == 3);
    CHECK(retried.added[0].got);
    CHECK(retried.added[1].missed == Marks(1));
    CHECK(retried.added[2].candidate == "K06");
    CHECK(read(of_k05 + of_k06).added.size() == 3); // on one row
}

TEST_CASE("blanks, rows that a mail program made and capitals at its ends make no difference to a line") {
    const std::size_t half = of_k05.size() / 2;
    const auto added = [](const std::string& text) {
        const ClassRetried retried = read(text);
        return retried.problems.empty() ? retried.added.size() : 0;
    };
    std::string spaced = of_k05;
    for (std::size_t i = spaced.find(';'); i != std::string::npos; i = spaced.find(';', i + 3))
        spaced.insert(i, "\xC2\xA0").insert(i + 3, " ");
    CHECK(added(spaced) == 2);
    CHECK(added("I" + of_k05.substr(1, of_k05.size() - 3) + "ND") == 2);
    CHECK(added("> " + of_k05.substr(0, half) + " \r\n> " + of_k05.substr(half) + "\r\nThanks") == 2);
    CHECK(added(of_k05.substr(0, half) + "\n" + of_k05.substr(half) + "\n" + of_k06) == 3);
    CHECK(added("Hello, a = b and so on\n" + of_k05) == 2);
}

TEST_CASE("a line that was cut is not joined with the words or the line after it") {
    const auto found = problems(of_k05.substr(0, 40) + "\nsee you; end of the week\n" + of_k06);
    REQUIRE(found.size() == 1);
    CHECK_THAT(found[0], Contains("cut short at its end"));
    CHECK_THAT(problems(of_k05.substr(0, 40) + "\n" + of_k06)[0], Contains("cut short at its end"));
    std::string changed = of_k05;
    changed[changed.find("2a=4") + 3] = '3';
    changed.insert(of_k05.size() / 2, "\n");
    CHECK_THAT(problems(changed)[0], Contains("was changed"));
}

TEST_CASE("a line copied twice counts once") {
    const auto found = read(of_k05 + "\n" + of_k06 + "\n" + of_k05);
    CHECK(found.problems.empty());
    CHECK(found.added.size() == 3);
    CHECK(found.repeated == 1);
}

TEST_CASE("pieces of a line are refused") {
    CHECK_THAT(problems(of_k05.substr(0, 40))[0], Contains("cut short at its end"));
    CHECK_THAT(problems(of_k05.substr(3))[0], Contains("cut short at its start"));
    CHECK_THAT(problems("12q7,pure-1,2026-12-09,7a=3")[0], Contains("cut short at its start"));
}

TEST_CASE("a line of somebody else is refused where one candidate's are read") {
    CHECK(problems(of_k05, "K05").empty());
    CHECK_THAT(problems(of_k06, "K05")[0], Contains("of candidate K06, not of K05"));
    const std::string stolen = to_text(ReturnedLine{"K05", {done("2q1", {"1=2"})}});
    CHECK_THAT(problems(stolen, "K05")[0], Contains("2q1 is another candidate's"));
}

TEST_CASE("what a line says is held against what is on file") {
    const auto one = [](const LineRetry& retry) { return problems(to_text(ReturnedLine{"K05", {retry}})); };
    LineRetry other_paper = done("1q1", {"1=3"});
    other_paper.paper = "pure-2";
    CHECK_THAT(one(other_paper)[0], Contains("question 1 of pure-1"));
    CHECK_THAT(one(done("1q1", {"1=4"}))[0], Contains("1"));
    CHECK_THAT(one(done("1q1", {"1=3"}, today + Days{1}))[0], Contains("after today"));
    CHECK_THAT(one(done("1q2", {"2a=4"}))[0], Contains("2b"));
    CHECK_THAT(one(done("1q3", {"3=1"}))[0], Contains("no question 3"));
}

TEST_CASE("text without a line or a piece of one is a table") {
    CHECK_FALSE(holds_returned_lines("candidate,retry,marks\nK05,1q1,3\n"));
    CHECK(holds_returned_lines(of_k05));
    CHECK(holds_returned_lines(of_k05.substr(0, 30)));
    CHECK(holds_returned_lines(of_k05.substr(9)));
}
