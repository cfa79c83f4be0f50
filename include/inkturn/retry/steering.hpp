#pragma once

#include "inkturn/base/day.hpp"
#include "inkturn/retry/planned_work.hpp"
#include "inkturn/retry/retry.hpp"

#include <optional>
#include <string>
#include <string_view>

namespace inkturn {

/// Work that a candidate took out of the plan.
struct LetGo {
    Day day;
    std::string reason;

    static constexpr std::string_view restart{"restart"};        ///< late when the candidate came back
    static constexpr std::string_view no_room{"it did not fit"}; ///< the least valuable of too much work
};

/// What a candidate decided about one piece of work.
struct Steering {
    std::optional<Day> wanted{};   ///< the day that was asked for; it stands until it passes
    std::optional<LetGo> let_go{}; ///< off the plan until it is taken back

    std::optional<Day> standing(Day today) const; ///< the day asked for, unless it has passed
    bool is_none() const { return !wanted && !let_go; }
};

/// Of the open turn of a question.
struct SteeredRetry {
    SittingId sitting{};
    std::string question;
    Steering steering;
};

/// Of a paper to sit or a topic to relearn, both its halves.
struct SteeredWork {
    WorkPurpose what; ///< sit or relearn
    std::string subject;
    std::string name; ///< the paper's id, the topic
    Steering steering;
};

/// Throws Error unless the days are accepted ones and something let go has a reason of 1 to 200 printable
/// characters.
void check_steering(const Steering& steering);
/// The same, and unless it is a paper or a topic that is named.
void check_steering(const SteeredWork& work);

} // namespace inkturn
