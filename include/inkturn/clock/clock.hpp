#pragma once

#include "inkturn/base/moment.hpp"
#include "inkturn/clock/allowance.hpp"
#include "inkturn/clock/reading.hpp"
#include "inkturn/paper/marks.hpp"
#include "inkturn/paper/paper.hpp"

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace inkturn {

/// A part that a clock covers.
struct ClockPart {
    std::string label;
    Marks marks;
    Seconds allowance; ///< not negative
};

/// What the clock of a sitting covers, and that of a retry of one question.
std::vector<ClockPart> clock_parts(const Paper& paper, ExtraTime extra = {});
std::vector<ClockPart> clock_parts(const Paper& paper, const Question& question, ExtraTime extra = {});
/// Of a sitting of some parts, `is_set` for each: the others have neither marks nor time.
std::vector<ClockPart> clock_parts(const Paper& paper, const std::vector<bool>& is_set, ExtraTime extra);

enum class ClockEventKind : std::uint8_t {
    start,
    go,   ///< to a part, whichever is in hand
    rest, ///< a break begins: the clock stops
    work, ///< the break is over
    hand_in
};

struct ClockEvent {
    ClockEventKind kind;
    Moment at;
    std::size_t part = 0;                  ///< of start and go: position in Clock::parts()
    std::optional<ClockReading> reading{}; ///< at that moment, if a computer's clock told it
};

/// The break of a sitting cut off: from when work stopped until now. Throws Error where that lies after now.
std::array<ClockEvent, 2> stopped_at(Moment stopped, Moment now);

enum class ClockStage : std::uint8_t { waiting, working, resting, handed_in };

/// What a clock shows at a moment. Working time leaves breaks out.
struct ClockState {
    ClockStage stage = ClockStage::waiting;
    std::optional<std::size_t> part; ///< in hand; nothing before the start and after handing in
    Seconds worked{0};
    Seconds allowance{0};
    Seconds remaining{0};                 ///< of the allowance, 0 once it is used
    Seconds overtime{0};                  ///< worked beyond the allowance
    std::optional<Moment> ink_changed_at; ///< when the allowance was used; nothing before
    Marks done;                           ///< of the parts that were left at least once
    Marks reached;  ///< done, and those of the part in hand that the time spent on it pays for
    Marks expected; ///< see Clock::expected(), rounded so that it never says the opposite of `ahead`
    Marks all;      ///< of the parts covered
    /// The allowances of the parts done (left at least once), plus the time spent on the part in hand, if it
    /// is not one of these, up to its allowance, less the working time. Negative: behind.
    Seconds ahead{0};
};

struct PartTime {
    Seconds in_time{0};  ///< before the ink changed
    Seconds overtime{0}; ///< from then on
};

struct Break { ///< it may be empty
    Moment from;
    Moment to;
};

/// A step of the marks of the parts left at least once, until the next one.
struct ClockPoint {
    Seconds worked;
    Marks marks;
};

struct ClockRecord {
    std::vector<PartTime> parts; ///< in the order of Clock::parts(); they sum to the working time
    std::vector<Break> breaks;   ///< in the order of time; one that goes on ends at the record's moment
    std::optional<Moment> ink_changed_at;
    Marks reach; ///< of the parts that were taken in hand before the ink changed
    /// Times ascending, marks not descending; the first at 0, the last at the working time. Empty: not begun.
    std::vector<ClockPoint> points;
    Seconds time_off() const; ///< the breaks together
};

/// A desk clock: events in, state out. The ink changes when the working time reaches the allowance.
class Clock {
  public:
    /// With the marks and the allowance of all parts. Throws Error unless there are 1 to Paper::max_parts.
    explicit Clock(std::vector<ClockPart> parts);
    /// With those that count, of parts with a choice: no more marks are done, reached or expected.
    Clock(std::vector<ClockPart> parts, Marks counted, Seconds allowance);

    /// Takes the next event; one at the same moment as the last is fine. Throws Error, and leaves the clock
    /// as it was, for an event outside the accepted days, before the last one or the start, after handing
    /// in, a second start, a part that is not there, work without a break, a break or a part during one.
    void take(const ClockEvent& event);

    /// A moment before the last event counts as that event's.
    ClockState state(Moment at) const;
    ClockRecord record(Moment at) const; ///< the same

    /// The marks expected after this much working time: part by part, each mark once its full share of the
    /// part's allowance has been worked (rounded down).
    Marks expected(Seconds worked) const;

    const std::vector<ClockPart>& parts() const { return parts_; }
    Seconds allowance() const { return allowance_; }
    Marks marks() const { return marks_; }

  private:
    void check(const ClockEvent& event) const;
    Clock advanced(Moment at) const;
    void advance(Moment at);
    void take_in_hand(std::size_t part);
    void leave();
    Seconds ahead() const;
    Marks reached() const;
    Seconds time_on(std::size_t part) const;

    std::vector<ClockPart> parts_;
    Seconds allowance_{0};
    Marks marks_;

    ClockStage stage_ = ClockStage::waiting;
    std::optional<std::size_t> part_;
    Moment start_;
    Moment last_; ///< up to here the time is counted
    Seconds worked_{0};
    std::vector<PartTime> times_;
    std::vector<bool> was_in_hand_;
    std::vector<bool> was_left_;
    std::vector<Break> breaks_;
    std::optional<Moment> ink_changed_at_;
    Marks done_;
    Marks reach_;
    std::vector<ClockPoint> points_;
};

} // namespace inkturn
