#include "inkturn/paper/got_at.hpp"

#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"

namespace inkturn {

GotAt::GotAt(int percent) : percent_(percent) {
    if (percent < min_percent || percent > max_percent)
        throw Error("a part is got at " + std::to_string(min_percent) + "% to " +
                    std::to_string(max_percent) + "% of its marks, not at " + std::to_string(percent) + "%");
}

std::string to_text(GotAt got_at) {
    return std::to_string(got_at.percent()) + "%";
}

GotAt parse_got_at(std::string_view text) {
    std::string_view number = text;
    if (!number.empty() && number.back() == '%')
        number.remove_suffix(1);
    const auto percent = read_whole_number(number, GotAt::max_percent);
    if (!percent || *percent < GotAt::min_percent)
        throw Error(
            "got-at '" + std::string(text) +
            "': give the share of a part's marks from which it counts as got, 1% to 100%, such as 80%");
    return GotAt(*percent);
}

} // namespace inkturn
