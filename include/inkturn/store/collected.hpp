#pragma once

#include "inkturn/store/change.hpp"

#include <map>
#include <string>

namespace inkturn {

/// When each candidate's own export last brought something new, as a teacher collects them. Kept through a
/// Store::Change, which must outlive this; the verb throws its errors.
class CollectedFiles {
  public:
    /// By candidate's code; those whose export never brought anything are not among them.
    static std::map<std::string, Day> days(const Store& store);

    explicit CollectedFiles(Store::Change& change) : change_(change) {}

    void keep_day(const std::string& candidate, Day day);

  private:
    Store::Change& change_;
};

} // namespace inkturn
