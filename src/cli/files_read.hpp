#pragma once

#include <string>
#include <utility>
#include <vector>

namespace inkturn {

/// Files that a command reads, told by device and number, whatever names they go by.
class FilesRead {
  public:
    void add(const std::string& file); ///< one that is there
    bool holds(const std::string& file) const;

  private:
    std::vector<std::pair<unsigned long, unsigned long>> files_;
};

/// Whether the file is the store, or would lie where SQLite keeps a store's journal.
bool belongs_to_store(const std::string& file, const std::string& store);

} // namespace inkturn
