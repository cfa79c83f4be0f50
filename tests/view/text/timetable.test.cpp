#include "view/text/timetable.hpp"

#include "catch.hpp"
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
    PlannedDay day{monday, std::chrono::minutes{available}, Seconds(0), std::chrono::minutes{reserved}, {}};
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
    CHECK_THAT(week, Contains("##########+++++.....   75%"));
    CHECK_THAT(week, Contains("....................    0%"));
    CHECK_THAT(week, Contains("free"));
    CHECK_THAT(week, Contains("####################  200%"));
}

TEST_CASE("however little is planned shows in the day's bar") {
    CHECK_THAT(text_of(week_table(plan_of({day_of(1000, {sitting(1)})}))),
               Contains(" #................... "));
}

TEST_CASE("a plan's days name their work, those without any are left out") {
    const std::string table =
        text_of(plan_table(plan_of({day_of(120, {sitting(60), relearning(2)}), day_of(60, {})}), {}));
    CHECK_THAT(table, Contains("sit paper 3;\n") && Contains(" relearn vectors (2 of 2)\n"));
    CHECK_THAT(table, !Contains("reserved"));
    CHECK(std::count(table.begin(), table.end(), '\n') == 3);
    CHECK_THAT(text_of(plan_table(plan_of({day_of(60, {}, 10)}), {})), Contains("reserved"));
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
        items.push_back(relearning(1 + i % 2));
    const std::string table = text_of(plan_table(plan_of({day_of(400, items)}), {}));
    std::string words = table;
    std::replace(words.begin(), words.end(), '\n', ' ');
    std::size_t found = 0;
    for (std::size_t at = words.find("relearn"); at != std::string::npos; at = words.find("relearn", at + 1))
        ++found;
    CHECK(found == 12);
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

TEST_CASE("a mock is called one") {
    const std::vector<Exam> mock{{"Paper 1", monday, "pure", true}};
    CHECK(exams_on(mock, monday) == std::vector<std::string>{"mock: Paper 1 (pure)"});
    CHECK_THAT(text_of(plan_table(plan_of({day_of(60, {})}), mock)), Contains("mock: Paper 1 (pure)\n"));
}

TEST_CASE("a subject's line names exam, last useful sitting, and what comes too late or on no day") {
    SubjectAhead pure{"pure", monday + Days{60}, false, monday + Days{38}, 4, 1, {"pure-4"}};
    const std::string text = subject_text(pure, monday);
    CHECK_THAT(text, Contains("pure: exam on Fri 29 Jan 2027, 4 papers to sit."));
    CHECK_THAT(text, Contains("Thu 7 Jan 2027: a question missed"));
    CHECK_THAT(text, Contains("1 of 4 papers"));
    CHECK_THAT(text, Contains("(25%)"));
    CHECK_THAT(text, Contains("pure-4"));
    CHECK_THAT(subject_text(pure, monday + Days{39}), Contains("sitting was on"));
    CHECK_THAT(subject_text({"", {}, false, {}, 2, 0, {}}, monday),
               Contains("Papers without a subject: 2 papers to sit, one a week, as no exam is on file."));
    CHECK_THAT(subject_text({"pure", {}, true, {}, 0, 0, {}}, monday), Contains("exams are over"));
}

TEST_CASE("a shortage is shown with what would make it fit; a fit is not mentioned") {
    Timetable timetable;
    CHECK(short_text(timetable, {}).empty());
    timetable.fit = PlanFit::not_found;
    CHECK_THAT(short_text(timetable, {}), Contains("No plan was found that fits."));
    timetable.items.push_back({TopicToRelearn{"pure", "vectors", Marks(4), {monday, monday}, 1},
                               Seconds(1800), DaySpan{monday, monday}, std::nullopt});
    CHECK_THAT(short_text(timetable, {}), Contains("Not placed: ") && Contains("vectors"));
    timetable.fit = PlanFit::too_little_time;
    timetable.short_by = std::chrono::minutes{75};
    CHECK_THAT(short_text(timetable, {}), Contains("short by 1:15:00") && Contains("No single change"));
    const std::string text = short_text(timetable, {MoreTime{Seconds(900)}, LongerDay{Seconds(8100), 5},
                                                    FewerPapers{"further pure", 1, 3},
                                                    UseDaysOff{{monday, monday + Days{1}}, Seconds(5400)}});
    CHECK_THAT(text, Contains("15 more minutes on every day") && Contains("days set sat=135"));
    CHECK_THAT(text, Contains("1 fewer paper of further pure (inkturn plan --papers 3 --subject 'further\n"));
    CHECK_THAT(text, Contains("work on 2 days off (inkturn days on 2026-11-30=90 2026-12-01=90)"));
}

TEST_CASE("changes are listed up to five, then counted") {
    std::vector<PlanChange> changes(7, {WorkKind::sit, "pure-3", monday, std::nullopt});
    changes[1].to = monday + Days{1};
    const std::string text = changes_text(changes);
    CHECK_THAT(text, Contains("Changed: sit pure-3 from Mon 30 Nov 2026 to no day\n"));
    CHECK_THAT(text, Contains("to Tue 1 Dec 2026\n"));
    CHECK_THAT(text, Contains("Changed: 2 more\n"));
    CHECK(changes_text({}).empty());
}

TEST_CASE("the facts on file for a day are listed as one") {
    const auto texts = texts_of({{WorkPurpose::recall, "", "1", 0, monday, Seconds(45)},
                                 {WorkPurpose::sit, "pure", "pure-3", 0, monday, Seconds(5400)},
                                 {WorkPurpose::recall, "", "2", 0, monday, Seconds(45)},
                                 {WorkPurpose::reservation, "pure", "pure-3", 0, monday, Seconds(600)}});
    CHECK(texts == std::vector<std::string>{"sit pure-3 and mark it, 1:30:00", "recall 2 facts, 1:30"});
}
