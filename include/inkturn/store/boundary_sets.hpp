#pragma once

#include "inkturn/grades/boundaries.hpp"
#include "inkturn/store/change.hpp"

#include <cstdint>
#include <vector>

namespace inkturn {

enum class BoundarySetId : std::int64_t {};

struct BoundarySetOnFile {
    BoundarySetId id{};
    BoundarySet set;
};

/// The boundary sets in a store. They are changed by a Store::Change, which outlives this and whose errors
/// the verbs throw.
class BoundarySets {
  public:
    static std::vector<BoundarySetOnFile> all(const Store& store); ///< by subject, then name

    explicit BoundarySets(Store::Change& change) : change_(change) {}

    /// False where the set is on file already. Its subject has no other one of its name.
    bool add(const BoundarySet& set);
    void remove(BoundarySetId id);

  private:
    Store::Change& change_;
};

} // namespace inkturn
