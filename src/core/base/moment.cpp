#include "inkturn/base/moment.hpp"

#include "inkturn/base/day.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/time.hpp"

namespace inkturn {
namespace {

constexpr std::size_t length_of_day = 10; // 2026-11-25
constexpr std::size_t length_of_time = 8; // 09:00:30

} // namespace

std::string iso(Moment at) {
    const Day day = date::floor<Days>(at);
    return iso(day) + 'T' + time_of_day_text(at - day) + 'Z';
}

std::optional<Moment> read_iso_moment(std::string_view text) {
    if (text.size() != length_of_day + length_of_time + 2 || text[length_of_day] != 'T' || text.back() != 'Z')
        return std::nullopt;
    const auto day = read_iso_day(text.substr(0, length_of_day));
    if (!day)
        return std::nullopt;
    try {
        return *day + parse_time_of_day(text.substr(length_of_day + 1, length_of_time));
    } catch (const Error&) {
        return std::nullopt;
    }
}

} // namespace inkturn
