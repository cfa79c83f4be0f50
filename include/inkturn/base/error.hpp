#pragma once

#include <stdexcept>
#include <string>

namespace inkturn {

/// Work that was refused or failed. The message is one sentence for the person at the keyboard: what is
/// wrong, where, and what to do about it.
class Error : public std::runtime_error {
  public:
    using std::runtime_error::runtime_error;
};

/// A failure of the store. The message names the operation and the file.
class StoreError : public Error {
  public:
    StoreError(const std::string& operation, const std::string& file, const std::string& what)
        : Error(operation + " '" + file + "': " + what) {}
};

} // namespace inkturn
