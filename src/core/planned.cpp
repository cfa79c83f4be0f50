#include "inkturn/planned.hpp"

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

} // namespace inkturn
