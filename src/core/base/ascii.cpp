#include "inkturn/base/ascii.hpp"

#include <algorithm>

namespace inkturn {

std::string lower_case(std::string_view text) {
    std::string lowered(text);
    std::transform(lowered.begin(), lowered.end(), lowered.begin(), lower);
    return lowered;
}

} // namespace inkturn
