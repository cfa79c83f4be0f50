#pragma once

#include "inkturn/base/error.hpp"
#include "inkturn/paper/reason.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace inkturn {

/// A count of marks, 0 or more. Always whole: marks are not subdivided.
class Marks {
  public:
    constexpr Marks() = default;
    /// Throws Error below 0, and so does a difference.
    constexpr explicit Marks(int count)
        : count_(count >= 0 ? count : throw Error("a count of marks can't be below 0")) {}
    constexpr int count() const { return count_; }

    constexpr Marks& operator+=(Marks other) {
        count_ += other.count_;
        return *this;
    }
    friend constexpr Marks operator+(Marks a, Marks b) { return Marks(a.count_ + b.count_); }
    friend constexpr Marks operator-(Marks a, Marks b) { return Marks(a.count_ - b.count_); }
    friend constexpr bool operator==(Marks a, Marks b) { return a.count_ == b.count_; }
    friend constexpr bool operator!=(Marks a, Marks b) { return a.count_ != b.count_; }
    friend constexpr bool operator<(Marks a, Marks b) { return a.count_ < b.count_; }
    friend constexpr bool operator>(Marks a, Marks b) { return b < a; }
    friend constexpr bool operator<=(Marks a, Marks b) { return !(b < a); }
    friend constexpr bool operator>=(Marks a, Marks b) { return !(a < b); }

  private:
    int count_ = 0;
};

/// The most marks one part can carry.
constexpr Marks max_part_marks{500};

/// The most marks of a part for which it can be recorded which ones were earned.
constexpr Marks max_marks_by_code{32};

/// The marks of a part by the phase that earned them (each phase has an ink of its own on paper).
struct MarksByPhase {
    Marks in_time{};   ///< within the allowance
    Marks overtime{};  ///< after it, still unaided
    Marks corrected{}; ///< after reading the mark scheme
};

/// Whether a part counts in a sitting.
enum class Counting : std::uint8_t {
    counts,
    not_set,   ///< it was no part of what was sat
    not_chosen ///< of a choice of questions: others count in its place, see count_chosen()
};

/// What a candidate earned in one part. That they fit the part's maximum is checked when they are made.
class PartMarks {
  public:
    PartMarks() : attempted_(false), has_by_code_(false), counting_(Counting::counts) {} ///< not attempted
    /// Of a part that was not set: without marks, and it counts nowhere.
    static PartMarks not_set();

    /// A part that was attempted. Throws Error where the phases add up to more than `max`.
    PartMarks(const MarksByPhase& earned, Marks max);
    /// The same; throws Error as state_reason() does.
    PartMarks(const MarksByPhase& earned, Marks max, std::optional<Reason> reason);

    bool attempted() const { return attempted_; }
    bool is_set() const { return counting_ != Counting::not_set; }
    bool counts() const { return counting_ == Counting::counts; }
    /// Of a part that was set, where it belongs to a choice.
    void count_as_chosen(bool chosen);
    Marks in_time() const { return earned_.in_time; }
    Marks overtime() const { return earned_.overtime; }
    Marks corrected() const { return earned_.corrected; }
    Marks unaided() const { return earned_.in_time + earned_.overtime; }
    const MarksByPhase& earned() const { return earned_; }

    /// Whether it was tried before the ink changed: a part that earned nothing was, one whose only unaided
    /// marks came in overtime was not.
    bool tried_in_time() const { return attempted_ && (in_time() > Marks(0) || overtime() == Marks(0)); }

    std::optional<Reason> reason() const { return reason_; }
    /// Throws Error where every mark was earned in time.
    void state_reason(Reason reason, Marks max);
    void drop_reason() { reason_.reset(); }

    /// Which marks were earned unaided: bit i is the i-th of the mark scheme's codes, in their order (M1 A1
    /// B2: bit 0 the M, 1 the A, 2 and 3 the B's).
    std::optional<std::uint32_t> by_code() const {
        return has_by_code_ ? std::optional(by_code_) : std::nullopt;
    }
    /// Throws Error unless there are as many bits as unaided marks, none beyond `max`, and the part was
    /// attempted and has at most max_marks_by_code.
    void state_by_code(std::uint32_t by_code, Marks max);
    void drop_by_code() {
        has_by_code_ = false;
        by_code_ = 0;
    }

    /// Throws Error where a part of `max` can't have these marks.
    void check_within(Marks max) const;

    friend bool operator==(const PartMarks& a, const PartMarks& b);
    friend bool operator!=(const PartMarks& a, const PartMarks& b) { return !(a == b); }

  private:
    bool attempted_ : 1;
    bool has_by_code_ : 1;
    Counting counting_ : 2; ///< equality leaves out what count_as_chosen() says: it follows from the marks
    std::optional<Reason> reason_;
    MarksByPhase earned_;
    std::uint32_t by_code_ = 0; ///< 0 where it is not known
};

/// All of the part's marks, earned in time.
PartMarks full_marks(Marks max);

constexpr std::string_view not_set_word = "not-set";

/// Reads `MARKS[:REASON][:EARNED]`, MARKS being `-` (not attempted), `not-set` (then nothing follows) or one
/// to three whole numbers joined by `+` in the order of the phases, EARNED by_code as 0s and 1s from bit 0 on
/// (zeros at the end may be left out). Throws Error where the text is anything else, where the phases add up
/// to more than `max`, where a reason is given though every mark was earned in time, or where EARNED does not
/// fit the part or its unaided marks.
PartMarks parse_part_marks(std::string_view text, Marks max);

/// Gives marks out of `max` a reason as parse_reason() reads it. Throws Error as that does, or where every
/// mark was earned in time.
void set_reason(PartMarks& marks, std::string_view reason, Marks max);

/// The shortest text that parse_part_marks() reads back as the same marks.
std::string to_text(const PartMarks& marks);
void append_text(std::string& out, const PartMarks& marks);

/// One `PART=MARKS[/MAX][:REASON]` as typed; codes may stand in for MARKS, see codes.hpp.
struct Entry {
    std::string part;         ///< short label
    std::string marks;        ///< MARKS[:REASON], to be read against the part
    std::optional<Marks> max; ///< above 0
};

/// Splits an entry; throws an Error that says which of its pieces is wrong.
Entry parse_entry(std::string_view text);

} // namespace inkturn
