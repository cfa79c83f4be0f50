#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace inkturn {

/// A count of marks. Whole by nature: marks are not subdivided.
class Marks {
  public:
    constexpr Marks() = default;
    constexpr explicit Marks(int count) : count_(count) {}
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
constexpr Marks most_marks_of_a_part{500};

/// Why marks went.
enum class Reason : std::uint8_t { method, recall, slip, misread, unfinished };

constexpr std::array<Reason, 5> all_reasons{Reason::method, Reason::recall, Reason::slip, Reason::misread,
                                            Reason::unfinished};

std::string_view name(Reason reason) noexcept;
std::optional<Reason> reason_named(std::string_view name) noexcept;

/// What a candidate earned in one part, by phase (each phase has an ink of its own on paper).
struct PartMarks {
    bool attempted = false; ///< a part not attempted has no marks in any phase
    Marks in_time;          ///< within the allowance
    Marks overtime;         ///< after it, still unaided
    Marks corrected;        ///< after reading the mark scheme
    std::optional<Reason> reason;

    Marks own() const { return in_time + overtime; }
    /// Whether it was tried before the ink changed: a part that earned nothing was, one whose only own marks
    /// came in overtime was not.
    bool tried_in_time() const { return attempted && (in_time > Marks(0) || overtime == Marks(0)); }
    friend bool operator==(const PartMarks& a, const PartMarks& b);
    friend bool operator!=(const PartMarks& a, const PartMarks& b) { return !(a == b); }
};

/// All of the part's marks, earned in time.
PartMarks full_marks(Marks max);

/// Reads `MARKS[:REASON]`, MARKS being `-` (not attempted) or one to three whole numbers joined by `+` in
/// the order of the phases. Throws Error where the text is anything else, where the phases add up to more
/// than `max`, or where a reason is given though every mark was earned in time.
PartMarks parse_part_marks(std::string_view text, Marks max);

/// The shortest text that parse_part_marks() reads back as the same marks.
std::string to_text(const PartMarks& marks);
void append_text(std::string& out, const PartMarks& marks);

/// One `PART=MARKS[/MAX][:REASON]` as typed.
struct Entry {
    std::string part;         ///< short label
    std::string marks;        ///< MARKS[:REASON], to be read against the part's maximum
    std::optional<Marks> max; ///< above 0
};

/// Splits an entry; throws Error that says which of its pieces is wrong.
Entry parse_entry(std::string_view text);

} // namespace inkturn
