#pragma once

#include "inkturn/store/boundary_sets.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

/// Reads `A=39`, at the last `=`. Throws Error, which names what it is that was typed.
GradeBoundary parse_boundary(std::string_view text, const std::string& what);

/// The same, joined by commas.
std::vector<GradeBoundary> parse_boundaries(std::string_view text, const std::string& what);

/// What is between the commas.
std::vector<std::string> split_at_commas(std::string_view text);

/// Reads the total that boundaries are out of. Throws Error.
Marks parse_set_total(const std::string& text, const std::string& what);

/// `'June 2019' of pure`.
std::string set_title(const BoundarySet& set);

/// By subject, then name.
std::vector<BoundarySet> sets_on_file(Store& store);

} // namespace inkturn
