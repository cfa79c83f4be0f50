#pragma once

#include "inkturn/statistics/findings.hpp"

#include <string>
#include <vector>

namespace inkturn {

/// A finding as a screen and a page say it, plain text: a sentence, and what to decide.
struct FindingText {
    std::string finding;
    std::string decision;
};

/// Of the paper and the analysis that the findings come from.
std::vector<FindingText> finding_texts(const Paper& paper, const PaperAnalysis& analysis,
                                       const Findings& findings);

/// The same as numbered lines of at most text_width().
std::string finding_lines(const std::vector<FindingText>& texts);

/// `6 of 9 candidates finished the last part in time and earlier ones in overtime`.
std::string went_back_text(std::size_t went_back, std::size_t candidates);

/// `9a, 9bi, 9bii and 2 more`.
std::string labels_text(const Paper& paper, const std::vector<std::size_t>& positions);

} // namespace inkturn
