#include "inkturn/retry/planned.hpp"

#include <array>

namespace inkturn {
namespace {

constexpr std::array<std::string_view, 4> names{"sit", "relearn", "recall", "foreseen"};

} // namespace

std::string_view name(PlannedFor what) noexcept {
    return names[static_cast<std::size_t>(what)];
}

std::optional<PlannedFor> planned_for_named(std::string_view text) noexcept {
    for (std::size_t i = 0; i < names.size(); ++i)
        if (names[i] == text)
            return static_cast<PlannedFor>(i);
    return std::nullopt;
}

std::optional<Day> day_planned(const std::vector<PlannedWork>& planned, PlannedFor what,
                               const std::string& subject, const std::string& name, int number) {
    for (const PlannedWork& work : planned)
        if (work.what == what && work.subject == subject && work.name == name && work.number == number)
            return work.day;
    return std::nullopt;
}

} // namespace inkturn
