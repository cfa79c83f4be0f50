#pragma once

#include "inkturn/store/store.hpp"

#include <string>
#include <vector>

namespace inkturn {

/// Something in a store that contradicts itself.
struct StoreFault {
    std::string what;     ///< and where: `candidate K07: no part 9 in paper pure-1`
    bool can_be_repaired; ///< by repair_store(), without losing anything that a person entered
};

/// Reads everything on file: the file itself, what belongs to what, and the domain's own rules. Empty if all
/// is sound.
std::vector<StoreFault> faults_of(const Store& store);

/// What a repair left.
struct Repaired {
    std::string kept; ///< the file beside the store that keeps what it held before
    std::vector<StoreFault> left;
};

/// Repairs what can be: builds indexes anew, removes rows that belong to nothing and days kept for work that
/// is not there. The changes that could be taken back go. Throws StoreError if the file can't be read or
/// written.
Repaired repair_store(const std::string& file);

} // namespace inkturn
