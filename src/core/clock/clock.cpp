#include "inkturn/clock/clock.hpp"

#include "inkturn/base/day.hpp"
#include "inkturn/base/error.hpp"

#include <algorithm>

namespace inkturn {
namespace {

void check_is_accepted(Moment at) {
    if (at < earliest_day || at >= latest_day + Days{1})
        throw Error("the clock can't take a moment outside " + iso(earliest_day) + " to " + iso(latest_day) +
                    ": set the computer's date");
}

/// Marks out of `marks` whose equal shares of the allowance lie within the time, which is shorter.
Marks paid_within(const ClockPart& part, Seconds time) {
    return Marks(static_cast<int>(part.marks.count() * time.count() / part.allowance.count()));
}

std::vector<ClockPart> parts_at(const Paper& paper, const std::vector<std::size_t>& positions,
                                ExtraTime extra) {
    const std::vector<Seconds> allowances = part_allowances(paper, extra);
    std::vector<ClockPart> parts;
    parts.reserve(positions.size());
    for (const std::size_t i : positions)
        parts.push_back({paper.parts()[i].label, paper.parts()[i].max, allowances[i]});
    return parts;
}

} // namespace

std::vector<ClockPart> clock_parts(const Paper& paper, ExtraTime extra) {
    return parts_at(paper, all_positions(paper), extra);
}

std::vector<ClockPart> clock_parts(const Paper& paper, const Question& question, ExtraTime extra) {
    return parts_at(paper, question.parts, extra);
}

std::vector<ClockPart> clock_parts(const Paper& paper, const std::vector<bool>& is_set, ExtraTime extra) {
    const std::vector<Seconds> allowances = part_allowances(paper, is_set, extra);
    std::vector<ClockPart> parts;
    parts.reserve(allowances.size());
    for (std::size_t i = 0; i < allowances.size(); ++i)
        parts.push_back({paper.parts()[i].label, is_set[i] ? paper.parts()[i].max : Marks(0), allowances[i]});
    return parts;
}

std::array<ClockEvent, 2> stopped_at(Moment stopped, Moment now) {
    if (now < stopped)
        throw Error("work can't have stopped " + length_text(stopped - now) +
                    " from now: give a time that has passed");
    return {ClockEvent{ClockEventKind::rest, stopped}, ClockEvent{ClockEventKind::work, now}};
}

Seconds ClockRecord::time_off() const {
    Seconds sum{0};
    for (const Break& rest : breaks)
        sum += rest.to - rest.from;
    return sum;
}

Clock::Clock(std::vector<ClockPart> parts)
    : parts_(std::move(parts)), times_(parts_.size()), was_in_hand_(parts_.size()), was_left_(parts_.size()) {
    if (parts_.empty() || parts_.size() > Paper::max_parts)
        throw Error("a clock covers 1 to " + std::to_string(Paper::max_parts) + " parts, not " +
                    std::to_string(parts_.size()));
    for (const ClockPart& part : parts_) {
        if (part.allowance < Seconds(0))
            throw Error("part " + part.label + ": an allowance can't be below 0");
        allowance_ += part.allowance;
        marks_ += part.marks;
    }
}

Clock::Clock(std::vector<ClockPart> parts, Marks counted, Seconds allowance) : Clock(std::move(parts)) {
    marks_ = counted;
    allowance_ = allowance;
}

void Clock::take(const ClockEvent& event) {
    check(event);
    advance(event.at);
    switch (event.kind) {
    case ClockEventKind::start:
        stage_ = ClockStage::working;
        start_ = event.at;
        points_.push_back({Seconds(0), Marks(0)});
        take_in_hand(event.part);
        advance(event.at); // the ink changes at once where there is no allowance
        break;
    case ClockEventKind::go:
        if (event.part != *part_) {
            leave();
            take_in_hand(event.part);
        }
        break;
    case ClockEventKind::rest:
        stage_ = ClockStage::resting;
        breaks_.push_back({event.at, event.at});
        break;
    case ClockEventKind::work:
        stage_ = ClockStage::working;
        break;
    case ClockEventKind::hand_in:
        stage_ = ClockStage::handed_in;
        leave();
        break;
    }
}

void Clock::check(const ClockEvent& event) const {
    const bool takes_part = event.kind == ClockEventKind::start || event.kind == ClockEventKind::go;
    check_is_accepted(event.at);
    if (stage_ == ClockStage::handed_in)
        throw Error("the work is handed in: nothing comes after that");
    if (stage_ == ClockStage::waiting && event.kind != ClockEventKind::start)
        throw Error("the clock has not started: start it first");
    if (stage_ != ClockStage::waiting && event.at < start_)
        throw Error("an event " + length_text(start_ - event.at) + " before the start: correct its time");
    if (stage_ != ClockStage::waiting && event.at < last_)
        throw Error("an event " + length_text(last_ - event.at) +
                    " before the last one: give events in order of time");
    if (stage_ != ClockStage::waiting && event.kind == ClockEventKind::start)
        throw Error("the clock has started already: it starts once");
    if (takes_part && event.part >= parts_.size())
        throw Error("there is no part at position " + std::to_string(event.part + 1) + ": the clock covers " +
                    std::to_string(parts_.size()));
    if (stage_ == ClockStage::resting && event.kind == ClockEventKind::rest)
        throw Error("the break has begun already: go back to work before the next one");
    if (stage_ == ClockStage::resting && event.kind == ClockEventKind::go)
        throw Error("no part can be started during a break: go back to work first");
    if (stage_ == ClockStage::working && event.kind == ClockEventKind::work)
        throw Error("the clock is running: there is no break to come back from");
}

ClockState Clock::state(Moment at) const {
    const Clock now = advanced(at);
    ClockState state;
    state.stage = now.stage_;
    state.part = now.part_;
    state.worked = now.worked_;
    state.allowance = allowance_;
    state.remaining = std::max(Seconds(0), allowance_ - now.worked_);
    state.overtime = std::max(Seconds(0), now.worked_ - allowance_);
    state.ink_changed_at = now.ink_changed_at_;
    state.done = now.done_;
    state.all = marks_;
    state.ahead = now.ahead();
    state.reached = now.reached();
    const Marks paid = expected(now.worked_);
    state.expected = state.ahead < Seconds(0) ? std::max(paid, state.reached) : std::min(paid, state.reached);
    return state;
}

ClockRecord Clock::record(Moment at) const {
    Clock now = advanced(at);
    if (!now.points_.empty() && now.points_.back().worked < now.worked_)
        now.points_.push_back({now.worked_, now.done_});
    return {std::move(now.times_), std::move(now.breaks_), now.ink_changed_at_, now.reach_,
            std::move(now.points_)};
}

Marks Clock::expected(Seconds worked) const {
    Marks sum;
    for (const ClockPart& part : parts_) {
        if (worked < part.allowance)
            return std::min(marks_, sum + paid_within(part, worked));
        worked -= part.allowance;
        sum += part.marks;
    }
    return std::min(marks_, sum);
}

Clock Clock::advanced(Moment at) const {
    Clock later = *this;
    later.advance(std::max(at, last_));
    return later;
}

/// Counts the time since the last event to where it belongs.
void Clock::advance(Moment at) {
    if (stage_ == ClockStage::working) {
        const Seconds span = at - last_;
        const Seconds in_time = std::min(span, std::max(Seconds(0), allowance_ - worked_));
        if (!ink_changed_at_ && worked_ + span >= allowance_)
            ink_changed_at_ = last_ + in_time;
        times_[*part_].in_time += in_time;
        times_[*part_].overtime += span - in_time;
        worked_ += span;
    }
    if (stage_ == ClockStage::resting)
        breaks_.back().to = at;
    last_ = at;
}

void Clock::take_in_hand(std::size_t part) {
    part_ = part;
    if (!was_in_hand_[part] && worked_ < allowance_)
        reach_ = std::min(marks_, reach_ + parts_[part].marks);
    was_in_hand_[part] = true;
}

void Clock::leave() {
    if (!was_left_[*part_]) {
        was_left_[*part_] = true;
        done_ = std::min(marks_, done_ + parts_[*part_].marks);
        if (points_.back().worked == worked_)
            points_.back().marks = done_;
        else
            points_.push_back({worked_, done_});
    }
    part_.reset();
}

Seconds Clock::ahead() const {
    Seconds earned{0};
    for (std::size_t i = 0; i < parts_.size(); ++i) {
        if (was_left_[i])
            earned += parts_[i].allowance;
        else if (i == part_)
            earned += std::min(time_on(i), parts_[i].allowance);
    }
    return earned - worked_;
}

Marks Clock::reached() const {
    if (!part_ || was_left_[*part_])
        return done_;
    const ClockPart& part = parts_[*part_];
    const Seconds time = time_on(*part_);
    return done_ + (time < part.allowance ? paid_within(part, time) : part.marks);
}

Seconds Clock::time_on(std::size_t part) const {
    return times_[part].in_time + times_[part].overtime;
}

} // namespace inkturn
