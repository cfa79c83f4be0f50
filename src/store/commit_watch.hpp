#pragma once

#include <SQLiteCpp/Database.h>

#include <optional>
#include <string>

namespace inkturn {

/// Tells whether a commit that failed took effect all the same: only a step after it did. Made before the
/// commit; the database must outlive it.
class CommitWatch {
  public:
    explicit CommitWatch(SQLite::Database& database);
    /// The file is a later one, and no journal is left that would undo that.
    bool took_effect() const;

  private:
    SQLite::Database& database_;
    std::optional<std::string> before_; ///< the file's count of its changes
};

} // namespace inkturn
