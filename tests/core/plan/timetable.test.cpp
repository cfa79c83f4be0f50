#include "inkturn/plan/timetable.hpp"

#include "catch.hpp"
#include "core/plan/timetables.hpp"
#include "inkturn/plan/plan.hpp"
#include "inkturn/plan/plan_change.hpp"
#include "inkturn/plan/remedy.hpp"

#include <algorithm>
#include <map>
#include <memory>
#include <set>
#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::WithinAbs;

} // namespace

TEST_CASE("papers are spread evenly up to the last useful sitting, which is 22 days before the exam") {
    Candidate candidate = ::candidate();
    candidate.exams = {{"Pure", day(98), "pure"}};
    const Timetable made = timetable(candidate, request(papers(7, "pure")), day(0));
    REQUIRE(made.subjects.size() == 1);
    CHECK(made.subjects[0].last_useful == day(76));
    CHECK(made.subjects[0].papers == 7);
    CHECK(made.subjects[0].too_late == 0);
    CHECK(made.short_by == Seconds(0));
    const auto days = days_of_papers(made);
    for (std::size_t i = 0; i < days.size(); ++i) {
        REQUIRE(days[i]);
        CHECK(weekday_index(*days[i]) == 5); // 60 minutes and 30 to mark it: only a Saturday has room
        CHECK(*days[i] >= day(11 * static_cast<int>(i)));
        CHECK(*days[i] <= day(11 * static_cast<int>(i) + 10));
    }
}

TEST_CASE("what is sat on the last useful day has its whole window before the exam, a day later not") {
    const Day exam = day(100);
    const Day last = last_useful_sitting(exam);
    CHECK(retry_window(last, exam)->closes == last + Days{21});
    CHECK(retry_window(last, exam)->closes == exam - Days{1});
    CHECK(retry_window(last + Days{1}, exam)->closes < last + Days{22});
}

TEST_CASE("papers that find no day in time come too late, and are counted") {
    Candidate candidate = ::candidate();
    candidate.exams = {{"Pure", day(36), ""}}; // useful to day 14: two Saturdays; later ones to day 35: three
    const Timetable made = timetable(candidate, request(papers(6, "pure")), day(0));
    CHECK(made.subjects[0].papers == 6);
    CHECK(made.subjects[0].too_late == 3);
    CHECK(made.subjects[0].without_day.size() == 1);
    CHECK(made.short_by >= Seconds(5400));
    std::size_t without = 0;
    for (const auto& on : days_of_papers(made))
        without += on ? 0U : 1U;
    CHECK(without == 1);
}

TEST_CASE(
    "with an exam tomorrow nothing is put on its day or after it, and without room nothing is forced in") {
    Candidate candidate = ::candidate();
    candidate.exams = {{"Pure", day(1), "pure"}};
    sit(candidate, paper("pure-1", "pure"), day(0), 3);
    const Timetable made = timetable(candidate, request(papers(2, "pure")), day(0));
    for (const WorkItem& item : made.items)
        CHECK((!item.day || *item.day < day(1)));
    CHECK(made.subjects[0].last_useful == day(-21));
    CHECK(made.subjects[0].without_day.size() == 1); // pure-2: an hour on a Monday is too little
    for (const WorkItem& item : made.items)
        if (item.kind() == WorkKind::retry)
            CHECK_FALSE(item.day.has_value());
}

TEST_CASE("without an exam it is a paper a week, and retries keep their windows") {
    Candidate candidate = ::candidate();
    sit(candidate, paper("pure-9", "pure"), day(0), 4);
    const Timetable made = timetable(candidate, request(papers(3, "pure")), day(0));
    CHECK_FALSE(made.subjects[0].exam.has_value());
    CHECK_FALSE(made.subjects[0].last_useful.has_value());
    CHECK(days_of_papers(made) == std::vector<std::optional<Day>>{day(12), day(19), day(26)});
    CHECK(made.short_by == Seconds(0));
}

TEST_CASE("once all exams of a subject have passed no paper of it is planned") {
    Candidate candidate = ::candidate();
    candidate.exams = {{"Pure", day(0), "pure"}, {"Mechanics", day(90), "mechanics"}};
    auto on_file = papers(2, "pure");
    for (const auto& one : papers(2, "mechanics"))
        on_file.push_back(one);
    const Timetable made = timetable(candidate, request(on_file), day(1));
    REQUIRE(made.subjects.size() == 2);
    CHECK(made.subjects[0].subject == "mechanics");
    CHECK(made.subjects[0].papers == 2);
    CHECK(made.subjects[1].examined);
    CHECK(made.subjects[1].papers == 0);
    CHECK(days_of_papers(made).size() == 2);
}

TEST_CASE("several subjects share the days, each up to its own exam, a paper a day at most") {
    Candidate candidate = ::candidate();
    candidate.availability.week.fill(Seconds(7200));
    candidate.exams = {{"Pure", day(60), "pure"}, {"Mechanics", day(90), "mechanics"}, {"Mock", day(50), ""}};
    auto on_file = papers(8, "pure");
    for (const auto& one : papers(8, "mechanics"))
        on_file.push_back(one);
    const Timetable made = timetable(candidate, request(on_file), day(0));
    REQUIRE(made.subjects.size() == 2);
    for (const SubjectAhead& subject : made.subjects) {
        CHECK(subject.exam == day(50)); // the mock examines all
        CHECK(subject.too_late == 0);
        CHECK(subject.without_day.empty());
    }
    auto days = days_of_papers(made);
    std::sort(days.begin(), days.end());
    CHECK(std::adjacent_find(days.begin(), days.end()) == days.end());
    CHECK(*days.back() <= day(28));
}

TEST_CASE(
    "a plan that was kept stays: a new sitting moves what it must, an exam moved only what it shuts out") {
    Candidate candidate = ::candidate();
    candidate.exams = {{"Pure", day(98), "pure"}};
    auto on_file = papers(6, "pure");
    keep(candidate, timetable(candidate, request(on_file), day(0)));
    const auto before = days_of_papers(timetable(candidate, request(on_file), day(0)));
    CHECK(changes(candidate, timetable(candidate, request(on_file), day(0)), day(0)).empty());

    Candidate after_sitting = candidate;
    sit(after_sitting, on_file.front(), day(5), 3);
    const Timetable later = timetable(after_sitting, request(on_file), day(6));
    CHECK(changes(after_sitting, later, day(6)).empty());
    const auto days = days_of_papers(later);
    REQUIRE(days.size() == 5);
    CHECK(std::equal(days.begin(), days.end(), before.begin() + 1));

    Candidate moved = candidate;
    moved.exams[0].day = day(70);
    const Timetable sooner = timetable(moved, request(on_file), day(0));
    const auto changed = changes(moved, sooner, day(0));
    REQUIRE(changed.size() > 1);
    CHECK(std::is_sorted(changed.begin(), changed.end(),
                         [](const PlanChange& a, const PlanChange& b) { return a.from < b.from; }));
    for (const PlanChange& change : changed) {
        CHECK(change.kind == WorkKind::sit);
        CHECK(change.from > day(48)); // what has come too late for its misses to come round
        CHECK(*change.to <= day(48));
    }
    const auto anew = days_of_papers(timetable(moved, request(on_file, PlacementMode::again), day(0)));
    CHECK(anew != days_of_papers(sooner));
    CHECK(*anew.back() <= day(48));
}

TEST_CASE("a paper whose planned day passed unsat finds another one, and the change is told") {
    Candidate candidate = ::candidate();
    candidate.exams = {{"Pure", day(98), "pure"}};
    const auto on_file = papers(4, "pure");
    keep(candidate, timetable(candidate, request(on_file), day(0)));
    const Day first = *days_of_papers(timetable(candidate, request(on_file), day(0))).front();
    const Timetable later = timetable(candidate, request(on_file), first + Days{1});
    const auto changed = changes(candidate, later, first + Days{1});
    REQUIRE(changed.size() == 1);
    CHECK(changed[0].what == "pure-1");
    CHECK(changed[0].from == first);
    CHECK(*changed[0].to > first);
}

TEST_CASE("as many papers as are wished are planned, those on file first, in the order of their numbers") {
    Candidate candidate = ::candidate();
    candidate.exams = {{"Pure", day(200), "pure"}};
    const std::vector<std::shared_ptr<const Paper>> on_file{paper("pure-10", "pure"),
                                                            paper("pure-9", "pure")};
    candidate.wishes.papers["pure"] = {4, day(0)};
    const Timetable four = timetable(candidate, request(on_file), day(0));
    std::vector<std::string> names;
    for (const WorkItem& item : four.items)
        names.push_back(name_of(std::get<PaperToSit>(item.work)));
    CHECK(names == std::vector<std::string>{"pure-9", "pure-10", "pure paper 3", "pure paper 4"});

    sit(candidate, on_file[1], day(1), 5); // one of the four
    CHECK(days_of_papers(timetable(candidate, request(on_file), day(2))).size() == 3);
    candidate.wishes.papers["pure"] = {1, day(2)};
    CHECK(days_of_papers(timetable(candidate, request(on_file), day(2))).size() == 1);
}

TEST_CASE("what a paper asks is its allowance with extra time, and time to mark it as wished") {
    Candidate candidate = ::candidate();
    candidate.availability.week.fill(Seconds(4 * 3600));
    sit(candidate, paper("old", "pure"), day(0), 5);
    candidate.sittings[0].sitting.extra_time = ExtraTime(25);
    candidate.wishes.marking_percent = 20;
    const Timetable made = timetable(candidate, request(papers(1, "pure")), day(1));
    REQUIRE(made.items.size() == 1);
    CHECK(std::get<PaperToSit>(made.items[0].work).allowance == Seconds(4500)); // 50 marks, 60 minutes, 25%
    CHECK(made.items[0].duration == Seconds(5400));
}

TEST_CASE("retries that papers will bring are foreseen from the candidate's own missed share") {
    Candidate candidate = ::candidate();
    candidate.exams = {{"Pure", day(98), "pure"}};
    sit(candidate, paper("old", "pure"), day(0), 3); // two of five questions
    const auto share = missed_share({candidate}, RetryRule());
    REQUIRE(share);
    CHECK_THAT(*share, WithinAbs(0.4, 1e-12));
    CHECK_FALSE(missed_share({}, RetryRule()).has_value());

    TimetableRequest request = ::request(papers(2, "pure"));
    request.share = {*share, ShareOf::candidate};
    request.turns = TurnsReserved::first;
    const Timetable made = timetable(candidate, request, day(0));
    CHECK(made.expected == Seconds(2 * 1440)); // 40% of an hour, twice
    Seconds reserved{0};
    for (const Reservation& room : made.reservations) {
        reserved += room.duration;
        const auto& days = days_of_papers(made);
        const Day sat = *days[room.paper == "pure-1" ? 0 : 1];
        CHECK(room.day >= sat + Days{14});
        CHECK(room.day <= sat + Days{21});
    }
    CHECK(reserved == made.expected);
    CHECK(made.reservations.size() == 4); // a piece for each question
}

TEST_CASE("a topic whose marks went for method is relearned before its retries come round, until noted") {
    Candidate candidate = ::candidate();
    sit(candidate, paper("pure-1", "pure"), day(0), 3); // questions 4 (vectors) and 5 (integration)
    const Timetable made = timetable(candidate, request({}), day(1));
    std::map<std::string, Day> last;
    for (const WorkItem& item : made.items)
        if (const auto* topic = std::get_if<TopicToRelearn>(&item.work)) {
            CHECK(item.duration == Seconds(1800));
            CHECK(topic->lost == Marks(10));
            last[topic->topic] = std::max(last[topic->topic], *item.day);
        }
    REQUIRE(last.size() == 2);
    for (const WorkItem& item : made.items)
        if (const auto* retry = std::get_if<Retry>(&item.work))
            CHECK(*item.day > last[retry->paper->parts()[retry->paper_question().parts[0]].topic]);

    candidate.relearned = {{"pure", "vectors", day(1)}};
    CHECK(topics_that_may_be_relearned(candidate, open_retries(candidate, day(1)), day(1)).size() ==
          static_cast<std::size_t>(TopicToRelearn::pieces));
    candidate.relearned[0].day = day(-1); // before the marks went
    CHECK(topics_that_may_be_relearned(candidate, open_retries(candidate, day(1)), day(1)).size() ==
          2 * static_cast<std::size_t>(TopicToRelearn::pieces));
}

TEST_CASE("of a topic that was half relearned the other half is left") {
    Candidate candidate = ::candidate();
    sit(candidate, paper("pure-1", "pure"), day(0), 4); // question 5, integration
    candidate.relearned = {{"pure", "integration", day(1), true}};
    const auto left = topics_that_may_be_relearned(candidate, open_retries(candidate, day(2)), day(2));
    REQUIRE(left.size() == 1);
    CHECK(left[0].piece == 2);
    candidate.relearned.push_back({"pure", "integration", day(2), true});
    CHECK(topics_that_may_be_relearned(candidate, open_retries(candidate, day(2)), day(2)).empty());
    candidate.relearned[0].day = day(-1); // before the marks went
    CHECK(topics_that_may_be_relearned(candidate, open_retries(candidate, day(2)), day(2)).size() == 1);
}

TEST_CASE("at least one day a week stays free, also where each has time") {
    Candidate candidate = ::candidate();
    candidate.availability.week.fill(Seconds(7200));
    candidate.exams = {{"Pure", day(120), "pure"}};
    for (int i = 0; i < 6; ++i)
        sit(candidate, paper("old-" + std::to_string(i), "pure", 12), day(i), 2);
    for (const int free_days : {0, 1, 2}) {
        candidate.availability.free_days = Days(free_days);
        const Timetable made = timetable(candidate, request(papers(12, "pure")), day(7));
        std::map<int, std::set<Day>> worked;
        for (const WorkItem& item : made.items)
            if (item.day)
                worked[static_cast<int>((*item.day - monday).count()) / 7].insert(*item.day);
        for (const Reservation& room : made.reservations)
            worked[static_cast<int>((room.day - monday).count()) / 7].insert(room.day);
        std::size_t most = 0;
        for (const auto& [week, days] : worked)
            most = std::max(most, days.size());
        CHECK(most <= static_cast<std::size_t>(7 - free_days));
        if (free_days == 0)
            CHECK(most == 7);
    }
}

TEST_CASE("what would make it fit does: each remedy, tried by hand") {
    Candidate candidate = ::candidate();
    candidate.availability.week = {Seconds(1800), Seconds(1800), Seconds(1800), Seconds(1800),
                                   Seconds(1800), Seconds(3600), Seconds(0)};
    candidate.exams = {{"Pure", day(60), "pure"}};
    const TimetableRequest request = ::request(papers(4, "pure")); // 90 minutes each with marking
    CHECK(timetable(candidate, request, day(0)).short_by > Seconds(0));
    const auto found = remedies(candidate, request, day(0));
    REQUIRE(found.size() >= 3);

    for (const Remedy& remedy : found) {
        Candidate mended = candidate;
        CHECK_FALSE(std::holds_alternative<UseDaysOff>(remedy)); // a Sunday has too little, with an hour
        if (const auto* more = std::get_if<MoreTime>(&remedy)) {
            CHECK(more->a_day == Seconds(1800));
            for (Seconds& time : mended.availability.week)
                time += time > Seconds(0) ? more->a_day : Seconds(0);
        } else if (const auto* longer = std::get_if<LongerDay>(&remedy)) {
            CHECK(longer->in_all == Seconds(5400));
            CHECK(longer->weekday == 5);
            mended.availability.week[5] = Seconds(5400);
        } else if (const auto* papers = std::get_if<FewerPapers>(&remedy)) {
            CHECK(papers->fewer == 4);
            CHECK(papers->subject == "pure");
            CHECK(papers->remaining == 0);
            mended.wishes.papers["pure"] = {0, day(1)};
        }
        CHECK(timetable(mended, request, day(0)).short_by == Seconds(0));
    }
}

TEST_CASE("holidays may be used, and a week still keeps its free day") {
    Candidate candidate = ::candidate();
    candidate.exams = {{"Pure", day(40), "pure"}};
    for (int i = 0; i < 21; ++i)
        candidate.availability.dates[day(i)] = Seconds(0); // none of three weeks
    const TimetableRequest request = ::request(papers(4, "pure"));
    const auto found = remedies(candidate, request, day(0));
    const auto used = std::find_if(found.begin(), found.end(), [](const Remedy& remedy) {
        return std::holds_alternative<UseDaysOff>(remedy);
    });
    REQUIRE(used != found.end());
    const auto& [days, each] = std::get<UseDaysOff>(*used);
    CHECK(days.size() >= 1);
    CHECK(days.size() <= 3);
    for (const Day off : days)
        candidate.availability.dates[off] = each;
    CHECK(timetable(candidate, request, day(0)).short_by == Seconds(0));
}

TEST_CASE("a retry whose topic is never relearned comes all the same, in its window") {
    Candidate candidate = ::candidate();
    sit(candidate, paper("pure-1", "pure"), day(0), 4); // question 5 went for method
    const Window window = *retry_window(day(0), {});
    bool has_come = false;
    for (Day today = day(0); today <= window.closes; today += Days{1}) {
        const Timetable made = timetable(candidate, request({}), today);
        for (const WorkItem& item : made.items)
            if (item.kind() == WorkKind::retry && item.day == today)
                has_come = true;
        keep(candidate, made);
    }
    CHECK(has_come);
}

TEST_CASE("nothing of a subject is put on its exam's day, and no paper on the day of any exam") {
    Candidate candidate = ::candidate();
    candidate.availability.week = {};
    candidate.availability.week[5] = Seconds(7200); // Saturdays alone
    candidate.exams = {{"Pure", day(12), "pure"}, {"Mechanics", day(40), "mechanics"}};
    const auto mechanics = papers(6, "mechanics");
    const auto days = days_of_papers(timetable(candidate, request(mechanics), day(0)));
    CHECK(std::count(days.begin(), days.end(), std::optional<Day>(day(12))) == 0); // a Saturday
    CHECK(std::count(days.begin(), days.end(), std::optional<Day>(day(5))) == 1);

    sit(candidate, paper("pure-1", "pure"), day(0), 4);
    candidate.exams[0].day = day(6);
    for (const WorkItem& item : timetable(candidate, request({}), day(0)).items)
        if (item.day)
            CHECK(*item.day < day(6));
}

TEST_CASE("papers without an exam take no day that a paper needs to be in time") {
    Candidate candidate = ::candidate();
    candidate.availability.week = {};
    candidate.availability.week[5] = Seconds(7200);
    candidate.exams = {{"Pure", day(43), "pure"}}; // in time to day 21: three Saturdays
    auto on_file = papers(2, "applied");
    for (const auto& pure : papers(3, "pure"))
        on_file.push_back(pure);
    for (const SubjectAhead& subject : timetable(candidate, request(on_file), day(0)).subjects) {
        CHECK(subject.too_late == 0);
        CHECK(subject.without_day.empty());
    }
}
