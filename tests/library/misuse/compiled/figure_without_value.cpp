// refused: held_
#include <inkturn/statistics/analysis.hpp>

double mean(const inkturn::PaperAnalysis& analysis) {
#ifdef WRONG
    return std::get<double>(analysis.mean.held_);
#else
    return analysis.mean.has_value() ? analysis.mean.value() : 0;
#endif
}
