#include "cli/data/boundary_options.hpp"

#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"

#include <algorithm>
#include <utility>

namespace inkturn {

GradeBoundary parse_boundary(std::string_view text, const std::string& what) {
    const std::size_t equals = text.rfind('=');
    if (equals == std::string_view::npos || equals == 0)
        throw Error(what + " '" + std::string(text) + "': write GRADE=MARK, such as A=61");
    const std::string grade(text.substr(0, equals));
    return {grade, Marks(parse_whole_number(text.substr(equals + 1), 0, max_set_marks.count(),
                                            what + ", grade " + grade + ", mark"))};
}

std::vector<GradeBoundary> parse_boundaries(std::string_view text, const std::string& what) {
    std::vector<GradeBoundary> boundaries;
    for (const std::string& one : split_at_commas(text))
        boundaries.push_back(parse_boundary(one, what));
    return boundaries;
}

std::vector<std::string> split_at_commas(std::string_view text) {
    std::vector<std::string> pieces;
    for (std::size_t start = 0; start <= text.size();) {
        const std::size_t comma = std::min(text.find(',', start), text.size());
        pieces.emplace_back(text.substr(start, comma - start));
        start = comma + 1;
    }
    return pieces;
}

std::vector<Marks> uniform_marks(const BoundarySet& set, const std::string& text) {
    std::vector<Marks> marks;
    std::string typed;
    for (const GradeBoundary& boundary : parse_boundaries(text, "--uniform")) {
        typed += (typed.empty() ? "" : ",") + boundary.grade;
        marks.push_back(boundary.mark);
    }
    std::string grades;
    for (const GradeBoundary& boundary : set.grades)
        grades += (grades.empty() ? "" : ",") + boundary.grade;
    if (typed != grades)
        throw Error("--uniform names " + typed + " but the boundaries are for " + grades +
                    ": give each of those a uniform mark, from the top down");
    return marks;
}

Marks parse_set_total(const std::string& text, const std::string& what) {
    return Marks(parse_whole_number(text, 1, max_set_marks.count(), what));
}

std::string set_title(const BoundarySet& set) {
    return "'" + set.name + "'" + owner_text(set);
}

std::vector<BoundarySet> sets_on_file(const Store& store) {
    std::vector<BoundarySet> sets;
    for (BoundarySetOnFile& on_file : BoundarySets::all(store))
        if (on_file.set.award.empty())
            sets.push_back(std::move(on_file.set));
    return sets;
}

std::vector<BoundarySet> award_sets_on_file(const Store& store) {
    std::vector<BoundarySet> sets;
    for (BoundarySetOnFile& on_file : BoundarySets::all(store))
        if (!on_file.set.award.empty())
            sets.push_back(std::move(on_file.set));
    return sets;
}

} // namespace inkturn
