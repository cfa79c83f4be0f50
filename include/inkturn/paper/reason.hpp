#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string_view>

namespace inkturn {

/// Why marks were lost.
enum class Reason : std::uint8_t { method, recall, slip, misread, unfinished };

constexpr std::array<Reason, 5> all_reasons{Reason::method, Reason::recall, Reason::slip, Reason::misread,
                                            Reason::unfinished};

std::string_view name(Reason reason) noexcept;
std::optional<Reason> reason_named(std::string_view name) noexcept;
/// By its name or any beginning of it that is no other's, in any case: `method`, `Slip`, `u`. Throws Error.
Reason parse_reason(std::string_view text);

} // namespace inkturn
