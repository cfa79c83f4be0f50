#pragma once

#include "inkturn/grades/award.hpp"
#include "papers.hpp"

#include <memory>
#include <string>
#include <vector>

namespace inkturn::test {

/// Three components of 100 marks each.
inline Award three_papers() {
    return {
        "A level", "pure", {{"Paper 1", Marks(100)}, {"Paper 2", Marks(100)}, {"Paper 3", Marks(100)}}, {}};
}

/// A core of 150 marks, and the best two of three options of 75.
inline Award two_of_three() {
    return {
        "Further",
        "pure",
        {{"Core", Marks(150)}, {"Statistics", Marks(75)}, {"Mechanics", Marks(75)}, {"Decision", Marks(75)}},
        {{{1, 2, 3}, 2}}};
}

/// Two units of 75 raw marks, of 100 uniform marks each.
inline Award two_units() {
    return {"Modular",
            "pure",
            {{"Unit 1", Marks(75), Weight(), Marks(100)}, {"Unit 2", Marks(75), Weight(), Marks(100)}},
            {}};
}

/// A paper with one part, of a component of pure.
inline std::shared_ptr<const Paper> paper_of_component(const std::string& id, int marks,
                                                       const std::string& component) {
    return std::make_shared<const Paper>(PaperHead{id, "", "pure", {}, RetryBy::question, {}, component},
                                         parts_of({marks}));
}

inline BoundarySet set_of_award(const std::string& name, const Award& award,
                                std::vector<GradeBoundary> grades) {
    BoundarySet set{name, award.subject, award.total(), std::move(grades)};
    set.award = award.name;
    return set;
}

inline BoundarySet set_of_component(const std::string& name, const Award& award, std::size_t component,
                                    std::vector<GradeBoundary> grades, std::vector<Marks> uniform = {}) {
    BoundarySet set{name, award.subject, award.components[component].marks, std::move(grades)};
    set.award = award.name;
    set.component = award.components[component].name;
    set.uniform = std::move(uniform);
    return set;
}

} // namespace inkturn::test
