#include "inkturn/plan/place.hpp"
#include "inkturn/retry/retry.hpp"

#include <algorithm>

namespace inkturn {
namespace {

/// Which of the spans holds the day; one more than there are where none does.
std::size_t rank_of(const std::vector<DaySpan>& spans, Day day) {
    std::size_t rank = 0;
    while (rank < spans.size() && (day < spans[rank].first || spans[rank].last < day))
        ++rank;
    return rank;
}

class PlanWeigher {
  public:
    PlanWeigher(const TimeAhead& time, const std::vector<WorkPiece>& pieces,
                const std::vector<std::optional<Day>>& days)
        : time_(time), pieces_(pieces), days_(days) {
        for (const DayTime& day : time.days)
            loads_.push_back(day.done);
    }

    PlanWeight weighed(const std::vector<Reserved>& reserved) {
        for (std::size_t i = 0; i < pieces_.size(); ++i)
            add(i);
        for (const Reserved& room : reserved)
            add(room);
        for (std::size_t t = 0; t < loads_.size(); ++t) {
            const auto available = static_cast<double>(time_.days[t].available.count());
            const auto load = static_cast<double>(loads_[t].count());
            if (available == 0)
                continue;
            weight_.evenness += load * (load / available);
            weight_.fullest_share = std::max(weight_.fullest_share, load / available);
        }
        return weight_;
    }

  private:
    std::size_t offset(Day day) const { return static_cast<std::size_t>((day - time_.today).count()); }

    void add(std::size_t i) {
        const WorkPiece& piece = pieces_[i];
        if (!days_[i]) {
            weight_.without_day += piece.spans.empty() ? Seconds(0) : piece.work;
            return;
        }
        const Day day = *days_[i];
        load(day, piece.work);
        if (time_.days[offset(day)].exam)
            weight_.on_exam_days += piece.work;
        std::size_t rank = rank_of(piece.spans, day);
        if (rank == piece.spans.size()) // a day that was asked for
            rank = 1;
        if (rank > 0) {
            weight_.outside += rank > 0 ? piece.work : Seconds(0);
            weight_.away += days_away(piece, day);
        }
        if (piece.near)
            weight_.off_near += std::max({day - piece.near->last, piece.near->first - day, Days{0}}).count();
        for (const std::size_t before : piece.after)
            weight_.out_of_order += days_[before] && *days_[before] >= day ? 1 : 0;
        if (piece.half_of && days_[*piece.half_of] && days_[*piece.half_of] != day)
            ++weight_.out_of_order;
    }

    std::int64_t days_away(const WorkPiece& piece, Day day) const {
        if (piece.spans.empty())
            return 0;
        const DaySpan window = piece.spans.front();
        if (day > window.last)
            return (day - window.last).count();
        if (day >= window.first)
            return 0;
        return (window.first - day).count() + (piece.paper ? 0 : static_cast<std::int64_t>(loads_.size()));
    }

    void add(const Reserved& room) {
        const auto window = retry_window(*days_[room.paper], pieces_[room.paper].expected.exam);
        if (!room.day) {
            weight_.unreserved += window ? room.work : Seconds(0);
            return;
        }
        load(*room.day, room.work);
        if (*room.day > window->closes)
            weight_.reserved_outside += room.work;
    }

    void load(Day day, Seconds work) {
        loads_[offset(day)] += work;
        weight_.day_sum += (day - time_.today).count();
    }

    const TimeAhead& time_;
    const std::vector<WorkPiece>& pieces_;
    const std::vector<std::optional<Day>>& days_;
    std::vector<Seconds> loads_;
    PlanWeight weight_;
};

} // namespace

PlanWeight weigh_plan(const TimeAhead& time, const std::vector<WorkPiece>& pieces,
                      const std::vector<std::optional<Day>>& days, const std::vector<Reserved>& reserved) {
    return PlanWeigher(time, pieces, days).weighed(reserved);
}

std::vector<DaySpan> spans_of_expected(const ExpectedRetries& expected, Day sat, Day last) {
    const auto window = retry_window(sat, expected.exam);
    if (!window)
        return {};
    const Day end = expected.exam ? *expected.exam - Days{1} : last;
    std::vector<DaySpan> spans{{window->opens, window->closes}};
    if (window->closes < end)
        spans.push_back({window->closes + Days{1}, end});
    return spans;
}

} // namespace inkturn
