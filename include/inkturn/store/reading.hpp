#pragma once

#include "inkturn/store/store.hpp"

namespace inkturn {

/// While it lives, all that is read is of one state of the store, and what others want to write waits: keep
/// it short, and begin no Change in it. Inside a Change or another Reading it adds nothing.
class Reading {
  public:
    /// Throws StoreError where the file can't be read.
    explicit Reading(const Store& store);
    ~Reading();
    Reading(const Reading&) = delete;
    Reading& operator=(const Reading&) = delete;

  private:
    const Store& store_;
    const bool is_outermost_;
};

} // namespace inkturn
