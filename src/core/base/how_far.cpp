#include "inkturn/base/how_far.hpp"

namespace inkturn {

HowFar part_of(const HowFar& whole, double from, double to) {
    if (!whole)
        return {};
    return [whole, from, to](double share) { whole(from + (to - from) * share); };
}

void tell(const HowFar& told, std::size_t done, std::size_t pieces) {
    if (told)
        told(static_cast<double>(done) / static_cast<double>(pieces));
}

} // namespace inkturn
