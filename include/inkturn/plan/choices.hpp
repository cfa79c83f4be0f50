#pragma once

#include "inkturn/plan/timetable.hpp"

#include <optional>
#include <string>
#include <vector>

namespace inkturn {

/// What a plan has with a choice, against the plan without it.
struct ChoiceCost {
    Seconds work{0};          ///< more to do, reserved time among it; below 0: less
    Seconds without_day{0};   ///< more that no day has room for; below 0: less
    Seconds outside{0};       ///< more outside its window; below 0: less
    double fullest_share = 0; ///< of all days ahead, planned and reserved
    double fullest_share_without = 0;
};

enum class ChoiceKind : std::uint8_t { on, again, let_go };

/// `on`, `again` or `drop`.
std::string_view name(ChoiceKind kind) noexcept;

/// What a candidate decided about work that is still to be done.
struct Choice {
    ChoiceKind kind;
    WorkKind work;                  ///< retry, sit or relearn
    std::string subject;            ///< of the paper or topic
    std::string what;               ///< the retry's id, the paper's id, the topic
    Day day;                        ///< asked for; of `again` and `let_go`: when that was decided
    std::string reason{};           ///< of what was let go
    std::optional<Day> placed_on{}; ///< nothing: no day has room; of what was let go always
    bool outside_window = false;
    std::optional<ChoiceCost> cost{}; ///< nothing beyond the first max_choices_weighed
};

constexpr std::size_t max_choices_weighed = 8; ///< each takes a timetable of its own

/// The choices that still stand: by kind, days asked for by day, then what came last first. Without a choice
/// its work also gives up its kept day; all else keeps its own. `made` is the timetable with all of them.
std::vector<Choice> choices(const Candidate& candidate, const TimetableRequest& request,
                            const Timetable& made, Day today);

} // namespace inkturn
