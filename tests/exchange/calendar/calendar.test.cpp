#include "exchange/calendar/calendar.hpp"

#include "catch.hpp"
#include "days.hpp"

#include <algorithm>
#include <memory>
#include <set>
#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;

constexpr Day today = monday + Days{16};
constexpr DaySpan weeks{today, today + Days{27}};

std::shared_ptr<const Paper> paper_of(const std::string& id, const std::string& subject) {
    return std::make_shared<const Paper>(
        PaperHead{id, "", subject, {}, RetryBy::question},
        std::vector<Part>{{"1", Marks(5), "", ""}, {"2a", Marks(3), "", ""}, {"2b", Marks(4), "", ""}});
}

SittingRecord sat(int id, const std::string& paper, Day day, const std::string& line = "3 3 1") {
    const auto on_file = paper_of(paper, "pure");
    return {SittingId{id}, on_file, {day, {}, parse_line(*on_file, line)}, {}};
}

/// Missed both questions of a paper on the Monday.
Candidate example(int sitting = 12) {
    Candidate candidate;
    candidate.code = "K07";
    candidate.sittings.push_back(sat(sitting, "pure-1", monday));
    return candidate;
}

WorkItem item_on(Day day, WorkItem::Work work, int minutes) {
    return {std::move(work), Seconds(minutes * 60), DaySpan{today, today + Days{27}}, day};
}

/// With all retries on one day.
Timetable retries_on(Day day, const Candidate& candidate) {
    Timetable timetable;
    for (const Retry& retry : open_retries(candidate, today))
        timetable.items.push_back({retry, retry.allowance, retry.possible_days, day});
    return timetable;
}

std::vector<CalendarEvent> events_on(Day day, const Candidate& candidate, EventFor each) {
    return events_of_work(candidate, {}, retries_on(day, candidate), weeks, each);
}

PaperToSit to_sit(const std::shared_ptr<const Paper>& paper) {
    PaperToSit to_sit;
    to_sit.subject = paper->subject();
    to_sit.paper = paper;
    return to_sit;
}

PaperToSit not_on_file(const std::string& subject, int number) {
    PaperToSit to_sit;
    to_sit.subject = subject;
    to_sit.number = number;
    return to_sit;
}

TopicToRelearn topic(const std::string& subject, const std::string& name, int piece) {
    return {subject, name, Marks(4), {today, today}, piece};
}

TopicToCheck check(const std::string& subject, const std::string& name, Day relearned_on = monday) {
    return {subject, name, relearned_on, {}};
}

Fact fact(int id, const std::string& prompt, const std::string& subject = "pure") {
    return {FactId{id}, prompt, "the answer", "", subject};
}

RecallGroup group(const std::vector<Fact>& facts) {
    RecallGroup group;
    for (const Fact& one : facts)
        group.facts.push_back(one.id);
    group.subject = facts.front().subject;
    return group;
}

/// Those of items, without facts.
std::vector<CalendarEvent> events_of(const std::vector<WorkItem>& items, EventFor each,
                                     const Candidate& candidate = example()) {
    Timetable timetable;
    timetable.items = items;
    return events_of_work(candidate, {}, timetable, weeks, each);
}

/// The one of the facts together.
CalendarEvent event_of(const std::vector<Fact>& facts, const std::vector<Sheet>& sheets = {},
                       int distance = 1) {
    TimetableRequest request;
    request.facts = facts;
    request.sheets = sheets;
    Timetable timetable;
    timetable.items = {item_on(today + Days{distance}, group(facts), 9)};
    return events_of_work(example(), request, timetable, weeks, EventFor::item).at(0);
}

std::string uid_of(const WorkItem::Work& work, const Candidate& candidate = example(), int distance = 1) {
    return events_of({item_on(today + Days{distance}, work, 30)}, EventFor::item, candidate).at(0).uid;
}

std::vector<std::string> uids(const std::vector<CalendarEvent>& events) {
    std::vector<std::string> all;
    for (const CalendarEvent& event : events)
        all.push_back(event.uid);
    return all;
}

Exam exam_on(int distance, const std::string& title = "Paper 1", const std::string& subject = "pure") {
    return {title, today + Days{distance}, subject};
}

std::vector<CalendarEvent> exams_of(const std::vector<Exam>& exams) {
    Candidate candidate = example();
    candidate.exams = exams;
    return events_of_exams(candidate, {}, weeks);
}

} // namespace

TEST_CASE("a mock's event is called one") {
    Exam mock = exam_on(3);
    mock.mock = true;
    REQUIRE(exams_of({mock}).size() == 1);
    CHECK(exams_of({mock})[0].summary == "Mock: Paper 1");
    CHECK(exams_of({exam_on(3)})[0].summary == "Exam: Paper 1");
}

TEST_CASE("a day's work is one event with one line per retry") {
    const auto events = events_on(today + Days{1}, example(), EventFor::day);
    REQUIRE(events.size() == 1);
    CHECK(events[0].first == today + Days{1});
    CHECK(events[0].last == today + Days{1});
    CHECK(events[0].summary == "2 retries, 15 min");
    CHECK(events[0].description == "pure-1 question 1, 5 marks, 6:00, retry 12q1\n"
                                   "pure-1 question 2 (2a 2b), 7 marks, 8:24, retry 12q2");
}

TEST_CASE("a day's event counts each kind of work, and a topic once however many of its pieces fall on it") {
    const Day day = today + Days{1};
    const Candidate candidate = example();
    std::vector<WorkItem> items = retries_on(day, candidate).items;
    items.push_back(item_on(day, to_sit(paper_of("pure-3", "pure")), 135));
    items.push_back(item_on(day, not_on_file("", 4), 135));
    for (const int piece : {1, 2})
        items.push_back(item_on(day, topic("pure", "integration", piece), 30));
    items.push_back(item_on(day, topic("", "integration", 1), 30));
    items.push_back(item_on(day, check("pure", "integration"), 15));
    items.push_back(item_on(day, group({fact(1, "a"), fact(2, "b")}), 9));
    items.push_back(item_on(day, group({fact(3, "c", "")}), 1));
    const auto events = events_of(items, EventFor::day);
    REQUIRE(events.size() == 1);
    CHECK(events[0].summary == "2 retries, 2 papers, 2 topics, 1 check, 3 facts, 400 min");
    CHECK(events[0].description == "pure-1 question 1, 5 marks, 6:00, retry 12q1\n"
                                   "pure-1 question 2 (2a 2b), 7 marks, 8:24, retry 12q2\n"
                                   "Sit pure-3 and mark it, 2:15:00, subject pure\n"
                                   "Sit paper 4 and mark it, 2:15:00\n"
                                   "Relearn integration (1 of 2), 30:00, subject pure\n"
                                   "Relearn integration (2 of 2), 30:00, subject pure\n"
                                   "Relearn integration (1 of 2), 30:00\n"
                                   "Check integration, 15:00 of unseen questions (inkturn paper draw), "
                                   "subject pure\n"
                                   "Recall 2 facts, 9:00, subject pure\n"
                                   "Recall 1 fact, 1:00");
    CHECK(events_of({items[2]}, EventFor::day).at(0).summary == "1 paper, 135 min");
    CHECK(events_of({items.back()}, EventFor::day).at(0).summary == "1 fact, 1 min");
}

TEST_CASE("days without work have no event, and neither has work outside the span or without a day") {
    const Candidate candidate = example();
    Timetable timetable = retries_on(today + Days{1}, candidate);
    timetable.items[1].day = today + Days{3};
    for (const EventFor each : {EventFor::day, EventFor::item}) {
        const auto count = [&](int from, int to) {
            return events_of_work(candidate, {}, timetable, {today + Days{from}, today + Days{to}}, each)
                .size();
        };
        timetable.items[1].day = today + Days{3};
        CHECK(count(0, 9) == 2);
        CHECK(count(1, 3) == 2);
        CHECK(count(2, 3) == 1);
        CHECK(count(2, 2) == 0);
        timetable.items[1].day.reset();
        CHECK(count(0, 9) == 1);
    }
}

TEST_CASE("each retry may have its own event") {
    const auto events = events_on(today + Days{1}, example(), EventFor::item);
    REQUIRE(events.size() == 2);
    CHECK(events[1].first == today + Days{1});
    CHECK(events[1].last == today + Days{1});
    CHECK(events[1].summary == "pure-1 question 2, 9 min");
    CHECK(events[1].description == "pure-1 question 2 (2a 2b), 7 marks, 8:24, retry 12q2");
}

TEST_CASE("so may every other piece of work, and the answers to facts are not shown") {
    const Day day = today + Days{1};
    const auto events = events_of({item_on(day, to_sit(paper_of("pure-3", "pure")), 135),
                                   item_on(day, topic("pure", "integration", 1), 30),
                                   item_on(day, check("", "integration"), 15)},
                                  EventFor::item);
    REQUIRE(events.size() == 3);
    CHECK(events[2].summary == "Check integration, 15 min");
    CHECK(events[2].description == "Check integration, 15:00 of unseen questions (inkturn paper draw)");
    CHECK(events[0].first == day);
    CHECK(events[0].last == day);
    CHECK(events[0].summary == "Sit pure-3 and mark it, 135 min");
    CHECK(events[0].description == "Sit pure-3 and mark it, 2:15:00, subject pure");
    CHECK(events[1].summary == "Relearn integration (1 of 2), 30 min");
    CHECK(events[1].description == "Relearn integration (1 of 2), 30:00, subject pure");
    const CalendarEvent recall = event_of({fact(1, "sin 30°"), fact(2, "cos 30°")});
    CHECK(recall.summary == "Recall 2 facts, 9 min");
    CHECK(recall.description == "Recall 2 facts, 9:00, subject pure");
}

TEST_CASE("a UID is what it was in calendars that were written before") {
    CHECK(uids(events_on(today, example(), EventFor::day)) ==
          std::vector<std::string>{"inkturn-day-d0dea3a9b843770e"});
    CHECK(uids(events_on(today, example(), EventFor::item)) ==
          std::vector<std::string>{"inkturn-retry-c6cd44479ef100ff", "inkturn-retry-265f0c3f485918fc"});
    CHECK(uids(exams_of({exam_on(3)})) == std::vector<std::string>{"inkturn-exam-1ce6b7492eb30c68"});
    CHECK(uid_of(to_sit(paper_of("pure-3", "pure"))) == "inkturn-sit-83dfd981a03e32bb");
    CHECK(uid_of(not_on_file("pure", 3)) == "inkturn-sit-3ab9bc0de939dc78");
    CHECK(uid_of(topic("pure", "integration", 1)) == "inkturn-relearn-3a3bc44fe93a9a82");
    CHECK(event_of({fact(1, "sin 30°"), fact(2, "cos 30°")}).uid == "inkturn-recall-5b5323c0e91b2ae2");
}

TEST_CASE("UIDs come from facts, whatever the numbers of the store") {
    for (const EventFor each : {EventFor::day, EventFor::item})
        CHECK(uids(events_on(today, example(12), each)) == uids(events_on(today, example(3), each)));
}

TEST_CASE("a retry moved to another day keeps its UID, and its next turn has another") {
    Candidate candidate = example();
    const auto first = uids(events_on(today + Days{1}, candidate, EventFor::item));
    CHECK(uids(events_on(today + Days{5}, candidate, EventFor::item)) == first);
    candidate.sittings[0].reattempts.push_back(
        {"1", 1, today, parse_line(*candidate.sittings[0].paper, {0}, "4")});
    const auto second = uids(events_on(today + Days{5}, candidate, EventFor::item));
    REQUIRE(second.size() == 2);
    CHECK(second[0] == first[1]);
    CHECK(std::count(first.begin(), first.end(), second[1]) == 0);
}

TEST_CASE("work moved to another day keeps its UID, whatever its kind") {
    for (const WorkItem::Work& work :
         {WorkItem::Work(to_sit(paper_of("pure-3", "pure"))), WorkItem::Work(not_on_file("pure", 3)),
          WorkItem::Work(topic("pure", "integration", 2)), WorkItem::Work(check("pure", "integration"))})
        CHECK(uid_of(work, example(), 1) == uid_of(work, example(), 9));
    CHECK(event_of({fact(1, "a")}, {}, 1).uid == event_of({fact(1, "a")}, {}, 9).uid);
}

TEST_CASE("papers, pieces of topics and groups of facts have their own UIDs") {
    Candidate other = example();
    other.code = "K0";
    std::vector<std::string> all;
    for (const Candidate& candidate : {example(), other})
        for (const WorkItem::Work& work :
             {WorkItem::Work(to_sit(paper_of("3", "pure"))),
              WorkItem::Work(to_sit(paper_of("3", "mechanics"))),
              WorkItem::Work(to_sit(paper_of("4", "pure"))), WorkItem::Work(not_on_file("pure", 3)),
              WorkItem::Work(not_on_file("pure", 4)), WorkItem::Work(not_on_file("mechanics", 3)),
              WorkItem::Work(topic("pure", "integration", 1)),
              WorkItem::Work(topic("pure", "integration", 2)), WorkItem::Work(topic("pure", "vectors", 1)),
              WorkItem::Work(topic("mechanics", "vectors", 1)), WorkItem::Work(check("pure", "vectors")),
              WorkItem::Work(check("mechanics", "vectors")), WorkItem::Work(check("pure", "integration")),
              WorkItem::Work(check("pure", "vectors", monday + Days{1}))}) {
            all.push_back(uid_of(work, candidate));
            CHECK(all.back().find(candidate.code) == std::string::npos);
        }
    for (const auto& facts : {std::vector<Fact>{fact(1, "a")},
                              {fact(1, "a"), fact(2, "b")},
                              {fact(1, "ab")},
                              {fact(1, "a", "mechanics")}})
        all.push_back(event_of(facts).uid);
    CHECK(all.size() == 32);
    CHECK(std::set<std::string>(all.begin(), all.end()).size() == all.size());
}

TEST_CASE("facts are recognised by their prompts, whatever their numbers and order, answers and topics") {
    Fact other = fact(8, "a");
    other.answer = "another";
    other.topic = "stated since";
    CHECK(event_of({fact(1, "a"), fact(2, "b")}).uid == event_of({fact(3, "b"), other}).uid);
}

TEST_CASE("facts that come back after a sheet are another event") {
    const std::vector<Fact> facts{fact(1, "a"), fact(2, "b")};
    Sheet sheet = sheet_of({FactId{1}, FactId{2}}, today - Days{20});
    const std::string never_recalled = event_of(facts).uid;
    CHECK(event_of(facts, {sheet}).uid == never_recalled);
    sheet.log = Sheet::Log{today - Days{20}, {1, 2}};
    const std::string question_uid = event_of(facts, {sheet}).uid;
    CHECK(question_uid != never_recalled);
    sheet.id = SheetId{7};
    CHECK(event_of(facts, {sheet}).uid == question_uid);
    sheet.log->day += Days{1};
    CHECK(event_of(facts, {sheet}).uid != question_uid);
}

TEST_CASE("a topic that was relearned and has to be relearned again is another event") {
    Candidate candidate = example();
    const std::string first = uid_of(topic("pure", "integration", 1), candidate);
    candidate.relearned = {{"mechanics", "integration", monday}, {"pure", "vectors", monday}};
    CHECK(uid_of(topic("pure", "integration", 1), candidate) == first);
    candidate.relearned.push_back({"pure", "integration", monday});
    const std::string second = uid_of(topic("pure", "integration", 1), candidate);
    CHECK(second != first);
    candidate.relearned.push_back({"pure", "integration", monday + Days{9}});
    const std::string third = uid_of(topic("pure", "integration", 1), candidate);
    CHECK((third != first && third != second));
    candidate.relearned.insert(candidate.relearned.begin(), {"pure", "integration", monday - Days{9}});
    CHECK(uid_of(topic("pure", "integration", 1), candidate) == third);
}

TEST_CASE("UIDs differ by candidate, day, paper, sitting's day and question, and show no code") {
    std::set<std::string> all;
    std::size_t count = 0;
    for (const std::string code : {"K07", "K0", "me"})
        for (const std::string paper : {"pure-1", "pure-11"})
            for (const int later : {0, 1}) {
                Candidate candidate = example();
                candidate.code = code;
                candidate.sittings = {sat(1, paper, monday + Days{later})};
                for (const std::string& uid : uids(events_on(today, candidate, EventFor::item))) {
                    all.insert(uid);
                    ++count;
                    CHECK(uid.find(code) == std::string::npos);
                }
            }
    for (const std::string code : {"K07", "K0", "me"})
        for (const int later : {0, 1}) {
            Candidate candidate = example();
            candidate.code = code;
            all.insert(uids(events_on(today + Days{later}, candidate, EventFor::day)).at(0));
            ++count;
        }
    CHECK(count == 3 * 2 * 2 * 2 + 3 * 2);
    CHECK(all.size() == count);
}

TEST_CASE("an exam is an event that says its subject") {
    const auto events = exams_of({exam_on(0), exam_on(27, "Mock week", "")});
    REQUIRE(events.size() == 2);
    CHECK(events[0].first == today);
    CHECK(events[0].last == today);
    CHECK(events[0].summary == "Exam: Paper 1");
    CHECK(events[0].description == "Subject: pure");
    CHECK(events[1].summary == "Exam: Mock week");
    CHECK(events[1].description == "All subjects");
}

TEST_CASE("exams outside the span are left out, and so are subjects without papers sat or to be sat") {
    CHECK(exams_of({exam_on(-1), exam_on(28)}).empty());
    Candidate candidate = example();
    candidate.exams = {exam_on(3), exam_on(4, "Paper 1", "mechanics"), exam_on(5, "Paper 1", "statistics")};
    CHECK(events_of_exams(candidate, {}, weeks).size() == 1);
    Timetable timetable;
    timetable.items = {item_on(today, to_sit(paper_of("m-1", "mechanics")), 135)};
    CHECK(events_of_exams(candidate, timetable, weeks).at(1).description == "Subject: mechanics");
    CHECK(events_of_exams(candidate, timetable, weeks).size() == 2);
    // It concerns the candidate all the more where no day has room for its papers.
    timetable.items[0].day.reset();
    CHECK(events_of_exams(candidate, timetable, weeks).size() == 2);
}

TEST_CASE("an exam that is postponed keeps its UID, and no other exam has it") {
    const auto alone = uids(exams_of({exam_on(3)}));
    CHECK(uids(exams_of({exam_on(10)})) == alone);
    const auto all = uids(
        exams_of({exam_on(3), exam_on(4, "Paper 2"), exam_on(5, "Paper 1", ""), exam_on(9), exam_on(9)}));
    REQUIRE(all.size() == 5);
    CHECK(all[0] == alone[0]);
    CHECK(std::set<std::string>(all.begin(), all.end()).size() == 5);
    // One that is over still counts.
    CHECK(uids(exams_of({exam_on(-30), exam_on(9)})) == std::vector<std::string>{all[3]});
}

TEST_CASE("a lesson that a candidate comes to is an event at its time, and keeps its UID when it is moved") {
    Candidate candidate = example();
    candidate.lessons = {
        {"help-1",
         today + Days{3},
         std::chrono::hours{16},
         Seconds(5400),
         "pure",
         {"series", "vectors"},
         PlaceState::confirmed},
        {"help-2", today + Days{4}, std::nullopt, Seconds(3600), "", {"surds"}, PlaceState::attended},
        {"help-3", today + Days{40}, std::nullopt, Seconds(3600), "", {"surds"}, PlaceState::confirmed}};
    const auto events = events_of_lessons(candidate, weeks);
    REQUIRE(events.size() == 2);
    CHECK(events[0].summary == "Lesson: series, vectors");
    CHECK(events[0].description == "Subject: pure");
    REQUIRE(events[0].time);
    CHECK(events[0].time->start == std::chrono::hours{16});
    CHECK(events[0].time->duration == Seconds(5400));
    CHECK(events[1].summary == "Lesson: surds, 60 min");
    CHECK_FALSE(events[1].time);
    candidate.lessons[0].day = today + Days{9};
    CHECK(events_of_lessons(candidate, weeks)[0].uid == events[0].uid);
    CHECK(events[0].uid != events[1].uid);
}
