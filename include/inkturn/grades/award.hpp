#pragma once

#include "inkturn/grades/boundaries.hpp"
#include "inkturn/grades/component.hpp"
#include "inkturn/paper/paper.hpp"

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace inkturn {

/// Components of which any so many count, the best ones.
struct ComponentChoice {
    std::vector<std::size_t> components; ///< positions in Award::components, ascending
    int count;                           ///< 1 or more, fewer than there are

    friend bool operator==(const ComponentChoice& a, const ComponentChoice& b) {
        return a.components == b.components && a.count == b.count;
    }
};

/// A qualification: the components whose marks are added up for one grade.
struct Award {
    std::string name;
    std::string subject; ///< of its papers; empty: of any subject
    std::vector<Component> components;
    std::vector<ComponentChoice> choices{}; ///< no component is in two

    /// Whether raw marks are converted to uniform marks before they are added up.
    bool is_uniform() const;
    /// What full marks bring, a half rounded up: what the boundaries of the award are out of.
    Marks total() const;
    std::optional<std::size_t> find_component(std::string_view called) const;
    /// The choice that the component belongs to; null: it always counts.
    const ComponentChoice* choice_of(std::size_t component) const;
};

bool operator==(const Award& a, const Award& b);

/// Throws Error unless it can be worked with: a name; 1 to 30 components, each with 1 to 64 printable
/// characters (no `=`, `*` or comma), its marks and named once; uniform maxima for all or none, those without
/// weights; choices of components that can bring equally much, none in two, fewer to count than there are.
void check_award(const Award& award);

/// Throws Error if a paper could belong to a component of each: they share a component's name, and a subject
/// or one is for all.
void check_apart(const Award& award, const Award& other);

/// `any 2 of Statistics, Mechanics, Decision`.
std::string to_text(const Award& award, const ComponentChoice& choice);

/// Whether papers of the subject are for the award.
bool covers(const Award& award, std::string_view subject);

/// The component that the paper belongs to, of the one award that has it; nothing if none does, or the paper
/// is of none.
struct PaperComponent {
    const Award* award;
    std::size_t component;
};
std::optional<PaperComponent> component_of(const Paper& paper, const std::vector<Award>& awards);

/// Those of the papers that belong to the component, in their order.
std::vector<std::shared_ptr<const Paper>> papers_of(const Award& award, std::size_t component,
                                                    const std::vector<std::shared_ptr<const Paper>>& papers);

/// Throws Error if the paper says that it is of a component, and no award has that for its subject, or papers
/// of it have other marks.
void check_component(const Paper& paper, const std::vector<Award>& awards);

/// Throws Error unless the set is one of the award's: its own, out of its total and without uniform marks, or
/// one of a component, out of its papers' marks, with uniform marks below the maximum where the award needs
/// them, and none where it doesn't.
void check_is_of(const BoundarySet& set, const Award& award);

} // namespace inkturn
