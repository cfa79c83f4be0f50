#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace inkturn {

/// A sheet as its workbook lists it.
struct ListedSheet {
    std::string name;
    bool is_hidden = false;
};

/// Which sheet of a workbook is read.
class SheetChoice {
  public:
    /// The sheet of this name; nothing: the only one with content.
    explicit SheetChoice(std::optional<std::string> name) : name_(std::move(name)) {}

    /// The position of the sheet. Hidden ones are only chosen by name. Throws Error if no sheet has that
    /// name, or if none or several have content; it lists them.
    std::size_t among(const std::vector<ListedSheet>& sheets,
                      const std::function<bool(std::size_t sheet)>& has_content) const;

  private:
    std::optional<std::string> name_;
};

} // namespace inkturn
