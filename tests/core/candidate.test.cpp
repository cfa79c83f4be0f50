#include "inkturn/candidate.hpp"

#include "inkturn/error.hpp"

#if __has_include(<catch2/catch_all.hpp>)
#include <catch2/catch_all.hpp>
#else
#include <catch2/catch.hpp>
#endif

#include <algorithm>
#include <chrono>
#include <map>
#include <memory>
#include <optional>
#include <random>
#include <string>
#include <tuple>
#include <vector>

namespace {

using namespace inkturn;
using Catch::Matchers::EndsWith;
using Catch::Matchers::StartsWith;

constexpr Day monday{date::year{2026} / date::November / 2};

Day day(int distance) {
    return monday + Days{distance};
}

int pick(std::mt19937& dice, int least, int most) {
    return least + static_cast<int>(dice() % static_cast<unsigned>(most - least + 1));
}

std::shared_ptr<const Paper> paper_of(const std::string& id, const std::vector<int>& marks,
                                      const std::string& subject = "pure") {
    std::vector<Part> parts;
    for (const int count : marks)
        parts.push_back({std::to_string(parts.size() + 1), Marks(count), "", ""});
    return std::make_shared<const Paper>(PaperHead{id, "", subject, {}, RetryBy::question}, parts);
}

SittingRecord sat(int id, const std::shared_ptr<const Paper>& paper, int on, const std::string& line) {
    return {SittingId{id}, paper, {day(on), {}, parse_line(*paper, line)}, {}};
}

/// Sat a paper of three questions on the Monday, and missed two of them.
Candidate example() {
    Candidate candidate;
    candidate.code = "K07";
    candidate.sittings.push_back(sat(12, paper_of("made-up", {5, 4, 6}), 0, "3 4 1+0+5"));
    return candidate;
}

RetryId id_of(const std::string& text) {
    return parse_retry_id(text);
}

/// "12q1 +14 12q3 none": each retry with its day's distance from the Monday.
std::string days_of(const std::vector<Retry>& retries) {
    std::string text;
    for (const Retry& retry : retries)
        text += (text.empty() ? "" : " ") + to_text(retry.id) + " " +
                (retry.day ? "+" + std::to_string((*retry.day - monday).count()) : "none");
    return text;
}

void keep(Candidate& candidate, const std::vector<Retry>& retries) {
    for (const Retry& retry : retries) {
        if (!retry.placed_now)
            continue;
        auto& on_file = candidate.placements;
        on_file.erase(std::remove_if(on_file.begin(), on_file.end(),
                                     [&](const Placement& placement) {
                                         return placement.sitting == retry.id.sitting &&
                                                placement.question == retry.id.question;
                                     }),
                      on_file.end());
        on_file.push_back({retry.id.sitting, retry.id.question, *retry.day});
    }
}

Reattempt take(const Candidate& candidate, const std::string& id, const std::string& marks, int on,
               int today) {
    std::vector<Entry> entries;
    if (!marks.empty())
        entries.push_back(parse_entry(marks));
    return take_retry(candidate, id_of(id), entries, Rest::full, day(on), day(today));
}

} // namespace

TEST_CASE("each missed question makes one retry, with all the question's marks for its allowance") {
    const auto retries = open_retries(example(), day(0));
    REQUIRE(retries.size() == 2);
    CHECK(to_text(retries[0].id) == "12q1");
    CHECK(retries[0].candidate == "K07");
    CHECK(retries[0].missed == Marks(2));
    CHECK(retries[0].allowance == Seconds(360));
    CHECK(retries[0].asked().label == "1");
    CHECK(to_text(retries[1].id) == "12q3");
    CHECK(retries[1].missed == Marks(5));
    CHECK(retries[1].placed_now);
    CHECK_FALSE(retries[1].late);
}

TEST_CASE("a retry's allowance has the extra time of its sitting") {
    Candidate candidate = example();
    candidate.sittings[0].sitting.extra_time = ExtraTime(25);
    CHECK(open_retries(candidate, day(0))[0].allowance == Seconds(450));
}

TEST_CASE("a candidate without sittings has no retries") {
    CHECK(open_retries(Candidate{}, day(0)).empty());
}

TEST_CASE("days that are on file stay") {
    Candidate candidate = example();
    candidate.placements = {{SittingId{12}, "1", day(18)}, {SittingId{12}, "3", day(18)}};
    const auto retries = open_retries(candidate, day(0));
    CHECK(days_of(retries) == "12q1 +18 12q3 +18");
    CHECK_FALSE(retries[0].placed_now);
    CHECK(days_of(open_retries(candidate, day(18))) == "12q1 +18 12q3 +18");
}

TEST_CASE("to place everything again takes no notice of the days on file") {
    Candidate candidate = example();
    const std::string anew = days_of(open_retries(candidate, day(0)));
    candidate.placements = {{SittingId{12}, "1", day(18)}, {SittingId{12}, "3", day(18)}};
    const auto retries = open_retries(candidate, day(0), Placing::again);
    CHECK(days_of(retries) == anew);
    CHECK(retries[0].placed_now);
    CHECK(retries[1].placed_now);
}

TEST_CASE("a day that was set off later is given up, and the other stays") {
    Candidate candidate = example();
    candidate.placements = {{SittingId{12}, "1", day(16)}, {SittingId{12}, "3", day(18)}};
    candidate.availability.dates[day(16)] = Seconds(0);
    const auto retries = open_retries(candidate, day(0));
    CHECK(days_of(retries) == "12q1 +14 12q3 +18");
    CHECK(retries[0].placed_now);
    CHECK_FALSE(retries[1].placed_now);
}

TEST_CASE("an exam that was added later moves only what it makes impossible") {
    Candidate candidate = example();
    candidate.placements = {{SittingId{12}, "1", day(15)}, {SittingId{12}, "3", day(18)}};
    candidate.exams = {{"Mechanics", day(15), "mechanics"}, {"Pure", day(18), "pure"}};
    CHECK(days_of(open_retries(candidate, day(0))) == "12q3 +14 12q1 +15");
    candidate.exams = {{"All", day(10), ""}};
    for (const Retry& retry : open_retries(candidate, day(0))) {
        REQUIRE(retry.window);
        CHECK(retry.window->squeezed);
        CHECK(*retry.day >= day(2));
        CHECK(*retry.day < day(10));
    }
}

TEST_CASE("a day that is past is given up") {
    Candidate candidate = example();
    candidate.placements = {{SittingId{12}, "1", day(15)}, {SittingId{12}, "3", day(18)}};
    const auto retries = open_retries(candidate, day(16));
    CHECK(days_of(retries) == "12q1 +16 12q3 +18");
}

TEST_CASE("a day outside the window is given up") {
    Candidate candidate = example();
    candidate.placements = {{SittingId{12}, "1", day(13)}, {SittingId{12}, "3", day(22)}};
    for (const Retry& retry : open_retries(candidate, day(0)))
        CHECK(retry.placed_now);
}

TEST_CASE("what is late is placed in the week from today on, and keeps its day") {
    Candidate candidate = example();
    auto retries = open_retries(candidate, day(49));
    REQUIRE(retries.size() == 2);
    for (const Retry& retry : retries) {
        CHECK(retry.late);
        CHECK(*retry.day >= day(49));
        CHECK(*retry.day <= day(56));
    }
    candidate.placements = {{SittingId{12}, "1", day(52)}, {SittingId{12}, "3", day(53)}};
    CHECK(days_of(open_retries(candidate, day(51))) == "12q1 +52 12q3 +53");
    CHECK(days_of(open_retries(candidate, day(53))) == "12q3 +53 12q1 +54");
}

TEST_CASE("where the exam leaves no day there is a retry without one, listed last") {
    Candidate candidate = example();
    candidate.sittings.push_back(sat(13, paper_of("other", {4}, "mechanics"), 0, "1"));
    candidate.exams = {{"Pure", day(1), "pure"}};
    const auto retries = open_retries(candidate, day(0));
    CHECK(days_of(retries) == "13q1 +14 12q1 none 12q3 none");
    CHECK_FALSE(retries[1].window.has_value());
    CHECK_FALSE(retries[1].placed_now);
}

TEST_CASE("where the exam is past no day is left") {
    Candidate candidate = example();
    candidate.exams = {{"Pure", day(20), "pure"}};
    CHECK(days_of(open_retries(candidate, day(20))) == "12q1 none 12q3 none");
    CHECK(days_of(open_retries(candidate, day(30))) == "12q1 none 12q3 none");
}

TEST_CASE("a window wholly of days off gives way to the nearest day after it") {
    Candidate candidate = example();
    for (int distance = 14; distance <= 23; ++distance)
        candidate.availability.dates[day(distance)] = Seconds(0);
    const auto retries = open_retries(candidate, day(0));
    CHECK(days_of(retries) == "12q1 +24 12q3 +24");
    CHECK(retries[0].outside_window);
    CHECK(retries[0].placed_now);
    keep(candidate, retries);
    CHECK_FALSE(open_retries(candidate, day(0))[0].placed_now);
}

TEST_CASE("where the exam is before that, to the nearest day before the window and after the attempt") {
    Candidate candidate = example();
    for (int distance = 12; distance <= 23; ++distance)
        candidate.availability.dates[day(distance)] = Seconds(0);
    candidate.exams = {{"Pure", day(24), "pure"}};
    CHECK(days_of(open_retries(candidate, day(0))) == "12q1 +11 12q3 +11");
    // The day before is past by now: nothing is placed before today.
    const auto retries = open_retries(candidate, day(12));
    CHECK(days_of(retries) == "12q1 none 12q3 none");
    CHECK_FALSE(retries[0].outside_window);
}

TEST_CASE("without any day to work on nothing is placed") {
    Candidate candidate = example();
    candidate.availability.week.fill(Seconds(0));
    CHECK(days_of(open_retries(candidate, day(0))) == "12q1 none 12q3 none");
    candidate.availability.dates[day(40)] = Seconds(600);
    CHECK(days_of(open_retries(candidate, day(0))) == "12q1 +40 12q3 +40");
}

TEST_CASE("a later sitting of the same paper takes the place of the earlier one") {
    Candidate candidate = example();
    candidate.sittings.push_back(sat(20, candidate.sittings[0].paper, 5, "5 4 5"));
    const auto retries = open_retries(candidate, day(5));
    REQUIRE(retries.size() == 1);
    CHECK(to_text(retries[0].id) == "20q3");
    CHECK(retries[0].dropped_on == day(5));
    CHECK_THROWS_WITH(take(candidate, "12q1", "", 6, 6),
                      StartsWith("no retry 12q1: paper made-up was sat again later"));
    // A day is what counts, not the order in which sittings were put on file.
    candidate.sittings[1] = sat(3, candidate.sittings[0].paper, 5, "5 4 6");
    CHECK(open_retries(candidate, day(5)).empty());
}

TEST_CASE("a re-attempt that gets the question ends its retries, one that does not opens the next turn") {
    Candidate candidate = example();
    candidate.sittings[0].reattempts = {take(candidate, "12q1", "1=4:slip", 15, 30)};
    auto retries = open_retries(candidate, day(15));
    REQUIRE(retries.size() == 2);
    const auto next =
        std::find_if(retries.begin(), retries.end(), [](const Retry& retry) { return retry.id.turn == 2; });
    REQUIRE(next != retries.end());
    CHECK(to_text(next->id) == "12q1t2");
    CHECK(next->dropped_on == day(15));
    CHECK(next->window->opens == day(29));
    CHECK(next->missed == Marks(1));

    candidate.sittings[0].reattempts.push_back(take(candidate, "12q1t2", "1=4+1", 29, 30));
    retries = open_retries(candidate, day(30));
    REQUIRE(retries.size() == 1);
    CHECK(to_text(retries[0].id) == "12q3");
}

TEST_CASE("a re-attempt is taken on any day from the attempt to today") {
    const Candidate candidate = example();
    CHECK(take(candidate, "12q1", "", 0, 30).day == day(0));
    CHECK(take(candidate, "12q1", "", 30, 30).day == day(30));
    CHECK_THROWS_WITH(
        take(candidate, "12q1", "", -1, 30),
        "retry 12q1 on 2026-11-01: the question was missed on 2026-11-02; a re-attempt is not before that");
    CHECK_THROWS_WITH(take(candidate, "12q1", "", 31, 30),
                      StartsWith("a re-attempt on 2026-12-03 lies in the future"));
}

TEST_CASE("a re-attempt that can't be recorded says why") {
    Candidate candidate = example();
    CHECK_THROWS_WITH(take(candidate, "13q1", "", 15, 15), StartsWith("candidate K07 has no sitting 13;"));
    CHECK_THROWS_WITH(take(candidate, "12q9", "", 15, 15),
                      StartsWith("no retry 12q9: paper made-up has no question 9"));
    CHECK_THROWS_WITH(take(candidate, "12q2", "", 15, 15), "no retry 12q2: question 2 was not missed");
    CHECK_THROWS_WITH(take(candidate, "12q1t2", "", 15, 15), "no retry 12q1t2 yet: record 12q1 first");
    CHECK_THROWS_WITH(take(candidate, "12q1", "2=1", 15, 15),
                      EndsWith("does not belong to the question that is retried"));
    CHECK_THROWS_WITH(take_retry(candidate, id_of("12q1"), {}, {}, day(15), day(15)),
                      StartsWith("no marks for 1: "));
}

TEST_CASE("a re-attempt is recorded once, in the order of turns") {
    Candidate candidate = example();
    candidate.sittings[0].reattempts = {take(candidate, "12q1", "1=0", 15, 30),
                                        take(candidate, "12q3", "", 15, 30)};
    CHECK_THROWS_WITH(take(candidate, "12q1", "", 16, 30),
                      StartsWith("retry 12q1 was recorded on 2026-11-17;"));
    CHECK_THROWS_WITH(take(candidate, "12q1t3", "", 16, 30), "no retry 12q1t3 yet: record 12q1t2 first");
    CHECK_THROWS_WITH(take(candidate, "12q3t2", "", 16, 30),
                      "no retry 12q3t2: question 3 is secured already");
    CHECK_THROWS_WITH(take(candidate, "12q1t2", "", 14, 30),
                      StartsWith("retry 12q1t2 on 2026-11-16: the question was "
                                 "missed on 2026-11-17"));
}

TEST_CASE("only the last turn recorded can be taken back") {
    Candidate candidate = example();
    CHECK_THROWS_WITH(check_can_be_undone(candidate, id_of("12q1")),
                      StartsWith("retry 12q1 was not recorded"));
    candidate.sittings[0].reattempts = {take(candidate, "12q1", "1=0", 15, 30)};
    CHECK_NOTHROW(check_can_be_undone(candidate, id_of("12q1")));
    CHECK_THROWS_AS(check_can_be_undone(candidate, id_of("12q3")), Error);
    candidate.sittings[0].reattempts.push_back(take(candidate, "12q1t2", "1=0", 30, 30));
    CHECK_THROWS_WITH(check_can_be_undone(candidate, id_of("12q1")),
                      StartsWith("retry 12q1: a later turn was recorded"));
    CHECK_NOTHROW(check_can_be_undone(candidate, id_of("12q1t2")));
}

TEST_CASE("a sitting is not replaced by one that a recorded retry contradicts") {
    Candidate candidate = example();
    const Paper& paper = *candidate.sittings[0].paper;
    const auto replaced_by = [&](const std::string& line, int on) {
        check_can_replace(paper, {day(on), {}, parse_line(paper, line)}, candidate.sittings[0], day(30));
    };
    CHECK_NOTHROW(replaced_by("5 4 6", 30));
    CHECK_THROWS_AS(replaced_by("5 4 6", 31), Error);
    candidate.sittings[0].reattempts = {take(candidate, "12q1", "1=0", 15, 30)};
    CHECK_NOTHROW(replaced_by("4 4 6", 15));
    CHECK_THROWS_WITH(replaced_by("5 4 6", 0),
                      StartsWith("sitting 12: question 1 would no longer be missed"));
    CHECK_THROWS_WITH(replaced_by("4 4 6", 16),
                      StartsWith("sitting 12 would come after its retry 12q1 of 2026-11-17"));
}

TEST_CASE("a sitting is not replaced so that an earlier turn would have got what a later one re-attempted") {
    const auto paper =
        std::make_shared<const Paper>(Paper({"two", "", "", std::nullopt, RetryBy::question},
                                            {{"7a", Marks(3), "", ""}, {"7b", Marks(3), "", ""}}));
    Candidate candidate;
    candidate.code = "K07";
    candidate.sittings.push_back({SittingId{12}, paper, {day(0), {}, parse_line(*paper, "0 3")}, {}});
    const auto turn = [&](int number, int on) {
        return Reattempt{"7", number, day(on), parse_line(*paper, "0 3")};
    };
    candidate.sittings[0].reattempts = {turn(1, 15), turn(2, 30)};
    const auto replaced_by = [&](const char* line) {
        check_can_replace(*paper, {day(0), {}, parse_line(*paper, line)}, candidate.sittings[0], day(40));
    };
    CHECK_NOTHROW(replaced_by("1 2"));
    CHECK_THROWS_WITH(replaced_by("3 0"),
                      StartsWith("sitting 12: question 7 would be got before its retry 12q7t2"));
}

TEST_CASE("a candidate's code is printable text of 1 to 64 characters") {
    for (const char* const code : {"K07", "me", "a b", "\xC3\xA9"})
        CHECK_NOTHROW(check_candidate_code(code));
    CHECK_NOTHROW(check_candidate_code(std::string(64, 'x')));
    for (const std::string code : {"", " ", " K07", "K07 ", "K\n07", "K\x1b[31m", "\xFF"}) {
        CAPTURE(code);
        CHECK_THROWS_AS(check_candidate_code(code), Error);
    }
    CHECK_THROWS_AS(check_candidate_code(std::string(65, 'x')), Error);
}

namespace {

constexpr int now = 60; ///< days after the Monday

std::string random_line(std::mt19937& dice, const Paper& paper) {
    std::string line;
    for (const Part& part : paper.parts())
        line +=
            (line.empty() ? "" : " ") +
            (pick(dice, 0, 5) == 0 ? "-"
                                   : std::to_string(pick(dice, 0, 1) == 0 ? part.max.count()
                                                                          : pick(dice, 0, part.max.count())));
    return line;
}

void add_random_reattempts(std::mt19937& dice, Candidate& candidate) {
    for (int i = 0; i < 3; ++i) {
        const auto open = open_retries(candidate, day(now));
        if (open.empty())
            return;
        const Retry& retry = open[dice() % open.size()];
        const int missed_on = static_cast<int>((retry.dropped_on - monday).count());
        const std::vector<Entry> entries{
            {retry.asked().label, std::to_string(pick(dice, 0, retry.asked().marks.count())), {}}};
        const Reattempt reattempt =
            take_retry(candidate, retry.id, entries, {}, day(pick(dice, missed_on, now)), day(now));
        for (SittingRecord& record : candidate.sittings)
            if (record.id == retry.id.sitting)
                record.reattempts.push_back(reattempt);
    }
}

Candidate random_candidate(std::mt19937& dice) {
    static const std::vector<std::shared_ptr<const Paper>> papers{
        paper_of("a", {5, 4, 6, 11}), paper_of("b", {3, 8}, "mechanics"), paper_of("c", {12, 1, 7}, "")};
    Candidate candidate;
    candidate.code = "K07";
    for (int id = 1; id <= pick(dice, 1, 4); ++id) {
        const auto& paper = papers[dice() % papers.size()];
        candidate.sittings.push_back(sat(id, paper, pick(dice, now - 40, now), random_line(dice, *paper)));
    }
    std::sort(candidate.sittings.begin(), candidate.sittings.end(),
              [](const SittingRecord& a, const SittingRecord& b) {
                  return std::tie(a.sitting.day, a.id) < std::tie(b.sitting.day, b.id);
              });
    const std::vector<int> minutes{0, 0, 15, 60};
    for (Seconds& time : candidate.availability.week)
        time = std::chrono::minutes(minutes[dice() % 4]);
    for (int i = pick(dice, 0, 25); i > 0; --i)
        candidate.availability.dates[day(pick(dice, now - 5, now + 40))] =
            std::chrono::minutes(minutes[dice() % 3]);
    const std::vector<std::string> subjects{"", "pure", "mechanics"};
    for (int i = pick(dice, 0, 3); i > 0; --i)
        candidate.exams.push_back({"Paper", day(pick(dice, now - 25, now + 45)), subjects[dice() % 3]});
    add_random_reattempts(dice, candidate);
    return candidate;
}

/// The first exam ahead of what was missed on that day; the last one behind where none is.
std::optional<Day> exam_of(const Candidate& candidate, const Retry& retry, Day today) {
    std::vector<Day> ahead;
    std::vector<Day> behind;
    for (const Exam& exam : candidate.exams)
        if (exam.day > retry.dropped_on && (exam.subject.empty() || exam.subject == retry.paper->subject()))
            (exam.day > today ? ahead : behind).push_back(exam.day);
    if (!ahead.empty())
        return *std::min_element(ahead.begin(), ahead.end());
    if (!behind.empty())
        return *std::max_element(behind.begin(), behind.end());
    return std::nullopt;
}

/// The days that the rules leave for a retry, written down from the rules once more, a day at a time.
std::vector<Day> days_by_the_rules(const Candidate& candidate, const Retry& retry, Day today) {
    const auto exam = exam_of(candidate, retry, today);
    const auto before_exam = [&](Day day) { return !exam || day < *exam; };
    std::vector<Day> window;
    for (int gap = 14; gap <= 21; ++gap)
        if (before_exam(retry.dropped_on + Days{gap}))
            window.push_back(retry.dropped_on + Days{gap});
    if (window.empty()) {
        int gap = 1;
        while (6 * gap < (*exam - retry.dropped_on).count())
            ++gap;
        for (Day day = retry.dropped_on + Days{gap}; before_exam(day); day += Days{1})
            window.push_back(day);
    }
    if (!window.empty() && window.back() < today) {
        window.clear();
        for (int ahead = 0; ahead <= 7; ++ahead)
            window.push_back(today + Days{ahead});
    }
    std::vector<Day> left;
    for (const Day day : window)
        if (day >= today && before_exam(day))
            left.push_back(day);
    return left;
}

/// What is wrong with a retry's day; empty where nothing is.
std::string fault(const Candidate& candidate, const Retry& retry, Day today) {
    const std::vector<Day> left = days_by_the_rules(candidate, retry, today);
    const bool all_off = std::none_of(left.begin(), left.end(),
                                      [&](Day each) { return candidate.availability.on(each) > Seconds(0); });
    if (retry.left.has_value() == left.empty())
        return "has days left where the rules leave none, or the other way round";
    if (retry.left && (retry.left->first != left.front() || retry.left->last != left.back()))
        return "other days are left than the rules leave";
    if (!retry.day)
        return all_off ? "" : "has no day although there is one";
    if (*retry.day < today || *retry.day <= retry.dropped_on)
        return "stands before today or the attempt";
    const auto exam = exam_of(candidate, retry, today);
    if (exam && *retry.day >= *exam)
        return "does not stand before its exam";
    if (candidate.availability.on(*retry.day) == Seconds(0))
        return "stands on a day off";
    const bool within = std::find(left.begin(), left.end(), *retry.day) != left.end();
    return within == all_off || retry.outside_window != all_off ? "stands on the wrong side of its window"
                                                                : "";
}

using DayById = std::map<std::string, Day>;

DayById placed(const std::vector<Retry>& retries) {
    DayById days;
    for (const Retry& retry : retries)
        if (retry.day)
            days.emplace(to_text(retry.id), *retry.day);
    return days;
}

} // namespace

TEST_CASE("every retry falls in the days left to it, before its exam and never on a day off") {
    std::mt19937 dice(3);
    int retries_seen = 0;
    for (int round = 0; round < 1500; ++round) {
        const Candidate candidate = random_candidate(dice);
        const Day today = day(now + pick(dice, 0, 30));
        std::optional<Day> last;
        bool without_day = false;
        for (const Retry& retry : open_retries(candidate, today)) {
            ++retries_seen;
            const std::string wrong = fault(candidate, retry, today);
            if (!wrong.empty())
                FAIL("round " << round << ", retry " << to_text(retry.id) << " " << wrong);
            if (retry.day && (without_day || (last && *retry.day < *last)))
                FAIL("round " << round << ": out of order");
            without_day = without_day || !retry.day;
            last = retry.day ? retry.day : last;
        }
    }
    CHECK(retries_seen > 3000);
}

TEST_CASE("days once kept stay as the days go by, until they are past") {
    std::mt19937 dice(4);
    for (int round = 0; round < 400; ++round) {
        Candidate candidate = random_candidate(dice);
        auto before = open_retries(candidate, day(now));
        keep(candidate, before);
        for (const Retry& retry : open_retries(candidate, day(now)))
            if (retry.placed_now)
                FAIL("round " << round << ": moved on the same day");
        for (int today = now + 1; today < now + 12; ++today) {
            const auto after = open_retries(candidate, day(today));
            const DayById days = placed(after);
            for (const auto& [id, on] : placed(before)) {
                const auto found = days.find(id);
                if (on >= day(today) && (found == days.end() || found->second != on))
                    FAIL("round " << round << ", retry " << id << " moved");
            }
            keep(candidate, after);
            before = after;
        }
    }
    SUCCEED();
}

TEST_CASE("placing everything again is placing with nothing on file") {
    std::mt19937 dice(5);
    for (int round = 0; round < 200; ++round) {
        Candidate candidate = random_candidate(dice);
        const auto anew = placed(open_retries(candidate, day(now)));
        for (const Retry& retry : open_retries(candidate, day(now)))
            candidate.placements.push_back(
                {retry.id.sitting, retry.id.question, day(now + pick(dice, 0, 30))});
        if (placed(open_retries(candidate, day(now), Placing::again)) != anew)
            FAIL("round " << round);
    }
    SUCCEED();
}
