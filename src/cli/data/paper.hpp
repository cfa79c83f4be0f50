#pragma once

#include "cli/command_line.hpp"
#include "inkturn/paper/paper.hpp"
#include "inkturn/store/store.hpp"

#include <string>
#include <vector>

namespace inkturn {

/// The details of a new paper other than its parts, as typed.
struct PaperHeadTexts {
    std::string id;
    std::string title;
    std::string subject;
    std::string component;
    std::string minutes;
    std::string retry_by = "question";
    std::string got_at;

    /// All but the id.
    void add_to(Command& command);
    /// Throws Error.
    PaperHead read() const;
};

/// Throws Error where the paper names a component that it can't be of, see check_component().
void check_component_on_file(const Store& store, const Paper& paper);

// Commands of the group `paper`, each defined in the file of its name.
void add_paper_amend(Command& group);
void add_paper_read(Command& group);

} // namespace inkturn
