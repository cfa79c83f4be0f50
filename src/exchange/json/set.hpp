#pragma once

#include "inkturn/practice/printed_set.hpp"
#include "inkturn/practice/question_set.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace inkturn {

/// The page that a set was written to.
struct SetWritten {
    std::size_t bytes = 0;
    std::size_t pictures = 0;
    std::size_t without_picture = 0; ///< questions
};

/// `stock` is what the set was chosen from; `paper` what it became.
std::string json_of_set(const Paper& paper, const std::vector<SetQuestion>& chosen, const SetStock& stock,
                        const SetWritten& written);
/// A paper on file that was printed.
std::string json_of_set(const Paper& paper, const SetWritten& written);
std::string json_of(const std::vector<PrintedSet>& sets,
                    const std::vector<std::shared_ptr<const Paper>>& papers);

} // namespace inkturn
