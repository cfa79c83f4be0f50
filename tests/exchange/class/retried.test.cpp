#include "exchange/class/retried_import.hpp"

#include "catch.hpp"
#include "exchange/csv/csv.hpp"
#include "exchange/document/stores.hpp"
#include "inkturn/store/change.hpp"
#include "problems.hpp"

#include <sstream>
#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::Matches;
using Catch::Matchers::StartsWith;
using Texts = std::vector<std::string>;

const Paper pure_1({"pure-1", "", "", std::nullopt, RetryBy::question},
                   {{"1", Marks(3), "", ""}, {"2a", Marks(4), "", ""}, {"2b", Marks(6), "", ""}});

/// K05 (sitting 1) and 007 (sitting 2) missed both questions 16 days ago.
struct Class {
    Store store = empty_store();

    Class() {
        change(store, [&](Store::Change& open) {
            open.add_paper(pure_1);
            open.add_sitting("K05", pure_1, {today - Days{16}, ExtraTime(), parse_line(pure_1, "1 1 2")});
            open.add_sitting("007", pure_1, {today - Days{16}, ExtraTime(), parse_line(pure_1, "0 4 1")});
            open.add_class("tuesday");
            open.add_member("tuesday", "K05");
        });
    }

    ClassRetried read(const std::string& text, const Texts& accepted = {}, std::optional<Day> date = today,
                      const std::optional<std::string>& of_class = {}) const {
        std::istringstream in(text);
        CsvReader rows(in, {});
        return read_class_retried(store, rows, {{date, today, {}, accepted}, of_class});
    }
    Texts problems(const std::string& text, std::optional<Day> date = today) const {
        return texts_of(read(text, {}, date).problems.items);
    }
    void record(const ClassRetried& retried) {
        change(store, [&](Store::Change& open) {
            for (const RetriedOnce& one : retried.added)
                open.add_reattempt(one.id.sitting, one.reattempt);
        });
    }
};

/// `K05 1q2 4 2+1:slip`.
Texts lines_of(const std::vector<RetriedOnce>& added) {
    Texts texts;
    for (const RetriedOnce& one : added)
        texts.push_back(one.candidate + " " + to_text(one.id) + " " + to_line(one.reattempt.parts));
    return texts;
}

Texts doubts_of(const ClassRetried& retried) {
    Texts texts;
    for (const FileDoubt& doubt : retried.doubts.open())
        texts.push_back(answers_to(doubt.kind).as_read.name + (": " + text_of(doubt.at)));
    return texts;
}

TEST_CASE("a file with a row a part records re-attempts by inks and reasons") {
    const Class on;
    const ClassRetried retried =
        on.read("candidate,retry,paper,question,part,max,by,date,in_time,overtime,corrected,reason\n"
                "K05,1q2,pure-1,2,2a,4,2026-12-01,,4,,,\n"
                "K05,1q2,pure-1,2,2b,6,2026-12-01,,2,1,3,slip\n"
                "K05,1q1,pure-1,1,1,3,2026-12-01,,,,,\n");
    CHECK(retried.problems.empty());
    CHECK(lines_of(retried.added) == Texts{"K05 1q2 4 2+1+3:slip"});
    CHECK_FALSE(retried.added[0].got);
    CHECK(retried.added[0].missed == Marks(3));
    CHECK(retried.left_open == 1);
    CHECK(retried.rows == 3);
}

TEST_CASE("a file with a row a retry takes marks as they are typed") {
    const Class on;
    const ClassRetried retried = on.read("code;paper;question;marks;date\n"
                                         "K05;PURE-1;Q2;2a=4 2b=2+1:slip;2026-11-24\n"
                                         "K05;pure-1;1;full;2026-11-25\n"
                                         "007;pure-1;1;2+1;\n");
    CHECK(retried.problems.empty());
    CHECK(lines_of(retried.added) == Texts{"007 2q1 2+1", "K05 1q2 4 2+1:slip", "K05 1q1 3"});
    CHECK(retried.added[0].reattempt.day == today);
    CHECK(retried.added[1].reattempt.day == today - Days{1});
    CHECK(retried.added[2].got);
}

TEST_CASE("marks in one column may stand beside the parts, and a part that was got may be left out") {
    const Class on;
    const ClassRetried retried =
        on.read("candidate,retry,part,marks\n007,2q2,2a,not-set\n007,2q2,2b,5:slip\n");
    CHECK(retried.problems.empty());
    CHECK(lines_of(retried.added) == Texts{"007 2q2 not-set 5:slip"});
}

TEST_CASE("a file that was recorded changes nothing the second time, whichever way it names the retries") {
    Class on;
    for (const std::string text : {"candidate,paper,question,marks\nK05,pure-1,2,2a=4 2b=2+1:slip\n",
                                   "candidate,retry,marks\nK05,1q1,2\n"}) {
        on.record(on.read(text));
        const ClassRetried again = on.read(text);
        CHECK(again.problems.empty());
        CHECK(again.added.empty());
        CHECK(again.unchanged == 1);
    }
    CHECK_THAT(on.problems("candidate,paper,question,marks\nK05,pure-1,1,3\n").at(0),
               StartsWith("2:1 retry 1q1 was recorded on 2026-11-25 with other marks"));
}

TEST_CASE("a code that a sheet guards against being a formula is the one on file") {
    Class on;
    change(on.store, [&](Store::Change& open) {
        open.add_sitting("=K08", pure_1, {today - Days{16}, ExtraTime(), parse_line(pure_1, "1 4 6")});
    });
    CHECK(lines_of(on.read("candidate,retry,marks\n'=K08,3q1,3\n").added) == Texts{"=K08 3q1 3"});
}

TEST_CASE("a turn may follow another in one file") {
    const Class on;
    const ClassRetried retried =
        on.read("candidate,retry,marks,date\nK05,1q1,2,2026-11-24\nK05,1q1t2,3,2026-11-25\n", {"early"});
    CHECK(retried.problems.empty());
    CHECK(lines_of(retried.added) == Texts{"K05 1q1 2", "K05 1q1t2 3"});
}

TEST_CASE("what is wrong with a file of re-attempts is a problem with its place") {
    const Class on;
    const std::string head = "candidate,retry,paper,question,part,in_time,overtime,reason,date\n";
    const auto one = [&](const std::string& rows) {
        const Texts problems = on.problems(head + rows);
        REQUIRE(problems.size() == 1);
        return problems.front();
    };
    CHECK_THAT(one("K06,1q1,,,1,3,,,\n"), Matches("2:5 no candidate 'K06' on file; correct the code"));
    CHECK_THAT(one("K05,2q1,,,1,3,,,\n"), Matches("2:5 retry 2q1 is another candidate's, not K05's: .*"));
    CHECK_THAT(one("K05,9q1,,,1,3,,,\n"), Matches("2:5 retry 9q1 is of no sitting on file: .*"));
    CHECK_THAT(one("K05,7,,,1,3,,,\n"), Matches("2:5 '7' is not a retry's id"));
    CHECK_THAT(one("K05,1q1,,2,1,3,,,\n"),
               Matches("2:5 retry 1q1 is question 1 of pure-1, and the row says 2: .*"));
    CHECK_THAT(one("K05,,pure-2,1,1,3,,,\n"), Matches("2:1 no paper pure-2 on file.*"));
    CHECK_THAT(one("K05,,pure-1,3,1,3,,,\n"), Matches("2:1 paper pure-1 has no question 3.*"));
    CHECK_THAT(one("K05,,,,1,3,,,\n"), Matches("2:0 the row names no retry: .*"));
    CHECK_THAT(one(",1q1,,,1,3,,,\n"), Matches("2:1 the row names no candidate.*"));
    CHECK_THAT(one("K05,1q1,,,1,4,,,\n"), Matches("2:13 part 1, marks '4': above the maximum of 3"));
    CHECK_THAT(one("K05,1q1,,,1,\"2,5\",,,\n"), Matches("2:13 marks '2,5': marks are whole numbers.*"));
    CHECK_THAT(one("K05,1q1,,,2a,3,,,\n"), Matches("2:14 part 2a is none that the retry of question 1 .*"));
    CHECK_THAT(one("K05,1q1,,,1,,1,,\n"), Matches("2:13 no marks in time beside what else is written.*"));
    CHECK_THAT(one("K05,1q1,,,1,3,,,2026-11-26\n"),
               Matches("2:.* the re-attempt on 2026-11-26 is after today.*"));
    CHECK_THAT(one("K05,1q1,,,1,3,,,10/11/2026\n"), Matches("2:.* use --date-order dmy, mdy or ymd"));
    CHECK_THAT(one("K05,1q1,,,1,3,,,2026-11-01\n"), Matches("2:5 retry 1q1 on 2026-11-01: .*"));
    CHECK_THAT(one("K05,1q2,,,2a,4,,,\n"), Matches("2:5 no marks for 2b.*"));
    CHECK_THAT(one("K05,1q2,,,2a,4,,,\nK05,1q2,,,2b,,,,\n"), Matches("3:.* no mark for 2b, though .*"));
    CHECK_THAT(one("K05,1q1,,,1,3,,,\nK05,1q1,,,1,3,,,\n"),
               Matches("3:.* part 1 appears twice for this retry, .*"));
    CHECK_THAT(one("K05,1q1,,,1,3,,,\nK05,,pure-1,1,1,3,,,\n"),
               Matches("3:1 retry 1q1 is already in line 2: leave one out"));
}

TEST_CASE("marks need a day, a header and, in a class, a member") {
    const Class on;
    CHECK_THAT(on.problems("candidate,retry,marks\nK05,1q1,3\n", std::nullopt).at(0),
               Matches("2:.* no date: .*"));
    CHECK_THAT(on.problems("candidate,1,2\nK05,3,4\n").at(0),
               Matches("1:0 no line at the top is a header: .*"));
    CHECK_THAT(on.problems("candidate,retry\nK05,1q1\n").at(0),
               Matches("1:0 the header has no column for marks.*"));
    CHECK_THAT(on.problems("candidate,retry,marks\n").at(0), Matches("1:0 no rows below the header.*"));
    const ClassRetried other = on.read("candidate,retry,marks\n007,2q1,3\n", {}, today, "tuesday");
    CHECK_THAT(texts_of(other.problems.items).at(0),
               Matches("2:5 candidate 007 is not in class tuesday: .*"));
}

TEST_CASE("what is plausible but doubtful waits for an answer") {
    const Class on;
    CHECK(doubts_of(on.read("candidate,retry,marks,date\nK05,1q1,3,2026-11-20\n")) ==
          Texts{"early: 2:5 retry 1q1 was done on 2026-11-20, before its window opens on 2026-11-23"});
    CHECK(on.read("candidate,retry,marks,date\nK05,1q1,3,2026-11-20\n", {"early"}).added.size() == 1);
    CHECK_THAT(doubts_of(on.read("candidate,retry,marks\n7,2q1,3\n")).at(0),
               StartsWith("known-codes: 2:3 the codes '7' and '007', which is on file, differ"));
    CHECK(lines_of(on.read("candidate,retry,marks\n7,2q1,3\n", {"known-codes"}).added) == Texts{"007 2q1 3"});
    const std::string untried = "candidate,retry,marks\nK05,1q2,2a=- 2b=-\n";
    CHECK_THAT(doubts_of(on.read(untried)).at(0),
               StartsWith("not-done: 2:5 candidate K05 attempted no part"));
    CHECK(on.read(untried, {"not-done"}).left_open == 1);
    CHECK(on.read(untried, {"not-done"}).added.empty());
    CHECK(lines_of(on.read(untried, {"no-marks"}).added) == Texts{"K05 1q2 - -"});
    CHECK_THAT(doubts_of(on.read("candidate,retry,marks,Locker\nK05,1q1,3,17\n")).at(0),
               StartsWith("columns: 1:23 the column 'Locker'"));
    CHECK(on.read("candidate,retry,marks,Comment\nK05,1q1,3,good\n").columns_ignored == Texts{"Comment"});
}

} // namespace
