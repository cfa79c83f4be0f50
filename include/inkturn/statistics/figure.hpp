#pragma once

#include <cstdint>
#include <variant>

namespace inkturn {

/// Why there is no figure.
enum class NoFigure : std::uint8_t {
    no_candidate,
    one_candidate,      ///< it takes two
    few_candidates,     ///< too few to say how parts and totals go together
    one_part,           ///< one part was set, which has no rest
    one_question,       ///< one question was set, which has no alpha
    two_questions,      ///< without one of them a single question is left, which has no alpha
    no_spread_in_part,  ///< every candidate has the same marks in it
    no_spread_in_rest,  ///< every candidate has the same sum of marks in the other parts
    no_spread_in_total, ///< every candidate has the same total
    choice,             ///< candidates chose between questions, so their parts differ
    alpha_below_zero,   ///< questions pull against each other, so it says nothing of how totals repeat
    nothing_earned      ///< nobody earned a mark in the part, so no share of its marks can be told
};

/// A figure, or the reason why there is none.
class Figure {
  public:
    explicit Figure(double value) : held_(value) {}
    explicit Figure(NoFigure why) : held_(why) {}

    bool has_value() const { return std::holds_alternative<double>(held_); }
    double value() const; ///< throws Error where there is none
    NoFigure why() const; ///< throws Error where there is a figure

    friend bool operator==(const Figure& a, const Figure& b) { return a.held_ == b.held_; }
    friend bool operator!=(const Figure& a, const Figure& b) { return !(a == b); }

  private:
    std::variant<double, NoFigure> held_;
};

} // namespace inkturn
