#pragma once

#include "inkturn/store/store.hpp"

#include <memory>

namespace inkturn {

/// While it lives, all that is read is of one state of the store, and what others want to write waits: keep
/// it short. A Change can't begin in it. Inside a Change or another Reading it adds nothing.
class Reading {
  public:
    /// Throws StoreError where the file can't be read.
    explicit Reading(const Store& store);
    ~Reading();
    Reading(const Reading&) = delete;
    Reading& operator=(const Reading&) = delete;

  private:
    std::shared_ptr<Store::State> state_; ///< null: inside a Change or another Reading
};

} // namespace inkturn
