#pragma once

#include "inkturn/store/store.hpp"

#include <memory>

namespace inkturn {

/// While it lives, everything read comes from one state of the store, and other programs must wait to write:
/// keep it short. A Change can't begin inside it. Inside a Change or another Reading it does nothing.
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
