#pragma once

#include "inkturn/grades/boundaries.hpp"
#include "inkturn/store/store.hpp"

#include <cstdint>
#include <vector>

namespace inkturn {

enum class BoundarySetId : std::int64_t {};

struct BoundarySetOnFile {
    BoundarySetId id{};
    BoundarySet set;
};

/// The boundary sets in a store, which outlives it. Verbs that change something are called inside a
/// Store::Change; all throw StoreError.
class BoundarySets {
  public:
    explicit BoundarySets(Store& store) : store_(store) {}

    std::vector<BoundarySetOnFile> all() const { return all(store_); } ///< by subject, then name
    static std::vector<BoundarySetOnFile> all(const Store& store);

    /// Puts a checked set on file; false where it is there already. Throws Error where its subject has
    /// another one of this name.
    bool add(const BoundarySet& set);

    void remove(BoundarySetId id);

  private:
    Store& store_;
};

} // namespace inkturn
