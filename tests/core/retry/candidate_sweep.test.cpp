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
        window.push_back(retry.dropped_on + Days{gap});
    if (!before_exam(window.back())) { // the last eight days before the exam, past the first sixth
        window.clear();
        const auto until_exam = (*exam - retry.dropped_on).count();
        for (auto gap = std::max<long>(until_exam - 8, 1); gap < until_exam; ++gap)
            if (6 * gap >= until_exam)
                window.push_back(retry.dropped_on + Days{gap});
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
    if (retry.possible_days.has_value() == left.empty())
        return "has days left where the rules leave none, or the other way round";
    if (retry.possible_days &&
        (retry.possible_days->first != left.front() || retry.possible_days->last != left.back()))
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

DayById day_by_id(const std::vector<Retry>& retries) {
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
            if (retry.day_is_new)
                FAIL("round " << round << ": moved on the same day");
        for (int today = now + 1; today < now + 12; ++today) {
            const auto after = open_retries(candidate, day(today));
            const DayById days = day_by_id(after);
            for (const auto& [id, on] : day_by_id(before)) {
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
        const auto anew = day_by_id(open_retries(candidate, day(now)));
        for (const Retry& retry : open_retries(candidate, day(now)))
            candidate.placements.push_back(
                {retry.id.sitting, retry.id.question, day(now + pick(dice, 0, 30))});
        if (day_by_id(open_retries(candidate, day(now), PlacementMode::again)) != anew)
            FAIL("round " << round);
    }
    SUCCEED();
}
