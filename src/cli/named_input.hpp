#pragma once

#include "cli/context.hpp"

#include <cstdint>
#include <limits>
#include <optional>
#include <string>

namespace inkturn {

/// A folder that only its owner can read, for one file that is to be there for a moment; both go at the end,
/// and where a signal ends the program. There is one at a time.
class PassingCopy {
  public:
    /// `what` it is stands in the folder's name and in messages. Throws Error.
    explicit PassingCopy(const std::string& what);
    ~PassingCopy();
    PassingCopy(const PassingCopy&) = delete;
    PassingCopy& operator=(const PassingCopy&) = delete;

    std::string file() const { return folder_ + "/copy"; } ///< its name; it is not made yet

  private:
    std::string folder_;
};

/// A file to read by its name, for what needs one: where `-` was typed, a passing copy of standard input, of
/// which no more than `max_bytes` and one is kept. Throws Error.
class NamedInput {
  public:
    NamedInput(const std::string& name, const Context& context,
               std::uintmax_t max_bytes = std::numeric_limits<std::uintmax_t>::max() - 1);

    bool is_named() const { return !copy_; } ///< not `-`
    std::string file() const { return copy_ ? copy_->file() : name_; }

  private:
    std::string name_;
    std::optional<PassingCopy> copy_{};
};

} // namespace inkturn
