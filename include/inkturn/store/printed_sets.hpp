#pragma once

#include "inkturn/practice/printed_set.hpp"
#include "inkturn/store/change.hpp"

#include <vector>

namespace inkturn {

/// The sets of questions that were printed from a store. They are changed through a Store::Change, which must
/// outlive this; the verb throws its errors.
class PrintedSets {
  public:
    static std::vector<PrintedSet> all(const Store& store); ///< by day, then as they were printed

    explicit PrintedSets(Store::Change& change) : change_(change) {}

    /// In place of what was noted of the same paper. Paper, candidate and class must be on file.
    void keep(const PrintedSet& set);

  private:
    Store::Change& change_;
};

} // namespace inkturn
