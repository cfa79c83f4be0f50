#include "inkturn/base/long_ago.hpp"

namespace inkturn {

bool is_long_ago(Day day, Day today) {
    const date::year_month_day year_before = date::year_month_day{today} - date::years{1};
    return date::year_month_day{day} < year_before;
}

bool is_far_ahead(Day day, Day today) {
    return date::year_month_day{day} > date::year_month_day{today} + date::years{1};
}

bool is_far_off(Day day, Day today) {
    return date::year_month_day{day} > date::year_month_day{today} + date::years{3};
}

std::string far_ahead_text(Day day) {
    return day_text(day) + " is more than a year ahead";
}

std::string far_off_text(Day day) {
    return day_text(day) + " is more than three years off";
}

std::string long_ago_text(Day day) {
    return day_text(day) + " is more than a year back";
}

} // namespace inkturn
