#pragma once

#include "inkturn/retry/candidate.hpp"

#include <algorithm>
#include <tuple>

namespace inkturn {

/// The days on file of a candidate's retries, to be looked up. The placements must outlive it.
class KeptDays {
  public:
    explicit KeptDays(const std::vector<Placement>& placements) {
        sorted_.reserve(placements.size());
        for (const Placement& placement : placements)
            sorted_.push_back(&placement);
        std::sort(sorted_.begin(), sorted_.end(),
                  [](const Placement* a, const Placement* b) { return key_of(*a) < key_of(*b); });
    }

    std::optional<Day> find(SittingId sitting, std::string_view question) const {
        const Key key{sitting, question};
        const auto found =
            std::lower_bound(sorted_.begin(), sorted_.end(), key,
                             [](const Placement* one, const Key& sought) { return key_of(*one) < sought; });
        if (found == sorted_.end() || key_of(**found) != key)
            return std::nullopt;
        return (*found)->day;
    }

  private:
    using Key = std::tuple<SittingId, std::string_view>;
    static Key key_of(const Placement& placement) { return {placement.sitting, placement.question}; }

    std::vector<const Placement*> sorted_;
};

} // namespace inkturn
