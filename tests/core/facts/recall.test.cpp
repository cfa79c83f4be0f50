#include "inkturn/facts/recall.hpp"

#include "catch.hpp"
#include "inkturn/base/error.hpp"

#include <algorithm>
#include <random>
#include <set>
#include <string>
#include <vector>

namespace {

using namespace inkturn;
using Catch::Matchers::Equals;

constexpr Day today{date::year{2026} / date::November / 25};

Fact fact(int id, const std::string& topic = "", const std::string& subject = "pure") {
    return {FactId{id}, "prompt " + std::to_string(id), "answer", topic, subject};
}

std::vector<FactId> ids(const std::vector<int>& numbers) {
    std::vector<FactId> ids;
    for (const int number : numbers)
        ids.push_back(FactId{number});
    return ids;
}

/// Logged so many days ago, with these facts missed.
Sheet logged(int id, int days_ago, const std::vector<int>& facts, const std::set<int>& missed) {
    Sheet sheet = sheet_of(ids(facts), today - Days{days_ago});
    sheet.id = SheetId{id};
    std::vector<int> rows;
    for (const Sheet::Row& row : sheet.rows)
        if (missed.count(static_cast<int>(row.fact)) > 0)
            rows.push_back(row.number);
    sheet.log = take_log(sheet, rows, sheet.day, today);
    return sheet;
}

Exam exam(int days_ahead, const std::string& subject = "") {
    return {"Paper", today + Days{days_ahead}, subject};
}

/// "first-last" in days from today, with "late" where it is; "none" where no day is left.
std::string text_of(const DueFact& due) {
    if (!due.possible_days)
        return "none";
    return std::to_string((due.possible_days->first - today).count()) + "-" +
           std::to_string((due.possible_days->last - today).count()) + (due.late ? " late" : "");
}

/// What the only fact is due.
std::string due_text(const std::vector<Sheet>& sheets, const std::vector<Exam>& exams = {}) {
    const auto due = facts_due({fact(1)}, sheets, exams, today);
    return due.empty() ? "not asked" : text_of(due.at(0));
}

} // namespace

TEST_CASE("a fact that was never asked is asked within a week, before the exam") {
    CHECK(due_text({}) == "0-6");
    CHECK(due_text({}, {exam(6)}) == "0-5");
    CHECK(due_text({}, {exam(1)}) == "0-0");
    CHECK(due_text({}, {exam(7)}) == "0-6");
    CHECK(due_text({}, {exam(3, "mechanics")}) == "0-6");
    CHECK(due_text({}, {exam(3, "pure"), exam(-3)}) == "0-2");
    CHECK_FALSE(facts_due({fact(1)}, {}, {}, today).at(0).window);
    CHECK(facts_due({fact(1)}, {}, {}, latest_day).at(0).possible_days->last == latest_day);
}

TEST_CASE("facts that were never asked have a week for every sixty of their subject") {
    const auto last_day_of = [](int count, int asked) {
        std::vector<Fact> facts{fact(1000, "", "mechanics")};
        for (int id = 1; id <= count + asked; ++id)
            facts.push_back(fact(id));
        std::vector<Sheet> sheets;
        if (asked > 0)
            sheets.push_back(logged(1, 1, {1}, {}));
        const auto due = facts_due(facts, sheets, {}, today);
        CHECK(text_of(due.front()) == "0-6");
        return text_of(due.back());
    };
    CHECK(last_day_of(60, 0) == "0-6");
    CHECK(last_day_of(60, 1) == "0-6");
    CHECK(last_day_of(61, 0) == "0-13");
    CHECK(last_day_of(120, 0) == "0-13");
    CHECK(last_day_of(121, 1) == "0-20");
}

TEST_CASE("a sheet that is not logged has not asked its facts yet") {
    CHECK(due_text({sheet_of(ids({1}), today)}) == "0-6");
}

TEST_CASE("a missed fact comes back in the window of a retry, a recalled one does not") {
    CHECK(due_text({logged(1, 0, {1}, {1})}) == "14-21");
    CHECK(due_text({logged(1, 16, {1}, {1})}) == "0-5");
    CHECK(due_text({logged(1, 21, {1}, {1})}) == "0-0");
    CHECK(due_text({logged(1, 22, {1}, {1})}) == "0-7 late");
    CHECK(due_text({logged(1, 0, {1}, {})}) == "not asked");
    CHECK(due_text({logged(1, 20, {1}, {1}), logged(2, 3, {1}, {})}) == "not asked");
    CHECK(due_text({logged(1, 20, {1}, {}), logged(2, 3, {1}, {1})}) == "11-18");
}

TEST_CASE("an exam squeezes the window of a missed fact and may leave it none") {
    CHECK(due_text({logged(1, 0, {1}, {1})}, {exam(6, "pure")}) == "1-5");
    CHECK(due_text({logged(1, 0, {1}, {1})}, {exam(1)}) == "none");
    CHECK(due_text({logged(1, 0, {1}, {1})}, {exam(6, "mechanics")}) == "14-21");
    CHECK(due_text({logged(1, 10, {1}, {1})}, {exam(-2), exam(9)}) == "1-8");
}

TEST_CASE("the sheet of today asks what is due, by subject, topic and number") {
    const std::vector<Fact> facts{fact(1, "trig"), fact(2, "logs"), fact(3, "", "mechanics"), fact(4, "logs"),
                                  fact(5, "trig")};
    const auto due = facts_due(facts, {logged(1, 1, {5, 4}, {5})}, {}, today);
    CHECK(facts_for_sheet(facts, due, today) == ids({3, 2, 1}));
    CHECK(count_due(due, today) == 3);
    CHECK(facts_for_sheet(facts, due, today, {{FactId{2}, today + Days{1}}, {FactId{1}, today}}) ==
          ids({3, 1}));
    CHECK(count_due(due, today, {{FactId{2}, today + Days{1}}}) == 2);
    CHECK(facts_for_sheet(facts, due, today + Days{13}) == ids({5}));
}

TEST_CASE("where more is due than a sheet holds, what ends first is on it") {
    std::vector<Fact> facts;
    for (int id = 1; id <= 23; ++id)
        facts.push_back(fact(id));
    const auto due = facts_due(facts, {logged(1, 21, {22}, {22}), logged(2, 22, {23}, {23})}, {}, today);
    const std::vector<FactId> asked = facts_for_sheet(facts, due, today);
    REQUIRE(asked.size() == 20);
    CHECK(asked.back() == FactId{22});
    CHECK(asked[18] == FactId{19});
    CHECK(count_due(due, today) == 23);
}

TEST_CASE("a sheet of a topic asks first what is due, then what was not asked for longest") {
    const std::vector<Fact> facts{fact(1, "trig"), fact(2, "trig"), fact(3, "trig"), fact(4, "logs"),
                                  fact(5, "trig")};
    const std::vector<Sheet> sheets{logged(1, 9, {1, 2, 4}, {}), logged(2, 3, {2, 3}, {})};
    const auto due = facts_due(facts, sheets, {}, today);
    CHECK(facts_of_topic(facts, due, sheets, "trig", today) == ids({5, 1, 2, 3}));
    CHECK_THROWS_WITH(facts_of_topic(facts, due, sheets, "vectors", today),
                      Equals("no fact of topic 'vectors' on file"));
    std::vector<Fact> many;
    for (int id = 1; id <= 30; ++id)
        many.push_back(fact(id, "trig"));
    CHECK(facts_of_topic(many, {}, {}, "trig", today).size() == 20);
}

TEST_CASE("where none is due, a sheet is written of the topic that comes round first, or was not asked for "
          "longest") {
    const std::vector<Fact> facts{fact(1), fact(2, "trig"), fact(3, "logs")};
    const auto topic = [&](const std::vector<Sheet>& sheets) {
        return topic_to_recall(facts, facts_due(facts, sheets, {}, today), sheets);
    };
    CHECK(topic({logged(1, 9, {1, 2}, {}), logged(2, 3, {3}, {})}) == "trig");
    CHECK(topic({logged(1, 3, {1, 2}, {}), logged(2, 9, {3}, {})}) == "logs");
    CHECK(topic({logged(1, 9, {1, 2}, {}), logged(2, 3, {3}, {3})}) == "logs");
    CHECK(topic_to_recall({fact(1)}, {}, {}).empty());
}

TEST_CASE("what has the same subject and days left is asked together, twenty at most, by topic") {
    std::vector<Fact> facts{fact(1, "trig"), fact(2, "logs"), fact(3, "", "mechanics"), fact(4, "logs")};
    auto groups = recall_groups(facts, facts_due(facts, {logged(1, 22, {4}, {4})}, {}, today));
    REQUIRE(groups.size() == 3);
    CHECK(groups[0].facts == ids({3}));
    CHECK(groups[0].subject == "mechanics");
    CHECK(groups[1].facts == ids({2, 1}));
    CHECK(groups[1].duration == Seconds(90));
    CHECK(groups[1].possible_days.last == today + Days{6});
    CHECK_FALSE(groups[1].late);
    CHECK(groups[2].facts == ids({4}));
    CHECK(groups[2].late);

    CHECK(recall_groups(facts, facts_due(facts, {logged(1, 0, {1, 2, 3, 4}, {1, 2})}, {exam(1)}, today))
              .empty());
    for (int id = 5; id <= 43; ++id)
        facts.push_back(fact(id, "vectors"));
    groups = recall_groups(facts, facts_due(facts, {}, {}, today));
    REQUIRE(groups.size() == 4);
    CHECK(groups[1].facts.size() == 20);
    CHECK(groups[2].facts.size() == 20);
    CHECK(groups[3].facts == ids({42, 43}));
}

TEST_CASE(
    "whatever was logged: what is due is in one group, is missed or new, and has days before the exam") {
    std::mt19937 bits(25);
    const auto below = [&](int end) { return static_cast<int>(bits() % static_cast<unsigned>(end)); };
    int in_groups = 0;
    for (int round = 0; round < 400; ++round) {
        CAPTURE(round);
        std::vector<Fact> facts;
        for (int id = 1; id <= 30; ++id)
            facts.push_back(fact(id, below(2) == 0 ? "trig" : "logs", below(2) == 0 ? "pure" : ""));
        std::vector<Sheet> sheets;
        for (int id = 1; id <= 6; ++id) {
            std::set<int> asked;
            std::set<int> missed;
            for (int i = 0; i < 8; ++i) {
                asked.insert(1 + below(30));
                missed.insert(1 + below(30));
            }
            sheets.push_back(logged(id, below(40), {asked.begin(), asked.end()}, missed));
        }
        const std::vector<Exam> exams{exam(below(30) - 5, "pure")};
        const auto due = facts_due(facts, sheets, exams, today);

        std::multiset<FactId> grouped;
        for (const RecallGroup& group : recall_groups(facts, due)) {
            CHECK(group.facts.size() <= Sheet::max_rows);
            CHECK(group.duration == time_for_fact * static_cast<int>(group.facts.size()));
            CHECK((group.possible_days.first >= today &&
                   group.possible_days.first <= group.possible_days.last));
            for (const FactId id : group.facts) {
                grouped.insert(id);
                CHECK(find_fact(facts, id)->subject == group.subject);
            }
        }
        const auto last = last_recalls(sheets);
        std::size_t with_days = 0;
        for (const DueFact& one : due) {
            const auto asked = last.find(one.fact);
            CHECK((asked == last.end() || asked->second.missed));
            CHECK(one.late == (one.window && one.window->closes < today));
            with_days += one.possible_days.has_value();
            CHECK(grouped.count(one.fact) == (one.possible_days ? 1U : 0U));
            if (one.possible_days && find_fact(facts, one.fact)->subject == "pure" && exams[0].day > today)
                CHECK(one.possible_days->last < exams[0].day);
        }
        CHECK(grouped.size() == with_days);
        in_groups += static_cast<int>(with_days);
    }
    CHECK(in_groups > 4000);
}
