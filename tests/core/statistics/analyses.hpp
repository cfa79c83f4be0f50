#pragma once

#include "inkturn/sitting/sitting.hpp"
#include "inkturn/statistics/analysis.hpp"
#include "papers.hpp"

#include <string>
#include <vector>

namespace inkturn::test {

using Class = std::vector<std::vector<PartMarks>>;

inline Class class_of(const Paper& paper, const std::vector<std::string>& lines) {
    Class sittings;
    for (const std::string& line : lines)
        sittings.push_back(parse_line(paper, line));
    return sittings;
}

inline PaperAnalysis analysed(const std::vector<int>& maxima, const std::vector<std::string>& lines) {
    const Paper paper = paper_of(maxima);
    return analyse(paper, class_of(paper, lines));
}

/// The same class so many times over, in which parts and totals go together as they did.
inline std::vector<std::string> repeated(int times, const std::vector<std::string>& lines) {
    std::vector<std::string> all;
    for (int i = 0; i < times; ++i)
        all.insert(all.end(), lines.begin(), lines.end());
    return all;
}

inline std::vector<Figure> figures(const PaperAnalysis& analysis) {
    std::vector<Figure> all{analysis.mean,           analysis.variance,      analysis.deviation,
                            analysis.lower_quartile, analysis.median,        analysis.upper_quartile,
                            analysis.alpha,          analysis.standard_error};
    for (const PartAnalysis& part : analysis.parts)
        all.insert(all.end(), {part.mean, part.facility, part.rest_correlation, part.alpha_without,
                               part.discrimination, part.not_attempted, part.overtime});
    return all;
}

/// The figures that say how parts and totals go together.
inline std::vector<Figure> correlations(const PaperAnalysis& analysis) {
    std::vector<Figure> all{analysis.alpha, analysis.standard_error};
    for (const PartAnalysis& part : analysis.parts)
        all.insert(all.end(), {part.rest_correlation, part.alpha_without, part.discrimination});
    return all;
}

/// The figures that say how marks vary, which do not depend on where they lie.
inline std::vector<Figure> variation(const PaperAnalysis& analysis) {
    std::vector<Figure> all = correlations(analysis);
    all.insert(all.end(), {analysis.variance, analysis.deviation});
    return all;
}

/// A class of `count`, the candidate at `i` with the line that `line(i)` gives.
template <typename Line>
inline std::vector<std::string> lines_of(int count, Line line) {
    std::vector<std::string> lines;
    for (int i = 0; i < count; ++i)
        lines.push_back(line(i));
    return lines;
}

inline std::string text(int number) {
    return std::to_string(number);
}

} // namespace inkturn::test
