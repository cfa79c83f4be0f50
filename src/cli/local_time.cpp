#include "cli/local_time.hpp"

#include "cli/computer_clock.hpp"
#include "inkturn/base/error.hpp"

#include <ctime>

namespace inkturn {
namespace {

std::tm local(Moment at) {
    const std::time_t seconds = at.time_since_epoch().count();
    std::tm broken_down{};
    if (!::localtime_r(&seconds, &broken_down))
        throw Error("this machine's clock shows an impossible date: set it");
    return broken_down;
}

Seconds time_shown(Moment at) {
    const std::tm then = local(at);
    return Seconds{then.tm_hour * 3600 + then.tm_min * 60 + then.tm_sec};
}

/// `summer_time` as in tm_isdst: 1, 0, or below 0 where it is to be found out.
Moment moment_of(Day day, Seconds since_midnight, int summer_time) {
    const date::year_month_day ymd{day};
    const auto seconds = static_cast<int>(since_midnight.count());
    std::tm wanted{};
    wanted.tm_year = static_cast<int>(ymd.year()) - 1900;
    wanted.tm_mon = static_cast<int>(static_cast<unsigned>(ymd.month())) - 1;
    wanted.tm_mday = static_cast<int>(static_cast<unsigned>(ymd.day()));
    wanted.tm_hour = seconds / 3600;
    wanted.tm_min = seconds / 60 % 60;
    wanted.tm_sec = seconds % 60;
    wanted.tm_isdst = summer_time;
    return Moment{Seconds{std::mktime(&wanted)}};
}

} // namespace

Moment moment_now() {
    return wall_clock_now();
}

Day local_day(Moment at) {
    const std::tm then = local(at);
    return Day{date::year{then.tm_year + 1900} / (then.tm_mon + 1) / then.tm_mday};
}

Seconds local_time_of_day(Moment at) {
    return time_shown(at);
}

Moment local_moment(Day day, Seconds since_midnight) {
    return moment_of(day, since_midnight, -1);
}

Moment first_local_moment(Seconds since_midnight, Moment earliest) {
    const Day day = local_day(earliest);
    const Moment same_day = local_moment(day, since_midnight);
    if (same_day >= earliest)
        return same_day;
    for (const int summer_time : {1, 0}) // in the night when the clocks go back it may come twice
        if (const Moment again = moment_of(day, since_midnight, summer_time);
            again >= earliest && local_day(again) == day && time_shown(again) == since_midnight)
            return again;
    return local_moment(day + Days{1}, since_midnight);
}

std::string local_time_text(Moment at) {
    return time_of_day_text(time_shown(at));
}

} // namespace inkturn
