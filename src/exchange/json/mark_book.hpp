#pragma once

#include "inkturn/grades/mark_book.hpp"

#include <optional>
#include <string>

namespace inkturn {

/// The mark book of a class, or of all candidates; `set`: the name of the papers' sets, if they have any.
std::string json_of(const MarkBook& book, const std::optional<std::string>& of_class,
                    const std::optional<std::string>& set);

} // namespace inkturn
