#include "inkturn/clock/clock.hpp"

#include "catch.hpp"
#include "core/clock/clocks.hpp"
#include "dice.hpp"

#include <algorithm>
#include <cstddef>
#include <cstdlib>
#include <optional>
#include <random>
#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;
using Kind = ClockEventKind;

/// A sitting played second by second, for comparison.
struct Played {
    ClockStage stage = ClockStage::waiting;
    std::size_t part = 0;
    int worked = 0;
    std::vector<int> in_time, overtime;
    std::vector<bool> in_hand_once, left_once;
    std::optional<Moment> ink;
    int reach = 0;
    int rested = 0;
};

void note_in_hand(Played& played, const std::vector<ClockPart>& parts, std::size_t part) {
    played.part = part;
    if (!played.in_hand_once[part] && !played.ink)
        played.reach += parts[part].marks.count();
    played.in_hand_once[part] = true;
}

void apply(Played& played, const std::vector<ClockPart>& parts, const ClockEvent& event) {
    if (event.kind == Kind::start || event.kind == Kind::work)
        played.stage = ClockStage::working;
    if (event.kind == Kind::rest)
        played.stage = ClockStage::resting;
    if (event.kind == Kind::hand_in)
        played.stage = ClockStage::handed_in;
    if (event.kind == Kind::hand_in || (event.kind == Kind::go && event.part != played.part))
        played.left_once[played.part] = true;
    if (event.kind == Kind::start || event.kind == Kind::go)
        note_in_hand(played, parts, event.part);
}

Played play(const std::vector<ClockPart>& parts, const std::vector<ClockEvent>& events, Moment until) {
    Played played;
    played.in_time.resize(parts.size());
    played.overtime.resize(parts.size());
    played.in_hand_once.resize(parts.size());
    played.left_once.resize(parts.size());
    int allowance = 0;
    for (const ClockPart& part : parts)
        allowance += static_cast<int>(part.allowance.count());
    std::size_t next = 0;
    for (Moment now = events.front().at;; now += Seconds(1)) {
        if (now > events.front().at && played.stage == ClockStage::working) {
            ++(played.ink ? played.overtime : played.in_time)[played.part];
            ++played.worked;
        }
        if (now > events.front().at && played.stage == ClockStage::resting)
            ++played.rested;
        if (!played.ink && played.worked == allowance)
            played.ink = now;
        for (; next < events.size() && events[next].at == now; ++next)
            apply(played, parts, events[next]);
        if (now >= until && next == events.size())
            return played;
    }
}

std::vector<ClockPart> random_parts(std::mt19937& dice) {
    std::vector<ClockPart> parts;
    for (int i = pick(dice, 1, 6); i > 0; --i)
        parts.push_back({std::to_string(i), Marks(pick(dice, 1, 9)), Seconds(pick(dice, 0, 60))});
    return parts;
}

/// Events that follow from one another, some at one moment; the last one may be handing in.
std::vector<ClockEvent> random_events(std::mt19937& dice, const std::vector<ClockPart>& parts) {
    const auto part = [&] {
        return static_cast<std::size_t>(pick(dice, 0, static_cast<int>(parts.size()) - 1));
    };
    std::vector<ClockEvent> events{{Kind::start, at(0), part()}};
    bool resting = false;
    for (int i = pick(dice, 0, 14); i > 0; --i) {
        const Moment now = events.back().at + Seconds(pick(dice, 0, 3) == 0 ? 0 : pick(dice, 0, 50));
        const bool turns = resting || pick(dice, 0, 4) == 0;
        if (turns)
            events.push_back({resting ? Kind::work : Kind::rest, now});
        else
            events.push_back({Kind::go, now, part()});
        resting = turns ? !resting : resting;
    }
    if (pick(dice, 0, 2) > 0)
        events.push_back({Kind::hand_in, events.back().at + Seconds(pick(dice, 0, 50))});
    return events;
}

int ahead(const Played& played, const std::vector<ClockPart>& parts) {
    int sum = -played.worked;
    for (std::size_t i = 0; i < parts.size(); ++i) {
        const int given = static_cast<int>(parts[i].allowance.count());
        const bool in_hand = i == played.part && played.stage != ClockStage::handed_in;
        if (played.left_once[i])
            sum += given;
        else if (in_hand)
            sum += std::min(given, played.in_time[i] + played.overtime[i]);
    }
    return sum;
}

int done(const Played& played, const std::vector<ClockPart>& parts) {
    int sum = 0;
    for (std::size_t i = 0; i < parts.size(); ++i)
        sum += played.left_once[i] ? parts[i].marks.count() : 0;
    return sum;
}

} // namespace

TEST_CASE("a clock agrees with a sitting played second by second") {
    std::mt19937 dice(20261125);
    int changes_at_an_event = 0;
    for (int round = 0; round < 3000; ++round) {
        CAPTURE(round);
        const std::vector<ClockPart> parts = random_parts(dice);
        const std::vector<ClockEvent> events = random_events(dice, parts);
        const Clock clock = clock_after(parts, events);
        const Moment until = events.back().at + Seconds(pick(dice, 0, 80));
        const Played played = play(parts, events, until);
        const ClockState state = clock.state(until);
        const ClockRecord record = clock.record(until);

        REQUIRE(state.stage == played.stage);
        REQUIRE(state.part.has_value() == (played.stage != ClockStage::handed_in));
        REQUIRE(state.part.value_or(played.part) == played.part);
        REQUIRE(state.worked == Seconds(played.worked));
        REQUIRE(state.remaining - state.overtime == state.allowance - state.worked);
        REQUIRE(std::min(state.remaining, state.overtime) == Seconds(0));
        REQUIRE(state.ink_changed_at == played.ink);
        REQUIRE(record.ink_changed_at == played.ink);
        REQUIRE(state.done == Marks(done(played, parts)));
        REQUIRE(state.ahead == Seconds(ahead(played, parts)));
        REQUIRE(state.reached >= state.done);
        REQUIRE(
            (state.ahead < Seconds(0) ? state.reached <= state.expected : state.reached >= state.expected));
        REQUIRE(record.reach == Marks(played.reach));
        Seconds sum{0};
        for (std::size_t i = 0; i < parts.size(); ++i) {
            REQUIRE(in_time(record, i) == played.in_time[i]);
            REQUIRE(overtime(record, i) == played.overtime[i]);
            sum += record.parts[i].in_time + record.parts[i].overtime;
        }
        REQUIRE(sum == state.worked);
        Seconds rested{0};
        for (const Break& rest : record.breaks)
            rested += rest.to - rest.from;
        REQUIRE(rested == Seconds(played.rested));
        REQUIRE(record.points.front().worked == Seconds(0));
        REQUIRE(record.points.back().worked == state.worked);
        REQUIRE(record.points.back().marks == state.done);
        for (std::size_t i = 1; i < record.points.size(); ++i) {
            REQUIRE(record.points[i - 1].worked < record.points[i].worked);
            REQUIRE(record.points[i - 1].marks <= record.points[i].marks);
        }
        if (std::any_of(events.begin() + 1, events.end(),
                        [&](const ClockEvent& event) { return played.ink == event.at; }))
            ++changes_at_an_event;
    }
    CHECK(changes_at_an_event > 50);
}

TEST_CASE("looking at a clock between its events changes nothing of what it shows later") {
    std::mt19937 dice(7);
    for (int round = 0; round < 300; ++round) {
        CAPTURE(round);
        const std::vector<ClockPart> parts = random_parts(dice);
        const std::vector<ClockEvent> events = random_events(dice, parts);
        const std::size_t cut = static_cast<std::size_t>(pick(dice, 0, static_cast<int>(events.size())));
        const auto middle = events.begin() + static_cast<std::ptrdiff_t>(cut);
        Clock resumed = clock_after(parts, std::vector<ClockEvent>(events.begin(), middle));
        resumed.state(at(pick(dice, -50, 900)));
        resumed.record(at(pick(dice, -50, 900)));
        for (auto event = middle; event != events.end(); ++event)
            resumed.take(*event);
        const Clock whole = clock_after(parts, events);
        const Moment now = events.back().at + Seconds(33);
        REQUIRE(same(resumed.state(now), whole.state(now)));
        REQUIRE(same(resumed.record(now), whole.record(now)));
    }
}

TEST_CASE("on no second of a paper do the marks reached and expected say the opposite of ahead, and "
          "what is expected is at most one mark from what the time pays for") {
    std::mt19937 dice(7);
    for (int round = 0; round < 200; ++round) {
        std::vector<Part> parts;
        for (int i = pick(dice, 2, 6); i > 0; --i)
            parts.push_back({std::to_string(i), Marks(pick(dice, 1, 9)), "", ""});
        PaperHead head{"made-up", "", "", {}, RetryBy::question};
        if (pick(dice, 0, 1) == 0)
            head.duration = Seconds(pick(dice, 1200, 3600));
        const std::vector<ClockPart> covered = clock_parts(Paper(head, parts));
        const std::vector<ClockEvent> events = random_events(dice, covered);
        Clock clock(covered);
        std::size_t next = 0;
        for (Moment now = events.front().at; now <= events.back().at + Seconds(30); now += Seconds(1)) {
            for (; next < events.size() && events[next].at == now; ++next)
                clock.take(events[next]);
            const ClockState state = clock.state(now);
            REQUIRE(state.reached >= state.done);
            REQUIRE(state.reached <= state.all);
            REQUIRE(state.expected <= state.all);
            REQUIRE((state.ahead < Seconds(0) ? state.reached <= state.expected
                                              : state.reached >= state.expected));
            const int moved = state.expected.count() - clock.expected(state.worked).count();
            REQUIRE(std::abs(moved) <= 1);
        }
    }
}
