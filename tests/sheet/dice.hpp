#pragma once

#include <iterator>
#include <random>
#include <string>

namespace inkturn {

inline int up_to(std::mt19937& dice, int most) {
    return static_cast<int>(dice() % (static_cast<unsigned>(most) + 1));
}

inline std::string random_name(std::mt19937& dice) {
    const std::string pieces[] = {"pure-1", " ", "mechanics", "<b>", "W", "ii", "\xE7\xA9\x8D", "&"};
    std::string name = "p";
    for (int i = up_to(dice, 6); i > 0; --i)
        name += pieces[dice() % std::size(pieces)];
    return name;
}

} // namespace inkturn
