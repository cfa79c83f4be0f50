#include "view/text/timetable.hpp"

#include "catch.hpp"
#include "view/text/checks.hpp"
#include "view/text/lines.hpp"

#include <algorithm>
#include <memory>
#include <string>

namespace {

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::Contains;

constexpr Day monday{date::year{2026} / date::November / 30};

WorkItem sitting(int minutes) {
    PaperToSit paper;
    paper.number = 3;
    paper.allowance = std::chrono::minutes{minutes};
    return {paper, std::chrono::minutes{minutes}, DaySpan{monday, monday}, monday};
}

WorkItem relearning(int piece) {
    return {TopicToRelearn{"pure", "vectors", Marks(4), {monday, monday}, piece},
            TopicToRelearn::time_of_piece, DaySpan{monday, monday}, monday};
}

PlannedDay day_of(int available, std::vector<WorkItem> items, int reserved = 0) {
    PlannedDay day{monday,     std::chrono::minutes{available},
                   Seconds(0), std::chrono::minutes{reserved},
                   Seconds(0), false,
                   {}};
    for (const WorkItem& item : items)
        day.planned += item.duration;
    day.items = std::move(items);
    return day;
}

Plan plan_of(std::vector<PlannedDay> days) {
    Plan plan;
    plan.days = std::move(days);
    return plan;
}

} // namespace

TEST_CASE("a week's bar shows what is planned, reserved and free") {
    const std::string week = text_of(week_table(plan_of(
        {day_of(100, {sitting(50)}, 25), day_of(100, {}), day_of(0, {}), day_of(30, {sitting(60)})})));
    CHECK_THAT(week, Contains("########++++....   75%"));
    CHECK_THAT(week, Contains("................    0%"));
    CHECK_THAT(week, Contains("free"));
    CHECK_THAT(week, Contains("################  200%"));
}

TEST_CASE("what was done today counts, in a column of its own") {
    PlannedDay today = day_of(60, {relearning(1)});
    CHECK_THAT(text_of(plan_table(plan_of({today}), {})), !Contains("done") && Contains(" 50%"));
    today.done = Seconds(900);
    CHECK_THAT(text_of(plan_table(plan_of({today}), {})),
               Contains("done") && Contains("15:00") && Contains(" 75%"));
    CHECK_THAT(text_of(week_table(plan_of({today}))), Contains("====########...."));
}

TEST_CASE("however little is planned shows in the day's bar") {
    CHECK_THAT(text_of(week_table(plan_of({day_of(1000, {sitting(1)})}))), Contains(" #............... "));
}

TEST_CASE("a plan's days name their work, those without any are left out") {
    const std::string table =
        text_of(plan_table(plan_of({day_of(120, {sitting(60), relearning(2)}), day_of(60, {})}), {}));
    CHECK_THAT(table, Contains("sit paper 3; relearn vectors (half)\n"));
    CHECK_THAT(table, !Contains("reserved"));
    CHECK(std::count(table.begin(), table.end(), '\n') == 2);
    CHECK_THAT(text_of(plan_table(plan_of({day_of(60, {}, 10)}), {})), Contains("reserved"));
}

TEST_CASE("both halves of a topic on a day are one hour") {
    const PlannedDay day = day_of(120, {sitting(60), relearning(1), relearning(2)});
    CHECK_THAT(text_of(plan_table(plan_of({day}), {})), Contains("sit paper 3; relearn vectors\n"));
    const auto joined = with_halves_joined(day.items);
    REQUIRE(joined.size() == 2);
    CHECK(long_text(joined[1]) == "relearn vectors, 1:00:00");
    CHECK(long_text(day.items[1]) == "relearn vectors (half), 30:00");
    CHECK(texts_of({{WorkPurpose::relearn, "pure", "vectors", 1, monday, Seconds(1800)},
                    {WorkPurpose::relearn, "pure", "vectors", 2, monday, Seconds(1800)},
                    {WorkPurpose::relearn, "pure", "series", 2, monday, Seconds(1800)}},
                   Candidate{}) ==
          std::vector<std::string>{"relearn vectors, 1:00:00", "relearn series (half), 30:00"});
}

TEST_CASE("a plan's days name their exams, on days without work too") {
    const std::vector<Exam> exams{
        {"Paper 1", monday, "pure"}, {"All of it", monday, ""}, {"Other", monday + Days{1}, ""}};
    CHECK(exams_on(exams, monday) == std::vector<std::string>{"exam: Paper 1 (pure)", "exam: All of it"});
    CHECK_THAT(
        text_of(plan_table(plan_of({day_of(60, {})}), exams)),
        Contains("exam: Paper 1 (pure);\n                                            exam: All of it\n"));
    CHECK_THAT(text_of(plan_table(plan_of({day_of(60, {sitting(60)})}), {exams[1]})),
               Contains("exam: All of it; sit paper 3\n"));
}

TEST_CASE("no work of a day is cut off, however much there is") {
    std::vector<WorkItem> items;
    for (int i = 0; i < 12; ++i)
        items.push_back(i % 2 == 0 ? relearning(1) : sitting(30));
    const std::string table = text_of(plan_table(plan_of({day_of(400, items)}), {}));
    std::string words = table;
    std::replace(words.begin(), words.end(), '\n', ' ');
    std::size_t found = 0;
    for (std::size_t at = words.find("relearn"); at != std::string::npos; at = words.find("relearn", at + 1))
        ++found;
    CHECK(found == 6);
    CHECK_THAT(table, !Contains(".."));
    std::istringstream lines(table);
    for (std::string line; std::getline(lines, line);)
        CHECK(line.size() <= Table::full_width);
}

TEST_CASE("work is counted by kind, a topic once for all its pieces") {
    CHECK(counted_work(plan_of({day_of(300, {relearning(1), relearning(2), sitting(60)})})) ==
          "1 paper, 1 topic");
    CHECK(counted_work(plan_of({day_of(300, {})})) == "Nothing to do");
}

TEST_CASE("a check says what it is of, and which command draws its questions") {
    const auto checking = [](const std::string& subject, const std::string& topic) {
        return WorkItem{TopicToCheck{subject, topic, monday, {}, false, {topic}}, TopicToCheck::duration,
                        DaySpan{monday, monday}, monday};
    };
    const WorkItem logs = checking("pure", "logs");
    CHECK(short_text(logs) == "check logs");
    CHECK(long_text(logs) == "check logs: 15 min of unseen questions (inkturn paper draw)");
    const Plan two = plan_of({day_of(60, {logs, checking("", "by parts")}), day_of(60, {logs})});
    CHECK(counted_work(two) == "3 checks");
    CHECK(checks_text(two, {{"check-logs-1"}, {}}) ==
          "To check by parts: inkturn paper draw --topic='by parts' --minutes 15 --unseen\n  --id "
          "check-by-parts-1\n"
          "To check logs: inkturn paper draw --topic=logs --subject=pure --minutes 15\n  --unseen --id "
          "check-logs-2\n");
    CHECK(checks_text(plan_of({day_of(60, {logs})}),
                      {{"check-logs-1"}, {{"check-logs-1", "pure", {{"logs"}}, Seconds(600)}}}) ==
          "To check logs: inkturn sit check-logs-1\n");
    CHECK(checks_text(plan_of({day_of(60, {sitting(60)})}), {}).empty());
    const std::vector<PlannedWork> on_file{
        {WorkPurpose::check, "", "by parts", 0, monday, TopicToCheck::duration}};
    CHECK(texts_of(on_file, {}) ==
          std::vector<std::string>{"check by parts: 15 min of unseen questions (inkturn paper draw)"});
    CHECK(checks_text(on_file, {}, {}) == "To check by parts: inkturn paper draw --topic='by parts' "
                                          "--minutes 15 --unseen\n  --id check-by-parts-1\n");
}

TEST_CASE("work on the day of an exam is said to be there") {
    Timetable timetable;
    timetable.items = {relearning(1), relearning(2), sitting(60)};
    CHECK(on_exam_days_text(timetable, {{"Paper 1", monday + Days{1}, "pure"}}).empty());
    CHECK(on_exam_days_text(timetable, {{"Paper 1", monday, "pure"}}) ==
          "On the day of Paper 1 (pure), as no other day is left: relearn vectors and sit\n  paper 3.\n");
}

TEST_CASE("a mock is called one") {
    const std::vector<Exam> mock{{"Paper 1", monday, "pure", true}};
    CHECK(exams_on(mock, monday) == std::vector<std::string>{"mock: Paper 1 (pure)"});
    CHECK_THAT(text_of(plan_table(plan_of({day_of(60, {})}), mock)), Contains("mock: Paper 1 (pure)\n"));
}

TEST_CASE("a subject's line names exam, last useful sitting, and what comes too late or on no day") {
    SubjectAhead pure{"pure", monday + Days{60}, false, monday + Days{38}, 0, 0, 4, 1, {"pure-4"}};
    const std::string text = subject_text(pure, monday);
    CHECK_THAT(text, Contains("pure: exam on Fri 29 Jan 2027, 4 papers to sit."));
    CHECK_THAT(text, Contains("Thu 7 Jan 2027: a question missed"));
    CHECK_THAT(text, Contains("1 of 4 papers"));
    CHECK_THAT(text, Contains("(25%)"));
    CHECK_THAT(text, Contains("pure-4"));
    CHECK_THAT(subject_text(pure, monday + Days{39}), Contains("sitting was on"));
    CHECK_THAT(subject_text({"", {}, false, {}, 0, 0, 2, 0, {}}, monday),
               Contains("Papers without a subject: 2 papers to sit, one a week, as no exam for them is "
                        "on\nfile."));
    pure.wished = 5;
    CHECK_THAT(subject_text(pure, monday), !Contains("already sat"));
    pure.sat = 1;
    CHECK_THAT(subject_text(pure, monday), Contains("Of the 5 asked for, 1 is already sat."));
    CHECK_THAT(subject_text({"pure", {}, true, {}, 0, 0, 0, 0, {}}, monday), Contains("last exam has come"));
}

TEST_CASE("where only papers to sit have no day, that is what is said") {
    Timetable timetable;
    timetable.fit = PlanFit::too_little_time;
    timetable.short_by = std::chrono::minutes{75};
    CHECK_THAT(verdict_text(timetable), Contains("too little room: short by 1:15:00"));
    WorkItem paper = sitting(60);
    paper.day.reset();
    paper.possible_days = DaySpan{monday, monday};
    timetable.items = {paper};
    CHECK(verdict_text(timetable) ==
          "Not every paper still to be sat has a day: short by 1:15:00, whatever the\n  plan.\n");
    WorkItem other = relearning(1);
    other.day = monday;
    timetable.items.push_back(other);
    CHECK_THAT(verdict_text(timetable), Contains("All other work has its day."));
    other.day.reset();
    other.possible_days.reset();
    timetable.items.push_back(other);
    CHECK_THAT(verdict_text(timetable), Contains("All else that still has days left has one."));
    timetable.items.back().possible_days = DaySpan{monday, monday};
    CHECK_THAT(verdict_text(timetable), Contains("It does not fit"));
}

TEST_CASE("a shortage is shown with what would make it fit; a fit is not mentioned") {
    Timetable timetable;
    CHECK(short_text(timetable, {}).empty());
    CHECK(verdict_text(timetable).empty());
    timetable.fit = PlanFit::not_found;
    timetable.not_placed_time = Seconds(1800);
    CHECK(verdict_text(timetable) ==
          "No plan was found that fits, though there may be one: 30:00 has no day.\n");
    timetable.items.push_back({TopicToRelearn{"pure", "vectors", Marks(4), {monday, monday}, 1},
                               Seconds(1800), DaySpan{monday, monday}, std::nullopt});
    CHECK_THAT(short_text(timetable, {}), Contains("Not placed: ") && Contains("vectors"));
    timetable.fit = PlanFit::too_little_time;
    timetable.short_by = std::chrono::minutes{75};
    CHECK(verdict_text(timetable) == "It does not fit: short by 1:15:00, whatever the plan.\n");
    CHECK_THAT(not_placed_text(timetable), Contains("vectors"));
    CHECK_THAT(short_text(timetable, {}), Contains("No single change"));
    timetable.fit = PlanFit::fits;
    CHECK(verdict_text(timetable).empty()); // none of it has a day
    timetable.items.push_back(timetable.items.front());
    timetable.items.back().day = monday;
    CHECK(verdict_text(timetable) ==
          "What still has days left fits: no day has more planned than its time.\n");
    timetable.items.erase(timetable.items.begin());
    CHECK(verdict_text(timetable) == "It fits: no day has more planned than its time.\n");
    CHECK(short_text(timetable, {}).empty());
    timetable.fit = PlanFit::too_little_time;
    const std::string text = short_text(timetable, {MoreTime{Seconds(900)}, LongerDay{Seconds(8100), 5},
                                                    FewerPapers{"further pure", 1, 3},
                                                    UseDaysOff{{monday, monday + Days{1}}, Seconds(5400)}});
    CHECK_THAT(text, Contains("15 more minutes on every day") && Contains("days set sat=135"));
    CHECK_THAT(text, Contains("1 fewer paper of further pure (inkturn plan --papers 3 --subject 'further\n"));
    CHECK_THAT(text, Contains("work on 2 days off (inkturn days on 2026-11-30=90 2026-12-01=90)"));
}

TEST_CASE("the fullest day stands beside what it can't be below, both rounded up") {
    Timetable timetable;
    timetable.fullest_share = 0.852;
    timetable.fullest_share_bound = 0.745;
    CHECK(fullest_text(timetable) ==
          "Fullest day to come: 86% of its time; within the windows it can't be below 75%.\n");
    timetable.fullest_share_bound = 0.851;
    CHECK(fullest_text(timetable) == "Fullest day to come: 86% of its time.\n");
    timetable.fullest_share = timetable.fullest_share_bound = 0.75;
    CHECK(fullest_text(timetable) == "Fullest day to come: 75% of its time.\n");
}

TEST_CASE("changes are listed up to five, then counted") {
    std::vector<PlanChange> changes(7, {WorkKind::sit, "pure-3", monday, monday + Days{1}, false});
    changes[2].not_done = true;
    changes.push_back({WorkKind::sit, "pure-4", monday, std::nullopt, false});
    changes[3] = {WorkKind::retry, "12q7", monday, monday + Days{2}, true};
    const std::string text = changes_text(changes);
    CHECK_THAT(text, Contains("Moved: sit pure-3 from Mon 30 Nov 2026 to Tue 1 Dec 2026.\n"));
    CHECK_THAT(text, !Contains("pure-4"));
    CHECK_THAT(text, Contains("Not done on Mon 30 Nov 2026: sit pure-3; now on Tue 1 Dec 2026.\n  retry "
                              "12q7; now on Wed 2 Dec 2026.\n"));
    CHECK_THAT(text, Contains("And 2 more.\n"));
    CHECK(changes_text({}).empty());
}

TEST_CASE("the facts on file for a day are listed as one") {
    const auto texts = texts_of({{WorkPurpose::recall, "", "1", 0, monday, Seconds(45)},
                                 {WorkPurpose::sit, "pure", "pure-3", 0, monday, Seconds(5400)},
                                 {WorkPurpose::recall, "", "2", 0, monday, Seconds(45)},
                                 {WorkPurpose::reservation, "pure", "pure-3", 0, monday, Seconds(600)}},
                                Candidate{});
    CHECK(texts == std::vector<std::string>{"sit pure-3 and mark it, 1:30:00", "recall 2 facts, 1:30"});
}
