#include "core/plan/board.hpp"

#include <algorithm>
#include <limits>
#include <numeric>

namespace inkturn::board {
namespace {

constexpr double largest_sum = 0x1p61; ///< of unevenness

/// A common multiple of the days' times, or `most` if there is none up to it.
Amount common_multiple_of(const std::vector<DayState>& days, Amount most) {
    Amount multiple = 1;
    for (const DayState& day : days) {
        if (day.available == 0)
            continue;
        const Amount missing = day.available / std::gcd(day.available, multiple);
        if (missing > most / multiple)
            return most;
        multiple *= missing;
    }
    return multiple;
}

/// Weights 1 ÷ available in whole numbers, so that a tie is a tie: exactly where a common multiple leaves
/// room for the sums, else as finely as they do.
void weigh(std::vector<DayState>& days) {
    double sum = 1;
    for (const DayState& day : days) {
        const double most = static_cast<double>(std::max(day.available, day.load));
        if (day.available > 0)
            sum += most * most / static_cast<double>(day.available);
    }
    const Amount whole = common_multiple_of(days, static_cast<Amount>(largest_sum / sum));
    for (DayState& day : days)
        if (day.available > 0)
            day.per_square = std::max<Amount>(1, (whole + day.available / 2) / day.available);
}

/// Seconds that count where it has no day.
Amount fare_without(const Item& item) {
    return item.brought_by || item.spans.empty() ? 0 : item.work;
}

} // namespace

Board::Board(const TimeAhead& time, const std::vector<WorkPiece>& pieces) {
    read(time);
    read(pieces, time.today);
}

void Board::read(const TimeAhead& time) {
    days_.reserve(time.days.size());
    for (const DayTime& one : time.days) {
        DayState day;
        day.available = one.available.count();
        day.load = one.done.count();
        day.standing = day.load;
        day.exam = one.exam;
        days_.push_back(std::move(day));
    }
    weigh(days_);
    for (const DayState& day : days_)
        uneven_ += day.load * day.load * day.per_square;
}

void Board::read(const std::vector<WorkPiece>& pieces, Day today) {
    items_.reserve(pieces.size());
    for (const WorkPiece& piece : pieces) {
        Item item;
        item.work = piece.work.count();
        item.paper = piece.paper;
        item.late = piece.late.has_value();
        for (const Day day : piece.never_on)
            if (day >= today)
                item.never_on.push_back(static_cast<Index>((day - today).count()));
        for (const std::size_t one : piece.after)
            item.after.push_back(static_cast<Index>(one));
        if (piece.half_of)
            item.half = static_cast<Index>(*piece.half_of);
        add_spans(item, piece.spans, today);
        if (piece.near) {
            const auto at = [&](Day day) {
                const Amount offset = std::min<Amount>((day - today).count(), days() - 1);
                return static_cast<Index>(std::max<Amount>(offset, 0));
            };
            item.near = Span{at(piece.near->first), at(piece.near->last), 0};
        }
        fare_.without += item.spans.empty() ? 0 : item.work;
        items_.push_back(std::move(item));
    }
    pieces_ = size();
    on_.resize(pieces_);
    for (Index i = 0; i < pieces_; ++i) {
        for (const Index one : items_[i].after)
            items_[one].before.push_back(i);
        if (items_[i].half)
            items_[*items_[i].half].half = i;
    }
}

void Board::add_spans(Item& item, const std::vector<DaySpan>& spans, Day today) const {
    if (spans.empty())
        return;
    item.opens = (spans.front().first - today).count();
    item.closes = (spans.front().last - today).count();
    const Amount end = static_cast<Amount>(days_.size()) - 1;
    Amount rank = 0;
    for (const DaySpan& span : spans) {
        const Amount first = std::max<Amount>((span.first - today).count(), 0);
        const Amount last = std::min<Amount>((span.last - today).count(), end);
        if (first <= last)
            item.spans.push_back({static_cast<Index>(first), static_cast<Index>(last), rank});
        ++rank;
    }
}

Fare Board::fare(Index i, MaybeDay t) const {
    const Item& item = items_[i];
    Fare fare;
    if (!t) {
        fare.without = fare_without(item);
        return fare;
    }
    if (item.brought_by)
        return fare;
    if (days_[*t].exam)
        fare.on_exam = item.work;
    if (rank(item, *t).value_or(1) > 0) { // a day asked for may lie in none
        const Amount day = static_cast<Amount>(*t);
        const Amount after = std::max<Amount>(day - item.closes, 0);
        const Amount before = std::max<Amount>(item.opens - day, 0);
        fare.outside = item.work;
        fare.away = after + before + (before > 0 && !item.paper ? static_cast<Amount>(days_.size()) : 0);
    }
    return fare;
}

Amount Board::off_near(Index i, Index t) const {
    const std::optional<Span>& near = items_[i].near;
    if (!near)
        return 0;
    return t < near->first ? near->first - t : t > near->last ? t - near->last : 0;
}

Amount Board::grown(Index t, Amount by) const {
    const DayState& day = days_[t];
    return by * (2 * day.load + by) * day.per_square;
}

int Board::broken(Index i, Index t) const {
    const Item& item = items_[i];
    int count = 0;
    for (const Index one : item.after)
        count += on_[one] && *on_[one] >= t ? 1 : 0;
    for (const Index one : item.before)
        count += on_[one] && *on_[one] <= t ? 1 : 0;
    if (item.half)
        count += on_[*item.half] && *on_[*item.half] != t ? 1 : 0;
    return count;
}

int Board::broken_in_all() const {
    int count = 0;
    for (Index i = 0; i < size(); ++i) {
        if (!on_[i])
            continue;
        for (const Index one : items_[i].after)
            count += on_[one] && *on_[one] >= *on_[i] ? 1 : 0;
        const std::optional<Index> half = items_[i].half;
        count += half && *half < i && on_[*half] && on_[*half] != on_[i] ? 1 : 0;
    }
    return count;
}

void Board::put(Index i, Index t) {
    put_back(i, t, days_[t].items.size());
}

void Board::put_back(Index i, Index t, std::size_t position) {
    Item& item = items_[i];
    DayState& day = days_[t];
    item.fare = day.exam || rank(item, t) != Amount{0} ? fare(i, t) : Fare{}; // mostly it is free
    fare_.without -= fare_without(item);
    if (!item.fare.is_free())
        fare_ = fare_ + item.fare;
    uneven_ += grown(t, item.work);
    day.load += item.work;
    day.late += item.late ? item.work : 0;
    day.papers += item.paper ? 1 : 0;
    day.items.insert(day.items.begin() + static_cast<std::ptrdiff_t>(position), i);
    on_[i] = t;
}

std::size_t Board::take(Index i) {
    const Item& item = items_[i];
    const Index t = *on_[i];
    DayState& day = days_[t];
    fare_.without += fare_without(item);
    if (!item.fare.is_free())
        fare_ = fare_ - item.fare;
    day.load -= item.work;
    uneven_ -= grown(t, item.work);
    day.late -= item.late ? item.work : 0;
    day.papers -= item.paper ? 1 : 0;
    const auto place = std::find(day.items.begin(), day.items.end(), i);
    const auto position = static_cast<std::size_t>(place - day.items.begin());
    day.items.erase(place);
    on_[i].reset();
    return position;
}

void Board::let_stand(Index i) {
    items_[i].stands = true;
    if (!items_[i].late)
        days_[*on_[i]].standing += items_[i].work;
}

void Board::add_room(Index brought_by, Seconds work, const std::vector<DaySpan>& spans, Day today) {
    Item item;
    item.work = work.count();
    item.brought_by = brought_by;
    add_spans(item, spans, today);
    items_.push_back(std::move(item));
    on_.emplace_back();
}

void Board::add_expected(Index paper, const ExpectedRetries& expected, Day today) {
    const Day sat = today + Days{*on_[paper]};
    const Day last = today + Days{days_.size()} - Days{1};
    for (const Seconds work : expected.retries)
        add_room(paper, work, spans_of_expected(expected, sat, last), today);
}

void Board::renew_expected(Index paper, const ExpectedRetries& expected, Day today) {
    const Day last = today + Days{days_.size()} - Days{1};
    for (Index i = pieces_; i < size(); ++i) {
        Item& item = items_[i];
        if (item.brought_by != paper)
            continue;
        item.spans.clear();
        add_spans(item, spans_of_expected(expected, today + Days{*on_[paper]}, last), today);
    }
}

void Board::drop_expected() {
    for (Index i = pieces_; i < size(); ++i)
        if (on_[i])
            take(i);
    items_.resize(pieces_);
    on_.resize(pieces_);
}

} // namespace inkturn::board
