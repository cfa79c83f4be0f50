#pragma once

#include "inkturn/store/boundary_sets.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

/// Reads `A=61`, split at the last `=`. Throws Error that begins with `what`.
GradeBoundary parse_boundary(std::string_view text, const std::string& what);

/// Reads several, separated by commas.
std::vector<GradeBoundary> parse_boundaries(std::string_view text, const std::string& what);

/// The text between the commas.
std::vector<std::string> split_at_commas(std::string_view text);

/// Reads the total that boundaries are out of. Throws Error.
Marks parse_set_total(const std::string& text, const std::string& what);

/// `'Saltmarsh, spring' of pure`.
std::string set_title(const BoundarySet& set);

/// By subject, then name.
std::vector<BoundarySet> sets_on_file(Store& store);

} // namespace inkturn
