#pragma once

#include "dice.hpp"

#include <iterator>
#include <random>
#include <string>

namespace inkturn {

inline std::string random_name(std::mt19937& dice) {
    const std::string pieces[] = {"pure-1", " ", "mechanics", "<b>", "W", "ii", "\xE7\xA9\x8D", "&"};
    std::string name = "p";
    for (int i = test::pick(dice, 0, 6); i > 0; --i)
        name += pieces[dice() % std::size(pieces)];
    return name;
}

} // namespace inkturn
