#include "inkturn/retry/candidate.hpp"

#include "catch.hpp"
#include "core/retry/candidates.hpp"
#include "dice.hpp"

#include <algorithm>
#include <chrono>
#include <map>
#include <memory>
#include <optional>
#include <random>
#include <set>
#include <string>
#include <tuple>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;

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
        const std::vector<Entry> entries{{retry.paper_question().label,
                                          std::to_string(pick(dice, 0, retry.paper_question().marks.count())),
                                          {}}};
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

/// The first exam ahead that leaves a day of what was missed on that day.
std::optional<Day> exam_of(const Candidate& candidate, const Retry& retry, Day today) {
    std::optional<Day> first;
    for (const Exam& exam : candidate.exams)
        if (exam.day > today && exam.day > retry.dropped_on + Days{1} &&
            (exam.subject.empty() || exam.subject == retry.paper->subject()))
            first = std::min(first.value_or(exam.day), exam.day);
    return first;
}

bool is_examined(const Candidate& candidate, const Retry& retry) {
    return std::any_of(candidate.exams.begin(), candidate.exams.end(), [&](const Exam& exam) {
        return exam.day > retry.dropped_on &&
               (exam.subject.empty() || exam.subject == retry.paper->subject());
    });
}

/// The days of the window, written down from the rules once more, a day at a time.
std::vector<Day> window_by_the_rules(const Candidate& candidate, const Retry& retry, Day today) {
    const auto exam = exam_of(candidate, retry, today);
    std::vector<Day> window;
    if (!exam && is_examined(candidate, retry))
        return window;
    for (int gap = 14; gap <= 21; ++gap)
        window.push_back(retry.dropped_on + Days{gap});
    if (exam && window.back() >= *exam) { // the last eight days before the exam, past the first sixth
        window.clear();
        const auto until_exam = (*exam - retry.dropped_on).count();
        for (auto gap = std::max<long>(std::min<long>(until_exam - 8, 14), 1); gap < until_exam; ++gap)
            if (6 * gap >= until_exam)
                window.push_back(retry.dropped_on + Days{gap});
    }
    return window;
}

/// What is wrong with a retry's window and day; empty where nothing is.
std::string fault(const Candidate& candidate, const Retry& retry, Day today) {
    const std::vector<Day> window = window_by_the_rules(candidate, retry, today);
    if (retry.window.has_value() == window.empty())
        return "has a window where the rules leave none, or the other way round";
    if (window.empty())
        return retry.day ? "has a day without a window" : "";
    if (retry.window->opens != window.front() || retry.window->closes != window.back())
        return "has another window than the rules leave";
    if (retry.late != (window.back() < today))
        return "is late, or the other way round";
    if (!retry.day)
        return "";
    if (*retry.day < today || *retry.day <= retry.dropped_on)
        return "stands before today or the attempt";
    const auto exam = exam_of(candidate, retry, today);
    if (exam && *retry.day >= *exam)
        return "does not stand before its exam";
    const bool within = window.front() <= *retry.day && *retry.day <= window.back();
    return retry.outside_window == (within || retry.late) ? "stands on the wrong side of its window" : "";
}

/// Whether a retry that has no day would have room somewhere in its window.
bool has_room(const Candidate& candidate, const Retry& retry, const std::map<Day, Seconds>& planned,
              Day today) {
    const auto exams = candidate.exams;
    const auto has_exam = [&](Day day) {
        return std::any_of(exams.begin(), exams.end(), [&](const Exam& exam) { return exam.day == day; });
    };
    if (!retry.window)
        return false;
    const Day first = std::max(today, retry.window->opens);
    for (Day day = first; day <= std::max(retry.window->closes, today); day += Days{1}) {
        const auto found = planned.find(day);
        const Seconds taken = (found == planned.end() ? Seconds(0) : found->second) +
                              (day == today ? time_worked(candidate, today) : Seconds(0));
        if (!has_exam(day) && (!retry.exam || day < *retry.exam) &&
            candidate.availability.on(day) - taken >= retry.allowance)
            return true;
    }
    return false;
}

using DayById = std::map<std::string, Day>;

DayById day_by_id(const std::vector<Retry>& retries) {
    DayById days;
    for (const Retry& retry : retries)
        if (retry.day)
            days.emplace(to_text(retry.id), *retry.day);
    return days;
}

} // namespace

TEST_CASE("every retry has the window of the rules and a day before its exam, and no day is above its time") {
    std::mt19937 dice(3);
    int retries_seen = 0;
    int without = 0;
    for (int round = 0; round < 500; ++round) {
        CAPTURE(round);
        const Candidate candidate = random_candidate(dice);
        const Day today = day(now + pick(dice, 0, 30));
        std::optional<Day> last;
        std::map<Day, Seconds> planned;
        const std::vector<Retry> retries = open_retries(candidate, today);
        for (const Retry& retry : retries) {
            ++retries_seen;
            const std::string wrong = fault(candidate, retry, today);
            if (!wrong.empty())
                FAIL("round " << round << ", retry " << to_text(retry.id) << " " << wrong);
            if (retry.day && last && *retry.day < *last)
                FAIL("round " << round << ": out of order");
            last = retry.day ? retry.day : latest_day;
            if (retry.day)
                planned[*retry.day] += retry.allowance;
        }
        for (const auto& [day, sum] : planned)
            CHECK(sum + (day == today ? time_worked(candidate, today) : Seconds(0)) <=
                  candidate.availability.on(day));
        for (const Retry& retry : retries)
            if (!retry.day) {
                ++without;
                CHECK_FALSE(has_room(candidate, retry, planned, today));
            }
    }
    CHECK(retries_seen > 1000);
    CHECK(without > 20);
}

TEST_CASE("days once kept stay as the days go by, until they are past") {
    std::mt19937 dice(4);
    for (int round = 0; round < 100; ++round) {
        Candidate candidate = random_candidate(dice);
        auto before = open_retries(candidate, day(now));
        keep(candidate, before);
        candidate.planned_for = day(now);
        for (const Retry& retry : open_retries(candidate, day(now)))
            if (retry.day_is_new)
                FAIL("round " << round << ": moved on the same day");
        for (int today = now + 1; today < now + 12; ++today) {
            const auto after = open_retries(candidate, day(today));
            const DayById days = day_by_id(after);
            std::set<std::string> late; // in their order, day by day
            for (const Retry& retry : after)
                if (retry.late)
                    late.insert(to_text(retry.id));
            for (const auto& [id, on] : day_by_id(before)) {
                const auto found = days.find(id);
                if (on >= day(today) && late.count(id) == 0 && (found == days.end() || found->second != on))
                    FAIL("round " << round << ", retry " << id << " moved");
            }
            keep(candidate, after);
            candidate.planned_for = day(today);
            before = after;
        }
    }
    SUCCEED();
}

TEST_CASE("placing everything again is placing with nothing on file") {
    std::mt19937 dice(5);
    for (int round = 0; round < 200; ++round) {
        Candidate candidate = random_candidate(dice);
        const auto anew = day_by_id(open_retries(candidate, day(now)));
        for (const Retry& retry : open_retries(candidate, day(now)))
            candidate.placements.push_back(
                {retry.id.sitting, retry.id.question, day(now + pick(dice, 0, 30))});
        if (day_by_id(open_retries(candidate, day(now), PlacementMode::again)) != anew)
            FAIL("round " << round);
    }
    SUCCEED();
}
