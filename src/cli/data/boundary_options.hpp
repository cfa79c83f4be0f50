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

/// Those that marks of papers are held against by subject and total: by subject, then name.
std::vector<BoundarySet> sets_on_file(const Store& store);

/// Those of awards and their components, by subject, award, name and component.
std::vector<BoundarySet> award_sets_on_file(const Store& store);

/// Reads the uniform marks of the set's grades, which must be named in the set's order: `A=80,B=70`.
std::vector<Marks> uniform_marks(const BoundarySet& set, const std::string& text);

} // namespace inkturn
