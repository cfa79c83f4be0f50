#include "inkturn/paper/reason.hpp"

#include "inkturn/base/ascii.hpp"
#include "inkturn/base/error.hpp"

#include <string>
#include <vector>

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

Reason parse_reason(std::string_view text) {
    if (const auto named = reason_named(text))
        return *named;
    const std::string typed = lower_case(text);
    std::vector<Reason> found;
    for (const Reason reason : all_reasons)
        if (!typed.empty() && name(reason).substr(0, typed.size()) == typed)
            found.push_back(reason);
    if (found.size() > 1)
        throw Error("the reason '" + std::string(text) + "' may be " + std::string(name(found[0])) + " or " +
                    std::string(name(found[1])) + ": type one letter more");
    if (found.empty())
        throw Error("'" + std::string(text) +
                    "' is not a reason; use one of method, recall, slip, misread, unfinished");
    return found.front();
}

} // namespace inkturn
