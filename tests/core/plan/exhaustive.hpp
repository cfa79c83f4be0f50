#pragma once

// The best plan of all, by looking at each.

#include "inkturn/plan/place.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <tuple>
#include <vector>

namespace inkturn::test {

/// A plan with its weight, by the rules alone.
struct TriedPlan {
    std::vector<std::optional<Day>> days;
    std::vector<Reserved> reserved;
    PlanWeight weight;
};

inline auto fare_of(const PlanWeight& weight) {
    return std::tuple(weight.without_day, weight.on_exam_days, weight.outside, weight.away);
}

inline auto
rest_of(const PlanWeight& weight) { // evenness in whole thousandths of a second, so that a tie is a tie
    return std::tuple(weight.out_of_order, weight.unreserved, weight.reserved_outside, weight.off_near,
                      std::llround(weight.evenness * 1000), weight.day_sum);
}

/// Tries all days for all pieces, none of them with a day.
class Exhaustive {
  public:
    Exhaustive(const TimeAhead& time, const std::vector<WorkPiece>& pieces) : time_(time), pieces_(pieces) {
        for (const DayTime& day : time.days)
            left_.push_back(day.available - day.done);
        tried_.days.resize(pieces.size());
        place(0);
        keep_least([](const TriedPlan& plan) { return fare_of(plan.weight); });
        std::vector<std::size_t> late;
        for (std::size_t i = 0; i < pieces.size(); ++i)
            if (pieces[i].late)
                late.push_back(i);
        std::sort(late.begin(), late.end(), [&](std::size_t a, std::size_t b) {
            const auto key = [&](std::size_t i) {
                return std::tuple(pieces[i].late->closed, pieces[i].late->attempt, pieces[i].late->number);
            };
            return key(a) < key(b);
        });
        for (std::size_t i = 0; i < late.size(); ++i)
            keep_least([&](const TriedPlan& plan) {
                return std::pair(how_late_is_beside(plan, late, i), plan.days[late[i]]);
            });
        keep_least([](const TriedPlan& plan) { return rest_of(plan.weight); });
    }

    const TriedPlan& best() const { return plans_.front(); }

  private:
    std::size_t offset(Day day) const { return static_cast<std::size_t>((day - time_.today).count()); }

    bool may(const WorkPiece& piece, Day day) const {
        return std::count(piece.never_on.begin(), piece.never_on.end(), day) == 0 &&
               std::any_of(piece.spans.begin(), piece.spans.end(),
                           [day](DaySpan span) { return span.first <= day && day <= span.last; });
    }

    bool is_second_paper(std::size_t i, Day day) const {
        for (std::size_t j = 0; j < i; ++j)
            if (pieces_[i].paper && pieces_[j].paper && tried_.days[j] == day)
                return true;
        return false;
    }

    void place(std::size_t i) {
        if (i == pieces_.size()) {
            add_expected();
            reserve(0);
            tried_.reserved.clear();
            return;
        }
        tried_.days[i].reset();
        place(i + 1);
        for (std::size_t t = 0; t < left_.size(); ++t) {
            const Day day = time_.today + Days{t};
            if (pieces_[i].work > left_[t] || !may(pieces_[i], day) || is_second_paper(i, day))
                continue;
            tried_.days[i] = day;
            left_[t] -= pieces_[i].work;
            place(i + 1);
            left_[t] += pieces_[i].work;
        }
        tried_.days[i].reset();
    }

    void add_expected() {
        for (std::size_t i = 0; i < pieces_.size(); ++i)
            if (tried_.days[i])
                for (const Seconds work : pieces_[i].expected.retries)
                    tried_.reserved.push_back({i, work, std::nullopt});
    }

    void reserve(std::size_t i) {
        if (i == tried_.reserved.size()) {
            tried_.weight = weigh_plan(time_, pieces_, tried_.days, tried_.reserved);
            if (plans_.empty() || !(fare_of(plans_.front().weight) < fare_of(tried_.weight)))
                plans_.push_back(tried_);
            if (fare_of(tried_.weight) < fare_of(plans_.front().weight))
                plans_ = {tried_};
            return;
        }
        reserve(i + 1);
        Reserved& room = tried_.reserved[i];
        const Day last = time_.today + Days{left_.size()} - Days{1};
        for (const DaySpan span :
             spans_of_expected(pieces_[room.paper].expected, *tried_.days[room.paper], last))
            for (Day day = span.first; day <= std::min(span.last, last); day += Days{1}) {
                if (left_[offset(day)] < room.work || time_.days[offset(day)].exam)
                    continue;
                room.day = day;
                left_[offset(day)] -= room.work;
                reserve(i + 1);
                left_[offset(day)] += room.work;
            }
        room.day.reset();
    }

    /// 0: at most half of the day, or all of one without other work; 1: more; 2: on an exam's day; 3: no day.
    int how_late_is_beside(const TriedPlan& plan, const std::vector<std::size_t>& late, std::size_t i) const {
        const auto day = plan.days[late[i]];
        if (!day)
            return 3;
        const DayTime& time = time_.days[offset(*day)];
        if (time.exam)
            return 2;
        Seconds taken{0};
        for (std::size_t j = 0; j <= i; ++j)
            if (plan.days[late[j]] == day)
                taken += pieces_[late[j]].work;
        bool others = time.done > Seconds(0);
        for (std::size_t j = 0; j < pieces_.size(); ++j)
            others = others || (!pieces_[j].late && plan.days[j] == day);
        for (const Reserved& room : plan.reserved)
            others = others || room.day == day;
        return others && 2 * taken > time.available ? 1 : 0;
    }

    template <typename Key>
    void keep_least(Key key) {
        auto least = key(plans_.front());
        for (const TriedPlan& plan : plans_)
            least = std::min(least, key(plan));
        plans_.erase(std::remove_if(plans_.begin(), plans_.end(),
                                    [&](const TriedPlan& plan) { return least < key(plan); }),
                     plans_.end());
    }

    const TimeAhead& time_;
    const std::vector<WorkPiece>& pieces_;
    std::vector<Seconds> left_;
    TriedPlan tried_;
    std::vector<TriedPlan> plans_;
};

} // namespace inkturn::test
