#include "inkturn/plan/check.hpp"

#include "catch.hpp"
#include "core/plan/timetables.hpp"
#include "inkturn/plan/plan.hpp"
#include "inkturn/plan/plan_change.hpp"

#include <algorithm>
#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;

/// Question 5, integration, went for method on the Monday, and the topic was relearned two days later.
Candidate relearned_once() {
    Candidate one = candidate();
    sit(one, paper("pure-1", "pure"), day(0), 4);
    one.relearned = {{"pure", "integration", day(2)}};
    return one;
}

std::vector<TopicToCheck> checks(const Candidate& candidate, int today) {
    const auto retries = retries_to_place(candidate, day(today));
    return topics_to_check(candidate, topics_that_may_be_relearned(candidate, retries, day(today)),
                           day(today));
}

std::vector<WorkItem> check_items(const Timetable& made) {
    std::vector<WorkItem> items;
    for (const WorkItem& item : made.items)
        if (item.kind() == WorkKind::check)
            items.push_back(item);
    return items;
}

} // namespace

TEST_CASE("a topic that was relearned is checked 14 to 21 days later") {
    const auto to_check = checks(relearned_once(), 3);
    REQUIRE(to_check.size() == 1);
    CHECK(to_check[0].subject == "pure");
    CHECK(to_check[0].topic == "integration");
    CHECK(to_check[0].relearned_on == day(2));
    REQUIRE(to_check[0].by.window);
    CHECK(to_check[0].by.window->opens == day(16));
    CHECK(to_check[0].by.window->closes == day(23));
    CHECK_FALSE(to_check[0].late);
    CHECK_FALSE(checks(relearned_once(), 23).at(0).late);
    CHECK(checks(relearned_once(), 24).at(0).late);
}

TEST_CASE("a check can be drawn from a short unseen question of its subject and topic") {
    const TopicToCheck check = checks(relearned_once(), 3).at(0);
    const UnseenQuestion question{"pure", "integration", TopicToCheck::duration};
    CHECK(can_be_drawn(check, {question}));
    UnseenQuestion other = question;
    other.allowance += Seconds(1);
    CHECK_FALSE(can_be_drawn(check, {other}));
    other = question;
    other.topic = "vectors";
    CHECK_FALSE(can_be_drawn(check, {other}));
    other = question;
    other.subject = "mechanics";
    CHECK_FALSE(can_be_drawn(check, {other}));
    TopicToCheck of_lesson = check;
    of_lesson.lesson = "l1";
    of_lesson.topics = {"vectors", "integration"};
    other = question;
    other.allowance += Seconds(1);
    CHECK(can_be_drawn(of_lesson, {other}));
}

TEST_CASE("a paper drawn for a check serves it: short, and all of it on the topic") {
    const TopicToCheck check = checks(relearned_once(), 3).at(0);
    const UnseenPaper drawn{"check-1", "pure", {{"integration", "vectors"}}, TopicToCheck::duration};
    REQUIRE(find_drawn(check, {drawn}));
    CHECK(find_drawn(check, {drawn})->id == "check-1");
    UnseenPaper other = drawn;
    other.allowance += Seconds(1);
    CHECK_FALSE(find_drawn(check, {other}));
    other = drawn;
    other.topics.push_back({"vectors"});
    CHECK_FALSE(find_drawn(check, {other}));
    other = drawn;
    other.subject = "mechanics";
    CHECK_FALSE(find_drawn(check, {other}));
}

TEST_CASE("a paper drawn for a check is sat in its time") {
    TimetableRequest request;
    request.papers = {paper("check-1", "pure")};
    const auto to_sit = [](const Timetable& made) {
        return std::count_if(made.items.begin(), made.items.end(),
                             [](const WorkItem& item) { return item.kind() == WorkKind::sit; });
    };
    const Timetable other = timetable(relearned_once(), request, day(3));
    CHECK(to_sit(other) == 1);
    CHECK(other.subjects.at(0).papers == 1);
    request.drawn_unseen = {{"check-1", "pure", {{"integration"}}, Seconds(600)}};
    const Timetable in_its_time = timetable(relearned_once(), request, day(3));
    CHECK(to_sit(in_its_time) == 0);
    CHECK(check_items(in_its_time).size() == 1);
    CHECK(in_its_time.subjects.at(0).papers == 0);
}

TEST_CASE("a check for which nothing can be drawn has no day, and papers that would do are named") {
    TimetableRequest request;
    request.papers = {paper("pure-2", "pure")};
    request.unseen = std::make_shared<const std::vector<UnseenQuestion>>(
        std::vector<UnseenQuestion>{{"pure", "integration", TopicToCheck::duration + Seconds(1)}});
    const Timetable kept = timetable(relearned_once(), request, day(3));
    CHECK(check_items(kept).empty());
    REQUIRE(kept.unchecked.size() == 1);
    CHECK(kept.unchecked[0].topic == "integration");
    CHECK(kept.unchecked[0].papers == std::vector<std::string>{"pure-2"});
    request.unseen = std::make_shared<const std::vector<UnseenQuestion>>(
        std::vector<UnseenQuestion>{{"pure", "integration", TopicToCheck::duration}});
    const Timetable free = timetable(relearned_once(), request, day(3));
    CHECK(check_items(free).size() == 1);
    CHECK(free.unchecked.empty());
}

TEST_CASE("a topic that is tried on the desk has no other check until that is marked") {
    TimetableRequest request;
    request.unseen = std::make_shared<const std::vector<UnseenQuestion>>();
    request.topics_on_desk = {{"pure", "integration", day(3)}};
    const Timetable made = timetable(relearned_once(), request, day(3));
    CHECK(check_items(made).empty());
    CHECK(made.unchecked.empty());
    const TopicToCheck check = checks(relearned_once(), 3).at(0);
    CHECK(is_on_desk(check, {{"pure", "integration", check.relearned_on}}));
    CHECK_FALSE(is_on_desk(check, {{"pure", "integration", check.relearned_on - Days{1}}}));
    CHECK_FALSE(is_on_desk(check, {{"pure", "vectors", day(3)}}));
    CHECK_FALSE(is_on_desk(check, {{"mechanics", "integration", day(3)}}));
}

TEST_CASE("the topics on the desk are those of the parts set in papers") {
    const auto both = std::make_shared<const Paper>(PaperHead{"a", "", "pure", {}, RetryBy::question},
                                                    std::vector<Part>{{"1", Marks(5), "vectors", ""},
                                                                      {"2", Marks(5), "series", ""},
                                                                      {"3", Marks(5), "", ""}});
    Script script = blank_script("me", both, day(2), {});
    REQUIRE(topics_on_desk({script}).size() == 2);
    CHECK(topics_on_desk({script})[0].topic == "vectors");
    CHECK(topics_on_desk({script})[0].day == day(2));
    keep_only(script, {1}, true);
    REQUIRE(topics_on_desk({script}).size() == 1);
    CHECK(topics_on_desk({script})[0].topic == "series");
    script.id.retry = RetryId{SittingId{1}, "2", 1};
    CHECK(topics_on_desk({script}).empty());
}

TEST_CASE("an exam moves the window of a check as it moves a retry's, and after the last one it rests") {
    Candidate candidate = relearned_once();
    candidate.exams = {{"Paper 1", day(17), "pure"}, {"Another", day(9), "mechanics"}};
    const auto to_check = checks(candidate, 3);
    REQUIRE(to_check.size() == 1);
    const auto as_retry = retry_window(day(2), day(17));
    CHECK(to_check[0].by.window->opens == as_retry->opens);
    CHECK(to_check[0].by.window->closes == as_retry->closes);
    CHECK(as_retry->closes == day(16));
    CHECK(checks(candidate, 17).empty());
}

TEST_CASE("two halves make a topic relearned, on the day of the second") {
    Candidate candidate = relearned_once();
    candidate.relearned = {{"pure", "integration", day(2), true}};
    CHECK(checks(candidate, 3).empty());
    CHECK_FALSE(relearned_in_full(candidate, "pure", "integration"));
    candidate.relearned.push_back({"pure", "integration", day(4), true});
    CHECK(relearned_in_full(candidate, "pure", "integration") == day(4));
    CHECK(checks(candidate, 5).size() == 1);
    candidate.relearned.push_back({"pure", "integration", day(6), true}); // the first half of another hour
    CHECK(relearned_in_full(candidate, "pure", "integration") == day(4));
    candidate.relearned.push_back({"pure", "integration", day(8)});
    CHECK(relearned_in_full(candidate, "pure", "integration") == day(8));
    CHECK_FALSE(relearned_in_full(candidate, "mechanics", "integration"));
    CHECK_FALSE(relearned_in_full(candidate, "pure", "vectors"));
}

TEST_CASE("a check is done once a part on the topic was tried from the first day of the check's window on") {
    Candidate candidate = relearned_once();
    int today = 20;
    const auto left_after = [&](int on, const std::string& subject, const std::string& topic,
                                const std::string& marks = "5") {
        Candidate sat = candidate;
        sit_part(sat, subject, topic, day(on), marks);
        return checks(sat, today).size();
    };
    CHECK(left_after(15, "pure", "integration") == 1);
    CHECK(left_after(16, "pure", "integration") == 0);
    CHECK(left_after(16, "pure", "integration", "-") == 1);
    CHECK(left_after(16, "mechanics", "integration") == 1);
    CHECK(left_after(16, "pure", "vectors") == 1);
    candidate.exams.push_back({"Pure", day(11), "pure"});
    today = 10;
    CHECK(left_after(3, "pure", "integration") == 1); // T is 9: from the second day after on
    CHECK(left_after(4, "pure", "integration") == 0);
}

TEST_CASE("an hour that follows a half is the second half, unless the plan asks for both again") {
    Candidate one = candidate();
    const Relearned hour{"pure", "logs", day(4)};
    CHECK_FALSE(is_second_half(one, hour));
    one.relearned.push_back({"pure", "logs", day(2), true});
    CHECK(is_second_half(one, hour));
    CHECK_FALSE(is_second_half(one, {"pure", "logs", day(1)}));
    CHECK_FALSE(is_second_half(one, {"pure", "surds", day(4)}));
    one.planned.push_back({WorkPurpose::relearn, "pure", "logs", 2, day(4), Relearned::time_of_half});
    CHECK(is_second_half(one, hour));
    one.planned.push_back({WorkPurpose::relearn, "pure", "logs", 1, day(3), Relearned::time_of_half});
    CHECK_FALSE(is_second_half(one, hour));
    one.planned.clear();
    one.relearned.push_back({"pure", "logs", day(3), true});
    CHECK_FALSE(is_second_half(one, hour));
}

TEST_CASE("marks that went for method, or for no stated reason, fail a topic from the first day after") {
    const auto failed = [](const std::string& marks, int on) {
        Candidate one = relearned_once();
        sit_part(one, "pure", "integration", day(on), marks);
        return failed_after(one, "pure", "integration", day(2));
    };
    CHECK(failed("2:method", 3) == day(3));
    CHECK(failed("2", 3) == day(3));
    CHECK_FALSE(failed("2:slip", 3));
    CHECK_FALSE(failed("-:unfinished", 3));
    CHECK_FALSE(failed("5", 3));
    CHECK_FALSE(failed("2:method", 2));
    Candidate retried = relearned_once();
    retried.sittings[0].reattempts.push_back(
        {"5", 1, day(14), parse_line(*retried.sittings[0].paper, {4}, "7:method")});
    CHECK(failed_after(retried, "pure", "integration", day(2)) == day(14));
    CHECK_FALSE(failed_after(retried, "pure", "integration", day(14)));
}

TEST_CASE("a topic that is to be relearned again isn't checked until it was") {
    Candidate candidate = relearned_once();
    candidate.sittings[0].reattempts.push_back(
        {"5", 1, day(14), parse_line(*candidate.sittings[0].paper, {4}, "7:method")});
    CHECK(checks(candidate, 15).empty());
    candidate.relearned.push_back({"pure", "integration", day(15)});
    REQUIRE(checks(candidate, 16).size() == 1);
    CHECK(checks(candidate, 16)[0].relearned_on == day(15));
}

TEST_CASE("a topic relearned in full is untried until a new part of it is sat after that day") {
    Candidate candidate = relearned_once();
    REQUIRE(untried_topics(candidate).size() == 1);
    CHECK(untried_topics(candidate)[0].topic == "integration");
    CHECK(untried_topics(candidate)[0].relearned_on == day(2));
    sit(candidate, paper("pure-2", "pure"), day(2), 4);
    CHECK(untried_topics(candidate).size() == 1);
    sit(candidate, paper("pure-3", "pure"), day(3), 4);
    CHECK(untried_topics(candidate).empty());
    candidate.relearned = {{"pure", "integration", day(4), true}};
    CHECK(untried_topics(candidate).empty());
}

TEST_CASE("a topic of which marks went again in a retry is not untried") {
    Candidate candidate = relearned_once();
    SittingRecord& sat = candidate.sittings.front();
    const Question& missed = sat.paper->questions().back();
    Reattempt again{missed.label, 1, day(20), {}};
    for (const std::size_t part : missed.parts)
        again.parts.push_back(PartMarks(MarksByPhase{}, sat.paper->part(part).max, Reason::method));
    REQUIRE(sat.paper->part(missed.parts[0]).topic == "integration");
    sat.reattempts.push_back(again);
    CHECK(untried_topics(candidate).empty());
}

TEST_CASE("a check is fifteen minutes on a day of its window, and keeps its day") {
    Candidate candidate = relearned_once();
    const auto items = check_items(timetable(candidate, request({}), day(3)));
    REQUIRE(items.size() == 1);
    CHECK(items[0].duration == Seconds(900));
    REQUIRE(items[0].day);
    CHECK(DaySpan{day(16), day(23)}.contains(*items[0].day));
    for (const int on : {16, 19, 23}) {
        candidate.planned = {{WorkPurpose::check, "pure", "integration", 0, day(on), Seconds(900)}};
        CHECK(check_items(timetable(candidate, request({}), day(4))).at(0).day == day(on));
    }
    const Timetable kept = timetable(candidate, request({}), day(4));
    for (const PlannedWork& work : planned_work(kept))
        if (work.what == WorkPurpose::check) {
            CHECK(work.name == "integration");
            CHECK(work.subject == "pure");
            CHECK(work.number == 0);
            CHECK(work.day == day(23));
        }
    candidate.planned = {{WorkPurpose::check, "pure", "integration", 0, day(5), Seconds(900)}};
    const auto moved = changes(candidate, timetable(candidate, request({}), day(4)), day(4));
    REQUIRE(moved.size() == 1);
    CHECK(moved[0].kind == WorkKind::check);
    CHECK(moved[0].what == "integration");
}

TEST_CASE("a check that was not done comes late, on the first day with room") {
    const auto items = check_items(timetable(relearned_once(), request({}), day(29)));
    REQUIRE(items.size() == 1);
    CHECK(items[0].day == day(29));
}

TEST_CASE("a check planned for a day before is told as not done until a paper with its topic is sat") {
    Candidate candidate = relearned_once();
    candidate.planned = {{WorkPurpose::check, "pure", "integration", 0, day(17), Seconds(900)}};
    const auto moved = changes(candidate, timetable(candidate, request({}), day(18)), day(18));
    REQUIRE(moved.size() == 1);
    CHECK(moved[0].kind == WorkKind::check);
    CHECK(moved[0].not_done);
    sit(candidate, paper("pure-2", "pure"), day(17), 5);
    for (const PlanChange& change : changes(candidate, timetable(candidate, request({}), day(18)), day(18)))
        CHECK(change.kind != WorkKind::check);
}

namespace {

/// Came to a lesson on two topics on the third day.
Candidate after_lesson(PlaceState state = PlaceState::attended) {
    Candidate one = candidate();
    sit(one, paper("pure-1", "pure"), day(0), 4);
    one.lessons = {
        {"pure-help", day(3), std::nullopt, Seconds(3600), "pure", {"integration", "vectors"}, state}};
    return one;
}

} // namespace

TEST_CASE("two weeks after a lesson its topics are checked together, once, for those who came") {
    const auto to_check = checks(after_lesson(), 4);
    REQUIRE(to_check.size() == 1);
    CHECK(to_check[0].topic == "integration, vectors");
    CHECK(to_check[0].topics == std::vector<std::string>{"integration", "vectors"});
    CHECK(to_check[0].lesson == "pure-help");
    CHECK(to_check[0].by.window->opens == day(17));
    CHECK(to_check[0].by.window->closes == day(24));
    CHECK(checks(after_lesson(PlaceState::confirmed), 4).empty());
}

TEST_CASE("the check of a lesson is planned like another, and over once one of its topics is tried") {
    Candidate one = after_lesson();
    const Timetable made = timetable(one, request({}), day(4));
    const auto items = check_items(made);
    REQUIRE(items.size() == 1);
    CHECK(items[0].duration == TopicToCheck::duration);
    REQUIRE(items[0].day);
    CHECK(*items[0].day >= day(17));
    CHECK(*items[0].day <= day(24));
    const std::vector<PlannedWork> planned = planned_work(made);
    const auto check = std::find_if(planned.begin(), planned.end(),
                                    [](const PlannedWork& work) { return work.what == WorkPurpose::check; });
    REQUIRE(check != planned.end());
    CHECK(is_to_do(one, *check));
    sit(one, paper("pure-2", "pure"), day(18), 5);
    CHECK(checks(one, 19).empty());
    CHECK_FALSE(is_to_do(one, *check));
}

TEST_CASE("of a topic relearned and taught in a lesson the later one is checked") {
    Candidate one = after_lesson();
    one.lessons[0].topics = {"integration"};
    one.relearned = {{"pure", "integration", day(2)}};
    REQUIRE(checks(one, 4).size() == 1);
    CHECK(checks(one, 4)[0].lesson == "pure-help");
    one.relearned = {{"pure", "integration", day(5)}};
    REQUIRE(checks(one, 6).size() == 1);
    CHECK(checks(one, 6)[0].lesson.empty());
    CHECK(checks(one, 6)[0].relearned_on == day(5));
    one.lessons.push_back(one.lessons[0]);
    one.lessons[1].lesson = "again";
    one.lessons[1].day = day(7);
    REQUIRE(checks(one, 8).size() == 1);
    CHECK(checks(one, 8)[0].lesson == "again");
}

TEST_CASE("a lesson that a candidate comes to takes its time from the day, and the plan shows it") {
    Candidate one = after_lesson(PlaceState::confirmed);
    one.availability.taken[day(3)] = Seconds(3600);
    const Plan days = plan(timetable(one, request({}), day(1)), one, {day(1), day(7)});
    CHECK(days.days[2].available == Seconds(0));
    REQUIRE(days.days[2].lessons.size() == 1);
    CHECK(days.days[2].lessons[0].lesson == "pure-help");
    CHECK(days.days[2].items.empty());
    CHECK(days.days[3].lessons.empty());
}
