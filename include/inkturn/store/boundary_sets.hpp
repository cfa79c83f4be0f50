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

/// The boundary sets in a store. They are changed through a Store::Change, which must outlive this; the verbs
/// throw its errors.
class BoundarySets {
  public:
    /// By subject, then those of no award first, then by award, name and component.
    static std::vector<BoundarySetOnFile> all(const Store& store);

    explicit BoundarySets(Store::Change& change) : change_(change) {}

    /// False if the set is already on file. Its award, if any, must be on file, with the set's subject; its
    /// subject, award or component must have no other set of its name.
    bool add(const BoundarySet& set);
    void remove(BoundarySetId id);

  private:
    Store::Change& change_;
};

} // namespace inkturn
