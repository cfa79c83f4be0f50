#pragma once

#include "inkturn/grades/mark_book.hpp"

#include <optional>
#include <string>

namespace inkturn {

/// The mark book of a class, or of all candidates.
std::string json_of(const MarkBook& book, const std::optional<std::string>& of_class,
                    const std::optional<BoundarySet>& set);

} // namespace inkturn
