#include "core/statistics/remarks.hpp"

namespace inkturn {
namespace {

/// Common practice in the trade.
constexpr double hard_below = 0.4;
constexpr double easy_above = 0.9;
constexpr double often_left_out_from = 0.2;
constexpr double time_trap_from = 0.25;
/// Below this many candidates a negative correlation is not taken as a sign of wrong marking. Common
/// practice.
constexpr std::size_t min_candidates_to_doubt_marking = 10;
constexpr std::size_t max_remarks = 2;

bool below(const Figure& figure, double bound) {
    return figure.has_value() && figure.value() < bound;
}

bool from(const Figure& figure, double bound) {
    return figure.has_value() && figure.value() >= bound;
}

} // namespace

std::vector<Remark> remarks(const PartAnalysis& part) {
    std::vector<Remark> found;
    if (part.compared < PaperAnalysis::min_candidates_to_remark)
        return found;
    if (part.compared >= min_candidates_to_doubt_marking && part.against_rest)
        found.push_back(Remark::check_marking);
    if (below(part.facility, hard_below))
        found.push_back(below(part.discrimination, poor_discrimination_below) ? Remark::hard_for_the_strong
                                                                              : Remark::hard);
    if (from(part.overtime, time_trap_from))
        found.push_back(Remark::time_trap);
    if (from(part.not_attempted, often_left_out_from))
        found.push_back(Remark::often_left_out);
    if (part.facility.has_value() && part.facility.value() > easy_above)
        found.push_back(Remark::easy);
    if (from(part.discrimination, good_discrimination_from))
        found.push_back(Remark::tells_apart);
    if (found.size() > max_remarks)
        found.resize(max_remarks);
    return found;
}

} // namespace inkturn
