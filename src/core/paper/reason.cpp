#include "inkturn/paper/reason.hpp"

namespace inkturn {
namespace {

constexpr std::array<std::string_view, 5> reason_names{"method", "recall", "slip", "misread", "unfinished"};

} // namespace

std::string_view name(Reason reason) noexcept {
    return reason_names[static_cast<std::size_t>(reason)];
}

std::optional<Reason> reason_named(std::string_view name) noexcept {
    for (std::size_t i = 0; i < reason_names.size(); ++i)
        if (reason_names[i] == name)
            return static_cast<Reason>(i);
    return std::nullopt;
}

} // namespace inkturn
