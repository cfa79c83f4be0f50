#include "inkturn/paper/notes.hpp"

#include "inkturn/base/error.hpp"
#include "inkturn/base/text.hpp"

#include <algorithm>

namespace inkturn {

void check_note(std::string_view part, std::string_view text) {
    const std::string what = "the note on part " + std::string(part);
    if (text.empty())
        throw Error(what + ": 1 to " + std::to_string(max_note_length) + " characters");
    check_printable(text, max_note_length, what);
}

void check_fits(const Paper& paper, const std::vector<std::size_t>& positions, const Notes& notes) {
    for (const auto& [label, text] : notes) {
        const auto part = paper.find_part(label);
        if (!part)
            throw Error("paper " + paper.id() + " has no part " + label + " to note something about",
                        Error::Kind::not_found, Error::Remedy::show_paper, paper.id());
        if (std::find(positions.begin(), positions.end(), *part) == positions.end())
            throw Error("part " + label +
                        " does not belong to the question that is retried, so nothing is "
                        "noted about it here");
        check_note(label, text);
    }
}

Notes amended(Notes notes, const Notes& typed) {
    for (const auto& [label, text] : typed)
        if (text.empty())
            notes.erase(label);
        else
            notes[label] = text;
    return notes;
}

} // namespace inkturn
