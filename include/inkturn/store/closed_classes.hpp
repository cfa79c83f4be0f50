#pragma once

#include "inkturn/statistics/class_figures.hpp"
#include "inkturn/store/change.hpp"

#include <string>
#include <vector>

namespace inkturn {

/// The figures kept of classes that were closed; they go with their papers. They are changed through a
/// Store::Change, which must outlive this; the verbs throw its errors.
class ClosedClasses {
  public:
    /// By day, then class, then paper.
    static std::vector<ClosedClassFigures> all(const Store& store);
    /// Of one paper, by day, then class.
    static std::vector<ClosedClassFigures> of(const Store& store, const std::string& paper);

    explicit ClosedClasses(Store::Change& change) : change_(change) {}

    /// False if figures of this class, day and paper are on file already. The paper must be on file.
    bool add(const ClosedClassFigures& figures);

  private:
    Store::Change& change_;
};

} // namespace inkturn
