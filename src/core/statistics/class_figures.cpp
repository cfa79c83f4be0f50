#include "inkturn/statistics/class_figures.hpp"

#include "inkturn/base/error.hpp"

#include <cstdint>
#include <set>

namespace inkturn {
namespace {

PartFigures figures_of(const Side& side, std::size_t position) {
    PartFigures figures{side.paper->part(position).label, side.paper->part(position).max, 0, {}, {}};
    for (const SittingOfPaper& sitting : side.sittings) {
        const PartMarks& marks = sitting.parts[position];
        if (!marks.counts())
            continue;
        ++figures.candidates;
        figures.in_time += marks.in_time();
        figures.unaided += marks.unaided();
    }
    return figures;
}

bool is_possible(const PartFigures& part) {
    const std::int64_t most =
        static_cast<std::int64_t>(part.candidates) * static_cast<std::int64_t>(part.max.count());
    return part.candidates >= PaperAnalysis::min_candidates_unnamed && part.max >= Marks(1) &&
           part.max <= max_part_marks && part.in_time <= part.unaided && part.unaided.count() <= most;
}

} // namespace

double PartFigures::facility() const {
    return static_cast<double>(unaided.count()) /
           (static_cast<double>(candidates) * static_cast<double>(max.count()));
}

std::vector<PartFigures> part_figures(const Side& side) {
    std::vector<PartFigures> all;
    for (std::size_t i = 0; i < side.paper->parts().size(); ++i) {
        PartFigures figures = figures_of(side, i);
        if (figures.candidates >= PaperAnalysis::min_candidates_unnamed)
            all.push_back(std::move(figures));
    }
    return all;
}

void check_figures(const ClosedClassFigures& figures) {
    if (figures.parts.empty())
        throw Error("the figures of " + figures.paper + " over class " + figures.of_class + " have no part");
    std::set<std::string> labels;
    for (const PartFigures& part : figures.parts)
        if (!is_possible(part) || !labels.insert(part.part).second)
            throw Error("the figures of " + figures.paper + ", part " + part.part + ", over class " +
                        figures.of_class + " can't be: check marks and candidates");
}

} // namespace inkturn
