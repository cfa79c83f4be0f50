#pragma once

#include "cli/context.hpp"

#include <string>
#include <vector>

namespace inkturn {

/// What may be typed next, and what it means.
struct NextWord {
    std::string text;
    std::string meaning{};
};

using NextWords = std::vector<NextWord>;

constexpr const char* names_of_files = ":files"; ///< a text that stands for the names of files

/// Where something is to be typed.
struct NextWordRequest {
    const std::string& command;            ///< `class import`
    const std::vector<std::string>& typed; ///< arguments before it
    std::string of_class;                  ///< --class as typed
    const std::string& word;               ///< as far as it is typed
};

/// What may be typed for an argument called `kind`, or after an option whose value the help page calls so:
/// ids and codes from the store, or the words that the name itself lists (`full|none`). Of an argument
/// `option` is empty. Throws Error if the store can't be read.
NextWords next_words_of(const std::string& option, const std::string& kind, const NextWordRequest& request,
                        const Context& context);

} // namespace inkturn
