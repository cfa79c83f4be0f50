// How long it takes to place a year's work, and how near the plan comes to what none can beat.

#include "inkturn/plan/later_turns.hpp"
#include "inkturn/plan/place.hpp"

#include <algorithm>
#include <chrono>
#include <cstdint>
#include <cstdio>
#include <optional>
#include <vector>

namespace {

using namespace inkturn;

constexpr Day first{date::year{2026} / date::September / 7};

/// The same numbers on every system.
class Dice {
  public:
    int roll(int sides) {
        state_ = state_ * 6364136223846793005ULL + 1442695040888963407ULL;
        return static_cast<int>((state_ >> 33U) % static_cast<std::uint64_t>(sides));
    }

  private:
    std::uint64_t state_ = 14;
};

TimeAhead school_year(const std::vector<int>& weekday_minutes) {
    TimeAhead time{first, {}};
    for (std::size_t day = 0; day < 365; ++day)
        time.days.push_back({std::chrono::minutes{weekday_minutes[day % 7]}, Seconds(0), false});
    return time;
}

/// Retries, papers with what they bring, topics before retries: `count` pieces in all.
std::vector<WorkPiece> year_of_work(int count, int papers, int topics) {
    Dice dice;
    const Day last = first + Days{364};
    std::vector<WorkPiece> pieces;
    for (int i = 0; i < papers; ++i) {
        WorkPiece paper{Seconds{8100}, {{first, last - Days{22}}, {last - Days{21}, last}}};
        paper.near = DaySpan{first + Days{343 * i / papers}, first + Days{343 * (i + 1) / papers - 1}};
        paper.paper = true;
        paper.expected = {std::vector<Seconds>(5, Seconds{378}), last + Days{1}};
        if (i > 0)
            paper.after = {pieces.size() - 1};
        pieces.push_back(paper);
    }
    const auto retry = [&](int opens) {
        WorkPiece piece{Seconds{72 * (1 + dice.roll(15))}, {{first + Days{opens}, first + Days{opens + 7}}}};
        if (opens + 8 <= 364)
            piece.spans.push_back({first + Days{opens + 8}, last});
        return piece;
    };
    for (int i = 0; i < topics; ++i) {
        const int opens = 14 + dice.roll(330);
        for (int half = 0; half < 2; ++half) {
            pieces.push_back({Seconds{1800}, {{first + Days{opens - 14}, first + Days{opens + 6}}}});
            if (half == 1)
                pieces.back().half_of = pieces.size() - 2;
        }
        WorkPiece after = retry(opens);
        after.after = {pieces.size() - 2, pieces.size() - 1};
        pieces.push_back(after);
    }
    while (pieces.size() + 5 * static_cast<std::size_t>(papers) < static_cast<std::size_t>(count))
        pieces.push_back(retry(dice.roll(357)));
    return pieces;
}

/// What its retries bring back, ten of a sitting at a time.
std::vector<LaterRetry> later_of(const std::vector<WorkPiece>& pieces, const WorkPlan& plan) {
    std::vector<LaterRetry> later;
    std::vector<TurnAhead> ahead;
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        if (pieces[i].paper || pieces[i].half_of || !plan.days[i])
            continue;
        const Day day = *plan.days[i];
        if (ahead.empty() || ahead.back().retries == 10)
            ahead.push_back({1, Seconds(0), 0, {day, day}, first + Days{365}});
        TurnAhead& one = ahead.back();
        one.work += pieces[i].work;
        ++one.retries;
        one.days = {one.days.first, std::min(std::max(one.days.last, day), one.days.first + Days{14})};
    }
    for (const TurnAhead& one : ahead)
        for (LaterRetry& retry : later_retries(one, {}))
            later.push_back(std::move(retry));
    return later;
}

/// The days with what is planned and reserved on them.
TimeAhead beside(TimeAhead time, const std::vector<WorkPiece>& pieces, const WorkPlan& plan) {
    const auto on = [&](Day day) -> Seconds& {
        return time.days[static_cast<std::size_t>((day - first).count())].done;
    };
    for (std::size_t i = 0; i < pieces.size(); ++i)
        if (plan.days[i])
            on(*plan.days[i]) += pieces[i].work;
    for (const Reserved& room : plan.reserved)
        if (room.day)
            on(*room.day) += room.work;
    return time;
}

void place_a_year(const char* title, const std::vector<int>& weekday_minutes, int count, int papers,
                  int topics, bool keep) {
    const TimeAhead time = school_year(weekday_minutes);
    std::vector<WorkPiece> pieces = year_of_work(count, papers, topics);
    if (keep) {
        const WorkPlan before = place_work(time, pieces);
        for (std::size_t i = 0; i < pieces.size(); ++i)
            pieces[i].kept_day = before.days[i];
    }
    const auto start = std::chrono::steady_clock::now();
    const WorkPlan plan = place_work(time, pieces);
    const double took = std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
    std::printf(
        "%-22s %5d pieces: %.4f s; without a day %lld s (proven %lld), outside %lld s, unreserved %lld s, "
        "out of order %d, evenness / bound %.6f, fullest %.3f / %.3f\n",
        title, count, took, static_cast<long long>(plan.weight.without_day.count()),
        static_cast<long long>(plan.short_by.count()), static_cast<long long>(plan.weight.outside.count()),
        static_cast<long long>(plan.weight.unreserved.count()), plan.weight.out_of_order,
        plan.weight.evenness / plan.evenness_bound, plan.weight.fullest_share, plan.fullest_share_bound);
    const std::vector<LaterRetry> later = later_of(pieces, plan);
    const TimeAhead left = beside(time, pieces, plan);
    const auto start_of_later = std::chrono::steady_clock::now();
    const auto days = days_for_later(left, later);
    const double later_took =
        std::chrono::duration<double>(std::chrono::steady_clock::now() - start_of_later).count();
    const auto without = std::count(days.begin(), days.end(), std::nullopt);
    std::printf("%-22s %5zu retries of later turns: %.4f s; without room %td\n", "", later.size(), later_took,
                without);
}

} // namespace

int main() {
    const std::vector<int> roomy{300, 300, 240, 300, 180, 400, 0};
    const std::vector<int> full{180, 180, 150, 180, 120, 250, 0};
    place_a_year("a year", roomy, 5'000, 40, 30, false);
    place_a_year("a year, most kept", roomy, 5'000, 40, 30, true);
    place_a_year("a year, too little", full, 5'000, 40, 30, false);
    place_a_year("a student", {60, 60, 45, 60, 30, 160, 0}, 200, 20, 5, false);
}
